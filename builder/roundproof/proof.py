"""Proof: a pattern, its fabric and, when asked for, its measures and what testers sent back."""

from __future__ import annotations

from functools import cached_property
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import TYPE_CHECKING

from roundproof.fabric.model import Fabric
from roundproof.findings import Finding
from roundproof.frozen import dataclass
from roundproof.measure import measured
from roundproof.measure.model import Measures, Tested
from roundproof.pattern.model import Pattern

if TYPE_CHECKING:
    from roundproof.testers.model import Reports


@dataclass(frozen=True)
class Proof:
    """The one argument of every check, drawing, page and comparison.

    `reading` holds what the earlier stages (loading, reading, working) had to say. `folder` is
    where the pattern's own files lie.
    """

    pattern: Pattern
    fabric: Fabric
    reading: tuple[Finding, ...] = ()
    folder: Path = Path()

    @cached_property
    def measures(self) -> Measures:
        return measured(self.pattern, self.fabric)

    @cached_property
    def reports(self) -> Reports:
        """What testers sent back; private, but for what `tested` makes of it."""
        from roundproof.testers.read import read_reports  # most patterns have none yet

        return read_reports(self.folder, self.pattern, self.fabric)

    @cached_property
    def tested(self) -> Tested | None:
        """What testers measured of the pattern as it is, in sum; None where nobody has."""
        from roundproof.testers.figures import tested

        return tested(self.reports)

    def letter(self, key: str) -> str:
        """The letter that a yarn goes by in short notation; its own word where none is listed."""
        yarn = self.pattern.yarn(key)
        return yarn.letter if yarn else key

    def photo(self, name: str) -> Path | None:
        """Where a photo of the pattern lies, whether it is there or not; None for a name that
        leads out of the folder of photos, by itself or through a link."""
        if PureWindowsPath(name).anchor or ".." in PurePosixPath(name.replace("\\", "/")).parts:
            return None
        photos = self.folder / "photos"
        path = photos / name
        try:
            inside = path.resolve().is_relative_to(photos.resolve())
        except (OSError, ValueError):  # a name no file can have, or links in a circle
            return None
        return path if inside else None
