"""How long a folder of many patterns takes to check, beside loading the same files one by one."""

from __future__ import annotations

import os
import random
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

PATTERNS, TIMES = 1_000, 3
LIMITS = {1: 3.5, 2: 2.0}
"""How many times as long as loading a check may take, by the number of processor cores it has."""
LOADING = """\
import sys
from pathlib import Path
from ruamel.yaml import YAML
for file in sorted(Path(sys.argv[1]).glob("*/pattern.yaml")):
    with open(file, encoding="utf-8") as text:
        YAML().load(text)
"""


@dataclass(frozen=True, slots=True)
class Taken:
    """Seconds by the clock and of the processor, and the most memory that one process had."""

    clock: float
    processor: float
    memory: int


def main(patterns: int = PATTERNS, times: int = TIMES) -> list[str]:
    """Rows of a table: how long loading and checking take, and their ratio. All in turn, again and
    again, so that a busy moment falls on each alike; the least counts."""
    cores = len(os.sched_getaffinity(0))
    with TemporaryDirectory() as name:
        folder = Path(name) / "patterns"
        written(folder, patterns)
        commands = {"loading, one process": [sys.executable, "-c", LOADING, str(folder)]}
        check = [sys.executable, "-m", "roundproof", "check", str(folder), "--jobs"]
        for jobs in sorted({1, min(2, cores)}):
            commands[f"`roundproof check --jobs {jobs}`"] = [*check, str(jobs)]
        runs: dict[str, list[Taken]] = {what: [] for what in commands}
        for _ in range(times):
            for what, command in commands.items():
                runs[what].append(taken(command))
    least = {what: min(took, key=lambda one: one.clock) for what, took in runs.items()}
    loading, *checking = least.items()
    return [*HEAD, _row(*loading), *(_row(*each, loading[1]) for each in checking)]


HEAD = [
    "| what | seconds | of the processor | MB | ratio | at most |",
    "|---|---|---|---|---|---|",
]


def _row(what: str, took: Taken, loading: Taken | None = None) -> str:
    ratio = f"{took.clock / loading.clock:.2f}" if loading else ""
    most = LIMITS[int(what.rstrip("`").rpartition(" ")[2])] if loading else ""
    return f"| {what} | {_cells(took)} | {ratio} | {most} |"


def _cells(took: Taken) -> str:
    return f"{took.clock:.1f} | {took.processor:.1f} | {took.memory}"


