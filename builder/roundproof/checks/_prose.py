"""Where words stand in running text."""

from __future__ import annotations

import re

from roundproof.source import Span, Text


def span_of(text: Text, words: str) -> Span:
    """The place of some words in a text: exact where they stand in the file as they are, but for
    line breaks, and only once; else the whole text."""
    pattern = r"\s+".join(re.escape(word) for word in words.split())
    found = list(re.finditer(pattern, text.span.text))
    return text.span.cut(*found[0].span()) if len(found) == 1 else text.span
