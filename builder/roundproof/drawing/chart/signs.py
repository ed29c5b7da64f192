"""The signs of stitches in charts, each from its top down to its foot.

The shapes are those of JIS L 0201:1995 and of the Craft Yarn Council's crochet chart symbols
(2018); where publishers differ (loops, posts, extended and spike stitches) one of the usual ways is
taken, and the key of every chart says what it stands for. A
stitch without a published sign has a lozenge with a letter.

A sign is drawn in stitch widths about (0, 0), its top; its foot is `tall` below. It is symmetrical
but for slashes and hooks, which do not turn round for left-handed makers: a sign is known by them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache

from roundproof.drawing.shapes import Path, Shape, Share, Text
from roundproof.frozen import dataclass
from roundproof.notation.tree import Loop

SLASHES = {"hdc": 0, "dc": 1, "tr": 2, "dtr": 3, "trtr": 4, "qtr": 5, "quintr": 6}
"""How many slashes go through the stem of a T."""

TALL = {
    "ch": 0.5,
    "sl st": 0.3,
    "picot": 0.8,
    "esc": 1.2,
    "ehdc": 1.6,
    "edc": 2.2,
    "etr": 2.8,
    "fsc": 1.2,
    "fhdc": 1.6,
    "fdc": 2.2,
    "rev sc": 1.1,
    "loop st": 1.2,
    "bobble": 1.9,
    "cluster": 1.9,
    "popcorn": 2.0,
    "puff": 1.6,
    "hdc": 1.3,
    "dc": 1.9,
    "tr": 2.5,
    "dtr": 3.1,
    "trtr": 3.7,
    "qtr": 4.3,
    "quintr": 4.9,
}
"""How tall a sign is, in stitch widths; single crochet and what is like it is 0.9."""
SINGLE = 0.9

WIDE = {"ch": 0.9, "sl st": 0.6, "bobble": 1.2, "popcorn": 1.2, "puff": 1.2, "cluster": 1.2}
"""How much room a sign needs along its round; all others 1."""

EXTENDED = {"esc": "sc", "ehdc": "hdc", "edc": "dc", "etr": "tr"}
FOUNDED = {"fsc": "sc", "fhdc": "hdc", "fdc": "dc"}
GATHERED = {"bobble": 5, "cluster": 3, "popcorn": 5}
"""Stems of stitches that are joined at both ends; pages tell how many the pattern says."""


@dataclass(frozen=True, slots=True)
class Sign:
    """Which sign: `kind` is a stitch id, `loop` the loop it goes into, `letter` that of a stitch
    without a published sign."""

    kind: str
    loop: Loop = Loop.BOTH
    letter: str = ""

    @property
    def tall(self) -> float:
        return tall(self.kind)


def base_of(kind: str) -> str:
    """The stitch that a post stitch is like: "FPdc" is like "dc"."""
    return kind[2:] if kind[:2] in ("FP", "BP") and kind[2:] else kind


@lru_cache
def tall(kind: str) -> float:
    return TALL.get(base_of(kind), SINGLE)


@lru_cache
def wide(kind: str) -> float:
    return WIDE.get(base_of(kind), 1.0)


@lru_cache
def known(kind: str) -> bool:
    """Whether there is a sign for it; a lozenge with a letter is taken else."""
    base = base_of(kind)
    return base in TALL or base in ("sc", "spike sc", "ldc")


def drawn(sign: Sign) -> tuple[Shape, ...]:
    """The shapes of a sign, in stitch widths."""
    high = sign.tall
    if not known(sign.kind):
        return (*_lozenge(sign.letter, high), *_loop(sign.loop, high))
    return (*_sign(base_of(sign.kind), high), *_post(sign.kind, high), *_loop(sign.loop, high))


def scaled(
    shapes: Iterable[Shape], unit: float, x: float = 0.0, y: float = 0.0
) -> tuple[Shape, ...]:
    """Shapes of a sign with so many pixels to a stitch's width, their origin at (x, y)."""
    found: list[Shape] = []
    for shape in shapes:
        if isinstance(shape, Path):
            steps = tuple(_scaled(step, unit, x, y) for step in shape.steps)
            found.append(Path(steps, shape.css))
        elif isinstance(shape, Text) and not isinstance(shape.y, Share):
            low = y + shape.y * unit
            found.append(Text(x, low, shape.words, shape.css, shape.anchor, shape.dy))
    return tuple(found)


def _scaled(
    step: tuple[str | float, ...], unit: float, x: float, y: float
) -> tuple[str | float, ...]:
    """An arc has two radii and three settings before its point."""
    letter, numbers = step[0], [float(n) for n in step[1:]]
    lead = 5 if letter == "A" else 0
    way = [n * unit if place < 2 else n for place, n in enumerate(numbers[:lead])]
    moved = [n * unit + (y if place % 2 else x) for place, n in enumerate(numbers[lead:])]
    return (letter, *way, *moved)


def slashes(kind: str) -> int:
    """The slashes through one leg of a stitch that is worked over several; -1 for a cross."""
    return SLASHES.get(base_of(kind), -1)


