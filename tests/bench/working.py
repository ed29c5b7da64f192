"""How long rounds take to read and work: distinct ones, each fitting the one before."""

from __future__ import annotations

import gc
import random
import resource
import sys
import time

from roundproof.cli.main import COLLECT
from roundproof.fabric.work import work
from roundproof.pattern.load import read_pattern
from roundproof.source import Source

LIMIT = 10.0
"""Seconds for 60,000 rounds on one core."""
IN_A_PIECE = 50_000
SIZES = (1_000, 60_000, 1_000_000)


def main(sizes: tuple[int, ...] = SIZES) -> list[str]:
    """Rows of a table: how many rounds, seconds, microseconds a round, memory."""
    gc.set_threshold(*COLLECT)  # as the commands do
    head = [
        "| read and worked | seconds | at most | microseconds a round | MB in all |",
        "|---|---|---|---|---|",
    ]
    rows = []
    for size in sizes:
        took, memory = measured(size)
        most = f"{LIMIT:.0f}" if size == 60_000 else ""
        each = took / size * 1e6
        rows.append(f"| {size:,} distinct rounds | {took:.2f} | {most} | {each:.0f} | {memory} |")
    return [*head, *rows]


def measured(size: int) -> tuple[float, int]:
    """Processor seconds, and the most memory the process has had so far, in MB."""
    pattern, _ = read_pattern(Source("bench", written(size)), "bench")
    assert pattern is not None
    start = time.process_time()
    fabric, findings = work(pattern)
    took = time.process_time() - start
    assert not findings and sum(len(p.rounds) for p in fabric.pieces.values()) == size
    assert all(w.sound for p in fabric.pieces.values() for w in p.rounds)
    return took, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024


def written(size: int) -> str:
    """A pattern of so many rounds, in pieces of at most 50,000."""
    pick = random.Random(1)
    pieces = []
    for number, start in enumerate(range(0, size, IN_A_PIECE), 1):
        rounds = min(IN_A_PIECE, size - start)
        pieces.append(f"  piece {number}: |\n" + "\n".join(distinct(rounds, pick)))
    return "terms: US\npieces:\n" + "\n".join(pieces) + "\n"


def distinct(count: int, pick: random.Random) -> list[str]:
    """The lines of so many rounds, each into the one before, indented as those of a piece."""
    found, there = ["    R1: 6 sc in magic ring (6)"], 6
    for number in range(2, count + 1):
        work, there = _round(there, pick)
        found.append(f"    R{number}: {work} ({there})")
    return found


def _round(there: int, pick: random.Random) -> tuple[str, int]:
    """A round into `there` stitches, and what it makes."""
    kind = pick.choice(["more", "more", "less", "same", "loops"])
    times = pick.choice([n for n in range(1, 13) if there % n == 0])
    each = there // times
    if kind == "more" and there < 400 and each > 1:
        return f"({each - 1} sc, inc) x {times}", there + times
    if kind == "less" and each > 3:
        return f"({each - 2} sc, dec) x {times}", there - times
    if kind == "loops":
        return "sc in BLO around", there
    first = pick.randint(1, there - 1)
    return f"{first} sc, {there - first} hdc", there


if __name__ == "__main__":
    print("\n".join(main(tuple(map(int, sys.argv[1:])) or SIZES)))
