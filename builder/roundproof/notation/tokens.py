"""Round text cut into words with a part to play.

Characters are first made plain, one for one (typographic dashes, multiplication signs, look-alike
letters), so that a place in the plain text is the same place in the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import cache, lru_cache
from typing import NamedTuple

from roundproof.expressions import expression
from roundproof.notation.numerals import CARDINALS, ORDINALS, TENS
from roundproof.notation.numerals import value as numeral
from roundproof.notation.tree import Onto, Unit
from roundproof.pattern.model import Terms
from roundproof.reference import spoken, stitches
from roundproof.source import Line, Source, Span


class Token(NamedTuple):
    """`part` is the part played ("stitch", "inc", "num", a term's part, "word" for an unknown
    word, or the sign itself); `value` a stitch id, a yarn key or the plain text; `number` the
    number, where there is one; `unit` what a word of the pattern's own stands for; `onto` the
    place that words like 'around first leg' name. `glued` tells that no space stands before it."""

    part: str
    value: str
    number: int
    source: Source
    start: int
    end: int
    glued: bool
    unit: Unit | None = None
    onto: Onto | None = None

    @property
    def span(self) -> Span:
        return Span(self.source, self.start, self.end)


class Own(NamedTuple):
    """What a word of the pattern's own stands for, as the parts of its token."""

    part: str
    value: str
    number: int = 0
    unit: Unit | None = None


_PLAIN = str.maketrans(
    {
        **dict.fromkeys("×✕✖хХ", "x"),
        **dict.fromkeys("∗⁎＊•", "*"),
        **dict.fromkeys("‐‑‒–—―−－", "-"),
        **dict.fromkeys("\u00a0\u2007\u2009\u200a\u202f\u3000\u2002\u2003\u200b\ufeff", " "),
        **dict.fromkeys("‘’ʼ′`", "'"),
        **dict.fromkeys("“”″", '"'),
        "（": "(", "［": "[", "【": "[", "，": ",", "：": ":", "；": ";",
        "）": ")", "］": "]", "】": "]", "→": ">", "⇒": ">", "➔": ">", "～": "~", "〜": "~",
        "…": ".", "、": ",", "。": ".", "＝": "=", "＋": "+", "｜": "|", "\t": "|", "＆": "&",
        "ı": "i", "İ": "i", "с": "c", "С": "c", "е": "e", "Е": "e", "о": "o", "О": "o",
        "р": "p", "Р": "p", "а": "a", "А": "a", "і": "i", "І": "i", "ѕ": "s", "Ѕ": "s",
        "т": "t", "Т": "t", "к": "k", "К": "k", "м": "m", "М": "m", "н": "h", "Н": "h",
        "ѐ": "e", "ԁ": "d", "ḥ": "h", "ⅼ": "l",
    }
)  # fmt: skip

_MISTAKEN = expression(r"(?<=\d)[oO](?![a-zA-Z])|(?<![a-zA-Z])[lI](?=\d)|(?<=\d)[lI](?![a-zA-Z])")
"""An O or an l in the middle of a number."""
_ONE_STITCH = expression(r"(?<![^\W_])[lI](?=\s?(?:sc|hdc|dc|htr|tr|inc|dec)\b)")
"""An l for the number before a stitch: 'l sc'."""
_AMONG_DIGITS = expression(r"\d[oOlI]|[lI]\d")
_FACE = expression(r"(?<=\s)[:;]-?[()](?=\s|$)")
"""A smile, whose bracket has no partner."""
_WORDS = expression(
    r"(?P<word>[^\W\d_]+(?:'[^\W\d_]+)?)"
    r"|(?P<ord>(?:\d*1[123]th|\d*(?:1st|2nd|3rd|[04-9]th))\b)"
    r"|(?P<num>\d+)"
    r"|(?P<arrow>->)"
    r"|(?P<sign>\S)"
)
_SIGNS = {"->": ">", "&": "and"}
_CUT = _WORDS.finditer
BIGGEST = 10**9
"""No number is taken for more than this; one that reaches it is not read."""
_SPELT_OUT = ("pair", "group")
"""Words of rounds written out in full, which nobody means who mistypes a short one."""
_WORKED = ("stitch", "inc", "dec", "inv dec")


