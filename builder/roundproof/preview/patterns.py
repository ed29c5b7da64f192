"""The patterns of a preview: what came of each as its files are now, and its last good pages."""

from __future__ import annotations

import threading
from collections.abc import Container, Iterator, Mapping
from pathlib import Path

from roundproof.checks.results import Result
from roundproof.frozen import dataclass, replace
from roundproof.making import Found, Made, Maker, Making, Pages, made_anew, planned
from roundproof.pages.findings_shown import ShownFinding, shown
from roundproof.pages.pattern_folder import Listing, Unread, unread
from roundproof.pattern.files import PatternFile
from roundproof.processes import ToMend
from roundproof.store import key

FEW = 3
"""Patterns that are made at once, pages and all; of more, pages only as they are asked for."""


@dataclass(frozen=True, slots=True)
class Broken:
    """A file of which nothing can be made now. `kept` says whether a last good page is shown."""

    file: str
    findings: tuple[ShownFinding, ...]
    kept: bool


@dataclass(frozen=True, slots=True)
class Pattern:
    """One pattern file. `sign` stands for all it depends on. `good` is the last state that a page
    could be made of, its sign and what was found then; None if there was none yet. `pages` are
    those that are shown, None until they are asked for."""

    file: PatternFile
    sign: str
    found: Found
    good: tuple[str, Found] | None
    pages: Pages | None = None

    @property
    def shows(self) -> str:
        """The sign of the state that is shown."""
        return self.good[0] if self.good else self.sign

    @property
    def listing(self) -> Listing:
        found = self.good[1] if self.good else self.found
        assert found.listing  # the preview shows every pattern
        return found.listing