def _sign(kind: str, high: float) -> Iterator[Shape]:
    if kind in EXTENDED:
        # A short bar at the foot: published charts differ, the key tells.
        yield from _sign(EXTENDED[kind], high - 0.3)
        yield _line(0, high - 0.3, 0, high)
        yield _line(-0.18, high - 0.1, 0.18, high - 0.1)
    elif kind in FOUNDED:
        yield from _sign(FOUNDED[kind], high - 0.4)
        yield _oval(0, high - 0.18, 0.36, 0.18)
    elif kind in ("ch", "fch"):
        yield _oval(0, high / 2, 0.4, 0.22)
    elif kind == "sl st":
        yield _oval(0, high / 2, 0.26, 0.15, "solid")
    elif kind in SLASHES:
        yield from _stem(SLASHES[kind], high)
    elif kind == "ldc":
        yield from _stem(1, high)
        yield _line(-0.45, high * 0.55, 0, high * 0.55)
    elif kind in GATHERED:
        yield from _gathered(kind, high)
    elif kind == "puff":
        yield from _leaf(high, (-0.42, -0.14, 0.14, 0.42))
    elif kind == "picot":
        yield from _picot(high)
    else:
        yield from _cross(kind, high)


def _cross(kind: str, high: float) -> Iterator[Shape]:
    """Single crochet, and what is told from it by one more stroke."""
    low = high - SINGLE / 2 if kind in ("rev sc", "loop st") else SINGLE / 2
    yield _line(-0.3, low - 0.3, 0.3, low + 0.3)
    yield _line(-0.3, low + 0.3, 0.3, low - 0.3)
    if kind == "rev sc":  # a wave over it
        yield Path((("M", -0.36, 0.16), ("Q", -0.18, -0.06, 0, 0.1), ("T", 0.36, 0.04)))
    elif kind == "loop st":  # a loop over it
        yield _oval(0, 0.14, 0.14, 0.14)
    elif kind == "spike sc":  # a stroke down into the round below
        yield _line(0, low, 0, high + 0.5)


def _stem(cuts: int, high: float) -> Iterator[Shape]:
    yield _line(-0.32, 0.05, 0.32, 0.05)
    yield _line(0, 0.05, 0, high - 0.05)
    yield from _slashed(0, high / 2, cuts)


def _slashed(x: float, y: float, cuts: int) -> Iterator[Shape]:
    first = y - 0.13 * (cuts - 1)
    for n in range(cuts):
        yield _line(x - 0.18, first + 0.26 * n + 0.1, x + 0.18, first + 0.26 * n - 0.1)


def _gathered(kind: str, high: float) -> Iterator[Shape]:
    stems = GATHERED[kind]
    top = 0.3 if kind == "popcorn" else 0.06
    places = [0.5 * (2 * n / (stems - 1) - 1) for n in range(stems)]
    if kind == "popcorn":  # spread at the top under a chain
        yield _oval(0, 0.15, 0.36, 0.15)
        for x in places:
            yield _line(x * 0.8, top, 0, high - 0.05)
    else:
        yield from _leaf(high, places)
    yield Path(
        tuple(
            step
            for x in places
            for step in (
                ("M", x * 0.85 - 0.1, high / 2 + 0.06),
                ("L", x * 0.85 + 0.1, high / 2 - 0.06),
            )
        )
    )


def _leaf(high: float, places: tuple[float, ...] | list[float]) -> Iterator[Shape]:
    """Stems that are joined at both ends."""
    for x in places:
        yield Path((("M", 0, 0.06), ("Q", 2 * x * 0.85, high / 2, 0, high - 0.06)))


def _picot(high: float) -> Iterator[Shape]:
    """Three chains in a loop, closed by a dot."""
    yield _oval(0, 0.14, 0.22, 0.12)
    yield Path(_ellipse(-0.26, 0.4, 0.12, 0.2))
    yield Path(_ellipse(0.26, 0.4, 0.12, 0.2))
    yield _oval(0, high - 0.1, 0.12, 0.09, "solid")


def _post(kind: str, high: float) -> Iterator[Shape]:
    """A hook at the foot, to the right in front of the post, to the left behind it."""
    if base_of(kind) != kind:
        side = 1 if kind.startswith("FP") else -1
        yield Path(
            (
                ("M", 0, high - 0.1),
                ("A", 0.17, 0.17, 0, 1, 0 if side > 0 else 1, side * 0.34, high - 0.1),
            )
        )


def _loop(loop: Loop, high: float) -> Iterator[Shape]:
    """The back loop alone is an arc under the foot, the front loop alone one over it."""
    if loop is Loop.BACK:
        yield Path((("M", -0.34, high - 0.06), ("Q", 0, high + 0.2, 0.34, high - 0.06)))
    elif loop is Loop.FRONT:
        yield Path((("M", -0.34, high + 0.1), ("Q", 0, high - 0.16, 0.34, high + 0.1)))


def _lozenge(letter: str, high: float) -> Iterator[Shape]:
    middle = high / 2
    yield Path((("M", 0, 0), ("L", 0.42, middle), ("L", 0, high), ("L", -0.42, middle), ("Z",)))
    yield Text(0, middle, letter, "letter", "middle", ".36em")


def _line(x1: float, y1: float, x2: float, y2: float) -> Path:
    return Path((("M", x1, y1), ("L", x2, y2)))


def _oval(x: float, y: float, across: float, down: float, css: str = "") -> Path:
    return Path(_ellipse(x, y, across, down), css)


def _ellipse(x: float, y: float, across: float, down: float) -> tuple[tuple[str | float, ...], ...]:
    return (
        ("M", x - across, y),
        ("A", across, down, 0, 1, 0, x + across, y),
        ("A", across, down, 0, 1, 0, x - across, y),
        ("Z",),
    )