@lru_cache(maxsize=16)
def plain(text: str) -> str:
    """The text in lower case and plain characters, of the same length. The last few are kept: a
    line is looked at for several things."""
    ascii_ = text.isascii() and "\t" not in text and "`" not in text
    low = text if ascii_ else text.translate(_PLAIN)
    if _AMONG_DIGITS.search(low):
        low = _MISTAKEN.sub(lambda m: "0" if m[0] in "oO" else "1", low)
    if "l " in low or "I " in low:
        low = _ONE_STITCH.sub("1", low)
    if (":" in low or ";" in low) and _FACE.search(low):
        low = _FACE.sub(lambda m: " " * len(m[0]), low)
    lower = low.lower()
    if len(lower) == len(text):
        return lower
    return "".join(c.lower() if len(c.lower()) == 1 else c for c in low)


_Raw = tuple[str, str, int, int]
"""Kind, plain text, start and end in the line."""

_Phrase = tuple[tuple[str, ...], Own]
Phrases = Mapping[str, tuple[_Phrase, ...]]


def _phrases(pairs: Iterable[tuple[str, str, str]]) -> Phrases:
    """Phrases by their first word, from (plain text, part, value)."""
    found: dict[str, list[_Phrase]] = {}
    for text, part, value in pairs:
        words = tuple(text.replace("-", " ").split())
        found.setdefault(words[0], []).append((words, Own(part, value)))
    return {word: tuple(phrases) for word, phrases in found.items()}


@cache
def vocabulary(uk: bool) -> Phrases:
    """Every word that is read in one set of terms. A stitch name that only the other set knows is
    read as that stitch and marked as foreign. Words of the tables are plain in small letters."""
    pairs = [(word, part, id) for id, (part, words) in spoken().items() for word in words]
    own = {word for kind in stitches().values() for word in (kind.uk if uk else kind.us)}
    for kind in stitches().values():
        mine, other = (kind.uk, kind.us) if uk else (kind.us, kind.uk)
        pairs += [(word, "stitch", kind.id) for word in mine]
        pairs += [(word, "foreign", kind.id) for word in other if word not in own]
    return _phrases((word.lower(), part, value) for word, part, value in pairs)


@cache
def single_words(uk: bool) -> Mapping[str, str]:
    """The part that each word plays which is read by itself, but for those of whole sentences."""
    singles = (p for ps in vocabulary(uk).values() for p in ps if len(p[0]) == 1)
    return {words[0]: own.part for words, own in singles if own.part not in _SPELT_OUT}


class _Known(NamedTuple):
    """The phrases that start with a word, the longest first: those that may stand there by the
    second word, and the word by itself."""

    seconds: Mapping[str, tuple[_Phrase, ...]]
    alone: tuple[_Phrase, ...]


_COMMON = (
    *("sc", "hdc", "dc", "tr", "htr", "dtr", "inc", "dec", "invdec"),
    *("single", "double", "treble", "increase", "decrease"),
)


def slip_of_the_pen(word: str) -> bool:
    """Whether an unknown word is so like one that is worked that it may be one mistyped."""
    from difflib import get_close_matches

    alike = [w for w in _COMMON if abs(len(w) - len(word)) < 2]
    return bool(get_close_matches(word, alike, 1, 0.65))


