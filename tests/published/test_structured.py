"""What pattern pages say of themselves for machines, held against the vocabulary of schema.org
(schema-org.json: see its notice) and, as JSON-LD, against the shape that JSON-LD 1.1 (W3C) asks."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest

from rendering import page_of, proof_of
from roundproof.pages.pattern import pattern_page
from roundproof.pages.structured import as_json, structured
from sites import built_quickly, pebble, write_site
from whole_patterns import PEBBLE

TYPES: dict[str, Any] = json.loads((Path(__file__).parent / "schema-org.json").read_text("utf-8"))
BLOCK = re.compile(r'<script type="application/ld\+json">(.*?)</script>', re.S)
AT = "patterns/pebble/index.html"


def said(text: str, base: str = "https://example.org/") -> dict[str, Any]:
    proof = proof_of(text)
    told = structured(pattern_page(proof), proof.pattern, AT)
    parsed: dict[str, Any] = json.loads(as_json(told, lambda address: base + address))
    return parsed


def ancestors(kind: str) -> set[str]:
    return {kind}.union(*(ancestors(parent) for parent in TYPES[kind]["parents"]))


def ranges(kind: str, name: str) -> set[str]:
    """What a property of a type may hold; nothing for one that it has not."""
    own = (TYPES[one]["properties"].get(name, ()) for one in ancestors(kind))
    return set().union(*own)


def fits(value: object, wanted: set[str]) -> bool:
    match value:
        case dict() if value.keys() == {"@id"}:  # a thing told of elsewhere
            return is_whole(value["@id"]) and not wanted <= {"Text", "URL", "Date", "Boolean"}
        case dict():
            return bool(ancestors(value["@type"]) & wanted)
        case bool():
            return "Boolean" in wanted
        case int():
            return bool({"Integer", "Number"} & wanted)
        case str():
            return (
                "Text" in wanted or ("URL" in wanted and is_whole(value)) or is_day(value, wanted)
            )
    return False


def is_whole(text: str) -> bool:
    return urlsplit(text).scheme in ("http", "https") and bool(urlsplit(text).netloc)


def is_day(text: str, wanted: set[str]) -> bool:
    try:
        date.fromisoformat(text)  # ISO 8601, as schema.org asks of its Date
    except ValueError:
        return False
    return "Date" in wanted


def faults(node: dict[str, Any]) -> list[str]:
    """What the vocabulary does not know, in a thing and in all that it holds."""
    kind, found = node["@type"], []
    if kind not in TYPES:
        return [f"no type {kind}"]
    for name, value in node.items():
        if name.startswith("@"):
            continue
        wanted = ranges(kind, name)
        for one in value if isinstance(value, list) else [value]:
            if not fits(one, wanted):
                found.append(f"{kind}.{name}: {one!r} is none of {sorted(wanted)}")
            if isinstance(one, dict) and "@type" in one:
                found += faults(one)
            elif name in ("url", "image", "license") and not is_whole(one):
                found.append(f"{kind}.{name}: {one!r} is no whole address")
    return found


def test_the_vocabulary_is_told_apart() -> None:
    """The measure itself: what is wrong is found."""
    assert faults({"@type": "HowTo", "name": "A", "step": [{"@type": "HowToSection"}]}) == []
    assert faults({"@type": "HowTo", "rounds": "3"}) and faults({"@type": "Crochet"})
    assert faults({"@type": "HowTo", "datePublished": "yesterday"})
    assert faults({"@type": "HowTo", "supply": {"@type": "HowToTool", "name": "Hook"}})
    assert faults({"@type": "ListItem", "position": True})


@pytest.mark.parametrize("show", ["full", "preview"])
def test_a_page_says_what_the_vocabulary_knows(show: str) -> None:
    told = said(PEBBLE.replace("status: published", f"status: published\nshow: {show}"))
    assert told["@context"] == "https://schema.org"
    pattern, trail = told["@graph"]
    assert faults(pattern) + faults(trail) == []
    assert pattern["name"] == "Pebble" and pattern["dateModified"] == "2026-05-04"
    assert pattern["license"] == "https://creativecommons.org/licenses/by/4.0/"
    assert [item["position"] for item in trail["itemListElement"]] == [1, 2]


def test_materials_and_tools_are_told_apart() -> None:
    pattern = said(PEBBLE)["@graph"][0]
    supply = [thing["name"] for thing in pattern["supply"]]
    tool = [thing["name"] for thing in pattern["tool"]]
    assert any("slate grey" in name for name in supply) and any("eyes" in n for n in supply)
    assert any("Hook" in name for name in tool) and any("needle" in name for name in tool)


def test_no_step_is_told() -> None:
    """Pieces are named and led to; a preview does not even name them."""
    full = json.dumps(said(PEBBLE))
    assert "magic ring" not in full and "#upper" in full
    sold = json.dumps(said(PEBBLE.replace("status: published", "status: published\nshow: preview")))
    for words in ("magic ring", "Upper", "HowTo", "step", "supply"):
        assert words not in sold.replace("upper surface", ""), words


def test_nothing_is_invented() -> None:
    for pattern in (said(PEBBLE)["@graph"][0], said("title: A\npieces: {b: sc}\n")["@graph"][0]):
        invented = {"aggregateRating", "review", "offers", "author", "publisher", "totalTime"}
        assert not invented & pattern.keys()
        assert all(pattern.values())


def test_no_words_end_the_block() -> None:
    html = page_of(PEBBLE.replace("title: Pebble", 'title: "</script><script>alert(1)//<!--"'))
    (block,) = BLOCK.findall(html)
    assert "<" not in block
    assert json.loads(block)["@graph"][0]["name"].startswith("</script>")


def test_the_built_page_has_whole_addresses_that_are_there(tmp_path: Path) -> None:
    site = write_site(tmp_path / "tideline", pebble=pebble())
    built_quickly(site)
    html = (site / "site" / AT).read_text("utf-8")
    (block,) = BLOCK.findall(html)
    for node in json.loads(block)["@graph"]:
        assert faults(node) == []
    root = "https://example.org/shore/"
    named = {one.partition("#")[0] for one in re.findall(rf'"({root}[^"]*)"', block)}
    assert named
    assert all((site / "site" / one.removeprefix(root)).is_file() for one in named)
