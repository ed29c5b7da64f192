"""Amounts as designers write them, read into numbers: lengths in mm, weights in grams.

Each reader returns the value, or a `Fault` that says what was expected and what is wrong.
"""

from __future__ import annotations

import re
from datetime import date

from roundproof.expressions import expression
from roundproof.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: the words for it, what it measures, and how many mm or grams it is."""

    words: tuple[str, ...]
    measures: str
    factor: float
    source: str


_SI = "International System of Units"
_YARD = "international yard and pound agreement of 1959: 1 yd = 0.9144 m exactly"
_POUND = "international yard and pound agreement of 1959: 1 lb = 0.45359237 kg exactly"

UNITS = (
    Unit(("µm", "μm", "um"), "length", 0.001, _SI),
    Unit(("mm",), "length", 1.0, _SI),
    Unit(("cm",), "length", 10.0, _SI),
    Unit(("m", "metre", "metres", "meter", "meters"), "length", 1000.0, _SI),
    Unit(("in", "inch", "inches", '"', "″"), "length", 25.4, _YARD),
    Unit(("ft", "foot", "feet"), "length", 304.8, _YARD),
    Unit(("yd", "yds", "yard", "yards"), "length", 914.4, _YARD),
    Unit(("mg",), "weight", 0.001, _SI),
    Unit(("g", "gram", "grams"), "weight", 1.0, _SI),
    Unit(("kg",), "weight", 1000.0, _SI),
    Unit(("oz", "ounce", "ounces"), "weight", 28.349523125, _POUND),
    Unit(("lb", "lbs"), "weight", 453.59237, _POUND),
)
_BY_WORD = {word: unit for unit in UNITS for word in unit.words}

_HALVES = {"½": 0.5, "¼": 0.25, "¾": 0.75}
NUMBER = r"\d+/\d+|\d+(?:[.,]\d+)?(?:\s*[½¼¾]|\s+\d+/\d+)?|[½¼¾]"
_NUMBER = expression(
    r"(?P<over>\d+)/(?P<under>\d+)"
    r"|(?P<whole>\d+(?:[.,]\d+)?)?(?:\s*(?P<half>[½¼¾])|\s+(?P<part>\d+)/(?P<of>\d+))?"
)
_QUANTITY = expression(rf"(?P<number>{NUMBER})\s*(?P<unit>[^\W\d_]+|[\"″])\.?", re.IGNORECASE)
_LONE_NUMBER = expression(rf"\s*(?:{NUMBER})\s*")


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a text is not the value it should be. `why` follows "found `…`" and may be empty;
    `better` is what the text should be, where that is plain."""

    why: str = ""
    check: str = "value-kind"
    better: str | None = None


def unit_of(word: str) -> Unit | None:
    """The unit that a word names, in whatever case."""
    return _BY_WORD.get(word) or _BY_WORD.get(word.lower())


def is_unit(word: str) -> bool:
    """Whether a word is the name of a unit."""
    return unit_of(word) is not None


def in_mm(count: str, word: str) -> float:
    """The length that a number and the word of a unit say, with a point or a comma; 0 where the
    word is no unit of length."""
    unit = unit_of(word)
    measures = unit is not None and unit.measures == "length"
    return float(count.replace(",", ".")) * unit.factor if unit and measures else 0.0


@dataclass(frozen=True, slots=True)
class BallText:
    grams: float
    metres: float


@dataclass(frozen=True, slots=True)
class GaugeText:
    """`stitch` as written: "sc", "hdc"; None where the text does not name one."""

    stitches: float
    rounds: float
    over: float
    stitch: str | None


def number(text: str) -> float | Fault:
    """A plain number: `4.6`, `4,6`, `1,200`, `2 1/2`, `½`."""
    found = _NUMBER.fullmatch(text.strip())
    if found is None or not found[0]:
        return Fault()
    whole = found["whole"] or "0"
    if re.fullmatch(r"\d{1,3},\d{3}", whole):
        whole = whole.replace(",", "")
    over, under = found["over"] or found["part"], found["under"] or found["of"]
    if under and not int(under):
        return Fault("that cannot be")
    part = int(over) / int(under) if under else _HALVES.get(found["half"] or "", 0.0)
    return float(whole.replace(",", ".")) + part