class Lexicon:
    """The words of one pattern: the terms it is written in, its own colour names, stitches and
    letters."""

    def __init__(
        self,
        terms: Terms,
        colours: Mapping[str, str],
        own: Mapping[str, Own] | None = None,
    ) -> None:
        """`colours` gives a yarn's key for each word that may name it; `own` are the words of the
        pattern's own stitches. A single letter stands for itself, in its own case."""
        own = own or {}
        self._terms, self._colours, self._declared = terms, colours, own
        self.uk = terms is Terms.UK
        self.own = {plain(word): entry for word, entry in own.items() if len(word) > 1}
        words = [(plain(word), "colour", key) for word, key in colours.items() if len(word) > 1]
        words += [(word, "own", word) for word in self.own]
        self.mine = _phrases(words)
        self._by_first: dict[str, _Known] = {}
        self._singles: dict[str, Own] = {}
        """Words with which no phrase begins but they themselves, as they are met."""
        letters = {w.upper(): Own("colour", key) for w, key in colours.items() if len(w) == 1}
        self.letters = letters | {word: entry for word, entry in own.items() if len(word) == 1}
        self._yarns = {plain(word): key for word, key in colours.items()}

    def nearest(self, word: str) -> str | None:
        """The known word most like an unknown one; among equals, one that is worked."""
        from difflib import get_close_matches

        known = {**single_words(self.uk), **{w: "stitch" for w in self.own if " " not in w}}
        near = get_close_matches(word, [w for w in known if len(w) > 1], 5, 0.6)
        letters = sorted(word)
        return min(
            near,
            key=lambda w: (sorted(w) != letters, known[w] not in _WORKED, near.index(w)),
            default=None,
        )

    def knows(self, word: str) -> bool:
        """Whether a word by itself has a meaning, apart from the articles."""
        known = word in self.letters or plain(word) in self.own or plain(word) in self._yarns
        return known or (len(word) > 1 and plain(word) in single_words(self.uk))

    def with_own(self, own: Mapping[str, Own]) -> Lexicon:
        """The same with more words of the pattern's own. A single letter is taken as written."""
        return Lexicon(self._terms, self._colours, {**own, **self._declared})

    def yarn(self, words: str) -> str | None:
        """The key of the yarn that some words name: 'chalk', 'the chalk', 'A', 'colour A'."""
        text = re.sub(r"^(?:the|yarn|colour|color)\s+", "", " ".join(plain(words).split()))
        return self._yarns.get(text) or self._yarns.get(text.removesuffix(" yarn"))

    def tokens(self, line: Line) -> list[Token]:
        """The tokens of a line, filler words left out."""
        text = plain(line.text)
        raw: list[_Raw] = [(m.lastgroup or "", m[0], *m.span()) for m in _CUT(text)]
        source, base = line.span.source, line.span.start
        found: list[Token] = []
        at, last, behind = 0, len(raw), -1
        while at < last:
            kind, word, start, end = raw[at]
            number, unit, at = 0, None, at + 1
            single = self._singles.get(word)
            if single and not (at < last and raw[at][0] == "num"):
                part, value, number, unit = single
            elif kind == "word" or word in self.mine:
                (part, value, number, unit), at = self._word(line, raw, at - 1)
                if part == "word" and len(word) > 3 and (apart := _cut_apart(word, start)):
                    at -= 1
                    raw[at : at + 1] = apart
                    last = len(raw)
                    continue
                end = raw[at - 1][3]
            elif kind == "num":
                part, value, number = kind, word, _number(word)
            elif kind == "ord":
                part, value, number = kind, word, _number(word.rstrip("stndrh"))
            else:
                part = value = _SIGNS.get(word, word)
            if part != "filler":
                glued = start == behind
                found.append(
                    Token(part, value, number, source, base + start, base + end, glued, unit)
                )
            behind = end
        return found

    def _word(self, line: Line, raw: Sequence[_Raw], at: int) -> tuple[Own, int]:
        """What the longest known phrase that starts here stands for, and where it ends."""
        first = raw[at][1]
        if len(first) == 1:
            own = self._letter(line, raw, at)
            if own is not None:
                return own, at + 1
        known = self._by_first.get(first)
        if known is None:
            known = self._by_first[first] = self._starting(first)
            if known.alone and not known.seconds and len(first) > 1:
                self._singles[first] = known.alone[0][1]
        second = raw[at + 1][1] if at + 1 < len(raw) else ""
        if second in ("-", ".") and at + 2 < len(raw):
            second = raw[at + 2][1]
        for words, entry in known.seconds.get(second, known.alone):
            after = _match(raw, at, words) if len(words) > 1 else at + 1
            if not after:
                continue
            if entry.part in ("stitch", "foreign") and _tog(raw, after):
                part = "tog" if entry.part == "stitch" else "foreign tog"
                return Own(part, entry.value, _number(raw[after][1])), after + 2
            return entry, after
        if raw[at][0] == "num":  # '3-dc bobble' is a stitch of ours, and this is another 3
            return Own("num", first, _number(first)), at + 1
        return _in_words(raw, at)

    def _starting(self, first: str) -> _Known:
        """The phrases that start with a word, the longest first, the pattern's own first."""
        mine = [
            (words, self.own[entry.value] if entry.part == "own" else entry)
            for words, entry in self.mine.get(first, ())
        ]
        ours = vocabulary(self.uk).get(first, ())
        phrases = sorted((*mine, *ours), key=lambda phrase: -len(phrase[0]))
        alone = tuple(phrase for phrase in phrases if len(phrase[0]) == 1)
        longer = [phrase for phrase in phrases if len(phrase[0]) > 1]
        return _Known(
            {
                second: (*(phrase for phrase in longer if phrase[0][1] == second), *alone)
                for second in {words[1] for words, _ in longer}
            },
            alone,
        )

    def _letter(self, line: Line, raw: Sequence[_Raw], at: int) -> Own | None:
        """A single letter that names a yarn (in capitals) or stands for a stitch. An `x` between
        a bracket and a number says how often, whatever else it stands for."""
        _, word, start, end = raw[at]
        own = self.letters.get(line.text[start:end])
        between = own is not None and word == "x" and 0 < at < len(raw) - 1
        if between and raw[at - 1][1] in (")", "]", "}", "*") and raw[at + 1][0] == "num":
            return None
        article = word == "a" and line.text[start] == "A" and at
        if own is None and article and raw[at - 1][1] in ("in", "with", "to", "[", "("):
            return Own("word", word)
        return own


