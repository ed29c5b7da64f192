"""What a pattern stands for: the specimen, its parts, what was simplified, and the references."""

from __future__ import annotations

import re
from collections.abc import Iterator

from markupsafe import Markup, escape

from roundproof.pages.prose import inline
from roundproof.pages.scale import CALLED, Scale, in_proportion, scale_words, scales
from roundproof.pages.values import PartRow, Specimen
from roundproof.pages.wording import measure, plain
from roundproof.pattern import model
from roundproof.proof import Proof

SAID = {"height": "high", "width": "wide", "length": "long", "depth": "deep",
        "span_": "across", "around": "round"}  # fmt: skip
"""How each measure is told, in the order of the model."""

_RANKED = re.compile(r"([A-Z][a-z-]+(?: [a-z-]+){0,2})(?= |$)(.*)", re.DOTALL)


def scientific_name(text: str) -> Markup:
    """A name of the form "Genus species Author, year": the name slanted, the author upright."""
    found = _RANKED.fullmatch(" ".join(text.split()))
    if found is None:
        return Markup(escape(text))
    name = Markup('<i lang="la">{}</i>').format(found[1])
    author = found[2].strip()
    return Markup('{} <span class="g">{}</span>').format(name, author) if author else name


def size_words(size: model.Size | model.RealSize) -> Markup:
    """ "2.1 cm high, 3.4 cm wide"."""
    found = ((word, getattr(size, name)) for name, word in SAID.items())
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
        tuple(_parts(found, proof)),
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


def _parts(found: model.Specimen, proof: Proof) -> Iterator[PartRow]:
    """Every part that is told of or that a piece stands for, with its pieces."""
    told = found.parts or {}
    pieces: dict[str, list[str]] = {part: [] for part in told}
    for piece in proof.pattern.pieces:
        if piece.stands_for is not None:
            name = piece.name if piece.make == 1 else f"{piece.name}\u00a0×\u00a0{piece.make:,}"
            pieces.setdefault(piece.stands_for.value, []).append(name)
    for part, made in pieces.items():
        about = inline(told[part], proof.pattern) if part in told else Markup("")
        yield PartRow(part, plain(", ".join(made)), about)


def _sizes(found: model.Specimen, size: model.Size | None) -> list[Markup]:
    real = found.real_size
    if real is None or not (words := size_words(real)):
        return []
    lines = [Markup("Real size: {}.{}").format(words, _source(real.source))]
    told = scales(size, real)
    if in_proportion(told):
        told = told[:1]
    else:
        lines.append(Markup("The measures are not all in one scale."))
    lines += [_scale(scale) for scale in told]
    return lines


def _scale(scale: Scale) -> Markup:
    return Markup("Scale: {}, by the {} ({} here, {} in life).").format(
        scale_words(scale.ratio),
        CALLED[scale.dimension],
        measure(scale.made),
        measure(scale.real),
    )
