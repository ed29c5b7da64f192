"""How long booklets take: one of 60 rounds with three charts, and fifty testers' copies."""

from __future__ import annotations

import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from roundproof.pages.paper.how import Copy, Print
from roundproof.pages.paper.printing import Printer
from roundproof.pattern.load import read_pattern
from roundproof.pipeline import prove_pattern
from roundproof.proof import Proof
from roundproof.source import Source

ONE, FIFTY = 0.2, 2.0
"""Seconds by the clock: for one after the start, and for fifty on two cores."""
RUNS, COPIES, AT_ONCE = 7, 50, 2


def main() -> list[str]:
    """Rows of a table: seconds by the clock."""
    proof = pattern()
    Printer(proof).booklet(Print())  # the fonts are read once
    one = min(timed(lambda: Printer(proof).booklet(Print())) for _ in range(RUNS))
    fifty = min(timed(lambda: copies(proof)) for _ in range(3))
    return [
        "| made | seconds | at most |",
        "|---|---|---|",
        f"| a booklet of 60 rounds with three charts | {one:.2f} | {ONE:.1f} |",
        f"| {COPIES} testers' copies of it, {AT_ONCE} threads | {fifty:.2f} | {FIFTY:.1f} |",
    ]


def timed(work: object) -> float:
    start = time.perf_counter()
    work()  # type: ignore[operator]
    return time.perf_counter() - start


def copies(proof: Proof) -> None:
    printer = Printer(proof)
    hows = [Print(copy=Copy(str(number))) for number in range(COPIES)]
    with ThreadPoolExecutor(AT_ONCE) as pool:
        assert len({data for data, _ in pool.map(printer.booklet, hows)}) == COPIES


def pattern() -> Proof:
    """Three balls of 20 rounds each."""
    rounds = ["R1: 6 sc in magic ring (6)", "R2: inc x 6 (12)"]
    rounds += [f"R{n}: ({n - 2} sc, inc) x 6 ({6 * n})" for n in range(3, 8)]
    rounds += [f"R{n}: sc around (42)" for n in range(8, 15)]
    rounds += [f"R{21 - n}: ({n - 1} sc, dec) x 6 ({6 * n})" for n in range(6, 1, -1)]
    rounds.append("R20: dec x 6 (6)")
    lines = "\n".join(f"      {line}" for line in rounds)
    pieces = "\n".join(f"  ball {name}:\n    rounds: |\n{lines}" for name in ("a", "b", "c"))
    text = f"title: Balls\nterms: US\npieces:\n{pieces}\n"
    found, findings = read_pattern(Source("patterns/balls/pattern.yaml", text), "balls")
    assert found is not None
    proof, _ = prove_pattern(found, findings, Path())
    return proof
