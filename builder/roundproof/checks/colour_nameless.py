"""A colour that only its shade on the screen tells."""

from __future__ import annotations

import re

from roundproof.checks.base import Check, Found, quoted
from roundproof.expressions import expression
from roundproof.findings import Severity
from roundproof.proof import Proof

_NO_NAME = expression(r"(?:colou?r|yarn|shade|main|contrast|[a-z])?[\W_]*\d*|mc|cc\d*", re.I)


def _run(proof: Proof) -> Found:
    for yarn in proof.pattern.yarns:
        unsaid = yarn.name == yarn.key.replace("_", " ")  # told as still to say
        if yarn.shade and not unsaid and _NO_NAME.fullmatch(yarn.name):
            yield CHECK.finding(
                yarn.span,
                f"{quoted(yarn.name)} names no colour, so only the shade on the screen tells it.",
                "Give it a name in words, as on the label, such as slate grey.",
            )


_PATTERN = """\
title: Pebble
terms: US
yarns:
  cotton: {{colours: {{{}: "#6d7680"}}}}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="colour-nameless",
    title="Colour told only by its shade",
    why=(
        "Who prints in black, listens to the page, or does not see two shades as different, knows a"
        " colour by its name. The name is also what stands on the label in the shop."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("c1"),
    good=_PATTERN.format("slate"),
    source="Web Content Accessibility Guidelines 2.2, criterion 1.4.1",
    run=_run,
)
