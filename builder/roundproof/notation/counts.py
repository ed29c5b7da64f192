"""What stands behind the work of a round: the stated count and remarks."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.frozen import dataclass
from roundproof.notation.cursor import CLOSE, LOOPS, WORKED
from roundproof.notation.tokens import Token
from roundproof.notation.tree import Loop, Stated
from roundproof.reference import stitches
from roundproof.source import Line, Span

_BEFORE = (*CLOSE, "-", "=", ">", "total", ".", ",", ";")
_AFTER = (*CLOSE.values(), "st", "stitch", "foreign", "total", "each", "inc", "dec", "round")
_EDGES = " \t.,;:-–—"


@dataclass(frozen=True, slots=True)
class Ending:
    """The stated count, if there is one, the loop that a remark puts the whole round in ('(24), in
    back loops only'), and the other words after the count as a line."""

    stated: Stated | None
    remark: Line | None
    loop: Loop | None = None


def ending(rest: Sequence[Token], lines: Sequence[Line]) -> Ending:
    """Split the tokens left over behind the work. `lines` are the lines they come from."""
    if not rest:
        return Ending(None, None)
    found = clothed(rest)
    if found is None:
        return Ending(stated_at_end(rest), _remark(rest[0].start, lines))
    number, at = found
    if at < len(rest) and rest[at].part in ("in", "on") and (last := stated_at_end(rest)):
        return Ending(last, _remark(rest[0].start, lines))  # 'making 6 sts over the ch (24)'
    stated = Stated(rest[number].number + _chains(rest[number:]), rest[number].span)
    words = [t.part for t in rest[at:] if t.part not in (",", ".", ";", "in", "-")]
    if len(words) == 1 and words[0] in ("flo", "blo"):
        return Ending(stated, None, LOOPS[words[0]])
    return Ending(stated, _remark(rest[at - 1].end, lines))


def _chains(count: Sequence[Token]) -> int:
    """Chains counted beside the stitches: '(24 sc + 12 ch)'."""
    for at in range(len(count) - 2):
        if count[at].part in CLOSE.values():
            break
        chains = count[at].part in ("+", "and", ",") and count[at + 2].value == "ch"
        if chains and count[at + 1].part == "num":
            return count[at + 1].number
    return 0


def clothed(rest: Sequence[Token]) -> tuple[int, int] | None:
    """Where the count stands that the tokens behind the work begin with: the index of its number,
    and that of the first token past the brackets and words it is dressed in."""
    at = 0
    while at < len(rest) and rest[at].part in _BEFORE:
        at += 1
    if at == len(rest) or rest[at].part != "num":
        return None
    number, at = at, at + 1
    units = [t for t in rest[at : at + 1] if t.part in ("stitch", "word")]
    if units and (units[0].part == "word" or stitches()[units[0].value].vague):
        return None  # '(7 shells)', '(10 tentacles)'
    while at < len(rest) and rest[at].part in _AFTER:
        at += 1
    return number, at


def stated_at_end(tokens: Sequence[Token]) -> Stated | None:
    """The count at the end of a round whose work could not be read: '(24)', '[24 sts]', '= 24'."""
    for at in range(len(tokens) - 1, 0, -1):
        token = tokens[at]
        if token.part == "num":
            if not all(t.part != "stitch" or _plain(t) for t in tokens[at + 1 :]):
                return None  # '(7 shells)'
            behind = {t.part for t in tokens[at + 1 :]}
            opened = tokens[at - 1].part in (*CLOSE, "=", "-", ">")
            return Stated(token.number, token.span) if opened and behind <= {*_AFTER, "."} else None
    return None


def _plain(token: Token) -> bool:
    return not stitches()[token.value].vague


def _remark(start: int, lines: Sequence[Line]) -> Line | None:
    """The words from an offset on, without the signs around them."""
    for index, line in enumerate(lines):
        if not line.span.start <= start <= line.span.end:
            continue
        text = line.text[start - line.span.start :]
        words = text.strip(_EDGES)
        more = " ".join(m.text.strip() for m in lines[index + 1 :])
        if not words and not more:
            return None
        begin = start + text.index(words) if words else start
        written = text.strip().lstrip(_EDGES)
        end = begin + len(written.rstrip())
        whole = " ".join(part for part in (written, more) if part)
        return Line(whole, Span(line.span.source, begin, end))
    return None


def count_in_front(tokens: list[Token]) -> tuple[Stated | None, list[Token]]:
    """A count that stands before the work ('24 sts (+6). (3 sc, inc) x 6', a column of its own),
    and the other tokens."""
    parts = [token.part for token in tokens[:3]]
    column = parts[:2] == ["num", "|"]
    sentence = parts[:2] == ["num", "st"] and len(parts) > 2 and parts[2] in (".", "(", ":", ";")
    sentence = sentence and not any(t.part == "together" for t in tokens[3:4])
    if not column and not (
        sentence and any(t.part in WORKED or t.part == "around" for t in tokens[2:])
    ):
        return None, tokens
    at = 2
    while at < len(tokens) and tokens[at].part in ("(", ")", "+", "-", "±", "num", ".", ":", ";"):
        if tokens[at].part in (".", ":", ";"):
            return Stated(tokens[0].number, tokens[0].span), tokens[at + 1 :]
        at += 1
    return Stated(tokens[0].number, tokens[0].span), tokens[2 if column else at :]
