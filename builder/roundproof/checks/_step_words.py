"""What the words of a step claim, and what its entry says: rounds, stitches, times, lengths, the
way of joining and the filling."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from roundproof.fabric.places import copies, site_of
from roundproof.frozen import dataclass, field
from roundproof.measure.figures import cm
from roundproof.notation.edges import piece_of, read_edge, read_label, read_range
from roundproof.notation.points import read_point
from roundproof.pattern.model import Around, Embroider, Insert, Join, Joint, Place, Step
from roundproof.pattern.quantities import in_mm
from roundproof.proof import Proof

_LABEL = r"(?:R|rounds? |rnds? |rows? )"
_UNIT = r"(cm|mm|inch(?:es)?|in)\b"
_SMALL = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_WORDS = {
    "round": rf"(?<![\w-]){_LABEL}(\d{{1,6}})(?:\s?(?:-|–|to|and)\s?{_LABEL}?(\d{{1,6}})"
    r"(?!\d*\s*(?:st|cm|mm|in|times)))?(?!\w)",
    "stitch": r"(?<![\w.,-])(\d{1,6}) (?:free |empty )?(?:sts?|stitch(?:es)?)\b",
    "apart": rf"\b({'|'.join(_SMALL)}) (?:free |empty )?(?:sts?|stitch(?:es)?)"
    r" (?:apart|between|free|wide)\b",
    "strand": r"(?<![\w.,-])(\d{1,4}) strands?\b",
    "times": r"(?<![\w.,-])(\d{1,4}) times\b",
    "length": rf"(?<![\w.,-])(\d+(?:\.\d+)?) ?{_UNIT}(?= (?:of|long|length))",
    "cut": rf"\bcut (?:it )?(?:to )?(\d+(?:\.\d+)?) ?{_UNIT}",
    "method": r"\b(?:whip ?stitch|mattress stitch|back ?stitch|running stitch|glue)(?:e[sd])?\b",
    "empty": r"\b(?:do not stuff|don't stuff|not stuffed|unstuffed|without stuffing"
    r"|leave (?:it |them )?empty|(?:it|they) stays? empty)\b",
    "filled": r"\b(?:stuff|fill)(?:ing)? (?:it|them|lightly|firmly|softly|as you|while you)\b",
    "facing": r"\b(?:wrong|right) sides? (?:together|facing|out(?:wards?)?|in(?:wards?)?)\b",
}
_BY = ("whipstitch", "mattress stitch", "backstitch", "running stitch", "glue")
_SIGNS = {
    "stitch": ("st",),
    "apart": (" apart", " between", " free", " wide"),
    "strand": (" strand",),
    "times": (" times",),
    "cut": ("cut ",),
    "method": ("stitch", "glue"),
    "empty": ("stuff", "empty"),
    "filled": ("stuff", "fill"),
    "facing": (" side",),
}
"""One of these is in every text with such words."""


@dataclass(frozen=True, slots=True)
class Claim:
    """Words of a step at odds with its entry: `mend` puts them right."""

    words: str
    said: str
    named: str
    put: str = ""


@dataclass()
class _Entry:
    """The numbers that an entry gives, by what they count."""

    rounds: set[int] = field(default_factory=set)
    stitches: set[int] = field(default_factory=set)
    told: set[int] = field(default_factory=set)
    """Those of the stitches that the entry itself says, as against the edges' own counts."""
    times: set[int] = field(default_factory=set)
    strands: set[int] = field(default_factory=set)
    length: float | None = None


def at_odds(proof: Proof, step: Step) -> Iterator[Claim]:
    """Every claim of a step's wording that is not what its entry says."""
    text = " ".join(step.step.value.split()) if step.step else ""
    entry = _entry(proof, step)
    yield from _rounds(text, entry)
    if entry.told:
        yield from _numbers(text, "stitch", entry.stitches, entry.told, "stitches")
        yield from _numbers(text, "apart", entry.stitches, entry.told, "stitches")
    if entry.strands:
        yield from _numbers(text, "strand", entry.strands, entry.strands, "strands")
    if entry.times:
        yield from _numbers(text, "times", entry.times, entry.times, "times")
    if entry.length is not None:
        yield from _lengths(text, entry.length)
    if isinstance(step.verb, Join):
        yield from _ways(text, step.verb)


def _rounds(text: str, entry: _Entry) -> Iterator[Claim]:
    if not entry.rounds:
        return
    for found in _said("round", text):
        numbers = [int(number) for number in found.groups() if number]
        if any(number not in entry.rounds for number in numbers):
            named = ", ".join(f"R{number}" for number in sorted(entry.rounds))
            yield Claim(found[0], found[0], named)


def _numbers(text: str, kind: str, allowed: set[int], told: set[int], noun: str) -> Iterator[Claim]:
    for found in _said(kind, text):
        if _number(found[1]) not in allowed:
            named = " or ".join(str(number) for number in sorted(told))
            put = str(next(iter(told))) if len(told) == 1 else ""
            yield Claim(found[1], f"{found[1]} {noun}", named, put)


def _number(word: str) -> int:
    return int(word) if word.isdigit() else _SMALL.index(word.lower()) + 1


