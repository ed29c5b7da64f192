"""How long a stitch chart takes, and how much it weighs."""

from __future__ import annotations

import gzip
import time
from pathlib import Path

from roundproof.drawing.chart.sheet import chart, lay_out
from roundproof.drawing.looks import looks
from roundproof.drawing.svg import write_file
from roundproof.drawing.yarns import shades_of, yarn_marks
from roundproof.pattern.load import read_pattern
from roundproof.pipeline import prove_pattern
from roundproof.proof import Proof
from roundproof.source import Source

SECONDS, KILOBYTES = 0.3, 40.0
"""For a chart of 3,000 stitches."""
RUNS = 7
WIDEST = (42, 84, 120)
"""Stitches of the widest round of a ball."""


def main() -> list[str]:
    """Rows of a table: stitches, seconds of the processor, kB compressed."""
    head = [
        "| chart of a ball | stitches | seconds | at most | kB, gzip | at most |",
        "|---|---|---|---|---|---|",
    ]
    rows = []
    for widest in WIDEST:
        stitches, took, size = measured(widest)
        most = (f"{SECONDS:.1f}", f"{KILOBYTES:.0f}") if widest == 84 else ("", "")
        cells = (f"widest round {widest}", f"{stitches:,}", f"{took:.2f}", most[0], f"{size:.1f}")
        rows.append(f"| {' | '.join((*cells, most[1]))} |")
    return [*head, *rows]


def measured(widest: int) -> tuple[int, float, float]:
    """The least of some runs, from the worked piece to the text of the file."""
    proof = ball(widest)
    piece, pattern = proof.fabric.pieces["body"], proof.pattern
    took, text = 1e9, ""
    for _ in range(RUNS):
        start = time.process_time()
        laid = lay_out(piece, yarn_marks(pattern))
        assert laid is not None
        sheet = chart(laid, yarn_marks(pattern), pattern.written_in, proof.letter, {})
        text = write_file(sheet.drawing, looks(shades_of(pattern)))
        took = min(took, time.process_time() - start)
    return piece.stitches or 0, took, len(gzip.compress(text.encode(), 9, mtime=0)) / 1000


def ball(widest: int) -> Proof:
    """A ball: six increases a round, a tube, six decreases a round."""
    steps = widest // 6
    rounds = ["R1: 6 sc in magic ring (6)", "R2: inc x 6 (12)"]
    rounds += [f"R{n}: ({n - 2} sc, inc) x 6 ({6 * n})" for n in range(3, steps + 1)]
    last = steps + 22
    rounds.append(f"R{steps + 1}-R{last}: sc around ({widest})")
    rounds += [
        f"R{last + steps - n}: ({n - 1} sc, dec) x 6 ({6 * n})" for n in range(steps - 1, 1, -1)
    ]
    rounds.append(f"R{last + steps - 1}: dec x 6 (6)")
    body = "\n".join(f"    {line}" for line in rounds)
    text = f"terms: US\npieces:\n  body: |\n{body}\n"
    pattern, found = read_pattern(Source("patterns/ball/pattern.yaml", text), "ball")
    assert pattern is not None
    proof, _ = prove_pattern(pattern, found, Path())
    return proof
