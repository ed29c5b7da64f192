"""What a join diagram shows, in words that are good enough to work from."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from roundproof.drawing.joining.pair import Pair, Strip
from roundproof.measure.figures import cm, number, percent, several
from roundproof.measure.meeting import plan_words
from roundproof.measure.model import Verdict

MOST_TOLD = 24


def words_of(pair: Pair) -> tuple[str, ...]:
    """Both edges, how they fit, and how their stitches meet."""
    one, two = pair.strips
    lines = [f"Edge of {strip.name}: {length_of(strip)}." for strip in (one, two)]
    return (*lines, verdict_words(pair), *_meeting(pair), *_suited(pair))


def length_of(strip: Strip) -> str:
    """ "18 stitches, 7.8 cm (3.1 in)"."""
    what = {"row end": "row ends", "stitch": "stitches"}.get(strip.what, "rounds")
    count = f"{strip.count:,} {strip.what if strip.count == 1 else what}"
    if len(strip.sections) > 1:
        across, side = strip.sections[:2]
        count = (
            f"round a place of {several(across.count, 'stitch', 'stitches')} by"
            f" {several(side.count, 'round')}, {strip.count:,} in all"
        )
    flat = f", folded flat {strip.lying:,} pairs" if strip.folded else ""
    return f"{count}{flat}{f', {_long(strip.mm)}' if strip.mm else ''}"


def _long(mm: float) -> str:
    """In cm and inches, not to be parted."""
    return f"{cm(mm)} ({mm / 25.4:.1f} in)".replace(" ", "\u00a0")


def verdict_words(pair: Pair) -> str:
    """How they fit: "Underside is 4 % longer: ease it in." """
    fit = pair.fit
    one, two = pair.strips
    longer = one if one.long > two.long else two
    if fit.fullness is not None:
        return f"{longer.name} is gathered, {number(fit.fullness, 1)} to 1."
    apart = fit.mismatch or 0.0
    if fit.verdict is Verdict.FITS:
        return "They fit." if apart < 0.0005 else f"They fit: {percent(apart)} apart."
    rest = {
        Verdict.EASE: "ease it in, pinned at the quarters",
        Verdict.CARE: "ease it in with care, pinned at the quarters",
    }.get(fit.verdict or Verdict.MISFIT, "they do not fit")
    return f"{longer.name} is {percent(apart)} longer: {rest}."


def _meeting(pair: Pair) -> Iterator[str]:
    """Which stitch goes to which."""
    few, many = pair.strips[pair.short], pair.strips[1 - pair.short]
    if pair.corners:
        sides = [several(s.count, "stitch", "stitches") for s in pair.strips[1].sections]
        yield f"From corner to corner {', '.join(sides)} of {pair.strips[0].name}."
    if not pair.matched:
        return
    if few.lying == many.lying:
        yield f"They meet {'pair for ' if few.folded or many.folded else 'stitch for '}stitch."
        return
    shared = list(islice(pair.doubles(), MOST_TOLD + 1))
    each = many.lying // few.lying
    one_each = "one" if each == 1 else f"{each:,}"
    if not shared:
        yield f"Into each stitch of {few.name} go {one_each} of {many.name}."
    elif len(shared) <= MOST_TOLD:
        named = [str(cell) for cell, _ in shared]
        listed = named[0] if len(named) == 1 else f"{', '.join(named[:-1])} and {named[-1]}"
        which = "stitch" if len(named) == 1 else "stitches"
        yield (
            f"{_number(each + 1)} of {many.name} go into {which} {listed} of {few.name},"
            f" {one_each} into every other."
        )
    else:
        yield f"{plan_words(pair.fit).capitalize()}."


def _number(count: int) -> str:
    return {2: "Two", 3: "Three", 4: "Four"}.get(count, f"{count:,}")


def _suited(pair: Pair) -> Iterator[str]:
    """The count that would fit, where the edges do not by themselves."""
    fit = pair.fit
    if fit.verdict is Verdict.FITS or fit.fullness is not None:
        return
    ways = [
        f"{count:,} on {strip.name}"
        for strip, count in zip(pair.strips, fit.suggest, strict=True)
        if count and count != strip.count
    ]
    if ways:
        yield f"Would fit: {' or '.join(ways)}, with the other unchanged."
