"""Reading files from the disk within bounds, and finding the pattern files under a path."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from roundproof.findings import Finding, Severity
from roundproof.frozen import dataclass
from roundproof.pattern.near import nearest
from roundproof.pattern.sorts import A_PATTERN, Sort
from roundproof.pattern.traps import FILE_UNUSABLE, unusable
from roundproof.source import Source

MAX_BYTES = 2_000_000
PATTERN_FILE = "pattern.yaml"
DEFAULTS_FILE = "defaults.yaml"
PATTERNS = Path("patterns")
"""Where patterns are looked for when no path is named."""
_NAMED = 6
"""Of more patterns than this no list is told."""


def read_file(
    path: Path, name: str, sort: Sort = A_PATTERN
) -> tuple[Source | None, tuple[Finding, ...]]:
    """A text file, never more of it than the limit; None, with a finding, where it is none."""
    try:
        about = path.stat()
        if not stat.S_ISREG(about.st_mode):
            return None, (_cannot(name, "This is not a file."),)
        if about.st_size > MAX_BYTES:
            return None, (_too_long(name, about.st_size, sort),)
        with path.open("rb") as file:
            data = file.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        return None, (_cannot(name, _reason(error)),)
    return _decoded(data, name, sort)


def _decoded(data: bytes, name: str, sort: Sort) -> tuple[Source | None, tuple[Finding, ...]]:
    if len(data) > MAX_BYTES:
        return None, (_too_long(name, len(data), sort),)
    mend = "Save it again as plain text in UTF-8."
    if b"\0" in data:
        return None, (_cannot(name, "This is not a text file.", mend),)
    try:
        return Source(name, data.decode("utf-8-sig")), ()
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        what = f"This is not text in UTF-8: line {line} has a sign in another encoding."
        return None, (_cannot(name, what, mend),)


def _cannot(name: str, message: str, mend: str = "") -> Finding:
    return unusable(Source(name, ""), message, mend)


def _too_long(name: str, size: int, sort: Sort) -> Finding:
    message = f"The file has {size / 1e6:,.1f} MB, and a file of {sort.holds} has at most 2 MB."
    return _cannot(name, message, "Check that this is the right file; photos belong in `photos/`.")


def _reason(error: OSError | ValueError) -> str:
    if isinstance(error, FileNotFoundError):
        return "There is no such file or folder."
    if isinstance(error, PermissionError):
        return "The file may not be read: its permissions forbid it."
    return "The file cannot be read."


@dataclass(frozen=True, slots=True)
class PatternFile:
    """A pattern file, the name it is reported under, its slug, and where its defaults would be."""

    path: Path
    name: str
    slug: str
    defaults: Path

    @property
    def defaults_name(self) -> str:
        return shown(self.defaults)


def find_patterns(path: Path) -> tuple[tuple[PatternFile, ...], tuple[Finding, ...]]:
    """The pattern files that a path names: a file, a pattern's folder, or a folder of patterns.
    A file of defaults names all that share it."""
    try:
        if path.name == DEFAULTS_FILE and path.is_file():
            path = path.parent
        if path.is_file():
            return (_file(path),), ()
        if (path / PATTERN_FILE).is_file():
            return (_file(path / PATTERN_FILE),), ()
        if not path.is_dir():
            return (), (_absent(path),)
        inner = sorted(entry.name for entry in os.scandir(path) if entry.is_dir())
    except (OSError, ValueError) as error:
        return (), (_cannot(shown(path), _reason_of_folder(error)),)
    found = tuple(_file(f) for n in inner if (f := path / n / PATTERN_FILE).is_file())
    return found, () if found else (_no_pattern(path),)


def _file(path: Path) -> PatternFile:
    """A file of the usual name goes by its folder, another by its own name."""
    folder = Path(os.path.abspath(path)).parent
    if path.name == PATTERN_FILE:
        return PatternFile(path, shown(path), folder.name, folder.parent / DEFAULTS_FILE)
    return PatternFile(path, shown(path), path.stem, folder / DEFAULTS_FILE)


def shown(path: Path) -> str:
    """A path as it is reported: from where the command runs, with slashes."""
    if not path.is_absolute():
        return path.as_posix()
    here = Path.cwd()
    for above, way in ((here, ""), (here.parent, "../"), (here.parent.parent, "../../")):
        if path.is_relative_to(above):
            return way + path.relative_to(above).as_posix()
    return path.as_posix()


def _absent(path: Path) -> Finding:
    if path.exists():
        return _cannot(shown(path), "This is neither a file nor a folder.")
    beside = path.parent if len(path.parts) > 1 else PATTERNS
    here = [file.slug for file in find_patterns(beside)[0]] if beside.is_dir() else []
    mend = ""
    if meant := nearest(path.name, here):
        mend = f"Is `{meant}` meant?"
    elif 0 < len(here) <= _NAMED:
        mend = f"In {shown(beside)}/ there {'are' if len(here) > 1 else 'is'} {', '.join(here)}."
    return _cannot(shown(path), _reason(FileNotFoundError()), mend)


def _reason_of_folder(error: OSError | ValueError) -> str:
    if isinstance(error, PermissionError):
        return "The folder may not be read: its permissions forbid it."
    return "The folder cannot be read."


def _no_pattern(path: Path) -> Finding:
    """A folder without patterns; a file ending in .yml is the usual near miss."""
    near = sorted(p.name for p in path.glob("*.y*ml")) or sorted(
        f"{p.parent.name}/{p.name}" for p in path.glob("*/*.y*ml")
    )
    near = [n for n in near if n != DEFAULTS_FILE]
    message = f"There is no {PATTERN_FILE} in this folder or in the folders in it."
    mend = f"Put each pattern into a folder of its own, in a file called {PATTERN_FILE}."
    if near:
        mend = f"Is {near[0]} one? Call it {PATTERN_FILE}, in a folder of its own."
    span = Source(shown(path), "").span(0, 0)
    return Finding(FILE_UNUSABLE, Severity.ERROR, span, message, mend)
