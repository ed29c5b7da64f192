"""A proof → its PDF, for whoever it is meant for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from threading import Lock

from roundproof.findings import Finding
from roundproof.frozen import replace
from roundproof.pages import photos
from roundproof.pages.paper.booklet import booklet, copy_of
from roundproof.pages.paper.how import Copy, Print
from roundproof.pages.paper.review import review
from roundproof.pages.paper.typeset import Printed, Ready, ready, typeset
from roundproof.pages.pattern import pattern_page
from roundproof.pages.review import review_page
from roundproof.pages.values import PatternPage, Picture
from roundproof.pattern.answers import read_answers
from roundproof.pattern.model import Pattern
from roundproof.proof import Proof
from roundproof.store import Store


class Printer:
    """Prints booklets of one pattern; what they have in common is worked out once."""

    def __init__(self, proof: Proof, store: Store | None = None) -> None:
        self.proof = proof
        made = photos.of_pattern(proof, store)
        self.pictures = {n: one for n, one in made.items() if isinstance(one, photos.Picture)}
        shown = {
            name: Picture(one.src, one.width, one.height) for name, one in self.pictures.items()
        }
        self.page: PatternPage = pattern_page(proof, shown)
        self.made: dict[Print, Ready] = {}
        self.lock = Lock()

    def booklet(self, how: Print) -> Printed:
        """The maker's booklet, a tester's copy or a class pack."""
        own = copy_of(self.page, how.copy)
        return typeset("booklet", self.ready(how), day_of(self.proof.pattern), own)

    def ready(self, how: Print) -> Ready:
        """What is printed. Copies for several testers differ in whose they are alone."""
        alike = replace(how, copy=Copy("")) if how.copy else how
        with self.lock:
            found = self.made.get(alike)
            if found is None:
                values = booklet(self.proof, self.page, alike)
                found = self.made[alike] = ready(values, self.files(how))
        return found

    def files(self, how: Print) -> Mapping[str, bytes]:
        """The photos by the names that the values give them."""
        if not how.photos:
            return {}
        return {one.src: one.files[one.src] for one in self.pictures.values()}


def review_copy(proof: Proof, findings: Sequence[Finding], paper: str) -> Printed:
    """The editor's review copy."""
    answers, unread = read_answers(proof.folder)
    page = review_page(proof, findings, answers, unread)
    return typeset("review", ready(review(proof, page, paper)), day_of(proof.pattern))


def day_of(pattern: Pattern) -> int:
    """The pattern's own date, so that the same pattern gives the same bytes on any day."""
    if pattern.date is None:
        return 0
    day = pattern.date.value
    return max(0, int(datetime(day.year, day.month, day.day, tzinfo=UTC).timestamp()))
