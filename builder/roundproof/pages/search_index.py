"""What the search looks through: a script, as browsers refuse to fetch a file from disk.

Only listed pages are in it, and of a pattern nothing that its page does not show to everyone.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator

from roundproof.frozen import dataclass
from roundproof.pages.check_pages import CheckPage
from roundproof.pages.facets import LEVELS
from roundproof.pages.glossary import Glossary
from roundproof.pages.prose import plain_text
from roundproof.pages.values import PatternPage
from roundproof.pattern.model import Pattern

ADDRESS = "js/search-index.js"
LONGEST = 180
"""Characters of the line that stands below a page's title among what was found."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A page, or a place on one: what kind it is, its title, where it is, a line about it, and
    further words by which it is found."""

    kind: str
    title: str
    address: str
    about: str
    words: str = ""


def search_script(entries: Iterable[Entry]) -> bytes:
    """The script, a line an entry."""
    lines = (
        json.dumps([e.kind, e.title, e.address, e.about, e.words], ensure_ascii=False)
        for e in entries
    )
    return ("self.searchIndex = [\n" + ",\n".join(lines) + "\n];\n").encode()


def pattern_entry(page: PatternPage, address: str, pattern: Pattern) -> Entry:
    specimen = pattern.specimen
    named = (specimen.name, specimen.scientific) if specimen else ()
    words = [
        page.level if page.level in LEVELS else "",
        page.designer,
        *(piece.name for piece in pattern.pieces),
        *(yarn.name for yarn in page.yarns),
        *((specimen.parts or {}) if specimen else ()),
        *(name.value for name in named if name),
    ]
    about = plain_text(pattern.summary)
    return Entry("pattern", page.title, address, cut(about), _once(words))


def word_entries(glossary: Glossary) -> Iterator[Entry]:
    """Every stitch and word in both terms."""
    for stitch in glossary.stitches:
        title = _both(stitch.us, stitch.uk)
        yield Entry("word", title, f"glossary.html#{stitch.id}", cut(stitch.says), stitch.spellings)
    for word in (*glossary.words, *glossary.techniques):
        title = _both(word.us, word.uk)
        yield Entry("word", title, f"glossary.html#{word.id}", cut(word.says), word.spellings)


def _both(us: str, uk: str) -> str:
    return us if uk in ("", us) else f"{us} (UK: {uk})"


def check_entries(checks: Iterable[CheckPage]) -> Iterator[Entry]:
    for check in checks:
        why = " ".join(check.why.striptags().split())
        yield Entry("check", check.title, check.address, cut(why), f"{check.id} {why[LONGEST:]}")


def written_entries(
    title: str, address: str, about: str, headings: Iterable[tuple[str, str]]
) -> Iterator[Entry]:
    """A page written in Markdown and its headings, as (words, id)."""
    yield Entry("page", title, address, cut(about))
    for words, id in headings:
        yield Entry("page", words, f"{address}#{id}", title)


def cut(text: str) -> str:
    """The text, or as much of its beginning as fits, up to the end of a word."""
    text = " ".join(text.split())
    if len(text) <= LONGEST:
        return text
    return text[:LONGEST].rpartition(" ")[0].rstrip(",;:.") + "…"


def _once(words: Iterable[str]) -> str:
    return " ".join(dict.fromkeys(" ".join(words).split()))