def _lengths(text: str, length: float) -> Iterator[Claim]:
    for kind in ("length", "cut"):
        for found in _said(kind, text):
            if abs(in_mm(found[1], found[2]) - length) > 0.05 * length:
                yield Claim(f"{found[1]} {found[2]}", f"{found[1]} {found[2]}", cm(length))


def _ways(text: str, join: Join) -> Iterator[Claim]:
    by = join.by.value if join.by else ""
    said = [(m[0], _method(m[0])) for m in _said("method", text)]
    if by and said and by not in (method for _, method in said):
        yield Claim(said[0][0], said[0][0], by)
    stuffed = join.stuffed.value if join.stuffed else ""
    empty, filled = next(_said("empty", text), None), next(_said("filled", text), None)
    if stuffed in ("before", "while closing") and empty:
        yield Claim(empty[0], f"`{empty[0]}`", f"stuffed: {stuffed}")
    if stuffed == "no" and filled and not empty:
        yield Claim(filled[0], f"`{filled[0]}`", "stuffed: no")
    facing = next(_said("facing", join.facing.value if join.facing else ""), None)
    other = next(_said("facing", text), None)
    if facing and other and facing[0].split()[0].lower() != other[0].split()[0].lower():
        yield Claim(other[0], other[0], facing[0])


def _method(words: str) -> str:
    """The way of joining that some words name, as `by` has it: "whip stitched" is "whipstitch"."""
    close = words.lower().replace(" ", "")
    return next(way for way in _BY if close.startswith(way.replace(" ", "")))


def _entry(proof: Proof, step: Step) -> _Entry:
    entry = _Entry()
    verb = step.verb
    if isinstance(verb, Join):
        _of_join(proof, verb, entry)
    elif isinstance(verb, Place):
        entry.rounds |= _labels(label.value for label in verb.between)
        _of_around(verb.around, entry)
    elif isinstance(verb, Embroider):
        _of_lines(verb, entry)
    elif isinstance(verb, Joint):
        points = [read_point(_after_key(point.value, proof)) for point in verb.path]
        entry.rounds |= {n for p in points for n in (p.first, p.last) if n}
        entry.told |= {p.stitch for p in points if p.stitch}
        entry.times |= {verb.passes.value} if verb.passes else set()
    elif isinstance(verb, Insert) and verb.length:
        entry.length = verb.length.value
    entry.stitches |= entry.told
    if entry.rounds and step.after and (name := read_edge(step.after.value, proof.fabric.pieces)):
        entry.rounds |= {name.round} if name.round else set()
    return entry


def _of_join(proof: Proof, join: Join, entry: _Entry) -> None:
    for end in (join.edge, join.to):
        name = read_edge(end.value, proof.fabric.pieces) if end else None
        entry.rounds |= {name.round} if name and name.round else set()
    if join.at is not None:
        ranges = [read_range(said.value) for said in (join.at.footprint, join.at.up) if said]
        entry.rounds |= {n for r in ranges if r for n in range(r[0], min(r[1], r[0] + 999) + 1)}
        entry.rounds |= _labels(label.value for label in join.at.between)
        entry.told |= {join.at.stitches.value} if join.at.stitches else set()
    entry.told |= {join.count.value} if join.count else set()
    _of_around(join.around, entry)
    fit = next((fit for fit in proof.measures.fits if fit.join is join), None)
    for count, folded in zip(fit.counts, fit.folded, strict=True) if fit else ():
        entry.stitches |= {count, count // 2} if folded and count else {count or 0}
    site = site_of(proof.fabric, join)
    entry.stitches |= {site.stitches} if site and site.stitches else set()
    entry.stitches |= {n for _, n in fit.plan.more} if fit and fit.plan else set()
    key = piece_of(join.edge.value, proof.fabric.pieces)
    guest = proof.pattern.piece(key or "")
    if entry.told:
        entry.stitches |= {copies(join.around), guest.make if guest else 1}


def _of_around(around: Around | None, entry: _Entry) -> None:
    if around is None:
        return
    entry.told |= {gap.value for gap in around.free}
    entry.told |= {said.value for said in (around.apart, around.st) if said}


def _of_lines(verb: Embroider, entry: _Entry) -> None:
    ends = [end for line in verb.lines for end in (line.from_, line.to) if end]
    points = [read_point(end.value) for end in ends]
    entry.rounds |= {n for p in points for n in (p.first, p.last) if n}
    entry.told |= {p.stitch for p in points if p.stitch}
    entry.times |= {line.times.value for line in verb.lines if line.times}
    entry.strands |= {verb.strands.value} if verb.strands else set()


def _labels(words: Iterator[str]) -> set[int]:
    return {number for word in words if (number := read_label(word)) is not None}


def _after_key(words: str, proof: Proof) -> str:
    key = piece_of(words, proof.fabric.pieces)
    return words[len(key) :].strip(" ,") if key else words


def _said(kind: str, text: str) -> Iterator[re.Match[str]]:
    """All words of one kind in a text."""
    low = text.lower()
    if any(sign in low for sign in _SIGNS.get(kind, ("",))):
        yield from _form(kind).finditer(text)


@cache
def _form(kind: str) -> re.Pattern[str]:
    return re.compile(_WORDS[kind], re.IGNORECASE)
