"""How long rounds take to read: distinct ones in the usual wordings, and lines meant to be hard."""

from __future__ import annotations

import gc
import random
import time
from collections.abc import Callable, Sequence

from roundproof.cli.main import COLLECT
from roundproof.notation.reader import Context, read_script
from roundproof.pattern.model import Terms
from roundproof.source import Line, Source, Text

ROUNDS = 60_000
LIMIT = 6.0
"""Seconds for that many rounds on one core."""
_COLOURS = {"chalk": "chalk", "slate": "slate"}
_WAYS: tuple[Callable[[int, int, int], str], ...] = (
    lambda n, a, b: f"R{n}: ({a} sc, inc) x {b} ({(a + 2) * b})",
    lambda n, a, b: (
        f"Rnd {n}: *Sc in next {a} sts, 2 sc in next st; rep from * around. ({(a + 2) * b} sts)"
    ),
    lambda n, a, b: f"R{n}: {a} sc, dec, {b} sc, inc, ({a} sc, dec) x 2 [{3 * a + b + 5}]",
    lambda n, a, b: f"Round {n}: BLO: sc in each st around ({a * b})",
    lambda n, a, b: f"R{n}: with chalk {a} sc, with slate {b} sc, {a} sc ({2 * a + b})",
    lambda n, a, b: f"R{n}: sc {a}, (inc, sc {b}) x 3, hdc 2, 2 dc in next st ({a + 3 * b + 10})",
)
_OTHER_WAYS: tuple[Callable[[int, int, int], str], ...] = (
    lambda n, a, b: f"R{n}: sc in next {a} sts, sl st in next st, ch {b}, turn. Mind the gap.",
    lambda n, a, b: f"Rnd {n} - Sc in each of next {a} sts, sc2tog, repeat around - {a * b} sts.",
    lambda n, a, b: f"R{n}: {a} sc in BLO, (sc, hdc, sc) in next st, sk {b}, hdc inc ({a + 5})",
    lambda n, a, b: f"R{n}: 2 sc, inc, {b} times, sc to last {a} sts, dec x {b}",
    lambda n, a, b: f"{n}. single crochet in the next {a} stitches, increase, repeat {b} times",
    lambda n, a, b: f"R{n}: *{a} sc, dec; rep from * {b} times [{(a + 1) * b}]",
)
"""Wordings that are not read in one go: see `roundproof.notation.usual`."""


def main() -> list[str]:
    """Rows of a table: what was read, how long it took, how long it may take."""
    gc.set_threshold(*COLLECT)  # as the commands do
    few, many = seconds(rounds(ROUNDS // 4)), seconds(rounds(ROUNDS))
    rows = [
        ("15,000 distinct rounds in usual wordings", few, ""),
        ("60,000 distinct rounds in usual wordings", many, f"{LIMIT:.0f}"),
        (
            "15,000 distinct rounds in less usual wordings",
            seconds(rounds(ROUNDS // 4, _OTHER_WAYS)),
            "",
        ),
        ("100 kB on one line", seconds("R1: " + "2 sc, inc, " * 9_100), "1"),
        ("100 kB of unknown words", seconds("R1: " + "wibble wobble " * 7_200), "1"),
        ("50,000 opening brackets", seconds("R1: " + "(" * 50_000), "1"),
        ("5,000 brackets within brackets", seconds("R1: " + "(" * 5_000 + "sc" + ")" * 5_000), "1"),
    ]
    head = ["| read | seconds | at most |", "|---|---|---|"]
    lines = [f"| {what} | {took:.2f} | {most} |" for what, took, most in rows]
    return [*head, *lines, "", f"Four times the rounds take {many / few:.1f} times as long."]


def rounds(count: int, ways: Sequence[Callable[[int, int, int], str]] = _WAYS) -> str:
    """So many rounds, no two of them alike."""
    pick = random.Random(1)
    return "\n".join(
        pick.choice(ways)(number, pick.randint(1, 30), pick.randint(2, 12))
        for number in range(1, count + 1)
    )


def seconds(written: str) -> float:
    """Processor time for reading a piece, the least of three."""
    text, context = as_text(written), Context(Terms.US, _COLOURS, "body")
    taken = []
    for _ in range(3):
        start = time.process_time()
        read_script(text, context)
        taken.append(time.process_time() - start)
    return min(taken)


def as_text(written: str) -> Text:
    source, lines, at = Source("bench", written), [], 0
    for line in written.split("\n"):
        lines.append(Line(line, source.span(at, at + len(line))))
        at += len(line) + 1
    return Text(written, source.span(0, len(written)), tuple(lines))


if __name__ == "__main__":
    print("\n".join(main()))
