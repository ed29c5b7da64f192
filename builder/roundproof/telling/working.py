"""How a round was worked, for a terminal: every stitch with what it goes into."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import groupby, islice

from roundproof.fabric.laid import Foot, Into, Laid, laid
from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass, replace
from roundproof.notation.spoken import speak_round
from roundproof.notation.tree import Instruction, Loop, Spot
from roundproof.notation.writer import onto_words, text_of, written
from roundproof.proof import Proof
from roundproof.reference import short_name
from roundproof.telling.cells import clean, wrapped
from roundproof.telling.paint import Paint
from roundproof.words import say

MOST_ROWS = 120
"""Rows printed of a round, unless all are asked for."""
_MOST_STITCHES = 100_000
"""Stitches looked into at most: a round may have millions."""


def told(
    proof: Proof, piece: WorkedPiece, worked: WorkedRound, paint: Paint, *, whole: bool = False
) -> str:
    """One round, ready to print."""
    paragraphs = [_head(proof, piece, worked, paint), *_aloud(proof, worked, paint)]
    paragraphs.append("\n".join(wrapped(_summary(proof, piece, worked), paint.columns)))
    rows = list(_rows(proof, worked, _round_below(piece, worked)))
    names = {yarn.key: yarn.name for yarn in proof.pattern.yarns}
    shown = rows if whole else rows[:MOST_ROWS]
    if rows:
        paragraphs.append("\n".join(_table(shown, names, paint)))
    if len(shown) < len(rows):
        paragraphs.append(say("work.more", rows=len(rows) - len(shown)))
    if free := _left_free(worked):
        paragraphs.append("\n".join(wrapped(free, paint.columns)))
    return "\n\n".join(paragraphs) + "\n"


def _head(proof: Proof, piece: WorkedPiece, worked: WorkedRound, paint: Paint) -> str:
    work = worked.instruction
    said = _written(proof, work) if work else worked.round.work.text
    count = f" ({worked.stated})" if worked.stated is not None else ""
    title = clean(proof.pattern.title.value if proof.pattern.title else proof.pattern.slug)
    where = f"{title}{paint.dot}{clean(piece.piece.key)}{paint.dot}{worked.label}"
    return f"{paint(where, 'bold')}\n{clean(said)}{count}"


def _written(proof: Proof, work: Instruction) -> str:
    return written(work, proof.pattern.written_in, proof.letter)


def _aloud(proof: Proof, worked: WorkedRound, paint: Paint) -> Iterator[str]:
    if worked.instruction is None:
        return
    named = {y.key: y.name for y in proof.pattern.yarns}
    parts = speak_round(
        worked.round.label,
        worked.instruction,
        worked.made,
        proof.pattern.written_in,
        lambda key: named.get(key, key),
    )
    yield paint("\n".join(wrapped(text_of(parts), paint.columns)), "faint")


def _summary(proof: Proof, piece: WorkedPiece, worked: WorkedRound) -> str:
    """'Goes into the 12 stitches of R2, uses 12 and makes 18.'"""
    if worked.instruction is None:
        return say("work.unread")
    start = say(
        f"work.base_{worked.base}", count=worked.available or 0, below=_below(piece, worked)
    )
    used = "?" if worked.used is None else worked.used
    made = "?" if worked.made is None else worked.made
    said = f"{start} {say('work.sum', used=used, made=made)}"
    if worked.unworked:
        said += " " + say("work.left", count=worked.unworked)
    if worked.rounds > 1:
        said += " " + say("work.range", label=worked.label)
    if worked.stated is not None and worked.made not in (None, worked.stated):
        said += " " + say("work.stated", stated=worked.stated)
    return said


def _below(piece: WorkedPiece, worked: WorkedRound) -> str:
    below = _round_below(piece, worked)
    return f"R{below.round.label.last}" if below else ""


def _round_below(piece: WorkedPiece, worked: WorkedRound) -> WorkedRound | None:
    before = None
    for other in piece.rounds:
        if other is worked:
            break
        before = other
    return before


@dataclass(frozen=True, slots=True)
class _Row:
    first: int
    last: int
    what: str
    into: str
    yarn: str | None


def _rows(proof: Proof, worked: WorkedRound, below: WorkedRound | None) -> Iterator[_Row]:
    """Stitches side by side that are worked alike, as one row."""
    uk = proof.pattern.written_in == "UK"
    run: list[list[Laid]] = []
    for group in _groups(islice(laid(worked, below), _MOST_STITCHES)):
        if run and not _goes_on(run[-1], group):
            yield _row(run, uk)
            run = []
        run.append(group)
    if run:
        yield _row(run, uk)


def _groups(stitches: Iterator[Laid]) -> Iterator[list[Laid]]:
    """Stitches that go into the same places, together."""
    group: list[Laid] = []
    for stitch in stitches:
        same = group and stitch.feet and stitch.feet == group[-1].feet
        same = same and stitch.feet[0].into is not Into.RING and stitch.yarn == group[-1].yarn
        if group and not same:
            yield group
            group = []
        group.append(stitch)
    if group:
        yield group


def _goes_on(last: list[Laid], group: list[Laid]) -> bool:
    """Whether a stitch is like the one before it, one place further on."""
    if len(last) > 1 or len(group) > 1 or len(last[0].feet) > 1 or len(group[0].feet) > 1:
        return False
    a, b = last[0], group[0]
    if (a.kind, a.yarn, bool(a.number)) != (b.kind, b.yarn, bool(b.number)):
        return False
    if not a.feet or not b.feet:
        return not a.feet and not b.feet
    step = 0 if a.feet[0].into is Into.RING else 1
    return b.feet[0] == replace(a.feet[0], number=a.feet[0].number + step)


def _row(run: list[list[Laid]], uk: bool) -> _Row:
    first, last = run[0][0], run[-1][-1]
    kinds = [(kind, len(list(same))) for kind, same in groupby(run[0], key=lambda s: s.kind)]
    what = ", ".join(_kind(kind, count, uk) for kind, count in kinds)
    numbers = [s.number for group in run for s in group if s.number]
    return _Row(
        *(numbers[0] if numbers else 0, numbers[-1] if numbers else 0),
        what,
        _into(first.feet, last.feet),
        first.yarn,
    )


def _kind(kind: str, count: int, uk: bool) -> str:
    if kind == "sk":
        return say("work.skip")
    name = short_name(kind, uk)
    return f"{count} {name}" if count > 1 else name


def _into(first: tuple[Foot, ...], last: tuple[Foot, ...]) -> str:
    if not first:
        return say("work.nothing")
    if first[0].into is Into.RING:
        return say("work.ring")
    loop = {Loop.FRONT: " FLO", Loop.BACK: " BLO"}.get(first[0].loop, "")
    if len(first) > 1:
        return _and([_foot(foot) for foot in first]) + loop
    a, b = first[0], last[0]
    return (_foot(a) if a.number == b.number else f"{_foot(a)}-{b.number}") + loop


def _and(feet: list[str]) -> str:
    """'st 3 and 4', naming once what all of them are."""
    words = [foot.rpartition(" ") for foot in feet]
    alike = len({word[0] for word in words}) == 1
    if alike and len(feet) > 1:
        numbers = [word[2] for word in words]
        return f"{words[0][0]} {', '.join(numbers[:-1])} {say('work.and')} {numbers[-1]}"
    return f" {say('work.and')} ".join(feet)


def _foot(foot: Foot) -> str:
    onto = foot.onto
    if onto is None:
        return f"{foot.into} {foot.number}"
    if onto.spot is Spot.PATH:
        return f"{say('work.path')} {foot.number}"
    where = onto_words(replace(onto, both=False, front=False))
    where = where.removeprefix("around ").removeprefix("in ")
    return f"{where} st {foot.number}"


def _table(rows: list[_Row], names: Mapping[str, str], paint: Paint) -> Iterator[str]:
    yarns = {row.yarn for row in rows}
    cells = [
        (_numbers(row), row.what, row.into, _yarn(row, names) if len(yarns) > 1 else "")
        for row in rows
    ]
    heads = tuple(say(f"work.{name}") for name in ("number", "what", "into"))
    wide = [max(len(c[i]) for c in [*cells, heads]) for i in range(3)]
    head = "  ".join(f"{h:<{w}}" for h, w in zip(heads, wide, strict=True)).rstrip()
    yield paint(f"  {head}", "faint")
    for cell in cells:
        line = "  ".join(f"{c:<{w}}" for c, w in zip(cell, wide, strict=False))
        yield f"  {line}  {cell[3]}".rstrip()


def _yarn(row: _Row, names: Mapping[str, str]) -> str:
    return clean(names.get(row.yarn, row.yarn)) if row.yarn else ""


def _numbers(row: _Row) -> str:
    if not row.first:
        return "-"
    return str(row.first) if row.first == row.last else f"{row.first}-{row.last}"


def _left_free(worked: WorkedRound) -> str:
    """The loops of the round below that stay free."""
    if worked.base not in (Base.ROUND, Base.EDGE):
        return ""
    found: Counter[Loop] = Counter()
    seen: set[int] = set()
    for stitch in islice(laid(worked), _MOST_STITCHES):
        for foot in stitch.feet:
            if foot.into is Into.STITCH and foot.number not in seen:
                seen.add(foot.number)
                found[foot.loop] += 1
    said = [
        say("work.free", loops=other, count=found[loop])
        for loop, other in ((Loop.BACK, Loop.FRONT), (Loop.FRONT, Loop.BACK))
        if found[loop]
    ]
    return " ".join(said)
