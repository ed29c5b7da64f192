"""Draws the pictures of the seashore collection from the patterns themselves.

Each shows the finished object from two sides, to one scale, every stitch in the colour of its
yarn: radii and heights are those that are measured, colours those the rounds change to, limbs and
eyes sit where the assembly places them. They are drawings and say so; nothing is a photograph.

Run by `make pictures`; the files it writes are kept with the patterns.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, cos, pi, sin
from pathlib import Path

from PIL import Image, ImageDraw

from roundproof.drawing.places import Seat, seats, things
from roundproof.drawing.views import at_turn
from roundproof.fabric.model import WorkedRound
from roundproof.measure.model import RoundSize
from roundproof.pipeline import prove
from roundproof.proof import Proof

PATTERNS = Path(__file__).parents[2] / "patterns"
GROUND, INK = "#FCF6E4", "#1C1F1A"
WIDE, HIGH = 1000, 560
FINE = 3
"""Pixels are drawn three times as fine and then brought together, which smooths the edges."""
LINES = (4, 12, 20, 28, 36)
"""The stitches of R10 at which the sea urchin's sewn lines cross its widest round."""

Point = tuple[float, float]


@dataclass
class View:
    """One side of an object on the sheet, `x` and `y` its middle, `scale` pixels a millimetre. Seen
    from below, left and right change places."""

    draw: ImageDraw.ImageDraw
    x: float
    y: float
    scale: float
    below: bool = False

    def at(self, x: float, y: float) -> Point:
        side = -1 if self.below else 1
        return (self.x + side * x * self.scale) * FINE, (self.y + y * self.scale) * FINE

    def fill(self, points: Sequence[Point], colour: str, edge: str | None = None) -> None:
        self.draw.polygon([self.at(*p) for p in points], fill=colour)
        if edge:
            self.line([*points, points[0]], edge, 1)

    def line(self, points: Sequence[Point], colour: str, width: float) -> None:
        self.draw.line([self.at(*p) for p in points], fill=colour, width=round(width * FINE))

    def dot(self, x: float, y: float, radius: float, colour: str) -> None:
        middle, reach = self.at(x, y), radius * self.scale * FINE
        box = (middle[0] - reach, middle[1] - reach, middle[0] + reach, middle[1] + reach)
        self.draw.ellipse(box, fill=colour)


