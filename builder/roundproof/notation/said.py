"""What the reader has to say: each complaint once, at its words, with a mend."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.findings import Edit, Finding, Severity
from roundproof.frozen import replace
from roundproof.notation.cursor import Unread
from roundproof.notation.tokens import Lexicon, Token
from roundproof.notation.tree import Again, Label, Script
from roundproof.reference import stitch
from roundproof.source import Line, Span


def one_of_terms(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Names of the other terms are one mistake, however many there are: the first is reported, with
    the mends of all of them."""
    mixed = [f for f in findings if f.check == "terms-mixed"]
    if len(mixed) < 2:
        return tuple(findings)
    names = list(dict.fromkeys(f"`{f.span.text}`" for f in mixed[1:]))
    more = f" So {'are' if len(names) > 1 else 'is'} {', '.join(names[:6])} further on."
    edits = tuple(edit for f in mixed for edit in f.edits)
    first = replace(mixed[0], message=mixed[0].message + more, edits=edits)
    return tuple(first if f is mixed[0] else f for f in findings if f not in mixed[1:])


def wrongly_repeated(script: Script, piece: str) -> list[Finding]:
    """'R4: repeat R2-R9' where R9 is still to come, or not as many rounds as the label says."""
    found: list[Finding] = []
    worked: list[int] = []
    for round_ in script.rounds:
        label = round_.label
        wrong = _wrongly(label, round_.repeats, worked) if round_.repeats else None
        if wrong:
            check, span, message, mend = wrong
            found.append(Finding(check, Severity.ERROR, span, message, mend, piece, str(label)))
        worked += [label.first, label.last]
    return found


def _wrongly(
    label: Label, again: Again, worked: Sequence[int]
) -> tuple[str, Span, str, str] | None:
    named = f"R{again.first}" if again.first == again.last else f"R{again.first}-R{again.last}"
    before = any(again.first <= n <= again.last for n in worked)
    rounds = (again.last - again.first + 1) * again.times
    if not before or again.last > max(worked):
        there = f"The rounds before it are R{min(worked)} to R{max(worked)}." if worked else ""
        mend = there or "Write out the rounds that are meant."
        message = f"{label} repeats {named}, and not all of that stands before it."
        return "round-unread", again.span, message, mend
    if again.times > 1 and rounds != label.rounds:
        message = (
            f"{named} worked {again.times} times is {rounds} rounds; {label} is {label.rounds}."
        )
        mend = f"Label it R{label.first}-R{label.first + rounds - 1}."
        return "round-order", label.span, message, mend
    return None


class Complaints:
    """Collects the findings of one piece while it is read."""

    def __init__(self, lexicon: Lexicon, piece: str) -> None:
        self.lexicon = lexicon
        self.piece = piece
        self.findings: list[Finding] = []
        self._foreign: set[str] = set()

    def unread(self, unread: Unread, where: Label, work: Span) -> None:
        """A round that is not read: named at the word where reading stopped."""
        token = unread.token
        expected = f"Expected here: {unread.expected}."
        if token is None:
            self._add("round-unread", work, f"{where} says nothing to work.", expected, where)
        elif unread.unpaired:
            sign = "repeat from" if token.part == "*" else "bracket"
            message = f"The {sign} `{token.span.text}` in {where} has no partner."
            self._add("round-unread", token.span, message, f"Write {unread.expected}.", where)
        elif token.part == "word":
            self._unknown(token, where, expected)
        else:
            message = f"{where} cannot be read from `{token.span.text}` on."
            self._add("round-unread", token.span, message, expected, where)

    def _unknown(self, token: Token, where: Label, expected: str) -> None:
        message = (
            f"`{token.span.text}` in {where} is not a stitch or a word of the trade known here."
        )
        near = self.lexicon.nearest(token.value)
        if near:
            edit = (Edit(token.span, near),)
            mend = f"Did you mean `{near}`?"
            self._add("abbreviation-unknown", token.span, message, mend, where, edit)
        else:
            self._add("abbreviation-unknown", token.span, message, expected, where)

    def foreign(self, tokens: Sequence[Token], where: Label) -> None:
        """Stitch names of the other terms, each name once a piece."""
        mine, other = ("UK", "US") if self.lexicon.uk else ("US", "UK")
        for token in [t for t in tokens if t.part in ("foreign", "foreign tog")]:
            written = token.span.text
            if written.lower() in self._foreign:
                continue
            self._foreign.add(written.lower())
            short = stitch(token.value).short(self.lexicon.uk)
            right = f"{short}{token.number}tog" if token.part.endswith("tog") else short
            self._add(
                "terms-mixed",
                token.span,
                f"`{written}` is a {other} name, and this pattern is written in {mine} terms.",
                f"In {mine} terms it is `{right}`. If all of it is in {other} terms, write"
                f" `terms: {other}`.",
                where,
                (Edit(token.span, right),),
            )

    def too_high(self, where: Label) -> None:
        message = f"No piece has as many rounds as {where.span.text} says."
        self._add("round-unread", where.span, message, "Correct the number of the round.", where)

    def rounds(self, where: Label, said: int, span: Span) -> None:
        """'R5-R9 (4 rounds)' is five rounds."""
        if said == where.rounds:
            return
        last = where.first + max(1, said) - 1
        self._add(
            "round-order",
            span,
            f"{where} is {where.rounds} rounds, and the text says {said}.",
            f"Write {where.rounds}, or end the range at R{last}.",
            where,
            (Edit(span, str(where.rounds)),),
        )

    def note_like_round(self, line: Line) -> None:
        text = line.text
        self.findings.append(
            Finding(
                "note-like-round",
                Severity.WARNING,
                line.span.cut(len(text) - len(text.lstrip()), len(text.rstrip())),
                "This line has no label but reads like a round; it is taken for a note.",
                "Give it a label if it is to be worked, or start it with `Note:`.",
                self.piece,
            )
        )

    def _add(
        self,
        check: str,
        span: Span,
        message: str,
        mend: str,
        where: Label,
        edits: tuple[Edit, ...] = (),
    ) -> None:
        self.findings.append(
            Finding(check, Severity.ERROR, span, message, mend, self.piece, str(where), edits)
        )
