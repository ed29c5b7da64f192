"""How long a check takes: `make bench`. Writes what it measured to results.md beside this file.

Measured is the processor time of whole processes, start included, and the least of many runs:
what else the machine does adds to a run and never takes from it. The yardstick is a process that
only loads the same file with ruamel.yaml and does nothing with it. Both find their modules
compiled, as after any installation, whether or not Python may write that down here.
"""

from __future__ import annotations

import os
import platform
import resource
import statistics
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path
from tempfile import TemporaryDirectory

import booklets
import charts
import many
import measuring
import photos
import reading
import site_of_many
import working

ROOT = Path(__file__).parents[2]
RESULTS = Path(__file__).with_name("results.md")
RUNS = 25
LIMIT = 3.0
BARE = "import sys; from ruamel.yaml import YAML; YAML().load(open(sys.argv[1], encoding='utf-8'))"


@dataclass(frozen=True, slots=True)
class Measured:
    """Milliseconds of processor time: the least and the median of all runs."""

    least: float
    median: float


def main() -> int:
    files = sorted((ROOT / "patterns").glob("*/pattern.yaml"))
    with TemporaryDirectory() as compiled:
        os.environ["PYTHONPYCACHEPREFIX"] = compiled
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        rows = [row(file) for file in files]
    parts = [
        *HEAD,
        *(text for text, _ in rows),
        "",
        *READING,
        *reading.main(),
        "",
        *WORKING,
        *working.main(),
        "",
        *MEASURING,
        *measuring.main(),
        "",
        *MANY,
        *many.main(),
        "",
        *SITE,
        *site_of_many.main(),
        "",
        *PHOTOS,
        *photos.main(),
        "",
        *CHARTS,
        *charts.main(),
        "",
        *BOOKLETS,
        *booklets.main(),
        "",
        *machine(),
    ]
    RESULTS.write_text("\n".join(parts) + "\n", "utf-8")
    print(RESULTS.read_text("utf-8"))
    return int(max(ratio for _, ratio in rows) > LIMIT)


HEAD = [
    "# How long a check takes",
    "",
    f"Processor time of whole processes, least (median) of {RUNS} runs each, in milliseconds."
    " *Loading* is a process that only loads the same file with ruamel.yaml; the ratio of the two"
    f" is to be at most {LIMIT:.0f}. Written by `make bench`.",
    "",
    "| pattern | lines | loading | `roundproof check` | ratio |",
    "|---|---|---|---|---|",
]

READING = [
    "## How long rounds take to read",
    "",
    "Processor seconds on one core, the least of three; no round is like another, and nothing is"
    " kept by its text.",
    "",
]


WORKING = [
    "## How long rounds take to read and work",
    "",
    "The same of rounds that go into one another, read and worked stitch for stitch; the memory is"
    " the most that the process has had so far. A piece has at most 50,000 of them.",
    "",
]

MEASURING = [
    "## How long the measures of them take",
    "",
    "The same kind of rounds in pieces of 2,000, in two yarns, each piece joined to the one before:"
    " sizes, fits, yarn, filling and time of them all, beside reading and working them. Processor"
    " seconds, the least of three.",
    "",
]

MANY = [
    "## How long a folder of many patterns takes",
    "",
    "1,000 distinct patterns of 60 rounds each, every one whole, with yarns, notions and assembly:"
    " seconds by the clock and of the processor, the least of three, and the most memory that one"
    " process had. *Loading* is one process that loads the same files with ruamel.yaml.",
    "",
]


CHARTS = [
    "## How long a stitch chart takes",
    "",
    "From a worked piece to the text of its file, seconds of the processor, the least of seven; and"
    " how much the file weighs.",
    "",
]

BOOKLETS = [
    "## How long booklets take",
    "",
    "Seconds by the clock: one after the start, and copies for fifty testers by two threads.",
    "",
]

SITE = [
    "## How long a site of many patterns takes",
    "",
    "300 patterns, those of `tests/clean/` again and again under other titles, without photos;"
    " beside them the plain host with its default theme and 300 pages of the same tables, written"
    " in Markdown. Of builds the one of three that took the processor least, without following"
    " links, which the plain host does not do; of saves 20 one after the other, the plain host's 5,"
    " by the clock until the saved page can be fetched.",
    "",
]


PHOTOS = [
    "## How long a photo takes",
    "",
    "Processor seconds for a JPEG as a camera makes it, the least of five: decoded, turned, brought"
    " to its sizes and written; and where it was made before, taken from the store.",
    "",
]


def row(file: Path) -> tuple[str, float]:
    bare = [sys.executable, "-c", BARE, str(file)]
    check = [sys.executable, "-m", "roundproof", "check", str(file)]
    loading, checking = measured(bare, check)
    ratio = checking.least / loading.least
    lines = len(file.read_text("utf-8").splitlines())
    cells = (file.parent.name, lines, shown(loading), shown(checking), f"{ratio:.2f}")
    return f"| {' | '.join(map(str, cells))} |", ratio


def measured(*commands: Sequence[str]) -> list[Measured]:
    """All commands in turn, again and again, so that a busy moment falls on each alike."""
    for command in commands:
        processor_time(command)  # compiles what it loads
    times: list[list[float]] = [[] for _ in commands]
    for _ in range(RUNS):
        for command, taken in zip(commands, times, strict=True):
            taken.append(processor_time(command))
    return [Measured(min(taken), statistics.median(taken)) for taken in times]


def processor_time(command: Sequence[str]) -> float:
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    user, system = after.ru_utime - before.ru_utime, after.ru_stime - before.ru_stime
    return 1000 * (user + system)


def shown(time: Measured) -> str:
    return f"{time.least:.0f} ({time.median:.0f})"


def machine() -> list[str]:
    return [
        f"Python {platform.python_version()}, ruamel.yaml {version('ruamel.yaml')},"
        f" {platform.system()} on {platform.machine()}, {os.cpu_count()} processors."
    ]


if __name__ == "__main__":
    raise SystemExit(main())
