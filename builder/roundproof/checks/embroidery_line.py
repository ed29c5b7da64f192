"""Lines of embroidery that lead nowhere, or are not told."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.checks.base import Check, Found, missing
from roundproof.fabric.points import Line, lines_of
from roundproof.findings import Finding, Severity
from roundproof.pattern.model import Embroider
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    severity = missing(proof.pattern.status)
    for step in proof.pattern.assembly:
        if not isinstance(step.verb, Embroider):
            continue
        piece = step.verb.piece.value
        if not step.verb.lines and step.step is None:
            yield CHECK.finding(
                step.verb.piece.span,
                f"What is embroidered on {piece} is not said.",
                "Give the lines, `lines: [{stitch: backstitch, from: R2 st 3, to: R2 st 6}]`, or"
                " describe them under `step`.",
                severity=severity,
                piece=piece,
            )
        for line, problems in lines_of(proof.fabric, step.verb):
            if not problems:
                yield from _line(proof, line, piece, severity)


def _line(proof: Proof, line: Line, piece: str, severity: Severity) -> Iterator[Finding]:
    thread = line.thread
    if (thread.from_ is None) != (thread.to is None):
        end = "end" if thread.to is None else "start"
        yield CHECK.finding(
            thread.span,
            f"Where this line {end}s is not said.",
            f"Give it {'`to`' if end == 'end' else '`from`'} a point.",
            severity=severity,
            piece=piece,
        )
    elif line.start is not None and line.start == line.end and line.start.place is not None:
        yield CHECK.finding(
            thread.to.span if thread.to else thread.span,
            "This line starts and ends at the same point.",
            "Give it another end, or say `stitch: knot` with `from` alone."
            if thread.stitch is None
            else "Give it another end.",
            piece=piece,
        )


_PATTERN = """\
title: Puffin
terms: US
notions: [tapestry needle, black thread]
pieces:
  head: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
assembly:
  - embroider:
      piece: head
      with: black thread
      strands: 2
      lines: [{{name: bill, stitch: backstitch, from: R2 st 3, to: {}}}]
"""

CHECK = Check(
    id="embroidery-line",
    title="A line of embroidery that leads nowhere",
    why=(
        "A face is made by a few stitches, and a stitch further up is another face. Each line goes"
        " from one point to another, named by round and stitch, by a mark, or by the end of an"
        " earlier line."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("R2 st 3"),
    good=_PATTERN.format("R2 st 6"),
    source="common practice, no source: points from and to, strands, colour",
    run=_run,
)