def above_nothing(text: str) -> float | Fault:
    """A plain number that can be divided by."""
    value = number(text)
    return value if isinstance(value, Fault) or 0 < value < 1e9 else Fault("that cannot be")


def _measure(text: str, measures: str) -> float | Fault:
    found = _QUANTITY.fullmatch(text.strip())
    if found is None:
        lone = _LONE_NUMBER.fullmatch(text)
        return Fault("its unit is missing", "unit-missing") if lone else Fault()
    unit = _BY_WORD.get(found["unit"]) or _BY_WORD.get(found["unit"].lower())
    if unit is None:
        return Fault(f"`{found['unit']}` is no unit known here", "unit-missing")
    if unit.measures != measures:
        return Fault(f"that is a {unit.measures}")
    value = number(found["number"])
    if isinstance(value, Fault):
        return value
    value *= unit.factor
    return value if 0 < value < 1e9 else Fault("that cannot be")


def length(text: str) -> float | Fault:
    """Millimetres: `3 mm`, `2.5 in`, `137 yd`, `2 1/2"`."""
    return _measure(text, "length")


def weight(text: str) -> float | Fault:
    """Grams: `50 g`, `1.75 oz`."""
    return _measure(text, "weight")


def grams(text: str) -> float | Fault:
    """Grams, where the key says so already: `4.6` or `4.6 g`."""
    value = above_nothing(text)
    return weight(text) if isinstance(value, Fault) and not value.why else value


def ball(text: str) -> BallText | Fault:
    """`50 g / 125 m`, either first, either unit system; what else is said is passed over."""
    found: dict[str, float] = {}
    for part in _QUANTITY.finditer(text):
        for measures in ("weight", "length"):
            value = _measure(part[0], measures)
            if not isinstance(value, Fault):
                found.setdefault(measures, value)
    if len(found) < 2:
        lost = "weight" if "length" in found else "length"
        return Fault(f"its {lost} is missing", "unit-missing") if found else Fault()
    return BallText(found["weight"], found["length"] / 1000)


_STITCH_WORDS = (
    r"(?:half[ -]double|half[ -]treble|double|treble|single)(?:\s+crochets?)?|[hd]?dc|htr|d?tr|sc"
)
_GAUGE = expression(
    rf"""\s*(?P<first>{NUMBER})\s*(?P<first_word>stitch(?:es)?|sts?|{_STITCH_WORDS})\.?\s*
    (?:[x×*,;/&+]|by|and)?\s*
    (?P<second>{NUMBER})\s*(?P<second_word>rounds?|rows?|rnds?|r)\.?\s*
    (?:=|to|over|in|per|is|make|are|:)?\s*(?:a\s+)?
    (?:(?:{NUMBER})\s*(?:cm|mm|in|")?\s*(?:[x×]|by)\s*)?
    (?P<over>(?:{NUMBER})\s*(?:mm|cm|inch(?:es)?|in|["″]))\.?
    (?:\s*,?\s*(?:square)?,?\s*(?:worked\s+)?(?:in|of)\s+(?P<stitch>{_STITCH_WORDS})s?)?\s*""",
    re.IGNORECASE | re.VERBOSE,
)


def gauge(text: str) -> GaugeText | Fault:
    """`23 sts x 25 rounds = 10 cm`, `12 sc by 14 rows to 4 in`, with `in hdc` after it or not."""
    found = _GAUGE.fullmatch(text)
    if found is None:
        if re.search(r"\d", text) and not re.search(r"(?:mm|cm|in|inch|inches)\b|[\"″]", text):
            return Fault("it does not say over what length it is counted", "unit-missing")
        return Fault()
    stitches, rounds = number(found["first"]), number(found["second"])
    over = length(found["over"])
    if isinstance(stitches, Fault) or isinstance(rounds, Fault) or isinstance(over, Fault):
        return Fault()
    if not stitches or not rounds:
        return Fault("that cannot be")
    word = found["stitch"] or found["first_word"]
    named = None if re.fullmatch(r"st.*", word, re.IGNORECASE) else word.lower().replace("-", " ")
    return GaugeText(stitches, rounds, over, named)


