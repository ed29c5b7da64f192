"""What a pattern's page says of itself for machines: JSON-LD in the vocabulary of schema.org.

Nothing is said that the page does not say too: no rating, no price, no person behind a name that
may be a firm's. Steps are named and led to, never told; of a pattern whose rounds are sold
elsewhere not even that.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from typing import Any

from markupsafe import Markup

from roundproof.pages.values import PatternPage
from roundproof.pattern.model import Pattern

VOCABULARY = "https://schema.org"
_TOOL = re.compile(r"\b(hooks?|needles?|pins?|markers?|scissors|tweezers|pliers)\b", re.I)
_TAG = re.compile(r"<[^>]*>")


class Address(str):
    """An address from the site's root; what a page says in its place, the site knows."""

    __slots__ = ()


def structured(page: PatternPage, pattern: Pattern, at: str) -> Mapping[str, Any]:
    """Of the pattern whose page stands at an address."""
    return {"@context": VOCABULARY, "@graph": [_pattern(page, pattern, at), _trail(page, at)]}


def _pattern(page: PatternPage, pattern: Pattern, at: str) -> dict[str, Any]:
    days = [change.date.value for change in pattern.changes if change.date]
    folder = at.rpartition("/")[0]
    images = [Address(f"{folder}/{photo.picture.src}") for photo in page.photos]
    said: dict[str, Any] = {
        "@type": "CreativeWork" if page.preview else "HowTo",
        "@id": Address(f"{at}#pattern"),
        "url": Address(at),
        "name": page.title,
        "description": page.description,
        "image": images,
        "inLanguage": "en",
        "creditText": page.designer,
        "version": page.version,
        "datePublished": min(days).isoformat() if days else "",
        "dateModified": pattern.date.value.isoformat() if pattern.date else "",
        "educationalLevel": page.level,
        "license": page.licence.link if page.licence else "",
        "size": _words(page.size_line),
        "about": _subject(pattern),
    }
    if not page.preview:
        said |= {
            "isAccessibleForFree": True,
            "supply": [_thing("HowToSupply", name) for name in _materials(page, tools=False)],
            "tool": [_thing("HowToTool", name) for name in _materials(page, tools=True)],
            "step": _sections(page, at),
        }
    return {key: value for key, value in said.items() if value}


def _subject(pattern: Pattern) -> dict[str, Any]:
    """What a model is a model of."""
    specimen = pattern.specimen
    if specimen is None:
        return {}
    common = specimen.name.value if specimen.name else ""
    scientific = specimen.scientific.value if specimen.scientific else ""
    named = {"name": scientific or common, "alternateName": common if scientific else ""}
    said = {key: value for key, value in named.items() if value}
    return {"@type": "Thing", **said} if said else {}


def _materials(page: PatternPage, *, tools: bool) -> list[str]:
    """Names of what is used up, or of what is not."""
    names = {thing.id: _words(thing.name) for thing in page.materials.things}
    return [
        name
        for id, name in names.items()
        if name and (not id.startswith("yarn") and bool(_TOOL.search(name))) is tools
    ]


def _thing(kind: str, name: str) -> dict[str, str]:
    return {"@type": kind, "name": name}


def _sections(page: PatternPage, at: str) -> list[dict[str, Any]]:
    names = [(piece.name, piece.id) for piece in page.pieces]
    if page.steps:
        names.append(("Assembly", "assembly"))
    return [
        {"@type": "HowToSection", "position": n, "name": name, "url": Address(f"{at}#{id}")}
        for n, (name, id) in enumerate(names, 1)
    ]


def _trail(page: PatternPage, at: str) -> dict[str, Any]:
    steps = (("Patterns", "patterns/index.html"), (page.title, at))
    items = [
        {"@type": "ListItem", "position": n, "name": name, "item": {"@id": Address(address)}}
        for n, (name, address) in enumerate(steps, 1)
    ]
    return {"@type": "BreadcrumbList", "itemListElement": items}


def _words(html: Markup | str) -> str:
    """The words alone, lengths once: in the units that the page comes with."""
    shown = re.sub(r"<span[^>]*\shidden[^>]*>.*?</span>", "", str(html), flags=re.S)
    return " ".join(Markup(_TAG.sub("", shown)).unescape().split())


def as_json(told: Mapping[str, Any], url: Callable[[str], str]) -> Markup:
    """For a block of data in a page; nothing in it can end the block."""

    def placed(value: object) -> object:
        match value:
            case Address():
                return url(value)
            case dict():
                return {key: placed(inner) for key, inner in value.items()}
            case list():
                return [placed(inner) for inner in value]
        return value

    text = json.dumps(placed(told), ensure_ascii=False, separators=(",", ":"))
    for sign in "<>&\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return Markup(text)
