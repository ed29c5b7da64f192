"""A proof → its PDF, for whoever it is meant for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from threading import Lock

from roundproof.drawing.sheets import Sheets
from roundproof.findings import Finding
from roundproof.frozen import dataclass, replace
from roundproof.pages import photos as pictures_of
from roundproof.pages.paper.booklet import booklet, copy_of
from roundproof.pages.paper.how import Copy, Print
from roundproof.pages.paper.nodes import Choice
from roundproof.pages.paper.review import review
from roundproof.pages.paper.typeset import Printed, Ready, ready, typeset
from roundproof.pages.pattern import pattern_page
from roundproof.pages.review import review_page
from roundproof.pages.values import PatternPage, Picture
from roundproof.pattern.answers import read_answers
from roundproof.pattern.model import Pattern
from roundproof.proof import Proof


@dataclass(frozen=True, slots=True)
class Shown:
    """A pattern's page, its drawings, and its photos by the names that its file gives them."""

    page: PatternPage
    sheets: Sheets
    pictures: Mapping[str, pictures_of.Picture]


def shown(proof: Proof) -> Shown:
    made = pictures_of.of_pattern(proof)
    pictures = {name: one for name, one in made.items() if isinstance(one, pictures_of.Picture)}
    values = {name: Picture(one.src, one.width, one.height) for name, one in pictures.items()}
    return Shown(pattern_page(proof, values), Sheets(proof), pictures)


class Printer:
    """Prints booklets of one pattern; what they have in common is worked out once. `address` is
    where corrections are to be looked up."""

    def __init__(self, proof: Proof, address: str = "", given: Shown | None = None) -> None:
        self.proof = proof
        self.address = address
        self.shown = given or shown(proof)
        self.made: dict[Print, Ready] = {}
        self.lock = Lock()

    def booklet(self, how: Print) -> Printed:
        """The maker's booklet, a tester's copy or a class pack."""
        own, day = copy_of(self.shown.page, how.copy), day_of(self.proof.pattern)
        return typeset("booklet", self.ready(how), day, how.paper, own)

    def ready(self, how: Print) -> Ready:
        """What is printed, on any paper. Copies for several testers differ in whose they are
        alone."""
        alike = replace(how, paper="", copy=Copy("") if how.copy else None)
        with self.lock:
            found = self.made.get(alike)
            if found is None:
                values = booklet(self.shown.sheets, self.shown.page, alike, self.address)
                found = self.made[alike] = ready(values, self.files(how))
        return found

    def files(self, how: Print) -> Mapping[str, bytes]:
        """The photos by the names that the values give them."""
        if not how.photos:
            return {}
        return {one.src: one.files[one.src] for one in self.shown.pictures.values()}


def review_copy(proof: Proof, findings: Sequence[Finding], paper: str) -> Printed:
    """The editor's review copy, in the terms that the pattern is written in."""
    answers, unread = read_answers(proof.folder)
    page = review_page(proof, findings, answers, unread)
    how = Print(Choice(terms=proof.pattern.written_in.lower()), room=True)
    # Where makers see a part of it, editors see all.
    printer = Printer(replace(proof, pattern=replace(proof.pattern, show=None)))
    pattern = booklet(printer.shown.sheets, printer.shown.page, how)
    photos = [(one.file.value, one.alt.value if one.alt else "") for one in proof.pattern.photos]
    given = ready(review(page, photos, pattern, how.choice), printer.files(how))
    return typeset("review", given, day_of(proof.pattern), paper)


def day_of(pattern: Pattern) -> int:
    """The pattern's own date, so that the same pattern gives the same bytes on any day."""
    if pattern.date is None:
        return 0
    day = pattern.date.value
    return max(0, int(datetime(day.year, day.month, day.day, tzinfo=UTC).timestamp()))