def taken(command: Sequence[str]) -> Taken:
    """Of one run; whatever it finds in the patterns."""
    began = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)  # with the processes that it waited for
    clock = time.perf_counter() - began
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode in (0, 1), process.returncode
    return Taken(clock, usage.ru_utime + usage.ru_stime, usage.ru_maxrss // 1024)


def written(folder: Path, count: int) -> None:
    """So many patterns into a folder, each in a folder of its own, and what they share."""
    folder.mkdir(parents=True)
    (folder / "defaults.yaml").write_text(DEFAULTS, encoding="utf-8")
    for number in range(1, count + 1):
        file = folder / f"pebble-{number:04}" / "pattern.yaml"
        file.parent.mkdir()
        file.write_text(pattern(number), encoding="utf-8")


DEFAULTS = """\
designer: Roundproof examples
contact: https://example.org/errata
licence: CC-BY-4.0
left_right: wearer
"""

PATTERN = """\
format: 1
title: Pebble creature {number}
status: testing
terms: US
level: intermediate
summary: Creature number {number} of the stony shore, in two colours of one cotton yarn.
size: {{height: {height} cm, width: {width} cm}}

yarns:
  cotton:
    fibre: 100 % cotton
    weight: 3
    ball: 50 g / 125 m
    hook: 3 mm
    gauge: {gauge} sts x {gauge} rounds = 10 cm
    colours: {{slate: "#6d7{number:03x}", chalk: "#ece{number:03x}"}}

notions:
  - fibrefill {filling} g
  - stitch marker
  - tapestry needle
  - {{item: safety eyes, size: {eyes} mm, count: 2, hazard: small part, or: embroidered eyes}}

safety:
  note: >-
    The eyes are small hard parts. Keep creature number {number} from young children, and pull each
    eye hard before you close the head.
care: Hand wash at {care} degrees, press the water out in a towel and dry flat.

pieces:
  body:
    name: Body
    yarn: slate
    rounds: |
{body}
      Mark front between sts 8 and 9.
      Fasten off, leaving a 40 cm tail for sewing.
  head:
    name: Head
    yarn: slate
    rounds: |
{head}
      Mark front between sts 8 and 9.
      Fasten off.
  arm:
    name: Arm
    make: 2
    yarn: chalk
    rounds: |
{arm}
      Fasten off, leaving a 25 cm tail for sewing.

assembly:
  - place:
      {{item: safety eyes, piece: head, between: [R{eye}, R{below}],
       around: {{mark: front, apart: {apart}}}}}
    step: Push the eyes through the head, {apart} stitches apart, and fasten them from within.
  - join: {{edge: head, to: body, by: whipstitch, stuffed: while closing}}
    step: Stuff both, and whipstitch the head to the body; add filling before you close.
  - join:
      {{edge: arm, to: body, fold: flat, at: {{between: [R{shoulder}, R{lower}], stitches: 6}},
       around: {{mark: front, apart: 12}}, by: whipstitch}}
    step: Flatten the arms and sew one to each side of the body below R{shoulder}.

changes:
  - {{version: 1.0.0, date: 2026-03-{day:02}, note: First edition of number {number}.}}
"""


def pattern(number: int) -> str:
    """A whole pattern of sixty rounds, which no other number gives."""
    pick = random.Random(number)
    neck, wide = pick.choice([18, 24]), pick.choice([42, 48, 54])
    body, head, arm = 29, 21, 10
    eye = pick.randint(9, 11)
    return PATTERN.format(
        number=number,
        height=pick.randint(14, 18),
        width=pick.randint(7, 9),
        gauge=pick.choice([21, 22, 23]),
        filling=pick.randint(20, 45),
        eyes=pick.choice([6, 7, 8]),
        care=pick.choice([20, 30, 40]),
        body="\n".join(ball(body, wide, neck, pick)),
        head="\n".join(ball(head, wide - 6, neck, pick)),
        arm="\n".join(ball(arm, pick.choice([12, 18]), 12, pick)),
        eye=eye,
        below=eye + 1,
        apart=pick.randint(6, 9),
        shoulder=body - 8,
        lower=body - 7,
        day=pick.randint(1, 28),
    )


def ball(rounds: int, wide: int, neck: int, pick: random.Random) -> Iterator[str]:
    """The lines of a piece that widens, goes straight and narrows again."""
    grow, shrink = wide // 6, (wide - neck) // 6
    yield "      R1: 6 sc in magic ring (6)"
    for number in range(2, rounds + 1):
        if number <= grow:
            work, made = _shared_out(6 * number - 12, "inc", pick), 6 * number
        elif number > rounds - shrink:
            made = neck + 6 * (rounds - number)
            work = _shared_out(made - 6, "dec", pick)
        else:
            work, made = _straight(wide, pick), wide
        yield f"      R{number}: {work} ({made})"


def _shared_out(plain: int, change: str, pick: random.Random) -> str:
    """Six increases or decreases with so many plain stitches between them in all."""
    each = plain // 6
    if each == 0:
        return f"{change} x 6"
    first = pick.randint(0, each)
    if first == 0:
        return f"({change}, {each} sc) x 6"
    if first == each:
        return f"({each} sc, {change}) x 6"
    return f"({first} sc, {change}, {each - first} sc) x 6"


def _straight(wide: int, pick: random.Random) -> str:
    first = pick.randint(2, wide - 8)
    second = pick.randint(2, 5)
    kind = pick.randint(0, 3)
    if kind == 0:
        return f"{first} sc, with chalk {second} sc, with slate {wide - first - second} sc"
    if kind == 1:
        return f"({wide // 6 - 1} sc, with chalk sc, with slate) x 6"
    return f"{first} sc, {wide - first} sc" if kind == 2 else "sc in each st around"


if __name__ == "__main__":
    print("\n".join(main(*map(int, sys.argv[1:]))))
