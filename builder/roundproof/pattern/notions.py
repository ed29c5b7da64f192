"""Which notion of the list a word means."""

from __future__ import annotations

import re

from roundproof.pattern.model import Notion, Pattern


def notion_for(pattern: Pattern, word: str) -> Notion | None:
    """The notion that a word names: all words of the one are among those of the other."""
    wanted = stems(word)
    for notion in pattern.notions:
        listed = stems(notion.item.value)
        if wanted and listed and (wanted <= listed or listed <= wanted):
            return notion
    return None


def stems(words: str) -> frozenset[str]:
    """The words of a name, lower-case, without the ending of a plural."""
    return frozenset(re.sub(r"(?<=\w\w)s$", "", w) for w in re.findall(r"[^\W\d_]+", words.lower()))
