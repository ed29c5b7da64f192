"""What stands before a round: its number, and the letter of its yarn where that is another one."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.drawing.yarns import Marks, mark_of
from roundproof.fabric.courses import Course

LETTER = 0.64
"""How wide a letter of a label is, in stitch widths."""
AIR = 0.5


class Numbers:
    """The words before each round of a piece."""

    def __init__(self, courses: Sequence[Course], marks: Marks) -> None:
        yarns = [{s.yarn for s in (*c.founded, *c.stitches)} for c in courses]
        self.many = len(set().union(*yarns)) > 1
        """Whether the piece has more than one yarn."""
        self._words: dict[tuple[int, int], str] = {}
        before: set[str | None] = set()
        for course, own in zip(courses, yarns, strict=True):
            words = str(course.number)
            if self.many and len(own) == 1 and own != before:
                words += f" {mark_of(marks, next(iter(own))).letter}".rstrip()
            self._words[course.number, course.nth] = words
            before = own

    def of(self, course: Course) -> str:
        return self._words[course.number, course.nth]

    def wide(self, course: Course) -> float:
        """The room it needs, in stitch widths."""
        return AIR + LETTER * len(self.of(course))

    @property
    def widest(self) -> float:
        return AIR + LETTER * max(map(len, self._words.values()))
