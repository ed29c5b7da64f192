"""Where the stitches of a piece stand in its chart.

The rounds are shared out into sections that can be drawn without tearing the stitches from what
they are worked into: rings that grow from the middle, rings that close towards it, or the rounds
unrolled as lines one over the other. Within a section every stitch stands as near over its own as
its neighbours let it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from roundproof.drawing.chart.frames import Frame
from roundproof.drawing.chart.layer import Layer, Seam
from roundproof.drawing.chart.placed import Section
from roundproof.drawing.chart.sections import Plan, plans
from roundproof.fabric.courses import Course, Ground


def sections(courses: Sequence[Course], rows: bool, seam: Seam) -> tuple[Section, ...]:
    """All courses of a piece, in order; `rows` for a piece that is worked flat."""
    sheet = _Sheet(courses, rows, seam)
    while sheet.at < len(courses):
        sheet.go_on()
    return tuple(sheet.found)


class _Sheet:
    """The sections found so far."""

    def __init__(self, courses: Sequence[Course], rows: bool, seam: Seam) -> None:
        self.courses = courses
        self.rows = rows
        self.seam = seam
        self.at = 0
        self.found: list[Section] = []
        self.planned: Iterator[Plan] = iter(())
        first = courses[0]
        oval = first.far and first.ground is Ground.CHAIN
        self.straight = float(first.room - 1) if oval else 0.0

    def go_on(self) -> None:
        """The next section. Where a stitch does not reach what it stands on, the run ends before
        it, and what is left is planned anew."""
        left = self.courses[self.at :]
        plan = next(self.planned, None) or self.anew(left)
        run = left[: plan.count]
        section, good = self.laid_out(run, plan.frame)
        while good < len(run):
            plan = self.anew(run[:good])
            run = run[: plan.count]
            section, good = self.laid_out(run, plan.frame)
            self.planned = iter(())
        self.found.append(section)
        self.at += len(run)

    def anew(self, courses: Sequence[Course]) -> Plan:
        self.planned = plans(courses, self.rows, self.straight, self.seam)
        return next(self.planned)

    def laid_out(self, run: Sequence[Course], frame: Frame) -> tuple[Section, int]:
        """The section, and how many of its lines hold."""
        tries = [self.tried(run, frame, False)]
        if tries[0][1] < len(run) and self.rows:
            tries.append(self.tried(run, frame, True))
        return max(tries, key=lambda each: each[1])

    def tried(self, run: Sequence[Course], frame: Frame, wide: bool) -> tuple[Section, int]:
        before = self.found[-1] if self.found else None
        layer = Layer(frame, self.rows and not wide, self.seam, before)
        good = len(run)
        for n, course in enumerate(run):
            if not layer.lay(course) and n:
                good = min(good, n)
        return Section(frame, tuple(layer.lines), tuple(layer.ghosts), tuple(layer.founded)), good
