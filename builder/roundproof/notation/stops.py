"""Where the work of a round ends: at its stated count; and whether its brackets pair up."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.notation.cursor import BRACKETS, CLOSE, WORKED, Cursor, Unread
from roundproof.notation.stitchwork import COUNTED
from roundproof.notation.tokens import BIGGEST, Token
from roundproof.notation.tree import Fill, Repeat, Stitches
from roundproof.reference import stitches

_SIGNS = frozenset({*BRACKETS, *BRACKETS.values()})
_DASHES = frozenset({"-", "=", ">", "|", "/", "~"})
STARTS = _DASHES | {*CLOSE, "num", "total"}
_UNITS = COUNTED | {"round", "around"}
"""Parts that may stand behind the number of a count, within its brackets."""
_GOES_ON = (",", ";", "times", "num", "in", "*", "around", "to", "rep", "twice", "each", "onto")
"""What behind a bracket shows that it was a group, not a count."""
_BEFORE = WORKED | {
    "ring",
    ".",
    ",",
    ":",
    ";",
    ")",
    "]",
    "}",
    "around",
    "num",
    "-",
    "|",
    "twice",
    "st",
    "times",
}


def count_follows(at: Cursor) -> bool:
    """Whether a stitch count stands here, in any of its clothes."""
    part = at.seq[at.at]
    if part not in STARTS or (part == "num" and at.last_stitch > at.at + 1):
        return False  # a number by itself is a count only behind all stitches
    return count_at(at) is not None


def count_at(at: Cursor) -> tuple[int, int] | None:
    """Where a stitch count that stands here has its number, and where it ends, as the places of
    tokens; None where there is none."""
    ahead, said = 0, {at.part(-1) if at.at else ""} & {"total"}
    while at.part(ahead) in _DASHES or at.part(ahead) == "total":
        said.add(at.part(ahead))
        ahead += 1
    close = CLOSE.get(at.part(ahead))
    ahead += close is not None
    while close and at.part(ahead) in ("=", "total", "-", "+", "around"):
        ahead += 1
    if at.part(ahead) != "num":
        return None
    number, after = at.at + ahead, ahead + 1
    units = _UNITS | {"."} if close else _UNITS
    while at.part(after) in units:
        after += 1
    while close and at.part(after) in ("+", "and", ",") and _chains_too(at, after + 1):
        after += 3  # '(24 sc + 12 ch)'
    found = (number, at.at + after)
    if close is None:
        return found if _bare_count(at, ahead, after, said) else None
    if at.part(after) != close:
        return None
    if _of_others(at, ahead, after):
        return (number, at.at + after + 1) if at.at else None
    plain = after == ahead + 1 and not _times_follow(at, after + 1)
    behind = at.part(after + 1)
    closed = behind in (",", ";") and at.at > 0 and at.last_stitch < at.at + after
    if plain or behind not in _GOES_ON or closed:
        return number, at.at + after + 1
    return None


def _bare_count(at: Cursor, number: int, after: int, said: set[str]) -> bool:
    """Whether a number without brackets is a count: behind a dash, with the word 'total', as a
    sentence of its own, or all by itself at the end."""
    behind, end = at.part(after), at.last_stitch < at.at + after
    unit = "st" in at.seq[at.at + number + 1 : at.at + after]
    if "total" in said or at.part(after - 1) == "total":
        return end
    if said - {"|"}:
        return end and behind not in ("times", "twice", "group", "num")
    before = at.seq[at.at - 1] if at.at else ""
    if said or (unit and before in _BEFORE and behind != "free"):
        return end
    if before in ("around", ".") and behind in ("end", "."):
        return True
    loose = not at.tokens[at.at + number].glued or before == ";"
    alone = behind in ("end", ".") and after == number + 1 and loose
    if before == "," and loose and _sums_up(at, number, after):
        return behind in ("end", ".") or _remark(at, after)
    return alone and before in (")", "]", "}", "num", "st", "twice", "times", ";", "ring")


def leaves_yarn(at: Cursor) -> bool:
    """Whether an end of yarn is left there, not stitches: 'leave a long tail'."""
    if at.part() != "leave" or at.part(1) not in ("aside", "word"):
        return False
    return at.at > at.last_stitch


def _sums_up(at: Cursor, number: int, after: int) -> bool:
    """Whether a number behind a comma is the count, not a last bare number of stitches: '(sc, inc)
    x 6, 18'. It is if it is what was made, or if stitches have names and none is listed there."""
    last = at.before[-1] if at.before else None
    if not WORKED.isdisjoint(at.seq[at.at + number + 1 : at.at + after]):
        return False  # 'sc around, 2 sc'
    if isinstance(last, Stitches | Repeat) and last.times == Fill():
        return True
    if after > number + 1:
        return False
    made = _made(at.before)
    if at.tokens[at.at + number].number == made:
        return True
    if "stitch" not in at.seq[: at.at]:
        return at.at > 1 and at.seq[at.at - 2] == "around"
    listed = at.seq[at.at - 3 : at.at - 1] if at.at > 2 else ()
    return listed == ("times", "num") or at.seq[at.at - 2] in _ALL_OF_IT


_ALL_OF_IT = frozenset({")", "]", "}", "times", "twice", "around", "ring"})


def _made(parts: Sequence[object]) -> int | None:
    """How many stitches these items make; None where that depends on the round below."""
    made = 0
    for part in parts:
        if isinstance(part, Stitches | Repeat) and not isinstance(part.times, int):
            return None
        if isinstance(part, Stitches) and isinstance(part.times, int):
            made += part.unit.made * part.times
        elif isinstance(part, Repeat) and isinstance(part.times, int):
            each = _made(part.body)
            if each is None:
                return None
            made += each * part.times
    return made


def _remark(at: Cursor, ahead: int) -> bool:
    """Whether words in brackets stand there: '24 (i counted twice)'."""
    return at.part(ahead) in CLOSE and at.part(ahead + 1) in ("word", "aside")


def _chains_too(at: Cursor, ahead: int) -> bool:
    return at.part(ahead) == "num" and at.value(ahead + 1) == "ch"


def _of_others(at: Cursor, number: int, after: int) -> bool:
    """'(7 shells)': a count of something that is no single stitch."""
    inside = at.tokens[at.at + number + 1 : at.at + after]
    return any(t.part == "stitch" and stitches()[t.value].vague for t in inside)


def _times_follow(at: Cursor, ahead: int) -> bool:
    if at.part(ahead) == "times" and at.part(ahead + 2) == "round":
        return False  # '(24) x 4 rows'
    return at.part(ahead) in ("times", "twice") or (
        at.part(ahead) == "num" and at.part(ahead + 1) in ("times", "more")
    )


def paired(tokens: Sequence[Token]) -> None:
    """Raises Unread at a bracket that has no partner."""
    opened: list[Token] = []
    for token in [t for t in tokens if t.part in _SIGNS or t.number >= BIGGEST]:
        if token.number >= BIGGEST:
            raise Unread(token, "a number that can be worked")
        if token.part in BRACKETS:
            opened.append(token)
        else:
            if not opened or BRACKETS[opened[-1].part] != token.part:
                opens = next(o for o, c in BRACKETS.items() if c == token.part)
                raise Unread(token, f"the `{opens}` that it closes, or leave it out", unpaired=True)
            opened.pop()
    if opened:
        close = BRACKETS[opened[-1].part]
        raise Unread(opened[-1], f"a `{close}` that closes this `{opened[-1].part}`", unpaired=True)