class Patterns:
    """All patterns of a preview. One thread looks at the disk; any may ask for what is shown."""

    def __init__(self, making: Making, folder: Path) -> None:
        self.folder = folder
        self.all: Mapping[Path, Pattern] = {}
        self.said: tuple[Result, ...] = ()
        self._lock = threading.Lock()
        self._tried: set[str] = set()
        """Signs of states whose pages were made ahead, or could not be."""
        self.making, self.maker = making, Maker(making)

    def in_another_frame(self, making: Making) -> None:
        """Every page is to be filled anew, once it is asked for; but a last good one stays."""
        self.making, self.maker = making, Maker(making)
        self._tried.clear()
        with self._lock:
            self.all = {
                path: replace(each, pages=None) if each.shows == each.sign else each
                for path, each in self.all.items()
            }

    def look(self, first: Container[str] = ()) -> Iterator[None]:
        """Takes in what changed on the disk, and yields after each part of it. Patterns at the
        addresses `first` come before the others."""
        self.maker.begin_again()
        said, files = planned(self.maker.proving, self.folder)
        signs = {file.path: self.maker.sign(file) for file in files}
        there = {file.path: file for file in files}
        different = said != self.said or there.keys() != self.all.keys()
        self.said = said
        changed = {p: f for p, f in there.items() if self._sign(p) != signs[p]}
        urgent = {p: f for p, f in changed.items() if len(changed) <= FEW or self._at(p) in first}
        if urgent:
            made = {path: self._made(file, signs[path]) for path, file in urgent.items()}
            self._take(there, signs, made)
            yield
        if rest := {p: f for p, f in changed.items() if p not in urgent}:
            self._take(there, signs, self._found(rest, signs))
            yield
        if different and not changed:
            self._take(there, signs, {})
            yield

    def _sign(self, path: Path) -> str:
        return self.all[path].sign if path in self.all else ""

    def _at(self, path: Path) -> str:
        return self.all[path].listing.address if path in self.all else ""

    def _made(self, file: PatternFile, sign: str) -> Made:
        if kept := self.maker.kept(sign, pages=True):
            return kept
        try:
            return self.maker.made(file, sign, pages=True)
        except ToMend:  # which is said where the page is asked for
            return self.maker.made(file, sign, pages=False)

    def _found(
        self, files: Mapping[Path, PatternFile], signs: Mapping[Path, str]
    ) -> dict[Path, Made]:
        """What was found of many, whose pages nobody asked for yet."""
        kept = {path: self.maker.kept(signs[path], pages=False) for path in files}
        anew = dict(enumerate(file for path, file in files.items() if kept[path] is None))
        many = made_anew(self.making, anew, pages=False)
        made = {path: one for path, one in kept.items() if one}
        return made | {anew[number].path: one for number, one in many.items()}

    def _take(
        self,
        there: Mapping[Path, PatternFile],
        signs: Mapping[Path, str],
        made: Mapping[Path, Made],
    ) -> None:
        with self._lock:
            new = {
                path: self._pattern(file, signs[path], made[path])
                for path, file in there.items()
                if path in made
            }
            both = {**self.all, **new}
            self.all = {path: both[path] for path in there if path in both}

    def _pattern(self, file: PatternFile, sign: str, made: Made) -> Pattern:
        before, pointer = self.all.get(file.path), key("good", str(file.path.resolve()))
        if not self._is_broken(made.found):
            self.maker.store.put(pointer, sign.encode())
            return Pattern(file, sign, made.found, (sign, made.found), made.pages)
        if before and before.good and (before.pages or self._is_made(before.good[0])):
            return Pattern(file, sign, made.found, before.good, before.pages)
        return Pattern(file, sign, made.found, self._last_good(pointer))

    def _is_broken(self, found: Found) -> bool:
        return found.result.status is None or any(not result.usable for result in self.said)

    def _last_good(self, pointer: str) -> tuple[str, Found] | None:
        """As an earlier preview left it."""
        sign = (self.maker.store.get(pointer) or b"").decode("ascii", "replace")
        kept = self.maker.kept(sign, pages=True) if sign else None
        return (sign, kept.found) if kept and kept.found.listing else None

    def prepare(self) -> bool:
        """Makes the pages of one pattern that nobody asked for yet: should its file break, they
        are the last good ones. Whether there was one to make."""
        for path, each in self.all.items():
            if each.pages is None and each.sign not in self._tried:
                self._tried.add(each.sign)
                if not self._is_broken(each.found) and not self._is_made(each.sign):
                    self._made(self.all[path].file, each.sign)
                    return True
        return False

    def _is_made(self, sign: str) -> bool:
        return self.maker.kept(sign, pages=True) is not None

    # ---- what is shown ----
    def files(self, path: Path) -> Mapping[str, bytes]:
        """All files of a pattern's folder by their addresses."""
        each = self.all[path]
        pages = each.pages or self._pages(each)
        with self._lock:
            if self.all.get(path) is each:
                self.all = {**self.all, path: replace(each, pages=pages)}
        return {file.address: file.data for file in pages.files}

    def _pages(self, each: Pattern) -> Pages:
        kept = self.maker.kept(each.shows, pages=True)
        made = kept or self.maker.made(each.file, each.sign, pages=True)
        return made.pages or Pages()

    def broken(self, path: Path) -> tuple[Broken, ...]:
        """What keeps a pattern's page from being that of its files as they are now."""
        each = self.all[path]
        own = [each.found.result] if each.good and each.found.result.status is None else []
        shared = [result for result in self.said if not result.usable]
        kept = each.shows != each.sign
        return tuple(Broken(r.name, shown(r.findings), kept) for r in (*own, *shared))

    @property
    def unread(self) -> tuple[Unread, ...]:
        """Files that nothing can be made of now, and shared ones with something to be said."""
        found = (each.found.listing for each in self.all.values())
        own = (listing.unread for listing in found if listing and listing.unread)
        return (*map(unread, self.said), *own)

    @property
    def listings(self) -> tuple[Listing, ...]:
        return tuple(each.listing for each in self.all.values())

    def at(self, folder: str) -> Path | None:
        """The pattern whose folder stands at an address."""
        here = (path for path, each in self.all.items() if each.listing.address == folder)
        return next(here, None)
