"""The demonstration site as it is published."""

import json
import re
from pathlib import Path

import jsonschema
import pytest
from ruamel.yaml import YAML

from conftest import ROOT

PATTERNS = sorted(path.parent.name for path in ROOT.glob("patterns/*/pattern.yaml"))


def pages(site: Path) -> dict[str, str]:
    return {str(p.relative_to(site)): p.read_text("utf-8") for p in site.rglob("*.html")}


@pytest.mark.parametrize("name", PATTERNS)
def test_every_pattern_has_its_pages(built_site: Path, name: str) -> None:
    assert (built_site / "patterns" / name / "index.html").exists()
    assert (built_site / "patterns" / name / "tester.html").exists()
    assert f'href="patterns/{name}/index.html"' in (built_site / "index.html").read_text("utf-8")


def test_a_strict_policy_holds_on_every_page(built_site: Path) -> None:
    """No style attribute, no script within a page, nothing from elsewhere."""
    for name, text in pages(built_site).items():
        assert "Content-Security-Policy" in text, name
        assert not re.search(r"<[^>]+\sstyle=", text), name
        runs = re.findall(
            r'<script(?! src="[^"]+"(?: data-offline)?(?: defer)?></script>| type="application/)',
            text,
        )
        assert not runs and "<style" not in text, name
        assert not re.search(r'<(?:img|link|script|source)[^>]+(?:src|href)="https?:', text), name


def test_every_page_says_its_language_title_and_subject(built_site: Path) -> None:
    titles = {}
    for name, text in pages(built_site).items():
        assert '<html lang="en">' in text, name
        assert re.search(r'<meta name="description" content="[^"]+">', text), name
        assert text.count("<h1") == 1, name
        titles[name] = re.findall(r"<title>([^<]+)</title>", text)[0]
    unlisted = {name: t for name, t in titles.items() if not name.endswith("tester.html")}
    assert len(set(unlisted.values())) >= len(unlisted) - 1  # the gallery may share the front's


def test_a_page_of_a_check_has_its_reason_examples_and_source(built_site: Path) -> None:
    text = (built_site / "checks/count-stated.html").read_text("utf-8")
    for heading in ("This is found", "This is not", "Where the rule is from"):
        assert heading in text


def test_the_glossary_holds_both_terms_of_every_stitch(built_site: Path) -> None:
    text = (built_site / "glossary.html").read_text("utf-8")
    # The published US/UK table: a US single crochet is a UK double crochet, and so on up.
    for us, uk in [("Single", "double"), ("Half double", "half treble"), ("Double", "treble")]:
        assert f"{us} crochet (UK: {uk} crochet)" in text
    assert 'id="word-inc"' in text
    assert "2 sc in the next stitch (UK: 2 dc in the next stitch)" in text


@pytest.mark.parametrize("name", PATTERNS)
def test_the_schema_on_the_site_holds_for_every_pattern(built_site: Path, name: str) -> None:
    schema = json.loads((built_site / "schema/pattern.schema.json").read_text("utf-8"))
    text = (ROOT / "patterns" / name / "pattern.yaml").read_text("utf-8")
    value = json.loads(json.dumps(YAML(typ="safe", pure=True).load(text), default=str))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(value, schema)
