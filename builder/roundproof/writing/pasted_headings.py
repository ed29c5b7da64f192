"""Headings in notes: of pieces ('Arms (make 2)', '**Head**', 'FIN x 4') and of other parts."""

from __future__ import annotations

import re

from roundproof.frozen import dataclass
from roundproof.notation.tokens import single_words
from roundproof.writing.pasted_marks import NoteLine
from roundproof.writing.pasted_words import COLOUR, PARTS, SECTIONS, VERBS

_WORDS = "one two three four five six seven eight nine ten eleven twelve"
_NUMBERS = {word: number for number, word in enumerate(_WORDS.split(), 1)} | {"both": 2}
_N = rf"(?P<n>\d{{1,3}}|{'|'.join(_NUMBERS)})"
_THINGS = r"(?:\s*(?:times|x\b|of (?:these|them|each)|pieces?|pcs?\.?|alike|the same|identical))*"
_MAKE = tuple(
    re.compile(rf"(?i){pattern}")
    for pattern in (
        rf"(?:^|(?<=[(\[,;:–—-])|(?<=\s))(?:make|work|need)\s*[x×:]?\s*{_N}\b{_THINGS}",
        rf"[(\[]\s*(?:[x×]\s*{_N}|(?P<m>\d{{1,2}})\s*[x×])\s*[)\]]",
        rf"[(\[]\s*{_N}\s*(?:pieces?|pcs?\.?|times|of them|alike)\s*[)\]]",
        rf"(?:\s|^)[x×*]\s*{_N}\b(?=\W*(?:$|[(\[,–—-]|in\b))",
        rf"\b{_N}\s*[x×](?=\s|$|\W*$)",
        rf"(?<=[-–—,:])\s*{_N}\s*(?:pieces?|pcs?\.?|times|of them|alike)\W*$",
    )
)
_IN_BRACKETS = re.compile(rf"(?i)[(\[]\s*{_N}\s*[)\]]")
_COUNTED = re.compile(rf"(?i)^{_N}\s+(?=[a-z])")
_NUMBERED = re.compile(
    r"(?i)^(?:(?:part|step|piece|section)\s*(?:\d{1,2}|[a-z]\b)\s*[.):–—-]\s*|(?:\d{1,2}|[a-z])[.)]\s+)"
)
_BRACKETS = re.compile(r"[(\[]([^()\[\]]*)[)\]]")
_YARN = re.compile(
    r"(?i)(?:^|[\s,–—-]+)(?:(?:in|with|using)\s+(?:the\s+)?)?"
    r"(?P<yarn>(?:yarn|colou?r)\s+[A-Z]\b|(?:in|with|using)\s+(?:the\s+)?[\w -]{1,30}?)"
    r"(?:\s+yarn)?$"
)
_STITCHES = single_words(uk=False)
_THING = re.compile(r"(?i)\d\s*(?:mm|cm|g|ml?|oz|yds?)\b|\b(?:safety|glass|plastic)\b")
"""What is bought, and not made: '8 mm eyes'."""
_LONGEST = 60
_MOST_WORDS = 5
_MOST_SAID = 8
_EDGE = " .,;:–—-=*_"


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading that may be a piece's. `known` tells that it names a usual part or how many are
    made, `strong` that it is set off as a heading is; `remark` is whatever else it says."""

    name: str
    make: int | None = None
    yarn: str = ""
    remark: str = ""
    strong: bool = False
    known: bool = False

    @property
    def rank(self) -> int:
        return 2 * self.known + self.strong


def section(text: str) -> str:
    """What a heading announces that is no piece: "materials", "assembly", …; empty if nothing."""
    words = " ".join(re.sub(r"[^\w'’&+/\s]", " ", _NUMBERED.sub("", text)).split())
    if not words or len(words) > 50:
        return ""
    return next((name for name, pattern in SECTIONS if pattern.fullmatch(words)), "")


def heading(line: NoteLine, capitals: bool) -> Heading | None:
    """The heading that a line may be, by its form alone; None where it cannot be one. `capitals`
    tells that all of the notes are in capitals, which then set nothing off."""
    text = _NUMBERED.sub("", line.text.strip())
    if not text or len(text) > _LONGEST or text.startswith("#") or section(text):
        return None
    if _THING.search(text):
        return None
    text, make = _made(text)
    text, inside = _BRACKETS.sub(" ", text), _BRACKETS.findall(text)
    ended = text.rstrip().endswith((":", "：")) or line.text.rstrip().endswith(":")
    text, *after = re.split(r":\s+|\s+[-–—]+\s+", text.strip(_EDGE), maxsplit=1)
    text, yarn = _in_yarn(text.strip(_EDGE))
    remarks: list[str] = []
    for remark in re.split(r"[,;]", ",".join((*inside, *after))):
        rest, found = _in_yarn(remark.strip(_EDGE)) if not yarn else (remark.strip(_EDGE), "")
        yarn, remarks = yarn or found, [*remarks, rest]
    name, remark = " ".join(text.strip(_EDGE).split()), ", ".join(filter(None, remarks))
    known = make is not None or _parts(name)
    if not _is_name(name) or (after and not known) or len(remark.split()) > _MOST_SAID:
        return None
    set_off = line.mark in ("heading", "bold", "title") or ended or make is not None
    strong = set_off or (name.isupper() and not capitals)
    return Heading(name, make, yarn, remark, strong, known)


def made(text: str) -> int | None:
    """How many a line says to make that says nothing else: 'Make 2.'"""
    rest, number = _made(text)
    return number if number and not re.search(r"\w", rest) else None


def _made(text: str) -> tuple[str, int | None]:
    """The text without how many are made, and that number."""
    for pattern in _MAKE:
        if match := pattern.search(text):
            return _without(text, match), _number(match.groupdict().get("m") or match["n"])
    match = _COUNTED.match(text)
    if match and _parts(text[match.end() :].split()[-1]):
        return text[match.end() :], _number(match["n"])
    match = _IN_BRACKETS.search(text)
    if match and _parts(text[: match.start()]):
        return _without(text, match), _number(match["n"])
    return text, None


def _parts(text: str) -> bool:
    """Whether a word for a usual part is in a text."""
    return not PARTS.isdisjoint(re.findall(r"[a-z]+", text.lower()))


def _without(text: str, match: re.Match[str]) -> str:
    """A text without a stretch of it, and without the brackets that only that filled."""
    rest = f"{text[: match.start()]} {text[match.end() :]}"
    return re.sub(r"[(\[][\s,;]*[)\]]", " ", rest)


def _number(word: str) -> int | None:
    number = _NUMBERS.get(word.lower()) or (int(word) if word.isdigit() else 0)
    return number or None


def _in_yarn(text: str) -> tuple[str, str]:
    """A text without the yarn at its end, and the words for that: 'Legs in sand'."""
    match = _YARN.search(text)
    if match is None:
        return ("", text) if is_yarn(text) else (text, "")
    words = re.sub(r"(?i)^(?:in|with|using)\s+(?:the\s+)?", "", match["yarn"]).strip()
    return (text[: match.start()], words) if is_yarn(words) else (text, "")


def is_yarn(words: str) -> bool:
    """Whether words name a yarn by its colour or its letter: 'light grey', 'yarn B', 'MC'."""
    letter = re.fullmatch(r"(?:(?i:yarn|colou?r)\s+)?(?:[A-F]|MC|CC\d?)", words.strip())
    return bool(letter or COLOUR.fullmatch(words.strip()))


def _is_name(name: str) -> bool:
    words = name.split()
    if not words or len(words) > _MOST_WORDS or len(name) > 40:
        return False
    if re.search(r"[.;:!?=@<>{}\\\"|\[\]()*]|\d{3}|https?", name) or not name[0].isalnum():
        return False
    plain = [re.sub(r"\W", "", word).lower() for word in words]
    stitches = all(word in _STITCHES and word not in PARTS for word in plain)
    return plain[0] not in VERBS and not stitches and bool(re.search(r"[^\W\d_]{2}", name))
