"""The sections of a chart as shapes, in pixels, one under the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from math import cos, inf, radians, sin

from roundproof.drawing.chart.frames import Frame, Point, Rings, Steps
from roundproof.drawing.chart.numbers import Numbers
from roundproof.drawing.chart.placed import Line, Placed, Section
from roundproof.drawing.chart.signs import Sign, slashes
from roundproof.drawing.chart.used import Signs
from roundproof.drawing.shapes import Circle, Group, Path, Shape, Text, Use, polygon
from roundproof.drawing.yarns import Marks, mark_of
from roundproof.fabric.courses import Course
from roundproof.frozen import dataclass

UNIT = 20.0
"""Pixels of a stitch's width."""
CUT = 30
"""Stitches of an unrolled section that stand side by side; what is wider is cut."""
NEAR = 0.35
"""A sign whose foot is farther from what it stands on is led there by a line."""


@dataclass(frozen=True, slots=True)
class Block:
    """A section, or a part of one, with the corners of what is drawn, in stitch widths."""

    shapes: tuple[Shape, ...]
    left: float
    top: float
    right: float
    bottom: float
    words: str


@dataclass(frozen=True, slots=True)
class Ends:
    """The courses that a piece begins and ends with, and whether the yarn is cut at its end."""

    first: Course
    last: Course
    fastened: bool


