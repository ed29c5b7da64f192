"""What printed pages, web pages and mail have beside the text of some notes."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from roundproof.frozen import dataclass
from roundproof.writing.pasted_marks import NoteLine
from roundproof.writing.pasted_words import JUNK


@dataclass(frozen=True, slots=True)
class Loose:
    """A line that has no place in a pattern; `why` is "" where nothing is known of it, else
    "junk", "abbreviations", "rule" or "heading"."""

    line: NoteLine
    why: str = ""


def without_junk(lines: Sequence[NoteLine]) -> tuple[list[NoteLine], list[Loose]]:
    """The lines without page numbers, what stands above or below those on each page, ruled lines
    and what web pages put between; and those."""
    pages = {i for i, line in enumerate(lines) if re.match(r"(?i)^\W*page \d+\b", line.text)}
    lone = [(i, int(x.text)) for i, x in enumerate(lines) if re.fullmatch(r"\d{1,3}", x.text)]
    if len(lone) > 1 and all(b[1] == a[1] + 1 for a, b in pairwise(lone)):
        pages |= {i for i, _ in lone}
    inked = [i for i, line in enumerate(lines) if line.text]
    beside = Counter(t for t in (lines[i].text for i in _beside(inked, pages)) if len(t) > 5)
    kept: list[NoteLine] = []
    loose: list[Loose] = []
    for i, line in enumerate(lines):
        running = bool(pages) and beside[line.text] > 1
        if line.mark == "rule":
            loose.append(Loose(line, "rule"))
        elif i in pages or running or (line.text and JUNK.match(line.text)):
            loose.append(Loose(line, "junk"))
            if kept and kept[-1].blank and i + 1 < len(lines) and lines[i + 1].blank:
                kept.pop()  # the blank lines round it become one
        else:
            kept.append(line)
    return kept, loose


def _beside(inked: Sequence[int], pages: set[int]) -> list[int]:
    return [
        inked[n + step]
        for n, i in enumerate(inked)
        if i in pages
        for step in (-1, 1)
        if 0 <= n + step < len(inked) and inked[n + step] not in pages
    ]
