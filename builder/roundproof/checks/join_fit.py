"""Two joined edges of unlike length, each measured in its own yarn's gauge."""

from __future__ import annotations

from roundproof.checks._joins import SEVERITY, doubtful, length_mend, length_message
from roundproof.checks.base import Check, Found
from roundproof.findings import Severity
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    for fit in proof.measures.fits:
        if doubtful(proof, fit):
            continue
        if (fit.by_count and fit.fullness is None) or fit.verdict not in SEVERITY:
            continue
        yield CHECK.finding(
            fit.span,
            length_message(fit),
            length_mend(proof, fit),
            severity=SEVERITY[fit.verdict],
            piece=fit.edges[0].piece,
        )


_PATTERN = """\
title: Shell
terms: US
yarns:
  ivory:
    gauge: 23 sts x 25 rounds = 10 cm
  glass:
    gauge: 19 sts x 21 rounds = 10 cm
pieces:
  upper:
    yarn: glass
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: (sc, inc) x 6 (18)
  underside:
    yarn: ivory
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: {}
assembly:
  - join: {{edge: underside, to: upper, by: whipstitch}}
notions: [tapestry needle]
"""

CHECK = Check(
    id="join-fit",
    title="Joined edges of unlike length",
    why=(
        "Yarns of one weight category differ in thickness, so equal counts in two yarns are not"
        " equal lengths: a part turns out too big or too small for its place, and no round of it is"
        " wrong. Each edge is measured in the gauge of its own yarn. Up to 3 % vanishes in the"
        " seam, up to 6 % can be eased in, up to 10 % with care; an edge sewn flat on a body hides"
        " half as much."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format("(sc, inc) x 6 (18)"),
    good=_PATTERN.format("(5 inc, sc) x 2 (22)"),
    source=(
        "ease of sleeve heads in sewing books and knits (madalynne.com, seweverythingblog.com,"
        " pinktoesandpowertools.com); halving on a body is common practice, no source"
    ),
    run=_run,
)
