"""Words as HTML: rounds in both terms, numbers that stay with their stitch, notation in prose."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from markupsafe import Markup, escape

from roundproof.drawing.yarns import Marks, YarnMark, mark_of
from roundproof.notation.reader import Context, read_script
from roundproof.notation.spoken import speak
from roundproof.notation.tree import Instruction, Round
from roundproof.notation.writer import Part, text_of, write
from roundproof.pages.figures import inches, length
from roundproof.pages.hands import turned
from roundproof.pattern.model import Pattern, Terms
from roundproof.pattern.quantities import in_mm
from roundproof.source import Line, Source, Text

SHORT_GROUP = 34
"""Characters up to which a group moves to the next line whole."""

NBSP = "\u00a0"
_PAIR = re.compile(r"(?<!\w)(\d[\d.,]*) (?=%|(?!(?:and|or|to|of|in|at|are|is)\b)[^\W\d_])")
_LENGTH = re.compile(
    r"(?<![\w.,/–-])(\d{1,4}(?:[.,]\d+)?)[ \u00a0](cm|inch(?:es)?|in(?= (?:tail|of|long)))\b"
)
_PAIRED = re.compile(
    r"(\d[\d.,¼½¾/]*[ \u00a0]?(?:cm|in(?:ch(?:es)?)?)[ \u00a0]?"
    r"(?:\(|/)[ \u00a0]?\d[\d.,¼½¾/]*[ \u00a0]?(?:cm|in(?:ch(?:es)?)?)\b\)?)"
)
_TIMES = re.compile(r" x (?=\d)")
_CLOSE = {"sl st": f"sl{NBSP}st", "magic ring": f"magic{NBSP}ring", "inv dec": f"inv{NBSP}dec"}


def unbroken(text: str) -> str:
    """A number and what it counts stay on one line; "x 6" becomes "× 6"."""
    text = _TIMES.sub(f"{NBSP}×{NBSP}", text)
    for loose, close in _CLOSE.items():
        text = text.replace(loose, close)
    return _PAIR.sub(rf"\1{NBSP}", text)


def plain(text: str) -> Markup:
    """A plain text of the designer's as HTML, for either hand."""
    return turned(Markup(escape(unbroken(" ".join(text.split())))))


def in_both(us: Markup, uk: Markup, own: Terms) -> Markup:
    """A wording in both terms; the one that is not the pattern's own is hidden until asked for."""
    if us == uk:
        return us
    first, second = ("us", us), ("uk", uk)
    if own is Terms.UK:
        first, second = second, first
    return Markup('<span class="{}">{}</span><span class="{}" hidden>{}</span>').format(
        *first, *second
    )


def measure(millimetres: float) -> Markup:
    """A length in centimetres and in inches; inches are hidden until asked for."""
    return _both_units(length(millimetres), inches(millimetres))


def typed_lengths(text: str) -> Markup:
    """A text of the designer's with every length in both units, but for those that are given in
    both already. The text is escaped HTML."""
    found = _PAIRED.split(text)
    return Markup("").join(
        Markup(part) if place % 2 else Markup(_LENGTH.sub(_typed, part))
        for place, part in enumerate(found)
    )


def _typed(found: re.Match[str]) -> str:
    mm = in_mm(found[1], found[2])
    if found[2].lower() == "cm":
        return str(_both_units(found[0], inches(mm)))
    return str(_both_units(length(mm), found[0]))


def _both_units(metric: str, imperial: str) -> Markup:
    return Markup('<span class="cm">{}</span><span class="inch" hidden>{}</span>').format(
        metric, imperial
    )


def work(instruction: Instruction, own: Terms, marks: Marks, *, rows: bool = False) -> Markup:
    """An instruction in both terms, colours by their letters. `rows`: the work goes across."""
    name = letter_of(marks)
    us, uk = (_parts(write(instruction, terms, name, rows=rows)) for terms in (Terms.US, Terms.UK))
    return in_both(us, uk, own)


def written_out(
    instruction: Instruction, own: Terms, marks: Marks, *, rows: bool = False
) -> Markup:
    """The same in whole sentences, to be read aloud; colours by letter and name."""

    def colour(key: str) -> str:
        mark = mark_of(marks, key)
        return f"{mark.letter}, {mark.name}" if mark.letter and mark.name else mark.name or key

    us, uk = (speak(instruction, terms, colour, rows=rows) for terms in (Terms.US, Terms.UK))
    return in_both(_sentence(us), _sentence(uk), own)


def _sentence(parts: Sequence[Part]) -> Markup:
    html = _parts(parts)
    return html[:1].upper() + html[1:]


def either(brief: Markup, out: Markup) -> Markup:
    """A wording in its short form and written out; the long one is hidden until asked for."""
    if brief == out:
        return brief
    return Markup('<span class="ab">{}</span><span class="out" hidden>{}</span>').format(brief, out)


def letter_of(marks: Marks) -> Callable[[str], str]:
    """The letter of a yarn, or its key where it has none."""

    def letter(key: str) -> str:
        return mark_of(marks, key).letter or key

    return letter


def _parts(parts: Sequence[Part]) -> Markup:
    html, before = Markup(""), ""
    joined = _joined(parts)
    for part, after in zip(joined, [*(later.kind for later in joined[1:]), ""], strict=True):
        html += _part(part, after_colour=before == "colour", before_colour=after == "colour")
        before = part.kind
    return html


def _joined(parts: Sequence[Part]) -> list[Part]:
    """Texts beside each other as one, so that spaces between them are seen."""
    joined: list[Part] = []
    for part in parts:
        if part.text.startswith(",") and joined and joined[-1].kind == "group":
            group = joined.pop()  # a comma stays with what it follows
            joined.append(Part("group", "", (*group.children, Part("text", ","))))
            part = Part("text", part.text[1:])
        if part.kind == "text" and joined and joined[-1].kind == "text":
            part = Part("text", joined.pop().text + part.text)
        joined.append(part)
    return joined


def _part(part: Part, *, after_colour: bool, before_colour: bool) -> Markup:
    if part.kind == "colour":
        return Markup("<b>{}</b>").format(part.text)
    if part.kind == "group":
        inside = _parts(part.children)
        short = len(text_of((part,))) <= SHORT_GROUP
        return Markup('<span class="g">{}</span>').format(inside) if short else inside
    text = unbroken(part.text)
    if after_colour and re.match(r" \d", text):
        text = NBSP + text[1:]  # a colour's letter stays with the words round it
    if before_colour and text.endswith(" "):
        text = text[:-1] + NBSP
    return Markup(escape(text))


def chip(mark: YarnMark) -> Markup:
    """A yarn's chip: its colour and letter, and its name behind."""
    if not mark.letter:
        return Markup(escape(mark.name))
    return Markup('<i class="chip yarn {}">{}</i> {}').format(mark.css, mark.letter, mark.name)


def fragment(text: str, pattern: Pattern, marks: Marks) -> Markup:
    """Notation in prose, in both terms; what is no notation is printed as it stands."""
    own = pattern.written_in
    span = Source("", text).span(0, len(text))
    colours = {word: yarn.key for yarn in pattern.yarns for word in yarn.words}
    script, _ = read_script(Text(text, span, (Line(text, span),)), Context(own, colours, ""))
    match script.entries:
        case (Round(readings=(instruction,)),):
            return work(instruction, own, marks)
    return Markup(escape(text))


def terms_of(pattern: Pattern) -> Terms:
    return pattern.terms.value if pattern.terms else Terms.US
