"""Lines of notes without the marks around their words: those of Markdown, web pages, mail, tables.

A line that is a row of a table becomes a round of the usual form. A line that was crossed out
becomes a private one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from html import unescape

from roundproof.frozen import dataclass, replace
from roundproof.writing.pasted_text import Written


@dataclass(frozen=True, slots=True)
class NoteLine:
    """A line: its number, the text as it stood, the words without marks, and what the marks say:
    "title", "heading" or "bold" of one that is set off, "item" of one in a list, "crossed",
    "rule" of one that only draws a line, or nothing."""

    number: int
    raw: str
    text: str
    mark: str = ""

    @property
    def blank(self) -> bool:
        return not self.text


_ENTITY = re.compile(r"&(?:#\d{1,7}|#x[0-9a-f]{1,6}|[a-z]{2,8}\d{0,2});", re.IGNORECASE)
_TAGS = (
    "a|abbr|article|aside|b|big|blockquote|body|br|center|code|del|div|em|figcaption|figure|font|"
    "footer|h[1-6]|head|header|hr|html|i|img|li|link|main|meta|nav|ol|p|pre|s|section|small|span|"
    "strike|strong|sub|sup|table|tbody|td|th|thead|title|tr|u|ul"
)
_TAG = re.compile(rf"</?(?:{_TAGS})(?:\s[^<>]*)?/?>|<!--.*?-->", re.IGNORECASE)
_BREAK = re.compile(r"<(?:br|/p|/li|/div|/tr|/h[1-6])\s*/?>(?=.*\S)", re.IGNORECASE)
_CELL = re.compile(r"</t[dh]>\s*(?=<t[dh])", re.IGNORECASE)
_CROSSED = re.compile(
    r"^\W*(?:~~.*\S~~|<(s|del|strike)>.*</\1>|\[?crossed out\]?\b.*)\W*$", re.IGNORECASE
)
_STRUCK = re.compile("[\u0335-\u0338]")
_HEADING = re.compile(r"^(#{1,6})\s+(.*?)\s*#*$")
_WEB_HEADING = re.compile(r"^\W*<h([1-6])\b", re.IGNORECASE)
_BOLD = re.compile(r"(\*\*|__)(?=\S)(.+?)(?<=\S)\1")
_ALL_BOLD = re.compile(
    r"^(?:\*\*|__|<b>|<strong>)[^*]*(?:\*\*|__|</b>|</strong>):?$", re.IGNORECASE
)
_ITALIC = re.compile(r"^([*_])(?![\s*_])([^*_]+)\1$")
_LINK = re.compile(r"(?<!!)\[([^\[\]]+)\]\((?:https?:|/|#|www\.|\w+\.html?)[^()]*\)")
_CODE = re.compile(r"`([^`]+)`")
_ITEM = re.compile(r"^(?:[-–—+•◦▪●○■□☐☑✓✔→»·‣]\s+|\[[ xX]?\]\s+)+(?=\S)")
_STARRED = re.compile(r"^\*\s+(?=[^*]+$)")
_QUOTED = re.compile(r"^(?:>\s?)+(?!\s*\d+\s*$)")
_ESCAPED = re.compile(r"\\(?=[*_\[\](){}.#+!>~`-])")
_MARKED = re.compile(r"[*_`#<>\\&\t\xa0\u200b]|\]\(|^\W")
_RULE = re.compile(r"^[^\w()\[\]]{3,}$")
_DIVIDES = re.compile(r"^\|?(?:\s*:?-{2,}:?\s*\|?)+$")
_NUMBER = re.compile(
    r"(?:(?:rounds?|rnds?|rds?|rows?|r)\.?\s*)?"
    r"(?P<first>\d{1,4})(?:\s*(?:[-–—/]|to)\s*(?P<last>\d{1,4}))?\s*[.:)]?",
    re.IGNORECASE,
)
_STATED = re.compile(r"[(\[<]?\s*(\d{1,5})\s*(?:sts?|stitches)?\.?\s*[)\]>]?", re.IGNORECASE)
_COLUMN = re.compile(
    r"(?i)(?:rounds?|rnds?|rds?|rows?|no\.?|#|instructions?|work|pattern|stitch(?:es)?|sts?|"
    r"(?:stitch )?counts?|total|done|notes?|colou?r|check|✓)"
)
"""What columns are called."""
_SAYS = re.compile(r"[^\W\d_]{2}")


def unmarked(lines: Iterable[Written]) -> list[NoteLine]:
    """The lines without their marks; one of a web page may become several."""
    found: list[NoteLine] = []
    for line in lines:
        parts = [part.strip() for part in _BREAK.split(line.text)]
        for part in [part for part in parts if _words(part)] or parts[:1]:
            here = list(_line(line, part))
            if here and here[0].mark == "rule" and found and _underlines(here[0], found[-1]):
                found[-1] = replace(found[-1], mark=found[-1].mark or "heading")
            found += here
    return found


def _underlines(rule: NoteLine, above: NoteLine) -> bool:
    alike = len(set(rule.text)) == 1 and rule.text[0] in "=-~_*"
    return alike and 0 < len(above.text) < 60 and not above.text.endswith((".", ","))


def _line(line: Written, text: str) -> Iterator[NoteLine]:
    if _CROSSED.match(text) or len(_STRUCK.findall(text)) > 0.4 * len(text.replace(" ", "")) > 0:
        yield NoteLine(line.number, line.text, f"# {text}", "crossed")
        return
    mark = _mark(text)
    if cells := _cells(text):
        if row := _row(cells):
            yield from (NoteLine(line.number, line.text, words) for words in row)
            return
        if all(not cell or _COLUMN.fullmatch(cell) for cell in cells):
            mark = "rule"
    words = _words(text)
    if not words or _RULE.match(words) or _DIVIDES.match(words):
        yield NoteLine(line.number, line.text, words or line.text, "rule" if line.text else "")
    else:
        yield NoteLine(line.number, line.text, words, mark)


def _mark(text: str) -> str:
    text = _QUOTED.sub("", text)
    heading, web = _HEADING.match(text), _WEB_HEADING.match(text)
    if heading or web:
        level = len(heading[1]) if heading else int(web[1]) if web else 0
        return "title" if level == 1 else "heading"
    if _ALL_BOLD.match(text):
        return "bold"
    return "item" if _ITEM.match(text) or _STARRED.match(text) else ""


def _words(text: str) -> str:
    """The words of a line: no marks of Markdown or web pages, no quote signs or bullets."""
    if not _MARKED.search(text):
        return text
    text = _TAG.sub("", _QUOTED.sub("", text)).strip()
    text = _ENTITY.sub(lambda m: unescape(m[0]), text)
    if heading := _HEADING.match(text):
        text = heading[2]
    text = _STARRED.sub("", _ITEM.sub("", text))
    text = _CODE.sub(r"\1", _LINK.sub(r"\1", _BOLD.sub(r"\2", text)))
    text = _ESCAPED.sub("", _ITALIC.sub(r"\2", text))
    return " ".join(text.replace("\u200b", "").replace("\xa0", " ").split()) if text else ""


# ---- tables ----
def _cells(text: str) -> list[str]:
    """The cells of a row of a table; none where it is no row."""
    text = _CELL.sub("\t", text)
    if text.startswith("|") and text.count("|") > 2:
        return [_words(cell.strip()) for cell in text.strip("|").split("|")]
    if "\t" in text.strip():
        return [_words(cell.strip()) for cell in text.split("\t")]
    return []


def _row(cells: list[str]) -> list[str]:
    """A row that starts with the number of a round, as a round: number, work, count, remarks."""
    number = _NUMBER.fullmatch(cells[0])
    filled = [cell for cell in cells[1:] if cell]
    if number is None or not filled or _STATED.fullmatch(filled[0]):
        return []
    first, last = int(number["first"]), int(number["last"] or number["first"])
    label = f"R{first}" if first == last else f"R{first}-R{last}"
    work, *rest = filled
    counts = [cell for cell in rest if _STATED.fullmatch(cell)][:1]
    stated = "".join(f" ({m[1]})" for cell in counts if (m := _STATED.fullmatch(cell)))
    remarks = [f"Note: {cell}" for cell in rest if cell not in counts and _SAYS.search(cell)]
    return [f"{label}: {work}{stated}", *remarks]
