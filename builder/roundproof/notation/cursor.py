"""A place in a line of tokens, and what can be asked there."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from roundproof.notation.tokens import Token
from roundproof.notation.tree import Chain, Colour, Fill, Loop, Repeat, Stitches, Times, Where
from roundproof.source import Span

_PAST = ("end",) * 16
"""Stands behind the last token, so that one may look past it."""

BRACKETS = {"(": ")", "[": "]", "{": "}"}
CLOSE = {**BRACKETS, "<": ">"}
"""What closes each sign that may open a group or a count."""

SEPARATORS = (",", ";", ".", "+", "/", ":", "|", "and")

WORKED = frozenset({"stitch", "foreign", "own", "inc", "dec", "inv dec", "tog", "foreign tog"})
"""Parts that are worked."""

LOOPS = {"flo": Loop.FRONT, "blo": Loop.BACK, "both loops": Loop.BOTH}


_TIMES: dict[str, tuple[tuple[tuple[str, ...], int], ...]] = {
    "times": ((("times", "num"), 0),),
    "num": (
        (("num", "more", "times"), 1),
        (("num", "times", "more"), 1),
        (("num", "times"), 0),
        (("num", "times in all"), 0),
    ),
    "*": ((("*", "num"), 0),),
    "(": ((("(", "times", "num", ")"), 0), (("(", "num", "times", ")"), 0)),
}
"""Ways to say how often, by their first part; and how many to add ('5 more times' is six)."""


class Unread(Exception):
    """A wording that is not read, at a token, with what was expected there in plain words. Never
    leaves this room."""

    def __init__(self, token: Token | None, expected: str, unpaired: bool = False) -> None:
        self.token = token
        self.expected = expected
        self.unpaired = unpaired


class Cursor:
    """Walks over tokens. `taken` says which meaning each two-way wording gets, in order."""

    def __init__(self, tokens: Sequence[Token], taken: tuple[int, ...] = ()) -> None:
        self.tokens = tokens
        self.seq = (*[token.part for token in tokens], *_PAST)
        self.at = 0
        self.taken = taken
        self.choices = 0
        self.doubts: list[Token] = []
        """Words taken for one of the things they may stand for."""
        self.asides: list[tuple[int, int]] = []
        """Remarks gone past, as (first token, past the last)."""
        self.before: Sequence[object] = []
        """What the group in hand has so far."""
        self.filled: Fill | None = None
        """What was said behind a number of stitches of filling the round."""

    back_down = False
    """Whether the chains made last are worked back from the hook."""
    on_own_chain = False
    """Whether the chain word taken last names chains made in the middle of this round."""

    @cached_property
    def last_worked(self) -> int:
        """The place of the last token that is worked; -1 where there is none."""
        return next((i for i in reversed(range(len(self.tokens))) if self.seq[i] in WORKED), -1)

    @cached_property
    def last_stitch(self) -> int:
        """The same, but for slip stitches and chains, which may close a round behind its count."""
        for at in reversed(range(len(self.tokens))):
            worked = self.seq[at] in WORKED or self.seq[at] == "ring"
            if worked and self.tokens[at].value not in ("sl st", "ch"):
                return at
        return -1

    def part(self, ahead: int = 0) -> str:
        """The part played by a token further on; 'end' past the last one."""
        return self.seq[self.at + ahead]

    def value(self, ahead: int = 0) -> str:
        at = self.at + ahead
        return self.tokens[at].value if at < len(self.tokens) else ""

    def take(self) -> Token:
        token = self.tokens[self.at]
        self.at += 1
        return token

    def looks(self, *parts: str) -> bool:
        """Whether these parts stand next."""
        at = self.at
        return self.seq[at] == parts[0] and self.seq[at : at + len(parts)] == parts

    def match(self, *parts: str) -> bool:
        """Take these parts if they all stand next."""
        at = self.at
        if self.seq[at] != parts[0] or self.seq[at : at + len(parts)] != parts:
            return False
        self.at += len(parts)
        return True

    def skip(self, *parts: str) -> None:
        """Take any of these parts, as many as there are."""
        while self.seq[self.at] in parts:
            self.at += 1

    def number(self, form: tuple[str, ...]) -> int | None:
        """Take a form with one number in it and give the number."""
        if self.seq[self.at] != form[0] or not self.looks(*form):
            return None
        found = self.tokens[self.at + form.index("num")].number
        self.at += len(form)
        return found

    def span(self, start: int) -> Span:
        """From the token at `start` to the one taken last."""
        first = self.tokens[start]
        return Span(first.source, first.start, self.tokens[max(start, self.at - 1)].end)

    def fail(self, expected: str) -> Unread:
        token = self.tokens[self.at] if self.at < len(self.tokens) else None
        return Unread(token or (self.tokens[-1] if self.tokens else None), expected)

    def choose(self) -> int:
        """0 or 1: the meaning that this pass takes of a wording that has two."""
        index = self.choices
        self.choices += 1
        return self.taken[index] if index < len(self.taken) else 0

    # ---- how often, how far, through which loop ----

    def times(self) -> Times | None:
        """'x 6', '6 times', '5 more times', ')6', '*6', or as far as `reach` says."""
        part = self.seq[self.at]
        for form, more in _TIMES.get(part, ()):
            found = self.number(form)
            if found is not None:
                return found + more
        if part == "twice":
            self.at += 1
            return 3 if self.match("more") else 2
        closed = self.at > 0 and self.seq[self.at - 1] in (")", "]", "}")
        if closed and part == "num" and self.tokens[self.at].glued:
            return self.take().number
        return self.reach()

    def reach(self) -> Fill | None:
        """'around', 'to last 3 sts', 'until 3 sts remain'."""
        around = self.match("around")
        while self.match("around"):
            pass  # 'evenly around'
        before = self._before() if self.seq[self.at] == "to" else None
        if not around and before is None:
            return None
        return Fill(before or 0)

    def _before(self) -> int | None:
        for form in (("to", "last", "num"), ("to", "num", "st", "remain")):
            found = self.number(form)
            if found is not None:
                self.place_word()
                return found
        return 1 if self.match("to", "last", "st") else None

    def loop(self) -> Loop | None:
        """'BLO', 'in BLO', 'in back loops only'."""
        if self.part() == "in" and self.part(1) in LOOPS:
            self.at += 1
        return LOOPS[self.take().part] if self.part() in LOOPS else None

    @property
    def used(self) -> int | None:
        """Stitches that the group in hand has used so far; None where that cannot be told yet."""
        used = 0
        for item in self.before:
            if isinstance(item, Repeat):
                return None
            if isinstance(item, Stitches):
                if not isinstance(item.times, int):
                    return None
                used += item.unit.uses * item.times
        return used

    def yarn(self) -> Colour | None:
        """'with sand', 'in A', 'brown': a yarn of the pattern, a colour, or an unknown word where
        only a yarn can stand."""
        start = self.at
        lead = self.part() in ("with", "in", "change")
        what = self.part(int(lead))
        unknown = what == "word" and (self.part() == "with" or self._letter_ahead(int(lead)))
        if what not in ("colour", "hue") and not unknown:
            return None
        self.at += lead
        last = self.take()
        while last.part == "hue" and self.part() == "hue":
            last = self.take()  # 'light blue'
        if self.value() == "yarn":
            self.at += 1  # 'brown yarn'
        said = self.span(start) if last.part == "colour" else self.span(start + lead)
        value = last.value if last.part == "colour" else said.text
        ahead = int(self.part() in ("in", "on"))
        if self.tokens[start].part == "change" and self.part(ahead) == "last":
            self.at += ahead + 1 + (self.part(ahead + 1) == "num")
            self.place_word()  # 'change to white in the last st'
        if lead:
            self.match("around")  # 'back to russet for the whole round'
        return Colour(value, said)

    def _letter_ahead(self, ahead: int) -> bool:
        """Whether a capital letter stands there by itself: 'in A'."""
        text = self.tokens[self.at + ahead].span.text
        return len(text) == 1 and text.isupper()

    def free_loops_follow(self) -> bool:
        """'in the free front loops of R6', 'in the back loops left over from R8'."""
        ahead = int(self.part() in ("in", "to"))
        ahead += self.part(ahead) == "each"
        free = self.part(ahead) in ("free", "remain")
        ahead += free
        if self.part(ahead) not in LOOPS:
            return False
        ahead += 1
        while self.part(ahead) in ("free", "remain", "in", "from"):
            ahead += 1
        return free or (self.part(ahead) == "round" and self.part(ahead + 1) == "num")

    def place_word(self) -> bool:
        """Take a word that names what is worked into: 'st', 'ch', 'each sc'. A stitch with a
        number behind it is the next thing to work ('inc in next sc 3')."""
        self.on_own_chain = False
        found = self.match("st") or self.chain_word()
        if not found and self.part() in ("stitch", "foreign") and self.part(1) != "num":
            self.at += 1
            found = True
        self.match("st")  # 'ch sts', 'sc stitches'
        while found and self.part() == "aside":
            self.at += 1  # 'in next 3 sts of the body'
        return found

    def _chained_within(self) -> bool:
        """Whether chains were made between stitches of this round, and not worked back down."""
        worked = chained = False
        for item in self.before:
            if self.back_down or (isinstance(item, Stitches) and item.where is Where.HOOK):
                return False
            chained |= worked and isinstance(item, Chain)
            worked |= isinstance(item, Stitches | Repeat)
        return chained

    def chain_word(self) -> bool:
        """Take the word 'ch' where it names a place, not a stitch to make."""
        self.on_own_chain = False
        if self.value() != "ch":
            return self.match("space")
        self.at += 1
        self.on_own_chain = self._chained_within()
        if self.looks("-", "num", "space"):
            self.at += 3  # 'in next ch-3 sp'
        self.match("space")
        return True
