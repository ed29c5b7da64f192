"""The bar of a round: as wide as its stitch count, so that a column of bars draws the piece.

All bars of a pattern are to one scale: the widest round takes WIDEST per cent of the strip.
Whatever a pattern says, a bar has a bounded number of shapes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from roundproof.drawing.shapes import Drawing, Line, Rect, Shape, Share, Spot, Text
from roundproof.drawing.yarns import Marks, YarnMark, mark_of
from roundproof.fabric.model import Fabric, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass

WIDEST = 96.0
MOST_BARS = 24
"""Rounds of a range drawn one by one; a longer range is drawn as one block."""
MOST_STRETCHES = 60
"""Colour changes of a round drawn in working order; with more, each colour is drawn once."""
MOST_FRAMED = 6
"""Colour changes up to which each stretch has an edge of its own."""
ROOM = 7.0
"""Per cent of the strip that a letter needs."""
BAR_PIXELS = 12
MINI_ROUNDS = 120
"""Steps of a small silhouette; a piece with more rounds is drawn in that many."""
MINI_STEP, MINI_HEIGHT = 5.0, 200.0


@dataclass(frozen=True, slots=True)
class Segment:
    """Stitches in a row of one colour."""

    mark: YarnMark
    stitches: int


def widest_round(fabric: Fabric) -> int:
    """The stitches of the widest round of all pieces; 1 where nothing is made."""
    made = (worked.made or 0 for piece in fabric.pieces.values() for worked in piece.rounds)
    return max(1, max(made, default=1))


def longest_piece(fabric: Fabric) -> int:
    """The rounds of the piece that has most of them; at least 1."""
    rounds = (sum(w.rounds for w in piece.rounds) for piece in fabric.pieces.values())
    return max(1, max(rounds, default=1))


def segments(worked: WorkedRound, marks: Marks) -> tuple[Segment, ...]:
    """The colours of a round in working order; with very many changes, each colour once."""
    if not worked.made:
        return ()
    runs = [(mark_of(marks, s.yarn), s.made) for s in worked.stretches if s.made > 0]
    if not runs or sum(made for _, made in runs) != worked.made:
        return (Segment(mark_of(marks, worked.yarn), worked.made),)
    if len(runs) > MOST_STRETCHES:
        colours = dict.fromkeys(mark for mark, _ in runs)
        runs = [(one, sum(made for mark, made in runs if mark == one)) for one in colours]
    return tuple(_merged(runs))


def _merged(runs: Iterable[tuple[YarnMark, int]]) -> list[Segment]:
    merged: list[Segment] = []
    for mark, made in runs:
        if merged and merged[-1].mark == mark:
            made += merged.pop().stitches
        merged.append(Segment(mark, made))
    return merged


def round_bar(worked: WorkedRound, widest: int, marks: Marks, *, ruffled: bool = False) -> Drawing:
    """A bar, or a bar for each round of a range; hatched where the round ruffles."""
    parts = segments(worked, marks)
    count = min(worked.rounds, MOST_BARS) if worked.rounds <= MOST_BARS else 1
    gap = 0.0 if count == 1 else 3.0 if count == 2 else min(2.4, 40 / count)
    height = (100 - gap * (count - 1)) / count
    shapes: list[Shape] = []
    for place in range(count):
        shapes += _band(parts, widest, place * (height + gap), height, ruffled)
    for place in range(count) if count <= 3 else ():
        shapes += _letters(parts, widest, place * (height + gap) + height / 2)
    if count > 3 or worked.rounds > MOST_BARS:
        shapes += _tab(parts)
    return Drawing(tuple(shapes), "bar")


def row_pixels(worked: WorkedRound) -> int | None:
    """The least height of a row whose bars would otherwise be too thin to see."""
    rounds = min(worked.rounds, MOST_BARS)
    return rounds * BAR_PIXELS if rounds > 3 else None


def _spans(parts: Sequence[Segment], widest: int) -> list[tuple[Segment, float, float]]:
    """Each segment with where it begins and how wide it is, in per cent, the whole centred."""
    scale = WIDEST / widest
    at = 50 - sum(p.stitches for p in parts) * scale / 2
    spans = []
    for part in parts:
        spans.append((part, at, part.stitches * scale))
        at += part.stitches * scale
    return spans


def _band(
    parts: Sequence[Segment], widest: int, top: float, height: float, ruffled: bool
) -> list[Shape]:
    shapes: list[Shape] = []
    spans = _spans(parts, widest)
    narrow = " narrow" if len(spans) > MOST_FRAMED else ""
    for part, at, width in spans:
        place = (Share(at), Share(top), Share(width), Share(height))
        shapes.append(Rect(*place, f"yarn {part.mark.css}{narrow}"))
        if ruffled:
            shapes.append(Rect(*place, "hatch pale", "url(#hatch)"))
            shapes.append(Rect(*place, "hatch full", f"url(#hatch-{part.mark.css})"))
    if narrow:  # so many edges would hide the colours: one frame round all of them
        (_, left, _), (_, last, width) = spans[0], spans[-1]
        whole = Share(last + width - left)
        shapes.append(Rect(Share(left), Share(top), whole, Share(height), "frame", "none"))
    return shapes


def _letters(parts: Sequence[Segment], widest: int, middle: float) -> list[Shape]:
    spans = _spans(parts, widest)
    return [
        Text(Share(at + width / 2), Share(middle), part.mark.letter, _on(part), dy=".36em")
        for part, at, width in spans
        if part.mark.letter and (len(spans) == 1 or width >= ROOM)
    ]


def _on(part: Segment) -> str:
    return f"on {part.mark.css}"


def _tab(parts: Sequence[Segment]) -> list[Shape]:
    """One letter for a whole block of bars, on a tab of its colour."""
    if len(parts) != 1 or not parts[0].mark.letter:
        return []
    tab = Rect(-8, -9, 16, 18, f"yarn {parts[0].mark.css} tab")
    letter = Text(0, 0, parts[0].mark.letter, _on(parts[0]), dy=".36em")
    return [Spot(Share(50), Share(50), (tab, letter))]


def between(worked: WorkedRound, widest: int) -> Drawing | None:
    """Dotted sides: the outline goes on where nothing is worked."""
    if not worked.made:
        return None
    half = worked.made * WIDEST / widest / 2
    sides = tuple(Line(Share(x), Share(0), Share(x), Share(100)) for x in (50 - half, 50 + half))
    return Drawing(sides, "bar between")


def ruler(widest: int) -> Drawing:
    """The scale of the bars: a round number of stitches, about a fifth of the widest round."""
    stitches = _round_number(widest / 4)
    left = 50 - stitches * WIDEST / widest / 2
    ticks = 10 if stitches % 10 == 0 else stitches
    step = stitches * WIDEST / widest / ticks
    shapes: list[Shape] = [
        Line(Share(left), Share(75), Share(left + ticks * step), Share(75)),
        *(_tick(left + i * step, long=i % 5 == 0 or i == ticks) for i in range(ticks + 1)),
    ]
    words = f"{stitches:,} sts" if stitches > 1 else "1 st"
    return Drawing((*shapes, Text(Share(50), Share(32), words)), "bar ruler")


def _tick(x: float, long: bool) -> Line:
    return Line(Share(x), Share(45 if long else 58), Share(x), Share(75))


def _round_number(least: float) -> int:
    """1, 2, 5, 10, 20, 50 …: the largest that is not above `least`, at least 1."""
    number, factors = 1, (2, 2.5, 2)
    for step in range(60):
        more = int(number * factors[step % 3])
        if more > least:
            break
        number = more
    return number


def yarn_bar(share: float, mark: YarnMark) -> Drawing:
    """A bar for a length of yarn; `share` of the longest, 0 to 1."""
    width = share * (WIDEST - 4)
    shapes: list[Shape] = [
        Rect(Share(50 - width / 2), Share(0), Share(width), Share(100), f"yarn {mark.css}")
    ]
    if mark.letter:
        shapes.append(Text(Share(50), Share(50), mark.letter, f"on {mark.css}", dy=".36em"))
    return Drawing(tuple(shapes), "bar solid")


def silhouette(piece: WorkedPiece, widest: int, longest: int, marks: Marks) -> Drawing | None:
    """The whole piece as a small column of bars. `widest` and `longest` (rounds of a piece) are
    those of the pattern: all its pieces are to one scale."""
    rounds = piece.rounds
    if not any(worked.made for worked in rounds):
        return None
    step = min(MINI_STEP, MINI_HEIGHT / longest)
    steps, height = _thinned(rounds, marks), sum(w.rounds for w in rounds) * step
    shapes: list[Shape] = []
    top = 0.0
    for parts, count in steps:
        for part, at, width in _spans(parts, widest):
            rect = Rect(Share(at), top, Share(width), count * step, f"yarn {part.mark.css}")
            shapes.append(rect)
        top += count * step
    return Drawing(tuple(shapes), "mini", height=max(height, 1.0))


def _thinned(
    rounds: Sequence[WorkedRound], marks: Marks
) -> list[tuple[tuple[Segment, ...], float]]:
    """Each step of a silhouette: its colours and how many rounds it stands for."""
    every = max(1, -(-sum(w.rounds for w in rounds) // MINI_ROUNDS))
    steps: list[tuple[tuple[Segment, ...], float]] = []
    waiting = 0
    for worked in rounds:
        parts = _few(segments(worked, marks))
        whole, rest = divmod(waiting + worked.rounds, every)
        steps += [(parts, float(every))] * whole
        waiting = rest
        if worked is rounds[-1] and rest:
            steps.append((parts, float(rest)))
    return steps


def _few(parts: tuple[Segment, ...]) -> tuple[Segment, ...]:
    """Not more colours than can be seen at that size."""
    if len(parts) <= 12:
        return parts
    return (Segment(parts[0].mark, sum(p.stitches for p in parts)),)
