"""Yarns, hook, gauge and notions, as far as notes tell them plainly."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from roundproof.frozen import dataclass, replace
from roundproof.pattern import quantities
from roundproof.reference.hazards import hazards_of
from roundproof.reference.hooks import hooks
from roundproof.writing.pasted_words import (
    COLOUR,
    FIBRES,
    GAUGE,
    ITEMS,
    NOTIONS,
    WEIGHTS,
    YARN,
)


@dataclass(frozen=True, slots=True)
class Yarn:
    """What is told of a yarn; whatever is empty is not told."""

    colour: str = ""
    letter: str = ""
    fibre: str = ""
    weight: int | None = None
    ball: str = ""
    balls: int | None = None


@dataclass(frozen=True, slots=True)
class Notion:
    item: str
    size: str = ""
    count: int | None = None
    amount: str = ""
    hazard: str = ""


@dataclass(frozen=True, slots=True)
class Materials:
    """What one line tells of materials, or all lines together."""

    yarns: tuple[Yarn, ...] = ()
    notions: tuple[Notion, ...] = ()
    hooks: tuple[str, ...] = ()
    gauges: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.yarns or self.notions or self.hooks or self.gauges)

    def plus(self, other: Materials) -> Materials:
        return Materials(
            self.yarns + other.yarns,
            self.notions + other.notions,
            self.hooks + other.hooks,
            self.gauges + other.gauges,
        )


_N = r"\d+(?:[.,]\d+)?"
_MM = re.compile(rf"(?i)(?<![\d.,])(?P<mm>{_N})\s*mm\b")
_HOOK = re.compile(r"(?i)\bhooks?\b")
_LONE_HOOK = re.compile(
    r"(?i)(?:1?[1-9]|10)(?:[.,]\d{1,2})?\s*(?:mm)?\s*(?:\((?:US|UK|size)?\s*[\w/-]+\))?"
)
"""A size that only a hook has, where it stands alone among materials."""
_US_HOOK = re.compile(
    r"(?:(?i:US|size|hook|letter)\s*)*\b(?P<letter>[B-L])"
    r"(?:[ /-]?(?P<number>\d{1,2}(?:[ .]5| 1/2)?))?\b"
)
_BALL = re.compile(
    rf"(?i)\(?\s*(?:(?P<g>{_N})\s*(?:g|grams?|oz)\b\W*(?:=|per|is|/|,|–|-|and)?\s*"
    rf"(?:approx\.?|about|ca\.?|c\.)?\s*(?P<m>{_N})\s*(?:m|metres?|meters?|yds?|yards?)\b"
    rf"|(?P<m2>{_N})\s*(?:m|metres?|meters?|yds?|yards?)\b\W*(?:=|per|is|/|,|–|-|and|in)?\s*"
    rf"(?P<g2>{_N})\s*(?:g|grams?|oz)\b)\s*(?:per (?:ball|skein))?\s*\)?"
)
_BALLS = re.compile(
    r"(?i)\b(?P<n>\d{1,2}|one|two|three|four)\s*(?:x\s*)?(?:small )?(?:balls?|skeins?|hanks?)\b"
)
_AMOUNT = re.compile(
    rf"(?i)\(?\s*(?:about|approx\.?|around|ca\.?|c\.|~)?\s*(?<![\d.,])"
    rf"(?P<amount>{_N}\s*(?:g|grams?|oz|kg)\b)\.?\s*(?:of\b)?\s*\)?"
)
_LENGTH = re.compile(rf"(?i)(?<![\d.,])(?P<size>{_N}\s*(?:mm|cm|m|in|inch(?:es)?)\b\.?|{_N}\s*\")")
_COUNT = re.compile(
    r"(?i)^\W*(?P<a>\d{1,4})\s*(?:[x×]\s*|pcs?\.?\s*|pieces of\s*)?"
    r"(?=\D)(?!\s*(?:mm|cm|m|g|in|ply)\b)"
    r"|[x×]\s*(?P<b>\d{1,4})\b|\(\s*(?P<c>\d{1,4})\s*\)|(?P<pair>\b(?:a |one |1 )?pair(?: of)?\b)"
    r"|^\W*(?P<word>one|two|three|four|six)\b|,\s*(?P<d>\d{1,4})\s*$"
)
_WORDS = {"one": 1, "two": 2, "three": 3, "four": 4, "six": 6}
_LETTER = re.compile(
    r"^\W*(?:(?i:yarn|colou?r)\s*)?\(?(?P<a>[A-F]|MC|CC\d?)\)?\s*[:=–—-]\s*(?=\w)"
    r"|^\W*(?i:yarn|colou?r)\s+(?P<b>[A-F])\b|\((?:(?i:yarn|colou?r)\s*)?(?P<c>[A-F]|MC|CC\d?)\)"
)
_FIBRE = re.compile(rf"(?i)(?:100\s*%\s*)?\b(?:{'|'.join(FIBRES)})\b")
_OUTSIDE = re.compile(r"(?:,(?!\d)|;)\s*(?![^()\[\]]*[)\]])(?!\s*\d+\s*$)|\s+\+\s+")
_FILLER = re.compile(
    r"(?i)\b(?:yarns?|wool|colou?rs?|shades?|weight|in|of|the|a|an|some|any|small|amounts?|bits?|left"
    r"overs?|scraps?|for|main|contrast(?:ing)?|and|about|used|i|your|each|approx|you|need|little)\b"
)
_GAUGE_STARTS = re.compile(r"(?i)(?<![\d.,])\d+(?:[.,]\d+)?\s*(?:st|sc|dc|hdc|single|double)")
_GAUGE_ENDS = re.compile(r"[.(;]|, (?!\d)| (?:with|using|on) ")
_MOST_WORDS = 9


def told(text: str, listed: bool) -> Materials:
    """What a line tells; nothing where it does not tell it plainly. `listed` says that it stands
    in a list of materials, where whatever is short enough is one."""
    if gauge := gauge_in(text):
        return Materials(gauges=(gauge,))
    named = ITEMS.match(text)
    what, rest = (named["what"], named["rest"]) if named else ("", text)
    lettered = re.match(r"(?i)(?:yarn|colou?r) [A-Z]$", what)
    if lettered:
        what, rest = "", text
    parts = [part.strip(" .") for part in _OUTSIDE.split(rest) if part.strip(" .")]
    if len(parts) > 1 and re.fullmatch(r"(?i).*\b(?:and|&)\s+.*", parts[-1]):
        parts[-1:] = [p.strip() for p in re.split(r"(?i)\s*\b(?:and|&)\s+", parts[-1]) if p.strip()]
    if len(parts) == 1 or not all(_kind(part, what) for part in parts):
        parts = [rest.strip(" .")]
    sure = any(map(_sure, parts)) and all(_kind(part, what) for part in parts)
    if not (listed or named or sure) or (not named and _prose(rest)):
        return Materials()
    found = Materials()
    for part in _gathered(parts, what):
        found = found.plus(_item(part, what))
    first = replace(found.yarns[0], colour="", letter="", balls=None) if found.yarns else Yarn()
    return replace(found, yarns=tuple(_filled(yarn, first) for yarn in found.yarns))


def _gathered(parts: Sequence[str], what: str) -> list[str]:
    """The parts of a line, colours together with the yarn before them."""
    found: list[str] = []
    for part in parts:
        yarn = found and _kind(found[-1], what) in ("yarn", "colour")
        more = _kind(part, "") == "colour" or not re.search(r"[^\W\d_]{3}", _BALL.sub("", part))
        if yarn and more and not _LETTER.search(part):
            found[-1] += f", {part}"
        else:
            found.append(part)
    return found


def gauge_in(text: str) -> str:
    """A gauge, as a pattern file has it, where a line tells one and nothing much else."""
    said = GAUGE.sub("", text).strip(" .")
    starts = [0, *(m.start() for m in _GAUGE_STARTS.finditer(said))][:4]
    ends = [len(said), *(m.start() for m in _GAUGE_ENDS.finditer(said))][:6]
    for start in starts:
        for end in ends:
            words = said[start:end].strip(" .,")
            if len(words) < 120 and not isinstance(quantities.gauge(words), quantities.Fault):
                return " ".join(words.split())
    return ""


def _prose(text: str) -> bool:
    words = text.split()
    return len(words) > 3 * _MOST_WORDS or (
        len(words) > _MOST_WORDS and text.endswith((".", "!", "?"))
    )


def _sure(text: str) -> bool:
    """Whether words outside any list are plainly a material: short, and with a size or weight."""
    measured = _LENGTH.search(text) or any(re.search(rf"(?i)\b(?:{w})\b", text) for _, w in WEIGHTS)
    kind = _kind(text, "")
    return len(text.split()) <= 8 and kind != "" and (kind == "colour" or bool(measured))


def _kind(text: str, what: str) -> str:
    """What a material is: a hook, a notion, a yarn, only a colour; empty if none is known."""
    if _HOOK.search(text) or (_HOOK.search(what) and (_MM.search(text) or _us_hook(text))):
        return "hook"
    if _LONE_HOOK.fullmatch(text) and (re.search(r"(?i)mm", text) or _HOOK.search(what)):
        return "hook"
    fills = re.search(r"(?i)\b(?:stuffing|filling|fib(?:re|er)[ -]?fill)\b", text)
    if NOTIONS.search(text) and (fills or not re.match(r"(?i)yarn|wool|colou?r", what)):
        only_yarn = YARN.search(text) and not re.search(r"(?i)needle|eye|fill|stuff|marker", text)
        return "yarn" if only_yarn and _BALL.search(text) else "notion"
    if YARN.search(text) or re.match(r"(?i)yarn|wool|colou?r|main|contrast", what):
        return "yarn"
    rest = _FILLER.sub(" ", _AMOUNT.sub(" ", _LETTER.sub(" ", COLOUR.sub(" ", text))))
    return "colour" if COLOUR.search(text) and not re.search(r"\w", rest) else ""


def _item(text: str, what: str) -> Materials:
    kind = _kind(text, what)
    if kind == "hook":
        size = hook_in(text)
        return Materials(hooks=(size,)) if size else Materials()
    if kind in ("yarn", "colour"):
        return Materials(yarns=tuple(_yarns(text)))
    if kind != "notion" and len(text.split()) > _MOST_WORDS:
        return Materials()
    return (
        Materials(notions=(notion(text, what),)) if re.search(r"[^\W\d_]{2}", text) else Materials()
    )


def hook_in(text: str) -> str:
    """The size of a hook in mm, from the mm or from the US letter; empty where none is told."""
    if match := _MM.search(text):
        size = f"{match['mm'].replace(',', '.')} mm"
        return "" if isinstance(quantities.length(size), quantities.Fault) else size
    lone = re.match(r"\d+(?:[.,]\d+)?", text) if _LONE_HOOK.fullmatch(text) else None
    return f"{lone[0].replace(',', '.')} mm" if lone else _us_hook(text)


def _us_hook(text: str) -> str:
    old = re.search(r"(?i)\b(?:no\.?|uk|size)\s*(\d{1,2})\b", text)
    british = [h for h in hooks() if old and h.uk == old[1]]
    if british and not re.search(r"\bUS\b", text):
        return f"{british[0].mm:g} mm"
    for match in _US_HOOK.finditer(_HOOK.sub("", text)):
        letter, number = match["letter"], match["number"] or ""
        fits = [h for h in hooks() if re.match(rf"{letter}-{re.escape(number)}", h.us)]
        if fits and (number or len(text.split()) < 6):
            return f"{fits[0].mm:g} mm"
    return ""


# ---- notions ----
def notion(text: str, what: str = "") -> Notion:
    """A thing with its size, number and amount taken out of its words."""
    said = text.strip()
    amount, said = _taken(_AMOUNT, "amount", said)
    size, said = _taken(_LENGTH, "size", said)
    count, said = _counted(said)
    item = " ".join(re.sub(r"[(\[][\s,;:x×-]*[)\]]", " ", said).split()).strip(" ,;:-–—()./")
    item = re.sub(r"(?i)^(?:a|an|some|of|the|and)\s+", "", item)
    if not re.search(r"[^\W\d_]{2}", item):
        return Notion(" ".join(text.split()))
    if "eye" in what.lower() and "eye" not in item.lower():
        item = f"{item} eyes"
    item = item.lower() if item.isupper() else item
    hazards = hazards_of(item)
    return Notion(item, size, count, amount, hazards[0].id if hazards else "")


def _taken(pattern: re.Pattern[str], group: str, text: str) -> tuple[str, str]:
    match = pattern.search(text)
    if match is None:
        return "", text
    value = " ".join(match[group].rstrip(".").split())
    known = {"amount": quantities.weight, "size": quantities.length}[group](value)
    if isinstance(known, quantities.Fault):
        return "", text
    value = re.sub(r"(?<=\d)(?=[a-z])", " ", value.lower()).replace(",", ".")
    return value, f"{text[: match.start()]} {text[match.end() :]}"


def _counted(text: str) -> tuple[int | None, str]:
    match = _COUNT.search(text)
    if match is None:
        return None, text
    digits = match["a"] or match["b"] or match["c"] or match["d"]
    number = int(digits) if digits else _WORDS.get((match["word"] or "two").lower(), 2)
    rest = f"{text[: match.start()]} {text[match.end() :]}"
    return (number, rest) if number else (None, text)


# ---- yarns ----
def _yarns(text: str) -> Iterator[Yarn]:
    """The yarns of a line: one for each colour in it, or one without."""
    letter, said = _lettered(text)
    match = _BALL.search(said)
    ball = ""
    if match and not isinstance(quantities.ball(match[0]), quantities.Fault):
        ball = " ".join(match[0].strip(" ()").split())
        said = said.replace(match[0], " ", 1)
    balls = _BALLS.search(said)
    plain = Yarn(
        fibre=_fibre(said),
        weight=next((n for n, words in WEIGHTS if re.search(rf"(?i)\b(?:{words})\b", said)), None),
        ball=_spaced(ball),
        balls=_count(balls["n"]) if balls else None,
    )
    colours = _colours(said, letter)
    if not colours:
        yield replace(plain, letter=letter)
    for nth, colour in enumerate(colours):
        one = replace(plain, colour=colour, letter=letter if nth == 0 else "")
        yield one if len(colours) == 1 else replace(one, balls=None)


def _lettered(text: str) -> tuple[str, str]:
    match = _LETTER.search(text)
    if match is None:
        return "", text
    letter = match["a"] or match["b"] or match["c"]
    return letter, f"{text[: match.start()]} {text[match.end() :]}"


def _colours(text: str, letter: str) -> list[str]:
    found = [" ".join(m[0].split()) for m in COLOUR.finditer(text)]
    found = [colour.lower() if colour.isupper() else colour for colour in found]
    if found or not letter:
        return list(dict.fromkeys(found))
    left = re.sub(r"\([^)]*\)", " ", text)
    for pattern in (
        _BALLS,
        _AMOUNT,
        _FIBRE,
        *(re.compile(rf"(?i)\b(?:{w})\b") for _, w in WEIGHTS),
    ):
        left = pattern.sub(" ", left)
    words = _FILLER.sub(" ", left).strip(" ,.:;-–—/").split()
    plain = all(re.fullmatch(r"[^\W\d_]+(?:-[^\W\d_]+)?", word) for word in words)
    return [" ".join(words)] if words and len(words) <= 3 and plain else []


def _fibre(text: str) -> str:
    blend = re.search(r"(?i)\d{1,3}\s*%\s*\w+(?:\W{1,3}\d{1,3}\s*%\s*\w+)+", text)
    if blend:
        return " ".join(blend[0].split())
    match = _FIBRE.search(text)
    return " ".join(match[0].lower().split()) if match else ""


def _count(word: str) -> int | None:
    return _WORDS.get(word.lower()) or (int(word) if word.isdigit() else 0) or None


def _spaced(ball: str) -> str:
    """'50g/125m' as '50 g / 125 m'."""
    found = re.findall(rf"(?i)({_N})\s*([a-z]+)", ball)
    pairs = [(n, u) for n, u in found if quantities.is_unit(u)]
    return " / ".join(f"{n.replace(',', '.')} {u.lower()}" for n, u in pairs[:2])


def sorted_out(yarns: Sequence[Yarn]) -> list[Yarn]:
    """The yarns of several lines: what is told without a colour holds for those with one that do
    not tell it themselves; each colour once."""
    coloured = [yarn for yarn in yarns if yarn.colour]
    plain = [yarn for yarn in yarns if not yarn.colour]
    if not coloured:
        return _merged(plain)[:1] if not any(y.letter for y in plain) else _merged(plain)
    shared = plain[0] if len(plain) == 1 else Yarn()
    found: dict[str, Yarn] = {}
    for yarn in coloured:
        first = found.get(yarn.colour.lower(), yarn)
        found[yarn.colour.lower()] = _filled(_filled(first, yarn), replace(shared, letter=""))
    return list(found.values())


def _merged(yarns: Sequence[Yarn]) -> list[Yarn]:
    found: dict[str, Yarn] = {}
    for yarn in yarns:
        found[yarn.letter] = _filled(found.get(yarn.letter, yarn), yarn)
    return list(found.values())


def _filled(yarn: Yarn, other: Yarn) -> Yarn:
    """A yarn, with what another tells where it tells nothing itself."""
    return Yarn(
        yarn.colour or other.colour,
        yarn.letter or other.letter,
        yarn.fibre or other.fibre,
        other.weight if yarn.weight is None else yarn.weight,
        yarn.ball or other.ball,
        yarn.balls or other.balls,
    )
