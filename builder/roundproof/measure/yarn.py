"""How much of each yarn all copies of all pieces take.

Estimates are within about 20 % of what one maker or another uses; a weighed swatch is better.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from math import ceil, pi, sqrt

from roundproof.fabric.model import Fabric, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass
from roundproof.measure.figures import number
from roundproof.measure.gauge import StitchSize, diameter, stitch_size, yarn_for
from roundproof.measure.model import Fit, YarnNeed
from roundproof.notation.tree import Act, Action
from roundproof.pattern.model import Pattern, Yarn
from roundproof.reference import stitches

MARGIN = 0.15
"""Published guides say 10 to 20 %."""
MARGIN_GUESSED = 0.25
"""Where the gauge is a guess: common practice, no source."""
TAIL = 150.0
"""mm left at each end of a yarn: common practice, no source."""
SEAM = 3.0
"""Yarn over length of a sewn seam: common practice, no source."""
DECREASE = 0.5
"""What working two together takes more than one stitch, as a share of a stitch: common practice,
no source. An increase is two stitches and counts as such."""
SQUEEZED = 0.75
"""A yarn's diameter inside the fabric over its diameter (derived with `loop_path`)."""
PER_WIDTH = 6.9
"""Yarn of a single crochet over its width where the yarn's thickness is not known: 45.7 mm over
6.65 mm (shinyhappyworld.com with freshstitches.com, yardage of a toy, and the gauge circle)."""
_TAIL = re.compile(r"(\d+(?:[.,]\d+)?)\s*(mm|cm|m|in|inch|inches)\b[- ]*(?:long )?tail", re.I)
_UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "inch": 25.4, "inches": 25.4}


@dataclass()
class _Used:
    """What one yarn is used for so far: `units` in single crochets, `mm` of yarn in stitches,
    `ends` in mm, `unread` the rounds that could not be counted."""

    units: float = 0.0
    mm: float = 0.0
    ends: float = 0.0
    guessed: bool = False
    unread: str = ""


def loop_path(width: float, height: float, thick: float) -> float:
    """mm of yarn in one single crochet of `width` x `height` mm in yarn `thick` mm across.

    Source: derived; the loop's path: two strands along the top, four passes between hole and top,
    two half turns round a bundle of two strands, the yarn squeezed to three quarters of its
    thickness. Checked against 45.7 mm measured in worsted (see PER_WIDTH)."""
    squeezed = SQUEEZED * thick
    rise = max(height - squeezed, 0.0)
    return 2 * width + 4 * sqrt(rise**2 + (width / 4) ** 2) + 2 * pi * squeezed


def yarn_needs(pattern: Pattern, fabric: Fabric, fits: Iterable[Fit]) -> Mapping[str, YarnNeed]:
    """What is needed of every yarn that is used, by the yarn's key, in the order of the list."""
    used: dict[str, _Used] = {}
    for worked in fabric.pieces.values():
        _count_piece(pattern, worked, used)
    _count_seams(pattern, fabric, fits, used)
    return {y.key: _need(y, used[y.key]) for y in pattern.yarns if y.key in used}


def _count_piece(pattern: Pattern, worked: WorkedPiece, used: dict[str, _Used]) -> None:
    here: set[str] = set()
    for entry in worked.rounds:
        here |= _count_round(pattern, worked, entry, used)
    for key in here:
        used[key].ends += 2 * TAIL * worked.piece.make
    last = _last_yarn(pattern, worked)
    if last in used and (tail := long_tail(worked)) is not None:
        used[last].ends += max(tail - TAIL, 0.0) * worked.piece.make


def _count_round(
    pattern: Pattern, worked: WorkedPiece, entry: WorkedRound, used: dict[str, _Used]
) -> set[str]:
    """Add one line of work, for all copies; the keys of the yarns in it."""
    piece, times = worked.piece, entry.rounds * worked.piece.make
    if entry.made is None or not entry.tally:
        yarn = yarn_for(pattern, piece, entry.yarn)
        if yarn is not None and (entry.made is None or not entry.round.readings):
            here = used.setdefault(yarn.key, _Used())
            here.unread = here.unread or f"{entry.label} of {piece.key}"
        return set()
    pairs = max((entry.used or 0) - entry.made, 0) if entry.available else 0
    total, found = sum(entry.tally.values()), set[str]()
    for (stitch, key), count in entry.tally.items():
        yarn = yarn_for(pattern, piece, key)
        if yarn is None:
            continue
        units = (count * _share(pattern, stitch) + DECREASE * pairs * count / total) * times
        _add(used.setdefault(yarn.key, _Used()), yarn, stitch_size(pattern, piece, key), units)
        found.add(yarn.key)
    return found


