"""The JSON Schema is one, knows every key, and agrees with what is read."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from loading import BODY, COMPLETE
from roundproof.checks import all_checks
from roundproof.pattern.json_schema import defaults_schema, pattern_schema

PATTERNS = Path(__file__).parents[2] / "patterns"
VALIDATOR = Draft202012Validator(pattern_schema())


def plain(text: str) -> Any:
    """A file as an editor sees it: dates stay words."""
    yaml = YAML(typ="safe", pure=True)
    yaml.constructor.add_constructor("tag:yaml.org,2002:timestamp", lambda loader, node: node.value)
    return yaml.load(text)


def described(schema: Any) -> Iterator[tuple[str, Any]]:
    """Every property of a schema, however deep, with its name."""
    if isinstance(schema, dict):
        yield from schema.get("properties", {}).items()
        for inner in schema.values():
            yield from described(inner)
    elif isinstance(schema, list):
        for inner in schema:
            yield from described(inner)


def test_it_is_a_schema() -> None:
    for schema in (pattern_schema(), defaults_schema()):
        Draft202012Validator.check_schema(schema)
        assert schema["$schema"].endswith("2020-12/schema")


def test_every_key_has_its_line() -> None:
    properties = list(described(pattern_schema()))
    assert len(properties) > 100
    for name, schema in properties:
        assert schema["description"].endswith((".", "?")), name


@pytest.mark.parametrize(
    "path", sorted(PATTERNS.glob("*/pattern.yaml")), ids=lambda p: p.parent.name
)
def test_the_demonstration_patterns_are_valid(path: Path) -> None:
    VALIDATOR.validate(plain(path.read_text(encoding="utf-8")))


def test_the_shared_defaults_are_valid() -> None:
    text = (PATTERNS / "defaults.yaml").read_text(encoding="utf-8")
    Draft202012Validator(defaults_schema()).validate(plain(text))


def test_a_complete_pattern_is_valid() -> None:
    VALIDATOR.validate(plain(COMPLETE))


@pytest.mark.parametrize("check", all_checks().values(), ids=lambda check: check.id)
def test_the_good_example_of_every_check_is_valid(check: Any) -> None:
    VALIDATOR.validate(plain(check.good))


@pytest.mark.parametrize(
    "line",
    [
        "license: x",
        "status: ready",
        "terms: [US]",
        "size: {height: 3}",
        "yarns: {slate: {weight: 9}}",
        "yarns: {slate: {color: x}}",
        "notions: needle",
        "assembly: [{join: {to: body}}]",
        "assembly: [{step: Sew.}]",
    ],
)
def test_an_editor_underlines(line: str) -> None:
    assert not VALIDATOR.is_valid(plain(f"{line}\n{BODY}"))