_RUN_TOGETHER = expression(
    r"(?P<a>sc|hdc|dc|htr|tr|inc|dec|invdec)(?P<b>in|around|each|all)"
    r"(?P<c>mr|ring|magicring|each|next|every|all|same|last|first|the)?"
    r"(?P<d>st|sts|stitch|stitches|sc|next)?(?P<e>around)?"
)


def _cut_apart(word: str, start: int) -> list[_Raw]:
    """'scineachst' as words; none where it is one word."""
    match = _RUN_TOGETHER.fullmatch(word) if word.startswith(_COMMON) else None
    if match is None:
        return []
    cuts = [match.span(group) for group in "abcde" if match[group]]
    return [("word", word[a:b], start + a, start + b) for a, b in cuts]


def _in_words(raw: Sequence[_Raw], at: int) -> tuple[Own, int]:
    """'two', 'second' and 'twenty-four' as numbers."""
    first = raw[at][1]
    if first in TENS:
        after = at + 1 + (at + 1 < len(raw) and raw[at + 1][1] == "-")
        unit = raw[after][1] if after < len(raw) else ""
        whole = numeral(f"{first} {unit}")
        if whole is not None:
            return Own("ord" if unit in ORDINALS else "num", unit, whole), after + 1
    if first in CARDINALS:
        return Own("num", first, CARDINALS[first]), at + 1
    if first in ORDINALS:
        return Own("ord", first, ORDINALS[first]), at + 1
    return Own("word", first), at + 1


def _number(digits: str) -> int:
    return min(int(digits[:12]), BIGGEST)


def _tog(raw: Sequence[_Raw], at: int) -> bool:
    """Whether '2tog' stands here."""
    return at + 1 < len(raw) and raw[at][0] == "num" and raw[at + 1][1] in ("tog", "together")


def _match(raw: Sequence[_Raw], at: int, words: tuple[str, ...]) -> int:
    """Where a phrase ends if it starts at `at`, else 0; a hyphen may stand for a space."""
    for i, word in enumerate(words):
        if i and at < len(raw) and raw[at][1] in ("-", "."):
            at += 1
        if at >= len(raw) or raw[at][1] != word:
            return 0
        at += 1
    dotted = len(words) > 1 and raw[at - 2][1] == "." and at < len(raw) and raw[at][1] == "."
    return at + dotted
