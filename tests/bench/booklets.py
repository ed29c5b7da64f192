"""How long booklets take: one of 60 rounds with three charts, and fifty testers' copies."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
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
    """Rows of a table: seconds by the clock. Each run has a pattern of its own, as Typst remembers
    what it has set before."""
    Printer(pattern(0)).booklet(Print())  # the fonts are read once
    one = min(timed(lambda p: Printer(p).booklet(Print()), n) for n in range(1, RUNS + 1))
    fifty = min(timed(copies, n) for n in range(RUNS + 1, RUNS + 4))
    return [
        "| made | seconds | at most |",
        "|---|---|---|",
        f"| a booklet of 60 rounds with three charts | {one:.2f} | {ONE:.1f} |",
        f"| {COPIES} testers' copies of it, {AT_ONCE} threads | {fifty:.2f} | {FIFTY:.1f} |",
    ]


def timed(work: Callable[[Proof], object], number: int) -> float:
    proof = pattern(number)
    start = time.perf_counter()
    work(proof)
    return time.perf_counter() - start


def copies(proof: Proof) -> None:
    printer = Printer(proof)
    hows = [Print(copy=Copy(str(number))) for number in range(COPIES)]
    with ThreadPoolExecutor(AT_ONCE) as pool:
        assert len({data for data, _ in pool.map(printer.booklet, hows)}) == COPIES


def pattern(number: int) -> Proof:
    """Three balls of 20 rounds each, no two alike, nor those of another number."""
    pieces = "\n".join(
        f"  ball {name}{number}:\n    rounds: |\n" + "\n".join(_ball(number * 3 + nth))
        for nth, name in enumerate(("a", "b", "c"))
    )
    text = f"title: Balls {number}\nterms: US\npieces:\n{pieces}\n"
    found, findings = read_pattern(Source("patterns/balls/pattern.yaml", text), "balls")
    assert found is not None
    proof, _ = prove_pattern(found, findings, Path())
    return proof


def _ball(number: int) -> Iterator[str]:
    """Where its increases begin, and which of its plain rounds goes into the back loops, tell it
    from others."""
    first, back = number % 5 + 1, 8 + number % 7
    yield "      R1: 6 sc in magic ring (6)"
    yield "      R2: inc x 6 (12)"
    for n in range(3, 8):
        before = min(first, n - 2)
        yield f"      R{n}: ({before} sc, inc, {n - 2 - before} sc) x 6 ({6 * n})".replace(
            ", 0 sc", ""
        )
    for n in range(8, 15):
        yield f"      R{n}: {'BLO: ' if n == back else ''}sc around (42)"
    for n in range(6, 1, -1):
        yield f"      R{21 - n}: ({n - 1} sc, dec) x 6 ({6 * n})"
    yield "      R20: dec x 6 (6)"
