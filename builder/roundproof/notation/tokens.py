"""Round text cut into words with a part to play.

Characters are first made plain, one for one (typographic dashes, multiplication signs, look-alike
letters), so that a place in the plain text is the same place in the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from difflib import get_close_matches
from functools import cache
from typing import NamedTuple

from roundproof.pattern.model import Terms
from roundproof.reference import stitches, terms
from roundproof.source import Line, Span


class Token(NamedTuple):
    """`part` is the part played ("stitch", "inc", "num", a term's part, "word" for an unknown
    word, or the sign itself); `value` a stitch id, a yarn key or the plain text; `number` the
    number, where there is one. `glued` tells that no space stands before it."""

    part: str
    value: str
    number: int
    span: Span
    glued: bool


_PLAIN = str.maketrans(
    {
        **dict.fromkeys("×✕✖хХ", "x"),
        **dict.fromkeys("∗⁎＊•", "*"),
        **dict.fromkeys("‐‑‒–—―−－", "-"),
        **dict.fromkeys("\u00a0\u2007\u2009\u200a\u202f\t\u3000\u2002\u2003\u200b\ufeff", " "),
        **dict.fromkeys("‘’ʼ′`", "'"),
        **dict.fromkeys("“”″", '"'),
        **dict.fromkeys("（［", "("),
        "，": ",", "：": ":", "；": ";", "）": ")", "］": ")", "→": ">",
        "ı": "i", "İ": "i", "с": "c", "С": "c", "е": "e", "Е": "e", "о": "o", "О": "o",
        "р": "p", "Р": "p", "а": "a", "А": "a", "і": "i", "І": "i", "ѕ": "s", "Ѕ": "s",
        "т": "t", "Т": "t", "к": "k", "К": "k", "м": "m", "М": "m", "н": "h", "Н": "h",
        "ѐ": "e", "ԁ": "d", "ḥ": "h", "ⅼ": "l",
    }
)  # fmt: skip

_WORDS = re.compile(
    r"(?P<ord>(?:\d*1[123]th|\d*(?:1st|2nd|3rd|[04-9]th))\b)"
    r"|(?P<num>\d+)"
    r"|(?P<word>[^\W\d_]+(?:'[^\W\d_]+)?)"
    r"|(?P<arrow>->)"
    r"|(?P<sign>\S)"
)
BIGGEST = 10**9
"""No number is taken for more than this; one that reaches it is not read."""
_NUMBER_WORDS = "one two three four five six seven eight nine ten eleven twelve"
_ORDINAL_WORDS = "second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth"
_NUMBERS = {word: number for number, word in enumerate(_NUMBER_WORDS.split(), 1)}
_ORDINALS = {word: number for number, word in enumerate(_ORDINAL_WORDS.split(), 2)}
_SPELT_OUT = ("pair", "group")
"""Words of rounds written out in full, which nobody means who mistypes a short one."""
_WORKED = ("stitch", "inc", "dec", "inv dec")


def plain(text: str) -> str:
    """The text in lower case and plain characters, of the same length."""
    low = text.translate(_PLAIN)
    lower = low.lower()
    if len(lower) == len(text):
        return lower
    return "".join(c.lower() if len(c.lower()) == 1 else c for c in low)


_Raw = tuple[str, str, int, int]
"""Kind, plain text, start and end in the line."""

Phrases = Mapping[str, tuple[tuple[tuple[str, ...], str, str], ...]]


def _phrases(pairs: Iterable[tuple[str, str, str]]) -> Phrases:
    """Phrases by their first word, the longest first: (words, part, value)."""
    found: dict[str, list[tuple[tuple[str, ...], str, str]]] = {}
    for text, part, value in pairs:
        words = tuple(plain(text).replace("-", " ").split())
        found.setdefault(words[0], []).append((words, part, value))
    return {w: tuple(sorted(ps, key=lambda p: -len(p[0]))) for w, ps in found.items()}


@cache
def vocabulary(uk: bool) -> Phrases:
    """Every word that is read in one set of terms. A stitch name that only the other set knows is
    read as that stitch and marked as foreign."""
    pairs = [(word, term.part, term.id) for term in terms().values() for word in term.words]
    own = {word for kind in stitches().values() for word in (kind.uk if uk else kind.us)}
    for kind in stitches().values():
        mine, other = (kind.uk, kind.us) if uk else (kind.us, kind.uk)
        pairs += [(word, "stitch", kind.id) for word in mine]
        pairs += [(word, "foreign", kind.id) for word in other if word not in own]
    return _phrases(pairs)


@cache
def single_words(uk: bool) -> Mapping[str, str]:
    """The part that each word plays which is read by itself, but for those of whole sentences."""
    singles = (p for ps in vocabulary(uk).values() for p in ps if len(p[0]) == 1)
    return {words[0]: part for words, part, _ in singles if part not in _SPELT_OUT}


class Lexicon:
    """The words of one pattern: the terms it is written in, and its own colour names."""

    def __init__(self, terms: Terms, colours: Mapping[str, str]) -> None:
        """`colours` gives a yarn's key for each word that may name it."""
        self.uk = terms is Terms.UK
        self.words = vocabulary(self.uk)
        self.colours = _phrases((word, "colour", key) for word, key in colours.items() if word)
        self.letters = {w.upper(): key for w, key in colours.items() if len(w) == 1}
        self._by_first: dict[str, tuple[tuple[tuple[str, ...], str, str], ...]] = {}
        self._yarns = {plain(word): key for word, key in colours.items()}

    def nearest(self, word: str) -> str | None:
        """The known word most like an unknown one; among equals, one that is worked."""
        known = single_words(self.uk)
        near = get_close_matches(word, [w for w in known if len(w) > 1], 5, 0.6)
        letters = sorted(word)
        return min(
            near,
            key=lambda w: (sorted(w) != letters, known[w] not in _WORKED, near.index(w)),
            default=None,
        )

    def yarn(self, words: str) -> str | None:
        """The key of the yarn that some words name: 'chalk', 'the chalk', 'A', 'colour A'."""
        text = re.sub(r"^(?:the|yarn|colour|color)\s+", "", " ".join(plain(words).split()))
        return self._yarns.get(text) or self._yarns.get(text.removesuffix(" yarn"))

    def tokens(self, line: Line) -> list[Token]:
        """The tokens of a line, filler words left out."""
        text = plain(line.text)
        raw = [(m.lastgroup or "", m.group(), m.start(), m.end()) for m in _WORDS.finditer(text)]
        found: list[Token] = []
        at = 0
        while at < len(raw):
            token, at = self._token(line, raw, at)
            if token.part != "filler":
                found.append(token)
        return found

    def _token(self, line: Line, raw: Sequence[_Raw], at: int) -> tuple[Token, int]:
        kind, text, start, end = raw[at]
        part, value, number, after = kind, text, 0, at + 1
        if kind in ("num", "ord"):
            number = min(int(text.rstrip("stndrh")[:12]), BIGGEST)
        elif kind == "word":
            part, value, after = self._word(line, raw, at)
            if part in ("stitch", "foreign") and _tog(raw, after):
                part = "tog" if part == "stitch" else "foreign tog"
                number, after = min(int(raw[after][1][:6]), BIGGEST), after + 2
            if part == "word":
                part, number = _in_words(text)
            end = raw[after - 1][3]
        elif kind == "arrow":
            part = ">"
        else:
            part = text
        glued = at > 0 and raw[at - 1][3] == start
        return Token(part, value, number, line.span.cut(start, end), glued), after

    def _starting(self, first: str) -> tuple[tuple[tuple[str, ...], str, str], ...]:
        """The phrases that start with a word, the longest first, the pattern's colours first."""
        found = self._by_first.get(first)
        if found is None:
            colours = [c for c in self.colours.get(first, ()) if len(first) > 1]
            words = self.words.get(first, ())
            found = tuple(sorted((*colours, *words), key=lambda c: -len(c[0])))
            self._by_first[first] = found
        return found

    def _word(self, line: Line, raw: Sequence[_Raw], at: int) -> tuple[str, str, int]:
        _, _, start, end = raw[at]
        letter = line.text[start:end]
        if len(letter) == 1 and letter.isupper() and letter in self.letters:
            return "colour", self.letters[letter], at + 1
        return self._phrase(raw, at)

    def _phrase(self, raw: Sequence[_Raw], at: int) -> tuple[str, str, int]:
        """The longest known phrase that starts here, the pattern's own colours first."""
        first = raw[at][1]
        for words, part, value in self._starting(first):
            after = _match(raw, at, words) if len(words) > 1 else at + 1
            if after:
                return part, value, after
        return "word", first, at + 1


def _in_words(text: str) -> tuple[str, int]:
    """'two' and 'second' as numbers."""
    if text in _NUMBERS:
        return "num", _NUMBERS[text]
    return ("ord", _ORDINALS[text]) if text in _ORDINALS else ("word", 0)


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
    return at
