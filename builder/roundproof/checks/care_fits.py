"""Care that the least washable material does not bear, or that is not told in words."""

from __future__ import annotations

import re
import unicodedata

from roundproof.checks._care import Claim, Material, claims, materials, refuses
from roundproof.checks._prose import lines
from roundproof.checks.base import Check, Found, quoted
from roundproof.expressions import expression
from roundproof.findings import Severity
from roundproof.proof import Proof

_CODED = expression(r":[a-z]+[-_]?\d*:|[\ue000-\uf8ff]")
_SIGNS = ("So", "Sm")
"""Categories of characters that are pictures or signs; a degree sign is none of those meant."""


def _run(proof: Proof) -> Found:
    care = proof.pattern.care
    for line in lines(care):
        if _is_coded(line.text):
            yield CHECK.finding(
                line.span,
                f"{quoted(line.text)} is signs or codes: whoever listens to the page, or does not"
                " know them, cannot tell how to wash the object.",
                "Say it in words, for instance: Hand wash cool, do not bleach, dry flat.",
            )
            return
    if care is None:
        return
    for line in lines(care):
        for claim in claims(line.text):
            for material in materials(proof, care.value):
                if why := refuses(material, claim, care.value):
                    yield CHECK.finding(
                        line.place(claim.start, claim.end),
                        f"{quoted(claim.words)} is told, and {_called(material, claim)} {why}.",
                        _mend(material),
                    )
                    return


def _called(material: Material, claim: Claim) -> str:
    return f"the {material.kind} of {quoted(material.name)}" if material.is_yarn else quoted(
        material.name
    )  # fmt: skip


def _mend(material: Material) -> str:
    if material.is_yarn:
        return "Care goes by the least washable material, for instance: Hand wash cool, dry flat."
    return "Say instead: Spot clean only; or say how it is taken out before washing."


def _is_coded(text: str) -> bool:
    """Signs of care labels, or nothing but their numbers and letters ("40 P 110")."""
    signs = [c for c in text if unicodedata.category(c) in _SIGNS and c not in "°+<>=~|×"]
    words = re.findall(r"[^\W\d_]{3,}", text)
    if signs or (text.strip() and not words):
        return True
    return (text.count(":") > 1 or not text.isascii()) and bool(_CODED.search(text))


_PATTERN = """\
title: Pebble
terms: US
yarns:
  slate: {{fibre: 100 % merino wool, gauge: 20 sts x 20 rounds = 10 cm}}
care: {}
pieces:
  body:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
"""

CHECK = Check(
    id="care-fits",
    title="Care that a material does not bear",
    why=(
        "One washing decides over hours of work: wool felts in a hot machine, wire rusts, cardboard"
        " turns to pulp. So the care of an object is that of its least washable material. It is"
        " told in words; the signs of care labels are protected, and say nothing to a listener."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("Machine wash at 60 degrees."),
    good=_PATTERN.format("Hand wash cool, dry flat."),
    source=(
        "ISO 3758:2023 (what care symbols mean; the symbols are registered marks); which fibre"
        " bears what is common practice, no source"
    ),
    run=_run,
)
