"""Where the work of a round ends: at its stated count; and whether its brackets pair up."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.notation.cursor import BRACKETS, CLOSE, Cursor, Unread
from roundproof.notation.stitchwork import COUNTED
from roundproof.notation.tokens import BIGGEST, Token

_DASHES = ("-", "=", ">")
_GOES_ON = (",", ";", "times", "num", "in", "*", "around", "to", "rep", "twice")
"""What behind a bracket shows that it was a group, not a count."""


def count_follows(at: Cursor) -> bool:
    """Whether a stitch count stands here, in any of its clothes."""
    ahead = 0
    while at.part(ahead) in _DASHES:
        ahead += 1
    dressed = ahead > 0
    close = CLOSE.get(at.part(ahead))
    ahead += close is not None
    ahead += at.part(ahead) == "total"
    if at.part(ahead) != "num":
        return False
    after = ahead + 1
    while at.part(after) in COUNTED or at.part(after) == "round":
        after += 1
    if close is None:
        before = at.seq[at.at - 1] if at.at else ""
        full = before in ("around", ".")
        totalled = at.part(after - 1) == "total"
        return at.part(after) in ("end", ".") and (dressed or full or totalled)
    if at.part(after) != close:
        return False
    plain = after == ahead + 1 and not _times_follow(at, after + 1)
    return plain or at.part(after + 1) not in _GOES_ON


def _times_follow(at: Cursor, ahead: int) -> bool:
    return at.part(ahead) in ("times", "twice") or (
        at.part(ahead) == "num" and at.part(ahead + 1) in ("times", "more")
    )


def paired(tokens: Sequence[Token]) -> None:
    """Raises Unread at a bracket that has no partner."""
    opened: list[Token] = []
    for token in tokens:
        if token.number >= BIGGEST:
            raise Unread(token, "a number that can be worked")
        if token.part in BRACKETS:
            opened.append(token)
        elif token.part in BRACKETS.values():
            if not opened or BRACKETS[opened[-1].part] != token.part:
                opens = next(o for o, c in BRACKETS.items() if c == token.part)
                raise Unread(token, f"the `{opens}` that it closes, or leave it out", unpaired=True)
            opened.pop()
    if opened:
        close = BRACKETS[opened[-1].part]
        raise Unread(opened[-1], f"a `{close}` that closes this `{opened[-1].part}`", unpaired=True)