class Object:
    """A proved pattern, ready to be drawn."""

    def __init__(self, slug: str) -> None:
        (result,) = prove(PATTERNS / slug).files
        assert result.proof is not None
        self.proof: Proof = result.proof
        self.seats = {seat.guest: seat for seat in self._seats()}

    def _seats(self) -> Iterator[Seat]:
        yield from seats(self.proof.pattern, self.proof.fabric)
        yield from things(self.proof.pattern, self.proof.fabric)

    def shade(self, yarn: str | None) -> str:
        found = self.proof.pattern.yarn(yarn or "")
        assert found is not None and found.shade is not None
        return found.shade.value

    def sizes(self, piece: str) -> tuple[RoundSize, ...]:
        return self.proof.measures.pieces[piece].outline

    def worked(self, piece: str, number: int) -> WorkedRound:
        found = self.proof.fabric.pieces[piece].at(number)
        assert found is not None
        return found

    def straight(self, piece: str) -> float:
        size = self.proof.measures.pieces[piece]
        return (size.length_mm or 0) - (size.diameter_mm or 0) if size.length_mm else 0.0

    def colours(self, worked: WorkedRound) -> list[str]:
        """The colour of each stitch of a round, in order."""
        return [self.shade(s.yarn) for s in worked.stretches for _ in range(s.made)]

    # ---- what can be seen from above or below ----

    def rings(self, view: View, piece: str, numbers: Sequence[int], start: float = 0.5) -> None:
        """Rounds of a piece, the outermost first, stitch by stitch. `start` is the turn at which
        the rounds begin: 0 the front, 0.5 the back."""
        sizes = {size.number: size for size in self.sizes(piece)}
        straight = self.straight(piece)
        for number in sorted(numbers, key=lambda n: -sizes[n].radius_mm):
            colours = self.colours(self.worked(piece, number))
            share, radius = 1 / len(colours), sizes[number].radius_mm
            for place, colour in enumerate(colours):
                turns = [start + share * (place + step / 6) for step in range(7)]
                edge = [at_turn(turn, radius, straight)[:2] for turn in turns]
                spine = straight / 2
                inner = [(max(-spine, min(spine, x)), 0.0) for x, _ in edge]
                view.fill([*edge, *reversed(inner)], colour)
                view.line([edge[0], between(edge[0], inner[0], 4 / radius)], shaded(colour), 0.8)
            self.edge(view, radius, straight, shaded(colours[0]))

    def edge(self, view: View, radius: float, straight: float, colour: str) -> None:
        view.line([at_turn(n / 120, radius, straight)[:2] for n in range(121)], colour, 1)

    def frill(self, view: View, piece: str, radius: float, straight: float, waves: int) -> None:
        """A ruffled edge: as many waves as told, as deep as its round is high."""
        colour = self.shade(self.worked(piece, 1).yarn)
        points = []
        for n in range(720):
            x, y, out_x, out_y = at_turn(n / 720, radius, straight)
            reach = 3.0 + 1.4 * sin(2 * pi * waves * n / 720)
            points.append((x + reach * out_x, y + reach * out_y))
        view.fill(points, colour, shaded(colour))

    def limbs(self, view: View, piece: str, lean: float = 0.0) -> list[tuple[Point, Point]]:
        """Copies of a piece, each with its end on the round it is sewn to. Gives each one's root
        and the direction it points in. `lean` turns them towards the front, in radians."""
        seat = self.seats[piece]
        size = next(s for s in self.sizes(seat.host) if s.number == seat.round)
        found = []
        for turn in seat.turns:
            x, y, out_x, out_y = at_turn(turn, size.radius_mm, self.straight(seat.host))
            angle = atan2(out_y, out_x)
            front = -pi / 2
            angle += max(-lean, min(lean, (front - angle + pi) % (2 * pi) - pi))
            way = (cos(angle), sin(angle))
            self.limb(view, piece, (x - 2 * out_x, y - 2 * out_y), way)
            found.append(((x, y), way))
        return found

    def limb(self, view: View, piece: str, root: Point, way: Point) -> None:
        """A piece from the side, its last round at the root."""
        sizes, colour = self.sizes(piece), self.shade(self.worked(piece, 1).yarn)
        high = sizes[-1].height_mm
        rows = [(high - s.height_mm, s.radius_mm) for s in sizes] + [
            (high - 1, sizes[0].radius_mm * 0.5)
        ]
        rows = sorted(rows)
        left = [self.off(root, way, far, wide) for far, wide in rows]
        right = [self.off(root, way, far, -wide) for far, wide in rows]
        view.fill([*left, *reversed(right)], colour, shaded(colour))
        for a, b in zip(left[:-1], right[:-1], strict=True):
            view.line([a, b], shaded(colour), 0.8)

    @staticmethod
    def off(root: Point, way: Point, far: float, wide: float) -> Point:
        return root[0] + way[0] * far - way[1] * wide, root[1] + way[1] * far + way[0] * wide


def between(a: Point, b: Point, share: float) -> Point:
    share = min(1.0, share)
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def shaded(colour: str) -> str:
    """A darker shade of a colour, for the lines between stitches."""
    red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return f"#{red * 4 // 5:02x}{green * 4 // 5:02x}{blue * 4 // 5:02x}"


# ---- the three objects ----


def sea_urchin(above: View, below: View) -> None:
    urchin = Object("sea-urchin")
    for view, numbers in ((above, range(1, 11)), (below, range(11, 20))):
        view.scale = 8.2
        urchin.rings(view, "test", list(numbers))
        sizes = [s for s in urchin.sizes("test") if s.number in numbers and 3 <= s.number <= 16]
        for line in LINES:
            turn = 0.5 + (line - 0.5) / 40
            for size in sizes[::2]:
                x, y, out_x, out_y = at_turn(turn, size.radius_mm, 0)
                ends = [(x - d * out_x, y - d * out_y) for d in (0.1, 1.9)]
                view.line(ends, urchin.shade("white"), 4)


