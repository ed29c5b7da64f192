"""Words that are no work: remarks beside it, and stray words within it."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.notation.cursor import CLOSE, LOOPS, SEPARATORS, WORKED, Cursor
from roundproof.notation.tokens import Token, slip_of_the_pen

_STOPS = frozenset({*SEPARATORS, "-"} - {"and"})
_WORK = WORKED | {"ring", "num", "ord", *LOOPS, "rep", "times", "around", "skip", "free", "leave"}
"""Parts that make a stretch of words more than a remark."""

_PLACED = {"each", "next", "around", "first", "times", "twice"}
"""Parts that say where or how often: what has them is no remark."""
_BESIDE = {"aside", "top", "as", "st", "on", "round", "remain", "same", "to", "turn", "next"}
"""Known parts that may stand in a remark."""


def remark_end(at: Cursor, start: int) -> int | None:
    """Where a remark that begins at a token ends, or None if what stands there is none. The last
    remark of a line may have numbers in it ('put the eyes in after 8')."""
    seq, tokens = at.seq, at.tokens
    if start >= len(tokens) or (at.last_worked < 0 and "ring" not in seq):
        return None
    if start and start > at.last_worked and _behind(at, start):
        return len(tokens)
    if not _stands_apart(at, start):
        return None
    if seq[start] in CLOSE:
        return _in_brackets(at, start)
    end = start
    while end < len(tokens) and seq[end] not in _STOPS and seq[end] not in CLOSE:
        end += 1
    words = seq[start:end]
    if start == 0 and words.count("word") > 1 and WORKED.isdisjoint(words):
        return end if at.last_worked >= end else None  # 'wrap the yarn twice for a ring, 6 sc'
    if _of_shaping(at, start, end):
        return end
    told = _in_words(at, start, end) or _BESIDE & set(words)
    if not told or not _WORK.isdisjoint(words) or _slips(tokens[start:end]):
        return None
    return end if end < len(tokens) else None


def _behind(at: Cursor, start: int) -> bool:
    """Whether the rest of a line, which has no stitches in it, is a remark: 'sc around put the eyes
    in after 8'. A number before it or 'times' in it would make it an unknown stitch."""
    rest = set(at.seq[start : len(at.tokens)])
    if at.seq[start - 1] == "num" or _slips(at.tokens[start:]) or _PLACED & rest:
        return False
    begins = at.seq[start] in ("word", "aside", "on", "round", "ord", *CLOSE)
    begins |= at.seq[start] == "to" and at.seq[start + 1] == "word"  # 'until you run out of yarn'
    return begins and _in_words(at, start, len(at.tokens))


def _of_shaping(at: Cursor, start: int, end: int) -> bool:
    """'last increase I promise', 'no more decreases': words about the shaping, in full and without
    a number, behind the work."""
    words = at.seq[start:end]
    worked = [i for i, word in enumerate(words) if word in WORKED]
    if len(worked) != 1 or not worked[0] or at.last_worked != start + worked[0]:
        return False
    named = at.tokens[start + worked[0]].span.text.lower()
    before, behind = words[: worked[0]], words[worked[0] + 1 :]
    told = {"word", "last", "first", "more"}.issuperset(before)
    told &= {"word", "aside", "round", "last", "more"}.issuperset(behind)
    return told and named.startswith(("increas", "decreas"))


def _stands_apart(at: Cursor, start: int) -> bool:
    """Whether something parts the words from the work before them."""
    before = at.seq[start - 1] if start else ""
    if at.seq[start] == "word" and at.tokens[start].span.text[:1].isupper():
        last = at.tokens[start - 1].span.text
        return not (last.isupper() and len(last) > 1)  # a sentence begins
    return not before or before in _STOPS or before in CLOSE.values() or at.seq[start] in CLOSE


def _in_brackets(at: Cursor, start: int) -> int | None:
    close, end = CLOSE[at.seq[start]], start + 1
    while end < len(at.tokens) and at.seq[end] != close:
        end += 1
    inside = at.seq[start + 1 : end]
    if end == len(at.tokens) or at.part(end + 1 - at.at) in ("times", "twice", "rep", "around"):
        return None
    if inside and inside[0] in ("counts", "not counted"):
        return end + 1
    words = _in_words(at, start, end) and not _slips(at.tokens[start + 1 : end])
    return end + 1 if words and WORKED.isdisjoint(inside) else None


def _in_words(at: Cursor, start: int, end: int) -> bool:
    """Whether any word stands there that is not known, and is one."""
    return any(
        t.part == "aside" or (t.part == "word" and t.value[0].isalpha())
        for t in at.tokens[start:end]
    )


def _slips(tokens: Sequence[Token]) -> bool:
    """Whether a short stretch may be a stitch that was mistyped: '…, icn (24)'."""
    words = [token for token in tokens if token.part == "word"]
    return len(words) == 1 and slip_of_the_pen(words[0].value)


def among_known(tokens: Sequence[Token], stray: Token) -> bool:
    """Whether an unknown word stands among known ones, where it can only tell how: 'sc nicely in
    each st'. Where a stitch could stand ('2 frob', '(sc, frob)', 'frob x 6') it is none."""
    if stray.part != "word" or slip_of_the_pen(stray.value):
        return False
    place = next((i for i, token in enumerate(tokens) if token is stray), 0)
    before = tokens[place - 1].part if place else ""
    after = tokens[place + 1].part if place + 1 < len(tokens) else "end"
    opens = before in ("", "num", *SEPARATORS, *CLOSE, "*")
    closes = after in ("end", "num", "times", *SEPARATORS, *CLOSE, *CLOSE.values(), "*")
    return not (opens and closes) and before != "num"
