"""How much of each yarn all copies of all pieces take.

Estimates are within about 20 % of what one maker or another uses; a weighed swatch is better.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import ceil

from roundproof.fabric.model import Fabric
from roundproof.frozen import dataclass
from roundproof.measure.figures import number
from roundproof.measure.model import Fit, RunsOut, YarnNeed
from roundproof.measure.spending import Rate, Seam, Spending, seams, spending
from roundproof.pattern.model import Pattern, Yarn

MARGIN = 0.15
"""Published guides say 10 to 20 %."""
MARGIN_GUESSED = 0.25
"""Where the gauge is a guess: common practice, no source."""

_NO_PUT_UP = "how another yarn is put up is not known"


@dataclass()
class _Used:
    """What one yarn is used for so far: `units` in single crochets, `mm` of yarn in stitches,
    `ends` in mm, `unread` the rounds that could not be counted."""

    units: float = 0.0
    mm: float = 0.0
    ends: float = 0.0
    guessed: bool = False
    unread: str = ""


def yarn_needs(pattern: Pattern, fabric: Fabric, fits: Iterable[Fit]) -> Mapping[str, YarnNeed]:
    """What is needed of every yarn that is used, by the yarn's key, in the order of the list."""
    spent = tuple(spending(pattern, worked) for worked in fabric.pieces.values())
    sewn = tuple(seams(pattern, fabric, fits))
    used: dict[str, _Used] = {}
    for piece in spent:
        _count_piece(piece, used)
    for seam in sewn:
        used.setdefault(seam.yarn, _Used()).ends += seam.mm * seam.piece.make
    return {y.key: _need(y, used[y.key], spent, sewn) for y in pattern.yarns if y.key in used}


def _count_piece(spent: Spending, used: dict[str, _Used]) -> None:
    """Add all copies of a piece."""
    make = spent.piece.make
    units: dict[str, float] = {}
    for line in spent.lines:
        for key, each in line.units.items():
            units[key] = units.get(key, 0.0) + each * line.rounds * make
    for key, rate in spent.rates.items():
        here = used.setdefault(key, _Used())
        here.ends += spent.ends(key) * make
        _add(here, rate, units.get(key, 0.0))
    for key, label in spent.unread.items():
        if key:
            here = used.setdefault(key, _Used())
            here.unread = here.unread or label


def _add(used: _Used, rate: Rate, units: float) -> None:
    used.units += units
    if rate.mm is None:
        used.unread = used.unread or "a stitch without a gauge"
        return
    used.mm += units * rate.mm
    used.guessed = used.guessed or rate.guessed


def _need(yarn: Yarn, used: _Used, spent: tuple[Spending, ...], sewn: tuple[Seam, ...]) -> YarnNeed:
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
    each = 1000 * in_stitches / used.units if weighed and per_gram and used.units else None
    return YarnNeed(
        yarn=yarn.key,
        metres=metres,
        grams=grams,
        balls=balls,
        estimated=weighed is None,
        working=_working(yarn, used, in_stitches, margin, weighed),
        margin=margin,
        listed_metres=(listed := _listed(yarn)),
        no_put_up=_NO_PUT_UP if yarn.stands_in else "",
        runs_out=_runs_out(yarn, listed, metres, each, spent, sewn),
    )


def _listed(yarn: Yarn) -> float | None:
    """Metres in the balls that the pattern lists."""
    return yarn.balls.value * yarn.ball.metres if yarn.balls and yarn.ball else None


def _runs_out(
    yarn: Yarn,
    listed: float | None,
    metres: float,
    each: float | None,
    spent: tuple[Spending, ...],
    sewn: tuple[Seam, ...],
) -> RunsOut | None:
    """Where the listed balls end; `each` is the mm in a single crochet by a weighed swatch."""
    if listed is None or listed >= metres:
        return None
    from roundproof.measure.running_out import runs_out  # hardly ever asked for

    return runs_out(yarn.key, listed, spent, sewn, each)


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