def moon_jelly(above: View, below: View) -> None:
    jelly = Object("moon-jelly")
    radius = jelly.sizes("bell")[-1].radius_mm
    for view in (above, below):
        view.scale = 3.05
        jelly.frill(view, "fringe", radius, 0, waves=36)
    jelly.rings(above, "bell", range(1, 18))
    jelly.rings(below, "underside", range(1, 11))
    for arm in range(4):
        turn = 0.5 + (3 * arm + 1.5) / 12
        x, y, out_x, out_y = at_turn(turn, jelly.sizes("underside")[1].radius_mm, 0)
        strip(jelly, below, (x, y), (out_x, out_y))


def strip(jelly: Object, view: View, root: Point, way: Point) -> None:
    """An oral arm: its rows from the underside outwards."""
    rows = jelly.sizes("oral arm")
    colour = shaded(shaded(jelly.shade("gauze")))
    ends = [(0.0, rows[0].length_mm / 2)] + [(r.height_mm, r.length_mm / 2) for r in rows]
    left = [Object.off(root, way, far, wide) for far, wide in ends]
    right = [Object.off(root, way, far, -wide) for far, wide in ends]
    view.fill([*left, *reversed(right)], jelly.shade("gauze"), colour)
    for a, b in zip(left, right, strict=True):
        view.line([a, b], colour, 0.8)


def shore_crab(above: View, below: View) -> None:
    crab = Object("shore-crab")
    straight = crab.straight("body")
    for view in (above, below):
        view.scale, view.y = 2.75, HIGH / 2 + 22
        crab.limbs(view, "leg", lean=0.1)
        for root, way in crab.limbs(view, "claw", lean=0.4):
            inner = 1 if root[0] < 0 else -1
            finger = Object.off(root, way, 34, inner * 5.5)
            crab.limb(view, "finger", finger, Object.off((0, 0), way, 1, inner * 0.25))
    for turn in crab.seats["safety eyes"].turns:
        x, y, out_x, out_y = at_turn(turn, crab.sizes("body")[7].radius_mm, straight)
        for view in (above, below):
            view.dot(x + 1.5 * out_x, y + 1.5 * out_y, 2.5, INK)
    crab.rings(above, "body", range(1, 9), start=7.5 / 44)
    for loop in (1, 3, 5, 12, 14, 16, 18, 20, 41, 43):
        tooth(crab, above, loop)
    crab.rings(below, "body", range(9, 16), start=7.5 / 44)


def tooth(crab: Object, view: View, loop: int) -> None:
    """Three stitches in one loop of R6. The front mark stands after stitch 8."""
    colour = crab.shade(crab.worked("rim", 1).yarn)
    turn = (loop - 0.5 - 8) / 44
    x, y, out_x, out_y = at_turn(turn, crab.sizes("body")[5].radius_mm, crab.straight("body"))
    base, tip = (x - out_x, y - out_y), (x + 4.5 * out_x, y + 4.5 * out_y)
    sides = [(base[0] + side * out_y * 2.6, base[1] - side * out_x * 2.6) for side in (-1, 1)]
    view.fill([sides[0], tip, sides[1]], colour, shaded(colour))


PICTURES = {"sea-urchin": sea_urchin, "moon-jelly": moon_jelly, "shore-crab": shore_crab}


def picture(slug: str) -> Image.Image:
    """The picture of one pattern: from above to the left, from below to the right."""
    sheet = Image.new("RGB", (WIDE * FINE, HIGH * FINE), GROUND)
    pen = ImageDraw.Draw(sheet)
    views = [View(pen, WIDE * place, HIGH / 2, 1.0, place > 0.5) for place in (0.26, 0.74)]
    PICTURES[slug](*views)
    small = sheet.resize((WIDE, HIGH), Image.Resampling.LANCZOS)
    return small.quantize(128, dither=Image.Dither.NONE)


def file_of(slug: str) -> Path:
    return PATTERNS / slug / "photos" / "views.png"


def main() -> None:
    """Write every picture."""
    for slug in PICTURES:
        file = file_of(slug)
        file.parent.mkdir(exist_ok=True)
        picture(slug).save(file, optimize=True)
        print(f"{file.relative_to(PATTERNS.parent)}, {file.stat().st_size // 1000} kB")


if __name__ == "__main__":
    main()
