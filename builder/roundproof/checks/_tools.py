"""Hooks and tools that the work asks for, and those that are listed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from roundproof.checks._materials import sewing
from roundproof.checks._prose import Said, notes, steps
from roundproof.frozen import dataclass
from roundproof.notation.tree import Act, Action
from roundproof.pattern.model import Join, Notion, Pattern
from roundproof.pattern.notions import stems
from roundproof.proof import Proof
from roundproof.source import Span


@dataclass(frozen=True, slots=True)
class Asked:
    """A tool that is needed: what the work does, the tool, how it is listed, and where."""

    does: str
    tool: str
    line: str
    span: Span
    piece: str | None = None


def tools_asked(proof: Proof) -> Iterator[Asked]:
    """Each tool that the work asks for and no notion names, at the first place that does."""
    for asked in (_needle(proof), _pins(proof), _marker(proof), _glue(proof)):
        if asked and not any(asked.tool in stems(n.item.value) for n in proof.pattern.notions):
            yield asked


def _needle(proof: Proof) -> Asked | None:
    sewn = next(sewing(proof.pattern), None)
    return Asked("sewn", "needle", "tapestry needle", sewn) if sewn else None


def _pins(proof: Proof) -> Asked | None:
    for said in (*steps(proof), *notes(proof)):
        if "pin" in said.text.lower() and (found := _pinned().search(said.text)):
            return _told(said, found, "pinned", "pin", "pins")
    return None


def _told(said: Said, found: re.Match[str], does: str, tool: str, line: str) -> Asked:
    return Asked(does, tool, line, said.place(*found.span()), said.piece)


def _marker(proof: Proof) -> Asked | None:
    for piece in proof.fabric.pieces.values():
        for entry in () if piece.of else piece.entries:
            if isinstance(entry, Action) and entry.act is Act.MARK:
                return Asked("marked", "marker", "stitch marker", entry.span, piece.piece.key)
    return None


def _glue(proof: Proof) -> Asked | None:
    for step in proof.pattern.assembly:
        verb = step.verb
        if isinstance(verb, Join) and verb.by and verb.by.value == "glue":
            return Asked("glued", "glue", "textile glue", verb.by.span)
    return None


def hook_changes(proof: Proof) -> Iterator[tuple[float, Span, str]]:
    """Hooks in mm that the work changes to between rounds, with the place and the piece."""
    for piece in proof.fabric.pieces.values():
        for entry in () if piece.of else piece.entries:
            if isinstance(entry, Action) and entry.act is Act.CHANGE_HOOK and entry.number:
                yield entry.number, entry.span, piece.piece.key


def own_hooks(pattern: Pattern) -> Iterator[float]:
    """Hooks in mm of yarns and pieces, which the list of materials names by itself."""
    yield from (yarn.hook.value for yarn in pattern.yarns if yarn.hook)
    yield from (piece.hook.value for piece in pattern.pieces if piece.hook)


def listed_hook(notion: Notion) -> float | None:
    """The size of a hook among the notions, in mm."""
    if "hook" not in stems(notion.item.value):
        return None
    if notion.size:
        return notion.size.value
    found = re.search(r"(\d+(?:[.,]\d+)?)\s?mm", notion.item.value)
    return float(found[1].replace(",", ".")) if found else None


def listed_hooks(pattern: Pattern) -> list[float]:
    """All hooks in mm that the list of materials names."""
    return [*own_hooks(pattern), *filter(None, map(listed_hook, pattern.notions))]


def same_hook(one: float, other: float) -> bool:
    return abs(one - other) < 0.01


@cache
def _pinned() -> re.Pattern[str]:
    return re.compile(r"(?<![\w-])pin(?:ned|ning)?\b(?!\s*(?:stripe|prick|head|cushion))", re.I)
