"""Chains that lift the work to its next round, and whether they are stitches."""

from __future__ import annotations

from collections.abc import Sequence

from roundproof.notation.tree import Chain, Instruction, Item, JoinRound, Repeat, Stitches, Where
from roundproof.reference import stitches


def lifts(items: Sequence[Item]) -> bool:
    """Whether a chain to begin with only lifts the work: a single one, or one before a ring."""
    chain, after = items[0], items[1] if len(items) > 1 else None
    if not isinstance(after, Stitches) or not isinstance(chain, Chain):
        return False
    return after.where is Where.RING or (chain.count == 1 and after.where is Where.NEXT)


def skips_a_stitch(first: Stitches) -> bool:
    """Whether just the chains that a stitch stands up with are skipped at the hook."""
    kind = stitches().get(first.unit.makes[0][0]) if first.unit.makes else None
    skipped = first.nth - 1 if first.where is Where.HOOK else 0
    return kind is not None and skipped >= 2 and skipped == kind.turning


def chain_disputed(work: Instruction) -> Chain | None:
    """The chain at the start of a round that counts to some makers and not to others."""
    chain = work.items[0] if work.items else None
    hook = any(isinstance(i, Stitches) and i.where is Where.HOOK for i in work.items)
    ways = ways_to_count(work, None)
    disputed = isinstance(chain, Chain) and not hook and ways == (False, True)
    return chain if disputed and isinstance(chain, Chain) else None


def ways_to_count(work: Instruction, said: bool | None) -> tuple[bool, ...]:
    """Whether a chain that lifts the work counts as a stitch, the likelier way first. `said` is
    what the piece says; a single chain may be none all the same, since rows of single crochet
    begin with one that nobody counts. Where nothing is said it counts for double crochet and
    taller (three chains or more), it does not for single crochet, and makers differ for what lies
    between (standards of the trade)."""
    chain = work.items[0] if work.items else None
    if not isinstance(chain, Chain) or chain.counts is not None:
        return (bool(said),)
    if said is not None:
        return (True, False) if said and chain.count == 1 else (said,)
    ring = len(work.items) > 1 and isinstance(work.items[1], JoinRound)
    if chain.count < 2 or ring:
        return (False,)
    first = next((i for i in work.items[1:] if isinstance(i, Stitches | Repeat)), None)
    while isinstance(first, Repeat):
        first = first.body[0] if isinstance(first.body[0], Stitches | Repeat) else None
    kind = stitches().get(first.unit.makes[0][0]) if first and first.unit.makes else None
    if kind is None or first is None or kind.height <= 1:
        return (False,)
    if first.where is Where.HOOK:
        tall = skips_a_stitch(first) and kind.height >= 2
        return (True, False) if tall else (False, True) if skips_a_stitch(first) else (False,)
    return (True, False) if kind.height >= 2 and chain.count >= 3 else (False, True)