_PACE = (
    rf"(?i)(?P<number>{NUMBER})\s*(?:sts?|stitch|stitches|sc|single crochets?)\.?\s*"
    r"(?:an?|per|each|every|in a|/)\s*min(?:ute)?\.?"
)
MOST_A_MINUTE = 60


def pace(text: str) -> float | Fault:
    """Stitches a minute: `15 sts a minute`, `12.5 stitches per minute`."""
    found = re.fullmatch(_PACE, text.strip())
    if found is None:
        lone = _LONE_NUMBER.fullmatch(text)
        return Fault("its unit is missing", "unit-missing") if lone else Fault()
    value = number(found["number"])
    if isinstance(value, Fault) or value > 0:
        fast = not isinstance(value, Fault) and value > MOST_A_MINUTE
        return Fault(f"nobody makes more than {MOST_A_MINUTE}") if fast else value
    return Fault("that cannot be")


MOST_STRETCH = 25


def stretch(text: str) -> float | Fault:
    """A share from a percentage: `5 %` is 0.05."""
    found = re.fullmatch(rf"(?P<number>{NUMBER})\s*(?:%|percent|per cent)", text.strip(), re.I)
    if found is None:
        lone = _LONE_NUMBER.fullmatch(text)
        return Fault("its `%` is missing", "unit-missing") if lone else Fault()
    value = number(found["number"])
    if isinstance(value, Fault):
        return value
    if value > MOST_STRETCH:
        return Fault(f"no fabric stretches more than {MOST_STRETCH} % with its filling")
    return value / 100


def whole(text: str) -> int | Fault:
    """A whole number."""
    return int(text) if re.fullmatch(r"\d{1,9}", text) else Fault()


def count(text: str) -> int | Fault:
    """A whole number from 1."""
    value = whole(text)
    return Fault("that cannot be") if value == 0 else value


def round_label(text: str) -> str | Fault:
    """`R4`; other words for a round are read as well."""
    found = re.fullmatch(r"(?:r|rnd|round|row)?\s*(\d{1,6})", text, re.IGNORECASE)
    return f"R{int(found[1])}" if found else Fault()


def round_range(text: str) -> str | Fault:
    """`R8-R11`, or a single round."""
    ends = [round_label(end.strip()) for end in re.split(r"[-–]| to ", text)]
    labels = [end for end in ends if isinstance(end, str)]
    return "-".join(labels) if len(labels) == len(ends) <= 2 else Fault()


def version(text: str) -> str | Fault:
    """Three numbers with points between: `1.0.0`."""
    if re.fullmatch(r"(?:0|[1-9]\d{0,5})(?:\.(?:0|[1-9]\d{0,5})){2}", text):
        return text
    short = re.fullmatch(r"v?(\d{1,6})(?:\.(\d{1,6}))?(?:\.(\d{1,6}))?", text)
    better = ".".join(str(int(part or 0)) for part in short.groups()) if short else None
    return Fault(better=better)


def calendar_date(text: str) -> date | Fault:
    """`2026-05-04`: year, month, day."""
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
        return Fault()
    try:
        return date.fromisoformat(text)
    except ValueError:
        return Fault("the calendar has no such day")


def shade(text: str) -> str | Fault:
    """`#d9c7a3`: a hash sign and three or six signs of 0-9, a-f."""
    if re.fullmatch(r"#(?:[0-9a-fA-F]{3}|[0-9a-fA-F]{6})", text):
        return text
    bare = re.fullmatch(r"(?:[0-9a-fA-F]{3}){1,2}", text)
    return Fault(better=f'"#{text}"' if bare else None)


_YES = {"yes": True, "true": True, "no": False, "false": False}


def yes_no(text: str) -> bool | Fault:
    value = _YES.get(text.strip().lower())
    return Fault() if value is None else value


def words(text: str) -> str | Fault:
    """Any words at all."""
    value = text.strip()
    return value if value else Fault("it says nothing")