def _share(pattern: Pattern, stitch: str) -> float:
    """Yarn of a stitch over that of a single crochet; a stitch of the pattern's own takes as much
    as its height says (equal areas take equal yarn: windchilde.com, "Crochet Yarn Estimating")."""
    own = next((s for s in pattern.stitches if s.key == stitch), None)
    if own is not None:
        return own.height
    kind = stitches().get(stitch)
    return kind.yarn if kind else 1.0


def _add(used: _Used, yarn: Yarn, size: StitchSize | None, units: float) -> None:
    used.units += units
    if size is None:
        used.unread = used.unread or "a stitch without a gauge"
        return
    thick = diameter(yarn)
    each = loop_path(size.width, size.height, thick) if thick else PER_WIDTH * size.width
    used.mm += units * each
    used.guessed = used.guessed or size.guessed


def long_tail(worked: WorkedPiece) -> float | None:
    """The length in mm of a tail that the piece is told to leave, or None."""
    for entry in reversed(worked.entries):
        if isinstance(entry, Action) and entry.act is Act.FASTEN_OFF:
            found = _TAIL.search(entry.text)
            return float(found[1].replace(",", ".")) * _UNITS[found[2].lower()] if found else None
    return None


def _last_yarn(pattern: Pattern, worked: WorkedPiece) -> str:
    last = worked.last
    key = last.stretches[-1].yarn if last and last.stretches else (last.yarn if last else None)
    yarn = yarn_for(pattern, worked.piece, key)
    return yarn.key if yarn else ""


def _count_seams(
    pattern: Pattern, fabric: Fabric, fits: Iterable[Fit], used: dict[str, _Used]
) -> None:
    """Seams sewn with a length of their own: those of pieces that leave no tail for it."""
    for fit in fits:
        worked = fabric.pieces[fit.edges[0].piece]
        length = fit.lengths[0]
        named = fit.join.with_.value if fit.join.with_ else _last_yarn(pattern, worked)
        yarn = pattern.yarn(named)
        if yarn is None or length is None:
            continue
        if fit.join.with_ is None and long_tail(worked) is not None:
            continue
        used.setdefault(yarn.key, _Used()).ends += (SEAM * length + 2 * TAIL) * worked.piece.make


def _need(yarn: Yarn, used: _Used) -> YarnNeed:
    if used.unread:
        why = f"{used.unread} could not be counted"
        return YarnNeed(yarn.key, None, None, None, True, unreliable=why)
    margin = MARGIN_GUESSED if used.guessed else MARGIN
    per_gram = yarn.ball.metres / yarn.ball.grams if yarn.ball and yarn.ball.grams > 0 else None
    weighed = _weighed(yarn, used)
    in_stitches = weighed * per_gram if weighed and per_gram else used.mm / 1000
    metres = (in_stitches + used.ends / 1000) * (1 + margin)
    grams = metres / per_gram if per_gram else None
    if weighed and not per_gram:
        grams = weighed * (1 + margin)
    balls = ceil(grams / yarn.ball.grams - 1e-9) if grams and yarn.ball and per_gram else None
    return YarnNeed(
        yarn=yarn.key,
        metres=metres,
        grams=grams,
        balls=balls,
        estimated=weighed is None,
        working=_working(yarn, used, in_stitches, margin, weighed),
    )


def _weighed(yarn: Yarn, used: _Used) -> float | None:
    """Grams in stitches by a weighed swatch (doradoes.co.uk, February 2020: weigh a swatch, divide
    by its stitches)."""
    swatch = yarn.swatch
    if swatch is None or swatch.stitches <= 0:
        return None
    return used.units * swatch.grams / swatch.stitches


def _working(
    yarn: Yarn, used: _Used, in_stitches: float, margin: float, weighed: float | None
) -> str:
    count = f"as much as {number(used.units, 0)} single crochets"
    if weighed is not None and yarn.swatch is not None:
        each = f"by the swatch, {yarn.swatch.stitches} stitches in {number(yarn.swatch.grams)} g"
    else:
        mm = used.mm / used.units if used.units else 0.0
        each = f"about {number(mm / 10, 1)} cm each, estimated"
    guess = ", since the gauge is a guess" if margin == MARGIN_GUESSED else ""
    worked = f"{count}, {each}: {number(in_stitches, 1)} m; " if used.units else ""
    return (
        f"{worked}tails and seams {number(used.ends / 1000, 1)} m;"
        f" {number(margin * 100, 0)} % more to be safe{guess}"
    )
