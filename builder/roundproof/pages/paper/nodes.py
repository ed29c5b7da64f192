"""Markup of a page → plain values that a template for paper prints.

A page has its words in both terms, both systems of units, short and written out, for either hand;
paper has one of each. What comes out is text and lists of `[tag, children, more]`, so that nothing
of it can be taken for anything but text.
"""

from __future__ import annotations

from html.parser import HTMLParser
from typing import Any

from roundproof.frozen import dataclass

Node = str | list[Any]
"""Text, or `[tag, more, nodes]`: a tag's name, what it is about (`href`), what stands in it."""
Nodes = list[Node]


@dataclass(frozen=True, slots=True)
class Choice:
    """What a maker chose: `terms` "us" or "uk", `units` "cm", "inch" or "both", whether rounds are
    written out in full, and whether the maker works left-handed."""

    terms: str = "us"
    units: str = "both"
    written_out: bool = False
    left_handed: bool = False

    @property
    def left_out(self) -> frozenset[str]:
        """Classes of what is not printed."""
        terms = "uk" if self.terms == "us" else "us"
        words = "ab" if self.written_out else "out"
        hand = "rh" if self.left_handed else "lh"
        units = {"cm": {"inch"}, "inch": {"cm"}}.get(self.units, set())
        return frozenset({terms, words, hand, *units})


_KEPT = {"b": "b", "strong": "b", "em": "em", "i": "em", "a": "a", "p": "p", "li": "li"}
_LISTS = {"ul": "ul", "ol": "ol"}
_VOID = {"br", "hr", "img", "input", "wbr", "source"}
_SILENT = {"svg", "script", "style", "template"}


def nodes(markup: str, choice: Choice) -> Nodes:
    """What stands in the markup, for paper. Pictures and scripts are left out."""
    reader = _Reader(choice)
    reader.feed(str(markup))
    reader.close()
    return reader.root


def text_of(found: Nodes) -> str:
    """The words alone."""
    parts: list[str] = []
    for node in found:
        if isinstance(node, str):
            parts.append(node)
        else:
            parts.append(text_of(node[2]))
    return "".join(parts)


class _Reader(HTMLParser):
    """Open tags stand on a stack, each with the list that takes what stands in it; None where
    nothing is taken."""

    def __init__(self, choice: Choice) -> None:
        super().__init__(convert_charrefs=True)
        self.left_out, self.both = choice.left_out, choice.units == "both"
        self.root: Nodes = []
        self.stack: list[tuple[str, Nodes | None]] = [("", self.root)]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        here = self.stack[-1][1]
        if tag in _VOID:
            if here is not None and tag == "br":
                here.append("\n")
            return
        given = {name: value or "" for name, value in attrs}
        classes = set(given.get("class", "").split())
        if here is None or tag in _SILENT or classes & self.left_out:
            self.stack.append((tag, None))
            return
        inside: Nodes = []
        if "chip" in classes:
            here.append(["chip", {}, inside])
        elif self.both and "inch" in classes:
            here.append(" (")
            here.append(["span", {}, inside])
            here.append(")")
        elif tag in _LISTS or tag in _KEPT:
            more = {"href": given["href"]} if tag == "a" and "href" in given else {}
            if tag == "i" and given.get("lang"):
                more = {"lang": given["lang"]}
            here.append([_LISTS.get(tag) or _KEPT[tag], more, inside])
        else:
            inside = here  # a span of no account
        self.stack.append((tag, inside))

    def handle_endtag(self, tag: str) -> None:
        if tag in _VOID:
            return
        for place in range(len(self.stack) - 1, 0, -1):
            if self.stack[place][0] == tag:
                del self.stack[place:]
                return

    def handle_data(self, data: str) -> None:
        here = self.stack[-1][1]
        if here is not None and data:
            here.append(data)
