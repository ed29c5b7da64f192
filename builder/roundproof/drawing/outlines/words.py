"""The outline of a piece in words: good enough to draw it from.

Rounds are told together as long as they are of one yarn, lie in one way, and a straight line from
the first to the last leaves the outline by no more than can hardly be seen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot

from roundproof.drawing.lengths import both, trimmed
from roundproof.drawing.profile import Profile, Ring
from roundproof.drawing.runs import lie, rounds, runs
from roundproof.drawing.yarns import YarnMark
from roundproof.measure.model import Form

STRAY = 0.02
"""How far the outline may leave a straight line, as a share of the piece's larger measure."""

Point = tuple[float, float]
"""Half the width, and how far from the start."""


def view_words(above: bool, form: Form) -> str:
    if form is Form.ROWS:
        return "laid flat"
    return "seen from above" if above else "from the side"


def outline_words(shape: Profile, name: str, above: bool) -> tuple[str, ...]:
    """What it is and how large; where it begins; then run by run what is reached."""
    said = [f"{name}, {view_words(above, shape.form)}{_size(shape)}.", _start(shape)]
    for rings, before in _stretches(shape):
        said.append(_run(shape, rings, before))
    if shape.tip:
        said.append(
            f"Drawn shut: the tip is {_length(shape, shape.height + shape.tip)} from the start."
        )
    return tuple(said)


def _size(shape: Profile) -> str:
    """The figures of the drawing itself, in both systems."""
    if not shape.measured:
        return ", from the counts alone: lengths are in widths of a stitch"
    high, wide = both(shape.height + shape.tip), both(shape.width)
    if shape.form is Form.ROWS:
        return f": {wide} wide, {high} long"
    before = " before stuffing"
    if shape.straight:
        return f": {wide} long, {both(shape.depth)} wide, {high} high{before}"
    return f": {wide} across, {high} high{before}"


def _start(shape: Profile) -> str:
    if shape.form is Form.ROWS:
        return f"Starts {_length(shape, shape.opening * 2)} wide."
    if shape.straight:
        return f"Starts along a line of {_length(shape, shape.straight)}; both ends are round."
    if shape.opening:
        return f"Starts open, {_length(shape, shape.opening * 2)} across."
    return "Starts from its middle." if shape.flat else "Starts from a point."


def _run(shape: Profile, rings: Sequence[Ring], before: Point) -> str:
    last = rings[-1]
    parts = [rounds(rings[0].number, last.number)]
    parts += [_yarn(last.mark)] if last.mark.letter or last.mark.name else []
    lies = lie(last)
    parts += [lies.words] if lies else []
    grows = last.radius - before[0]
    wide = _length(shape, 2 * last.radius + shape.straight)
    verb = "stays" if _small(shape, grows) else "widens to" if grows > 0 else "narrows to"
    word = "wide" if shape.form is Form.ROWS else "across"
    far = _length(shape, last.height)
    return f"{', '.join(parts)}: {verb} {wide} {word}, {far} from the start."


def _yarn(mark: YarnMark) -> str:
    return f"{mark.letter} {mark.name}".strip()


def _length(shape: Profile, value: float) -> str:
    return both(value) if shape.measured else trimmed(value)


def _small(shape: Profile, change: float) -> bool:
    return abs(change) < STRAY / 4 * shape.width


# ---- what is told together ----
def _stretches(shape: Profile) -> Iterator[tuple[tuple[Ring, ...], Point]]:
    """The rings that are told together, with the point that they go on from."""
    allowed = STRAY * max(shape.width, shape.height)
    before = (shape.opening, 0.0)
    for run in runs(shape.whole, lambda ring: (ring.mark, lie(ring))):
        points = [before, *((ring.radius, ring.height) for ring in run.rings)]
        begin = 0
        for end in _bends(points, 0, len(points) - 1, allowed):
            yield run.rings[begin:end], points[begin]
            begin = end
        before = points[-1]


def _bends(points: Sequence[Point], first: int, last: int, allowed: float) -> list[int]:
    """Where straight lines have to end so that none leaves the points by more than is allowed
    (Douglas and Peucker 1973), in order, the last point among them; without recursion."""
    ends, todo = [], [(first, last)]
    while todo:
        begin, end = todo.pop()
        off, at = max(
            ((_off(points[k], points[begin], points[end]), k) for k in range(begin + 1, end)),
            default=(0.0, end),
        )
        if off > allowed:
            todo += [(at, end), (begin, at)]
        else:
            ends.append(end)
    return ends


def _off(point: Point, start: Point, end: Point) -> float:
    """How far a point is from the stretch between two others."""
    along, up = end[0] - start[0], end[1] - start[1]
    whole = hypot(along, up)
    x, y = point[0] - start[0], point[1] - start[1]
    if not whole:
        return hypot(x, y)
    share = max(0.0, min(1.0, (x * along + y * up) / whole**2))
    return hypot(x - share * along, y - share * up)
