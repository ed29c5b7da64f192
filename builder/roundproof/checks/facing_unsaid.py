"""Two edges crocheted together without which of their sides show."""

from __future__ import annotations

from roundproof.checks.base import Check, Found, missing
from roundproof.findings import Severity
from roundproof.pattern.model import Join, Step
from roundproof.proof import Proof

_WORDS = ("side", "facing", "face", "front", "towards", "outward", "inward")


def _run(proof: Proof) -> Found:
    for step in proof.pattern.assembly:
        verb = step.verb
        if not isinstance(verb, Join) or verb.by is None or verb.by.value != "crochet":
            continue
        if verb.facing is None and verb.front is None and not _told(step):
            yield CHECK.finding(
                verb.by.span,
                "Which sides lie together while the two are crocheted is not said.",
                "Say `facing: wrong sides together`, or `front:` with the piece held in front.",
                severity=missing(proof.pattern.status),
            )


def _told(step: Step) -> bool:
    words = step.step.value.lower() if step.step else ""
    return any(word in words for word in _WORDS)


_PATTERN = """\
title: Pebble
terms: US
pieces:
  upper: |
    R1: 6 sc in magic ring (6)
  under: |
    R1: 6 sc in magic ring (6)
assembly:
  - join: {edge: under, to: upper, by: crochet, stitch: sc, count: 6%s}
"""

CHECK = Check(
    id="facing-unsaid",
    title="Crocheted together, which sides out",
    why=(
        "A crocheted join leaves a ridge on the side that is towards the maker. With the right"
        " sides together it ends up inside, with the wrong sides together it is a rim: two"
        " different objects from the same counts."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN % "",
    good=_PATTERN % ", facing: wrong sides together",
    source="common practice, no source: the facing of both pieces is stated",
    run=_run,
)
