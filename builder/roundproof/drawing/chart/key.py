"""The key of a chart: what each of its signs stands for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from roundproof.drawing.chart.signs import Sign, known
from roundproof.notation.tree import Loop
from roundproof.reference import stitches

_LOOPS = {Loop.BOTH: "", Loop.FRONT: ", in the front loop", Loop.BACK: ", in the back loop"}


def meaning(sign: Sign, own: Mapping[str, str]) -> str:
    """'single crochet (UK: double crochet), in the back loop'. `own` are the names of stitches
    that the pattern declares itself."""
    row = stitches().get(sign.kind)
    if row is None:
        name = own.get(sign.kind, sign.kind)
    elif row.us_name == row.uk_name:
        name = row.us_name
    else:
        name = f"{row.us_name} (UK: {row.uk_name})"
    if not known(sign.kind):
        name = f"{sign.letter}: {name}"
    return name + _LOOPS[sign.loop]


def entries(
    signs: Mapping[Sign, str], together: Mapping[Sign, int], own: Mapping[str, str]
) -> Iterator[tuple[str, Sign, int, str]]:
    """(the name a sign is defined by, the sign, over how many stitches it is worked, what it
    means), those of single stitches first."""
    for sign, name in signs.items():
        yield name, sign, 1, meaning(sign, own)
    for sign, feet in together.items():
        yield "", sign, feet, f"{meaning(sign, own)}, one over {feet} stitches"