class Painter:
    """Draws the sections of one piece; `mirrored` for left-handed makers."""

    def __init__(
        self, signs: Signs, marks: Marks, numbers: Numbers, mirrored: bool, ends: Ends
    ) -> None:
        self.numbers = numbers
        self.ends = ends
        self.signs = signs
        self.marks = marks
        self.many = numbers.many
        self.flip = -1.0 if mirrored else 1.0

    def blocks(self, section: Section) -> Iterator[Block]:
        lines = section.lines
        if isinstance(section.frame, Rings):
            yield self.block(section, None, "")
            return
        begin = min(line.begin for line in lines)
        end = max(line.end for line in lines)
        parts = max(1, -int(-(end - begin) // CUT))
        cuts = [begin + (end - begin) * n / parts for n in range(1, parts)]
        for part, window in enumerate(pairwise((-inf, *cuts, inf)), 1):
            words = f"part {part} of {parts}" if parts > 1 else ""
            yield self.block(section, window, words)

    def block(self, section: Section, window: tuple[float, float] | None, words: str) -> Block:
        shapes: list[Shape] = []
        seen: list[Point] = []
        frame = section.frame
        if isinstance(frame, Rings) and not (frame.straight or section.founded or section.ghosts):
            shapes.append(Circle(0.0, 0.0, frame.ground * 0.8 * UNIT, "edge"))
        ghosts = [p for p in section.ghosts if window is None or window[0] <= -p[0] < window[1]]
        seen += ghosts
        if ghosts:
            shapes.append(self.dots(ghosts))
        founded = [p for p in section.founded if window is None or window[0] <= p.s < window[1]]
        if founded:
            shapes.append(Group(tuple(self.sign(p, False) for p in founded), "edge"))
            seen += [p.top for p in founded]
        for line in section.lines:
            within = [p for p in line.placed if window is None or window[0] <= p.s < window[1]]
            if within:
                shapes.append(self.line(frame, line, within, window))
                seen += [p.top for p in within]
                seen += [foot for p in within for foot in p.feet]
        xs, ys = [x * self.flip for x, _ in seen], [y for _, y in seen]
        pad = 1.0 if window is None else 0.6
        sides = [pad, pad] if window is None else self.sides(section)
        return Block(
            tuple(shapes),
            min(xs) - sides[0],
            min(ys) - 1.0,
            max(xs) + sides[1],
            max(ys) + 0.8,
            words,
        )

    def sides(self, section: Section) -> list[float]:
        """Room for numbers: rounds begin on the right (mirrored, on the left), rows on both."""
        wide = self.numbers.widest + (0.7 if self.many else 0.3)
        left = wide if any(not line.forward for line in section.lines) else 0.6
        right = wide if any(line.forward for line in section.lines) else 0.6
        both = [left, right]
        return both if self.flip > 0 else both[::-1]

    def dots(self, points: Sequence[Point]) -> Shape:
        steps: list[tuple[str | float, ...]] = []
        for point in points:
            x, y = self.at(point)
            steps += [("M", x - 4, y), ("L", x + 4, y)]
        return Path(tuple(steps), "faint")

    def at(self, point: Point) -> Point:
        return round(point[0] * UNIT * self.flip), round(point[1] * UNIT)

    # ---- a round ----

    def line(
        self,
        frame: Frame,
        line: Line,
        within: Sequence[Placed],
        window: tuple[float, float] | None,
    ) -> Shape:
        shapes = list(self.colours(frame, line, within)) if self.many else []
        legs = list(self.legs(within))
        if legs:
            shapes.append(Path(tuple(legs), "line"))
        shapes.append(Group(tuple(self.sign(p, True) for p in within), "edge"))
        shapes.append(self.number(frame, line, within, window))
        shapes += self.marks_of_ends(frame, line, within)
        shapes.append(self.band(frame, line, within, "here"))
        part = window is None or within[0] is line.placed[0]
        return Group(tuple(shapes), id=self.signs.id_of(line.course) if part else "")

    def sign(self, placed: Placed, standing: bool) -> Shape:
        if len(placed.feet) > 1:
            return self.together(placed.stitch.kind, placed.top, placed.feet, placed.turn)
        x, y = self.at(placed.top)
        name = self.signs.name_of(placed.stitch)
        return Use(name, x, y, round(placed.turn * self.flip) % 360)

    def legs(self, within: Sequence[Placed]) -> Iterator[tuple[str | float, ...]]:
        """From what a stitch stands on to the foot of its sign, where that is not there already."""
        for placed in within:
            if len(placed.feet) != 1:
                continue
            foot = self.foot(placed)
            on = placed.feet[0]
            apart = (foot[0] - on[0]) ** 2 + (foot[1] - on[1]) ** 2
            short = self.signs.sign_of(placed.stitch).tall < 1.2
            if apart > NEAR**2 or (placed.shares and short):
                yield ("M", *self.at(on))
                yield ("L", *self.at(self.foot(placed, 0.35 if short else 0.0)))

    def foot(self, placed: Placed, up: float = 0.0) -> Point:
        """The foot of a sign, or a place on it so far up."""
        tall = self.signs.sign_of(placed.stitch).tall - up
        turn = radians(placed.turn)
        return placed.top[0] - tall * sin(turn), placed.top[1] + tall * cos(turn)

    def together(self, kind: str, top: Point, feet: Sequence[Point], turned: float) -> Shape:
        """Stitches that meet in one top: a leg from each foot, with its slashes or a bar."""
        cuts = slashes(kind)
        steps: list[tuple[str | float, ...]] = []
        for foot in feet:
            steps += [("M", *self.at(foot)), ("L", *self.at(top))]
            across, down = top[0] - foot[0], top[1] - foot[1]
            long = max(0.01, (across**2 + down**2) ** 0.5)
            side = (-down / long * 0.2, across / long * 0.2)
            for n in range(max(1, cuts) if cuts else 0):
                part = 0.5 + 0.16 * (n - (max(1, cuts) - 1) / 2)
                x, y = foot[0] + across * part, foot[1] + down * part
                lift = 0.0 if cuts < 0 else 0.1
                one = (x - side[0], y - side[1] - lift)
                other = (x + side[0], y + side[1] + lift)
                steps += [("M", *self.at(one)), ("L", *self.at(other))]
        if cuts >= 0:
            turn = radians(turned)
            x, y = 0.3 * cos(turn), 0.3 * sin(turn)
            one, other = (top[0] - x, top[1] - y), (top[0] + x, top[1] + y)
            steps += [("M", *self.at(one)), ("L", *self.at(other))]
        return Path(tuple(steps))

    def sample(self, sign: Sign, feet: int, x: float, y: float) -> Shape:
        """A sign over several stitches, for the key: its middle foot at a point in pixels."""
        apart = min(0.5, 1.4 / feet)
        at = [(x / UNIT * self.flip + apart * (n - (feet - 1) / 2), y / UNIT) for n in range(feet)]
        top = (x / UNIT * self.flip, y / UNIT - 1.3)
        return self.together(sign.kind, top, at, 0.0)

    # ---- what lies under and beside it ----

    def colours(self, frame: Frame, line: Line, within: Sequence[Placed]) -> Iterator[Shape]:
        """A band for each run of stitches in one yarn, with its letter on the edge it begins at."""
        several = len({p.stitch.yarn for p in line.placed}) > 1
        for yarn, run in groupby(within, key=lambda p: p.stitch.yarn):
            mark, part = mark_of(self.marks, yarn), list(run)
            yield self.band(frame, line, part, mark.css)
            if several and mark.letter:
                begin = part[0].s + (-0.5 if line.forward else 0.5)
                middle = (line.low + line.high) / 2
                at = frame.point(frame.over(begin, line.high, middle), middle)
                x, y = self.at(at)
                yield Text(x, y, mark.letter, "letter", "middle", ".36em")

    def band(self, frame: Frame, line: Line, within: Sequence[Placed], css: str) -> Shape:
        """What lies under stitches of a line, from the edge of the first to that of the last."""
        places = [p.s for p in within]
        begin, end = max(line.begin, min(places) - 0.5), min(line.end, max(places) + 0.5)
        low, high = line.low + 0.04, line.high - 0.04
        first, last = frame.over(begin, line.high, low), frame.over(end, line.high, low)
        steps: Steps = (
            ("M", *frame.point(begin, high)),
            *frame.way(frame.over(begin, line.high, high), frame.over(end, line.high, high), high),
            ("L", *frame.point(last, low)),
            *frame.way(last, first, low),
            ("Z",),
        )
        return Path(tuple(self.scaled(step) for step in steps), css)

    def scaled(self, step: tuple[str | float, ...]) -> tuple[str | float, ...]:
        letter, *numbers = step
        if letter == "A":
            radius, _, _, _, sweep, x, y = (float(n) for n in numbers)
            turned = int(sweep) if self.flip > 0 else 1 - int(sweep)
            return ("A", radius * UNIT, radius * UNIT, 0, 0, turned, *self.at((x, y)))
        if letter in ("M", "L"):
            x, y = (float(n) for n in numbers)
            return (letter, *self.at((x, y)))
        return step

    def marks_of_ends(self, frame: Frame, line: Line, within: Sequence[Placed]) -> Iterator[Shape]:
        """A filled triangle where the piece begins, an open one where its yarn is cut."""
        if line.course is self.ends.first and within[0] is line.placed[0]:
            before = line.begin - 0.4 if line.forward else line.end + 0.4
            yield self.triangle(frame, line, before, line.low + 0.2, "solid")
        if self.ends.fastened and line.course is self.ends.last and within[-1] is line.placed[-1]:
            after = line.end + 0.1 if line.forward else line.begin - 0.1
            yield self.triangle(frame, line, after, (line.low + line.high) / 2, "line")

    def triangle(self, frame: Frame, line: Line, s: float, z: float, css: str) -> Shape:
        """It points on along the work."""
        on = 0.45 if line.forward else -0.45
        corners = ((s, z - 0.22), (s + on, z), (s, z + 0.22))
        at = [self.at(frame.point(frame.over(n, line.high, high), high)) for n, high in corners]
        return polygon(at, css)

    def ends_told(self) -> Iterator[tuple[str, str]]:
        """What the triangles mean."""
        yield "solid", "the work begins"
        if self.ends.fastened:
            yield "line", "the work ends, the yarn is cut"

    def number(
        self,
        frame: Frame,
        line: Line,
        within: Sequence[Placed],
        window: tuple[float, float] | None,
    ) -> Shape:
        """The number of a round, before its first stitch."""
        words = self.numbers.of(line.course)
        middle = (line.low + line.high) / 2
        if window is None:
            first = not line.low and frame.closed  # there, the triangle needs room below
            middle = line.high - 0.15 if first else (line.low + 2 * line.high) / 3
            aside = self.numbers.wide(line.course) / 2 if frame.closed else 0.9
            place = line.begin - aside if line.forward else line.end + aside
            x, y = self.at(frame.point(frame.over(place, line.high, middle), middle))
            return Text(x, y, words, "label", "middle", ".36em")
        places = [p.s for p in within]
        right = line.forward
        aside = 1.1 if self.many else 0.75  # a letter may stand on the edge
        edge = min(places) - aside if right else max(places) + aside
        x, y = self.at((-edge, -middle))
        return Text(x, y, words, "label", "start" if right == (self.flip > 0) else "end", ".36em")
