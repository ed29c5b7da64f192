"""Places with a name of their own in the words of a round: 'around first leg', 'through first arm
and body', 'in unworked sts of R8', 'along path'. Each becomes one token."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from roundproof.frozen import dataclass
from roundproof.notation.tokens import Token, plain
from roundproof.notation.tree import Onto, Spot
from roundproof.reference import spoken

_LEADS = frozenset({"around", "in", "on", "to", "far side"})
_BEHIND = frozenset({"st", "stitch", "space"})
"""What may stand before a place with no such word: 'in next 9 sts of first leg'."""
_LOOPS = frozenset({"flo", "blo", "both loops"})
_SIDES = {"left": 1, "right": 2, "other": 2}

Names = Mapping[tuple[str, ...], str]
"""The key of a piece for the words of its name; empty for the piece in hand."""


def names_of(pieces: Mapping[str, str]) -> Names:
    """The names as words, from names as they are written."""
    return {tuple(plain(name).split()): key for name, key in pieces.items() if name.strip()}


def hints(names: Names) -> frozenset[str]:
    """Words without one of which a line names no place."""
    (_, limbs), (_, loops) = spoken()["limb"], spoken()["free loops"]
    return frozenset({*limbs, *loops, "path", "left", *(words[0] for words in names)})


def placed(tokens: list[Token], names: Names) -> list[Token]:
    """The tokens with one for each place that is named."""
    found: list[Token] = []
    at = 0
    while at < len(tokens):
        place = _Place(tokens, names).at(at)
        if place is None:
            found.append(tokens[at])
            at += 1
            continue
        onto, number, end = place
        first = tokens[at]
        last = tokens[end - 1].end
        text = first.source.text[first.start : last]
        found.append(
            Token("onto", text, number, first.source, first.start, last, first.glued, None, onto)
        )
        at = end
    return found


@dataclass(frozen=True, slots=True)
class _Place:
    tokens: Sequence[Token]
    names: Names

    def at(self, at: int) -> tuple[Onto, int, int] | None:
        """The place named from a token on, a number of stitches in its words, where they end."""
        lead = self.tokens[at].part in _LEADS
        if not lead and not (at and self.tokens[at - 1].part in _BEHIND):
            return None
        start = at + lead
        if lead and self.text(start) == "path":
            return Onto(Spot.PATH), 0, start + 1
        return (self.left(start) if lead else None) or self.piece(start, self.tokens[at].part)

    def text(self, at: int) -> str:
        if at >= len(self.tokens):
            return ""
        token = self.tokens[at]
        return plain(token.source.text[token.start : token.end])

    def part(self, at: int) -> str:
        return self.tokens[at].part if at < len(self.tokens) else "end"

    def piece(self, start: int, lead: str) -> tuple[Onto, int, int] | None:
        """'first leg', 'front of first arm and body', 'the body and first arm'."""
        front = self.text(start) == "front"
        begin = start + front
        found = self.named(begin, lead)
        if found is None:
            return None
        key, copy, end = found
        both = (self.part(end) == "and" and self.named(end + 1, "around", loosely=True)) or None
        if key == "" and copy == 0:
            if both is None or both[0] == "":
                return None  # the piece in hand, where the work goes anyway
            return Onto(Spot.PIECE, both[0], both[1], both=True, front=front), 0, both[2]
        if both is not None and both[0] == "":
            return Onto(Spot.PIECE, key, copy, both=True, front=front), 0, both[2]
        return Onto(Spot.PIECE, key, copy, front=front), 0, end

    def named(self, at: int, lead: str, loosely: bool = False) -> tuple[str, int, int] | None:
        """A piece by its name, alone or with 'first', 'second', 'left' before it: its key, which
        copy, and where the words end."""
        known = self.known(at)
        if known and (lead == "around" or self.part(at) in ("aside", "word")):
            return known[0], 0, known[1]
        copy = self.which(at)
        known = self.known(at + 1) if copy else None
        if known:
            return known[0], copy, known[1]
        token = self.tokens[at + bool(copy)] if at + bool(copy) < len(self.tokens) else None
        if token is None or token.value != "limb" or not (copy or loosely):
            return None
        word = self.text(at + bool(copy))
        return ("" if loosely and not copy and word == "body" else word), copy, at + bool(copy) + 1

    def known(self, at: int) -> tuple[str, int] | None:
        """The longest name of a piece that stands there."""
        for length in (4, 3, 2, 1):
            words = tuple(self.text(at + i) for i in range(length))
            if words in self.names:
                return self.names[words], at + length
        return None

    def which(self, at: int) -> int:
        part = self.part(at)
        if part == "first":
            return 1
        return self.tokens[at].number if part == "ord" else _SIDES.get(self.text(at), 0)

    def left(self, at: int) -> tuple[Onto, int, int] | None:
        """'unworked sts of R8', 'each of the 6 sts left unworked in R8'."""
        number, said = 0, False
        while (part := self.part(at)) in ("each", "next", "num", "st", "remain", "free"):
            number = self.tokens[at].number if part == "num" else number
            said |= part == "free"
            at += 1
        if not said or self.part(at) in _LOOPS:
            return None
        of = at + (self.part(at) == "in")
        known = self.known(of)
        key, of = known if known else ("", of)
        if self.part(of) == "round" and self.part(of + 1) == "num":
            return Onto(Spot.UNWORKED, key, 0, self.tokens[of + 1].number), number, of + 2
        return Onto(Spot.UNWORKED, key), number, of if known else at
