"""How long the measures take, beside reading and working the same rounds."""

from __future__ import annotations

import gc
import random
import sys
import time

import working

from roundproof.cli.main import COLLECT
from roundproof.fabric.work import work
from roundproof.measure.bands import MOST_ROUNDS
from roundproof.pattern.load import read_pattern
from roundproof.proof import Proof
from roundproof.source import Source

LIMIT = 0.5
"""Measuring over reading and working, at most."""
IN_A_PIECE = 2_000
"""Longer pieces are hardly made, and not measured beyond `MOST_ROUNDS`."""
SIZES = (1_000, 60_000)
RUNS = 3


def main(sizes: tuple[int, ...] = SIZES) -> list[str]:
    """Rows of a table: how many rounds, seconds for either, their ratio."""
    gc.set_threshold(*COLLECT)  # as the commands do
    head = [
        "| rounds, pieces, joins | read and worked | measured | ratio | at most |",
        "|---|---|---|---|---|",
    ]
    return [*head, *map(_row, sizes)]


def _row(size: int) -> str:
    pieces = -(-size // IN_A_PIECE)
    worked, measured = measured_beside(size)
    ratio = measured / worked
    return (
        f"| {size:,} in {pieces}, {pieces - 1} | {worked:.2f} | {measured:.2f} | {ratio:.2f}"
        f" | {LIMIT} |"
    )


def measured_beside(size: int) -> tuple[float, float]:
    """Processor seconds for working and for measuring, the least of three each."""
    pattern, _ = read_pattern(Source("bench", written(size)), "bench")
    assert pattern is not None
    worked, measured = [], []
    for _ in range(RUNS):
        start = time.process_time()
        fabric, findings = work(pattern)
        between = time.process_time()
        figures = Proof(pattern, fabric).measures
        measured.append(time.process_time() - between)
        worked.append(between - start)
        assert not findings and len(figures.fits) == len(pattern.pieces) - 1
        assert sum(len(piece.outline) for piece in figures.pieces.values()) == size
        assert figures.hours and figures.yarns["slate"].metres
    return min(worked), min(measured)


def written(size: int) -> str:
    """A pattern of so many rounds in two yarns, each piece joined to the one before."""
    assert IN_A_PIECE <= MOST_ROUNDS
    pick = random.Random(1)
    pieces, joins = [], []
    for number, start in enumerate(range(0, size, IN_A_PIECE), 1):
        rounds = working.distinct(min(IN_A_PIECE, size - start), pick)
        yarn = "slate" if number % 2 else "chalk"
        pieces.append(f"  piece {number}:\n    yarn: {yarn}\n    rounds: |")
        pieces += [f"  {line}" for line in rounds]
        joins.append(f"  - join: {{edge: piece {number}, to: piece {number - 1}}}")
    return "\n".join([*_HEAD, *pieces, "assembly:", *joins[1:]]) + "\n"


_HEAD = [
    "terms: US",
    "yarns:",
    "  slate: {ball: 50 g / 125 m, gauge: 23 sts x 25 rounds = 10 cm}",
    "  chalk: {ball: 50 g / 125 m, gauge: 20 sts x 22 rounds = 10 cm}",
    "pieces:",
]

if __name__ == "__main__":
    print("\n".join(main(tuple(map(int, sys.argv[1:])) or SIZES)))
