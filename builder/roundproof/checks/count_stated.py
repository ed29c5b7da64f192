"""A round whose stated count is not the count it makes."""

from __future__ import annotations

from roundproof.checks._mends import another_count
from roundproof.checks._rounds import worked_rounds
from roundproof.checks.base import Check, Found
from roundproof.fabric.model import WorkedRound
from roundproof.findings import Edit, Severity
from roundproof.measure.figures import stitches
from roundproof.proof import Proof


def _run(proof: Proof) -> Found:
    rounds = list(worked_rounds(proof))
    for index, (piece, _, worked) in enumerate(rounds):
        stated = worked.round.stated
        if stated is None or worked.made is None or worked.made == stated.count or _unfit(worked):
            continue
        following = rounds[index + 1] if index + 1 < len(rounds) else None
        mend = f"Write ({worked.made})."
        edits: tuple[Edit, ...] = (Edit(stated.span, str(worked.made)),)
        if following and following[0] is piece and following[2].available == stated.count:
            after = following[2].label
            mend = f"{after} works into {stated.count}, so the words of"
            mend += f" {worked.label} may be at fault."
            edits = ()
            if found := another_count(proof, worked, stated.count):
                mend, edits = f"{after} works into {stated.count}. {found[0]}", found[1]
        elif following and following[0] is piece and following[2].available == worked.made:
            mend = f"{following[2].label} works into {worked.made}: write ({worked.made})."
        yield CHECK.finding(
            stated.span,
            f"{worked.label} {_makes(worked)}, and {stated.count} are stated.",
            mend,
            piece=piece.piece.key,
            round=worked.label,
            edits=edits,
        )


def _makes(worked: WorkedRound) -> str:
    made = stitches(worked.made or 0)
    return f"makes {made}" if worked.rounds == 1 else f"make {made} each"


def _unfit(worked: WorkedRound) -> bool:
    """Something else is wrong with the round already, and its count follows from that."""
    return bool(worked.misfit or worked.uneven or worked.unsettled)


_PATTERN = """\
title: Pebble
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 ({})
"""

CHECK = Check(
    id="count-stated",
    title="Stated count is not what the round makes",
    why=(
        "Makers count at the end of a round and trust the number in brackets. When it is wrong they"
        " rip back a round that was right, or add a stitch that should not be there."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(20),
    good=_PATTERN.format(18),
    source="common practice, no source: the printed count is the count made",
    run=_run,
)
