"""Two joined edges of unlike length, each measured in its own yarn's gauge."""

from __future__ import annotations

from roundproof.checks.base import Check, Found
from roundproof.checks.join_count import SEVERITY
from roundproof.findings import Severity
from roundproof.measure.figures import number, percent, stitches
from roundproof.measure.fit import yarn_word
from roundproof.measure.model import Fit, Verdict
from roundproof.proof import Proof

_PLACES = {
    "footprint": "{} rounds and stitches round",
    "between": "{} stitches wide",
    "up": "{} rounds high",
}


def _run(proof: Proof) -> Found:
    for fit in proof.measures.fits:
        if (fit.by_count and fit.fullness is None) or fit.verdict not in SEVERITY:
            continue
        yield CHECK.finding(
            fit.span,
            _message(fit),
            _mend(proof, fit),
            severity=SEVERITY[fit.verdict],
            piece=fit.edges[0].piece,
        )


def _message(fit: Fit) -> str:
    one, two = fit.edges
    if fit.fullness is not None:
        words = (
            fit.working or f"{one.text} has {fit.counts[0]} stitches, {two.text} {fit.counts[1]}"
        )
        return f"{words}: {number(fit.fullness)} times as long is too little to gather."
    if fit.fit is None:
        return (
            f"{one.text} has {stitches(fit.counts[0] or 0)} and {two.text} has {fit.counts[1]},"
            " and without a gauge for both yarns nobody can tell whether they fit."
        )
    place = "the place" if two.kind in _PLACES else two.text
    shorter = one.text if fit.fit < 1 else place
    share = 1 - min(fit.fit, 1 / fit.fit)
    guess = ", as far as a guessed gauge can tell" if fit.guessed else ""
    return f"{fit.working}: {shorter} is {percent(share)} short{guess}."


def _mend(proof: Proof, fit: Fit) -> str:
    if fit.fullness is not None:
        return "Make the gathered edge half as long again as the other, or say `ease: yes`."
    if fit.fit is None:
        return "Give each yarn its gauge."
    counts = _counts(proof, fit)
    if fit.verdict is Verdict.EASE:
        return f"Ease it in, pinned at the quarters{'; ' + counts if counts else ''}."
    if fit.verdict is Verdict.CARE:
        return f"{counts}; or ease it in with care, the longer side towards you."
    return f"{counts}."


def _counts(proof: Proof, fit: Fit) -> str:
    """The counts that would fit, or nothing where no other count is nearer."""
    one, two = fit.suggest
    if one is None or two is None or one == fit.counts[0]:
        return ""
    names = _names(proof, fit)
    if (place := _PLACES.get(fit.edges[1].kind)) is not None:
        return f"{stitches(one)} of {names[0]} would fit, or a place {place.format(two)}"
    return f"{stitches(one)} of {names[0]} would fit, or {two} of {names[1]}"


def _names(proof: Proof, fit: Fit) -> tuple[str, str]:
    one, two = fit.edges
    if one.yarn and two.yarn and one.yarn != two.yarn:
        return yarn_word(proof.pattern, one.yarn), yarn_word(proof.pattern, two.yarn)
    return one.piece, two.piece


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
