"""What a pattern stands for: the specimen, its parts, what was simplified, and the references."""

from __future__ import annotations

import re

from markupsafe import Markup, escape

from roundproof.pages.figures import trimmed
from roundproof.pages.prose import inline
from roundproof.pages.values import Specimen
from roundproof.pages.wording import measure
from roundproof.pattern import model
from roundproof.proof import Proof

_DIMENSIONS = ("height", "width", "length", "depth", "span_", "around")
_WORDS = {"height": "high", "width": "wide", "length": "long", "depth": "deep",
          "span_": "across", "around": "round"}  # fmt: skip
_BY = {name: name for name in _DIMENSIONS} | {"span_": "span", "around": "way round"}

_RANKED = re.compile(r"([A-Z][a-z-]+(?: [a-z-]+){0,2})(?= |$)(.*)", re.DOTALL)


def scientific_name(text: str) -> Markup:
    """A name of the form "Genus species Author, year": the name slanted, the author upright."""
    found = _RANKED.fullmatch(" ".join(text.split()))
    if found is None:
        return Markup(escape(text))
    name = Markup('<i lang="la">{}</i>').format(found[1])
    author = found[2].strip()
    return Markup('{} <span class="g">{}</span>').format(name, author) if author else name


def size_words(size: model.Size | model.RealSize, *, only: tuple[str, ...] = _DIMENSIONS) -> Markup:
    """ "2.1 cm high, 3.4 cm wide"."""
    found = ((_WORDS[name], getattr(size, name)) for name in only)
    said = (Markup("{} {}").format(measure(value.value), word) for word, value in found if value)
    return Markup(", ").join(said)


def specimen(proof: Proof) -> Specimen | None:
    found = proof.pattern.specimen
    if found is None:
        return None
    named = [escape(found.name.value)] if found.name else []
    if found.scientific is not None:
        named.append(scientific_name(found.scientific.value))
    lines = [Markup("{}.").format(Markup(", ").join(named))] if named else []
    return Specimen(
        found.name.value if found.name else "The specimen",
        (*lines, *_sizes(found, proof.pattern.size), *_handed(found)),
        tuple((part, inline(text, proof.pattern)) for part, text in (found.parts or {}).items()),
        tuple(inline(text, proof.pattern) for text in found.simplified),
        tuple(_statement(one, proof) for one in found.statements),
        tuple(inline(text, proof.pattern) for text in found.references),
    )


def _handed(found: model.Specimen) -> list[Markup]:
    if found.handed is None or not found.handed.value:
        return []
    return [Markup("The side matters: its mirror image would be another thing.")]


def _statement(one: model.Statement, proof: Proof) -> Markup:
    return Markup("{}{}").format(inline(one.says, proof.pattern), _source(one.source))


def _source(source: object) -> Markup:
    number = getattr(source, "value", None)
    if not isinstance(number, int):
        return Markup("")
    return Markup(' <a href="#reference-{0}">[{0}]</a>').format(number)


def _sizes(found: model.Specimen, size: model.Size | None) -> list[Markup]:
    real = found.real_size
    if real is None or not (words := size_words(real)):
        return []
    lines = [Markup("Real size: {}.{}").format(words, _source(real.source))]
    if size is not None and (scale := _scale(size, real)):
        lines.append(Markup(escape(scale)))
    return lines


def _scale(size: model.Size, real: model.RealSize) -> str:
    """The model against the real thing, by the first dimension that both give."""
    for name in _DIMENSIONS:
        made, true = getattr(size, name), getattr(real, name)
        if made and true and true.value > 0:
            ratio = made.value / true.value
            if abs(ratio - 1) < 0.05:
                return f"Scale: life size, by the {_BY[name]}."
            decimals = 1 if ratio > 1 else 2
            return f"Scale: {trimmed(ratio, decimals)} times life size, by the {_BY[name]}."
    return ""
