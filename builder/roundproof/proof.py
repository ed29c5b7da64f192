"""Proof: a pattern, its fabric and, when asked for, its measures."""

from __future__ import annotations

from functools import cached_property
from pathlib import Path, PurePosixPath, PureWindowsPath

from roundproof.fabric.model import Fabric
from roundproof.findings import Finding
from roundproof.frozen import dataclass
from roundproof.measure import measured
from roundproof.measure.model import Measures
from roundproof.pattern.model import Pattern


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
