"""A finished size that the counts and the gauge do not come to."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from roundproof.checks._rounds import under_way
from roundproof.checks.base import Check, Found
from roundproof.findings import Finding, Severity
from roundproof.frozen import dataclass
from roundproof.measure.figures import cm
from roundproof.measure.model import Form
from roundproof.pattern.model import Close, Join, Size, Verb
from roundproof.pattern.notions import stems
from roundproof.proof import Proof
from roundproof.source import Located

_CLOSE = 1.25
"""How far filling stretches a piece, with some hands: common practice, no source."""
_SMALL = 2.0


@dataclass(frozen=True, slots=True)
class _Whole:
    """What the pieces come to, in mm: `figures` of the one piece there is, else none; the longest
    measure of any filled piece; and all pieces end to end."""

    figures: tuple[float, ...]
    longest: float
    in_all: float


def _run(proof: Proof) -> Found:
    size = proof.pattern.size
    stated = _stated(size) if size and not under_way(proof) else []
    whole = _whole(proof, size) if size and stated else None
    if whole is None:
        return
    largest = max(stated, key=lambda s: s[1].value)
    if largest[1].value * _SMALL < whole.longest:
        yield _finding(*largest, f"one piece alone comes to {cm(whole.longest)}")
        return
    for name, value in stated:
        if value.value > whole.in_all * _CLOSE:
            yield _finding(name, value, f"all pieces end to end come to {cm(whole.in_all)}")
            return
        elif whole.figures and not _near(value.value, whole.figures):
            said = " and ".join(cm(figure) for figure in whole.figures)
            yield _finding(name, value, f"the piece comes to {said}")
            return


def _finding(name: str, value: Located[float], comes_to: str) -> Finding:
    return CHECK.finding(
        value.span,
        f"The {name} is stated as {cm(value.value)}, and by counts and gauge {comes_to}.",
        "Measure the finished object again. `with` and `without` say what is measured along.",
    )


def _stated(size: Size) -> list[tuple[str, Located[float]]]:
    """The measures that go straight across."""
    named = ("height", "width", "length", "depth")
    found = ((name, getattr(size, name)) for name in named)
    return [(name, value) for name, value in found if value is not None]


def _whole(proof: Proof, size: Size) -> _Whole | None:
    """What the pieces come to; None where a gauge is only guessed."""
    sizes = proof.measures.pieces
    if not sizes or any(piece.guessed for piece in sizes.values()):
        return None
    reach, apart = dict[str, float](), stems(size.without.value) if size.without else frozenset()
    for key, piece in sizes.items():
        figures = [
            f for f in (piece.height_mm, piece.diameter_mm, piece.length_mm) if f is not None
        ]
        known = piece.height_mm is not None and piece.diameter_mm is not None
        reach[key] = max(figures) if known else inf
    filled = [
        reach[key]
        for key, piece in sizes.items()
        if piece.form is not Form.ROWS and reach[key] < inf and not stems(key) & apart
    ]
    make = {p.key: p.make for p in proof.pattern.pieces}
    in_all = sum(reach[key] * make.get(key, 1) for key in sizes)
    return _Whole(_alone(proof), max(filled, default=0.0), in_all)


def _alone(proof: Proof) -> tuple[float, ...]:
    """The measures of an object of one plain piece."""
    (key, size), *more = proof.measures.pieces.items()
    piece = proof.fabric.pieces[key]
    split = any(worked.onto for worked in piece.rounds) or piece.left
    shaped = any(isinstance(s.verb, Join) or _flat(s.verb) for s in proof.pattern.assembly)
    if more or piece.piece.make > 1 or size.form is Form.ROWS or split or shaped:
        return ()
    figures = (size.height_mm, size.diameter_mm, size.length_mm)
    return tuple(f for f in figures if f) if size.height_mm and size.diameter_mm else ()


def _flat(verb: Verb) -> bool:
    """Whether an edge is closed to a line, which makes the piece wider than it is round."""
    return isinstance(verb, Close) and (verb.by is None or verb.by.value != "gather")


def _near(value: float, figures: Sequence[float]) -> bool:
    """Whether a measure may be one of the piece, which lies flatter or rounder when filled."""
    return min(figures) / _CLOSE <= value <= max(figures) * _CLOSE


_PATTERN = """\
title: Pebble
terms: US
size: {{height: 2.8 cm, width: {} cm}}
yarns:
  slate: {{gauge: 23 sts x 25 rounds = 10 cm}}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
    R4-R8: sc around (18)
    R9: (sc, dec) x 6 (12)
    R10: dec x 6 (6)
    Fasten off.
"""

CHECK = Check(
    id="size-differs",
    title="Size that counts and gauge do not come to",
    why=(
        "Makers choose an object by its size, and museums and classes plan with it. Where the"
        " stated size and the one that follows from stitches and gauge are far apart, mostly the"
        " pattern was made again with another yarn, or millimetres stand for centimetres. Filling"
        " stretches the fabric, so only a plain difference is told."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("25"),
    good=_PATTERN.format("2.5"),
    source="derived from counts and gauge: see `measure`; the limits: common practice, no source",
    run=_run,
)
