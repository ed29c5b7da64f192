"""Left and right for those who work with the other hand.

Worked left-handed, everything comes out as its mirror image: what a pattern calls left is right
then. Such words stand in the page in both ways, and the one for the other hand is hidden until it
is asked for. The right side of the fabric stays the right side, and what is left over stays left.
"""

from __future__ import annotations

import re

from markupsafe import Markup, escape

_TURNED = {
    "left": "right",
    "right": "left",
    "clockwise": "anticlockwise",
    "anticlockwise": "clockwise",
    "anti-clockwise": "clockwise",
    "counterclockwise": "clockwise",
    "counter-clockwise": "clockwise",
}
_TAG = re.compile(r'(<[^>"]*(?:"[^"]*"[^>"]*)*>)')
_ONE = r"(?<![\w-])(?:left|right)(?=-hand\b|(?!-)\b)"
_GAP = "[ \u00a0]"
_LEAD = (
    rf"\w(?:['’]|&#39;)s?{_GAP}|^|[,;:.(]{_GAP}?|\b(?:the|its|his|her|their|your|one|each|both|to|at"
    rf"|on|from|of|and|or|far|front|back|upper|lower|outer|inner|first|second|then){_GAP}"
)
_NO_SIDE = (
    "over|unworked|free|open|empty|loose|out|undone|away|after|next|now|for|until"
    rf"|sides?{_GAP}(?:of{_GAP}(?:the{_GAP})?(?:fabric|work)|out|together|facing|up|in)"
)
_SIDE = re.compile(
    rf"(?P<lead>{_LEAD})(?P<side>{_ONE})(?!{_GAP}(?:{_NO_SIDE}))"
    r"|(?<![\w-])(?P<turn>(?:anti-?|counter-?)?clockwise)\b",
    re.IGNORECASE,
)
_OWN = re.compile(r"(?:['’]s?|\b(?:its|his|her|their|your|one|each|both))[ \u00a0]$", re.IGNORECASE)
_LEFT = re.compile(r"\bleft\b", re.IGNORECASE)
_FABRIC = re.compile(r"[ \u00a0]sides?\b(?![ \u00a0]of\b)", re.IGNORECASE)


def turned(html: Markup) -> Markup:
    """Words with the sides in them for either hand; tags are left alone."""
    text = str(html)
    if "left" not in (low := text.lower()) and "right" not in low and "clockwise" not in low:
        return html
    parts = _TAG.split(text)
    both = bool(_LEFT.search(low))
    for place in range(0, len(parts), 2):
        parts[place] = _SIDE.sub(lambda found: _found(found, both), parts[place])
    return Markup("".join(parts))


def turned_name(name: str) -> Markup:
    """The name of a piece: a side in it is always one of the object's."""
    return Markup(re.sub(_ONE, lambda found: _both(found[0]), str(escape(name)), flags=re.I))


def _found(found: re.Match[str], both: bool) -> str:
    if found["turn"]:
        return _both(found["turn"])
    owned = both or _OWN.search(found["lead"].replace("&#39;", "'"))
    if not owned and _FABRIC.match(found.string, found.end("side")):
        return found[0]  # "the right side" alone is that of the fabric
    return found["lead"] + _both(found["side"])


def _both(word: str) -> str:
    other = _TURNED[word.lower()]
    other = other.capitalize() if word[0].isupper() else other
    return f'<span class="rh">{word}</span><span class="lh" hidden>{other}</span>'
