"""The signs that a chart uses, by the names that they are defined under."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from string import ascii_lowercase

from roundproof.drawing.chart.signs import Sign, known
from roundproof.fabric.courses import Course
from roundproof.fabric.laid import Laid
from roundproof.notation.tree import Loop


class Signs:
    """Every sign of a piece's stitches, in the order that they first come."""

    def __init__(self, courses: Iterable[Course]) -> None:
        self._names: dict[Sign, str] = {}
        self._letters: dict[str, str] = {}
        self._met: dict[tuple[str, Loop], Sign] = {}
        self.together: dict[Sign, int] = {}
        """Signs that are worked over several stitches, with the most that there are."""
        for course in courses:
            for stitch in (*course.founded, *course.stitches):
                sign = self.sign_of(stitch)
                feet = len(stitch.feet)
                if feet > 1:
                    self.together[sign] = max(feet, self.together.get(sign, 0))
                else:
                    self._names.setdefault(sign, f"s{len(self._names)}")

    @property
    def defined(self) -> Mapping[Sign, str]:
        return self._names

    def sign_of(self, stitch: Laid) -> Sign:
        loops = {foot.loop for foot in stitch.feet} if len(stitch.feet) > 1 else ()
        loop = stitch.feet[0].loop if stitch.feet and len(loops) < 2 else Loop.BOTH
        met = self._met.get((stitch.kind, loop))
        if met is None:
            met = Sign(stitch.kind, loop, "" if known(stitch.kind) else self._letter(stitch.kind))
            self._met[stitch.kind, loop] = met
        return met

    def _letter(self, kind: str) -> str:
        number = len(self._letters)
        free = ascii_lowercase[number] if number < len(ascii_lowercase) else str(number)
        return self._letters.setdefault(kind, free)

    def name_of(self, stitch: Laid) -> str:
        sign = self.sign_of(stitch)
        return self._names.setdefault(sign, f"s{len(self._names)}")

    @staticmethod
    def id_of(course: Course) -> str:
        """What an address names a round by, as on its page: 'r7', and 'r7-b' where the number comes
        back."""
        return f"r{course.number}" + (f"-{chr(97 + course.nth % 26)}" if course.nth else "")
