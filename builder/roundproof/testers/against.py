"""A report held against its pattern: whether it is of this one, which version, and whether there
are the yarns, pieces and rounds that it speaks of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, TypeVar

from roundproof.fabric.edges import EdgeProblem
from roundproof.fabric.model import Fabric
from roundproof.findings import Edit
from roundproof.frozen import dataclass
from roundproof.measure.figures import number
from roundproof.pattern.desk import Desk
from roundproof.pattern.kinds import Named
from roundproof.pattern.model import Pattern
from roundproof.pattern.near import nearest
from roundproof.source import Located, Source, Span, Text
from roundproof.testers.model import Note, Place, Report, Said, Standing, YarnUsed
from roundproof.testers.places import elsewhere, place_in, place_said, whole
from roundproof.testers.versions import known, standing

T = TypeVar("T")
_QUESTIONS = ("guessed", "materials", "abbreviations")


@dataclass(frozen=True, slots=True)
class Against:
    """What a report is held against."""

    pattern: Pattern
    fabric: Fabric

    def report(self, fields: dict[str, Any], source: Source, desk: Desk) -> Report:
        """The report that some fields make. What the pattern does not have is said, and kept."""
        start = source.span(0, 0)
        fields.pop("format", None)
        where = self._standing(fields.get("pattern"), fields.get("version"), start, desk)
        own = where is not Standing.OTHER
        rounds, more = fields.pop("rounds", ()), fields.pop("corrections", ())
        asked = {name: fields.pop(name, None) for name in _QUESTIONS}
        notes = (*self._rounds(rounds, desk, own), *self._more(more, desk, own), *_asked(asked))
        yarns = self._by_yarn(fields.pop("yarns", ()), desk, own)
        for key, used in yarns.items():
            _weighed(key, used, desk)
        return Report(
            file=source.name,
            span=start,
            standing=where,
            notes=notes,
            yarns=yarns,
            gauge=self._by_yarn(fields.pop("gauge", ()), desk, own),
            stitches=self._by_piece(fields.pop("stitches", ()), desk, own),
            **fields,
        )

    def _standing(
        self, slug: Located[str] | None, version: Located[str] | None, start: Span, desk: Desk
    ) -> Standing:
        """A report of another pattern speaks of other pieces and yarns: they are not looked for."""
        for name, said in (("pattern", slug), ("version", version)):
            if said is None and ("a report", name) not in desk.faulty:
                mend = f"Add `{name}:` as it is printed on the copy."
                desk.say("value-missing", start, f"The report does not say its `{name}`.", mend)
        if slug is not None and slug.value != self.pattern.slug:
            here = self.pattern.slug
            what = f"This is a report on `{slug.value[:60]}`, and it lies beside `{here}`."
            desk.say(
                "value-unknown", slug.span, f"{what} Nothing of it is counted here.",
                f"Move it to the other pattern's folder, or write `pattern: {here}`.",
                edits=(Edit(slug.span, here),) if nearest(slug.value, (here,)) else (),
            )  # fmt: skip
            return Standing.OTHER
        if version is None:
            return Standing.UNKNOWN
        found = standing(self.pattern, version.value)
        if found is Standing.UNKNOWN:
            there = ", ".join(known(self.pattern)[:6])
            what = f"There never was a version {version.value}. Its figures are not counted."
            mend = f"The versions are: {there}. Write the one on the copy."
            desk.say("value-unknown", version.span, what, mend)
        return found

    # ---- what was said ----
    def _rounds(self, pieces: Iterable[Named], desk: Desk, own: bool) -> Iterator[Note]:
        for piece in pieces:
            known_piece = self._known(piece.key, self._pieces, "piece", desk) if own else None
            for each in piece.value:
                words = f"{piece.key.value} {each.key.value}"
                found: Place | EdgeProblem = elsewhere(words)
                if known_piece is not None:
                    found = place_in(self.fabric, known_piece, each.key.value)
                place = _settled(found, words, each.key.span, desk, known_piece)
                yield from (Note(place, said) for said in each.value)

    def _more(
        self, corrections: Iterable[tuple[Located[str], Said]], desk: Desk, own: bool
    ) -> Iterator[Note]:
        for where, said in corrections:
            found = place_said(self.fabric, where.value) if own else elsewhere(where.value)
            yield Note(_settled(found, where.value, where.span, desk), said)

    # ---- what belongs to a yarn or a piece ----
    @property
    def _pieces(self) -> dict[str, str]:
        """Keys by what a piece may be called."""
        keys = {key: key for key in self.fabric.pieces}
        return {w.piece.name: key for key, w in self.fabric.pieces.items()} | keys

    def _by_yarn(self, said: Iterable[Named], desk: Desk, own: bool) -> dict[str, Any]:
        words = {word: yarn.key for yarn in self.pattern.yarns for word in yarn.words}
        keys = words | {yarn.key: yarn.key for yarn in self.pattern.yarns}
        return self._keyed(said, keys, "yarn", desk, own)

    def _by_piece(self, said: Iterable[Named], desk: Desk, own: bool) -> dict[str, Any]:
        return self._keyed(said, self._pieces, "piece", desk, own)

    def _keyed(
        self, said: Iterable[Named], keys: dict[str, str], what: str, desk: Desk, own: bool
    ) -> dict[str, Any]:
        """Values by the pattern's own keys, or by the report's where the pattern has none such."""
        found: dict[str, Any] = {}
        for named in said:
            key = self._known(named.key, keys, what, desk) if own else None
            name = key or named.key.value
            if name in found:
                message = f"The {what} `{name[:60]}` is told of twice; only the first is counted."
                desk.say("key-doubled", named.key.span, message, "Keep one of the two.")
            found.setdefault(name, named.value)
        return found

    def _known(self, said: Located[str], keys: dict[str, str], what: str, desk: Desk) -> str | None:
        """The key that some words stand for; None, and a finding, where there is none."""
        low = {word.lower(): key for word, key in keys.items()}
        if (key := low.get(said.value.strip().lower())) is not None:
            return key
        near = nearest(said.value, keys)
        there = ", ".join(f"`{key}`" for key in list(dict.fromkeys(keys.values()))[:12])
        mend = f"Did you mean `{near}`?" if near else f"The {what}s are: {there}."
        edits = (Edit(said.span, keys[near]),) if near else ()
        message = f"The pattern has no {what} `{said.value[:60]}`."
        desk.say("key-unknown", said.span, message, mend if keys else "", edits=edits)
        return None


def _settled(
    found: Place | EdgeProblem, words: str, span: Span, desk: Desk, piece: str | None = None
) -> Place:
    """The place, or the words as they stand where there is none such in the pattern."""
    if isinstance(found, Place):
        return found
    with desk.at(piece):
        desk.say("key-unknown", span, found.message, found.mend)
    return elsewhere(words)


def _asked(answers: dict[str, Text | None]) -> Iterator[Note]:
    """Answers to what was asked about the whole pattern."""
    for name, answer in answers.items():
        if answer is not None:
            yield Note(whole(), Said(answer.span, remark=answer), name)


def _weighed(key: str, used: YarnUsed, desk: Desk) -> None:
    before, after = used.before, used.after
    if before is None or after is None or after.value <= before.value:
        return
    what = (
        f"{number(after.value, 1)} g of `{key}` are left of {number(before.value, 1)} g: that is"
        " more than there was."
    )
    desk.say("value-kind", after.span, what, "Look whether `before` and `after` are swapped.")
