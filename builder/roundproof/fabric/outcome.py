"""What came of working a round once, as numbers."""

from __future__ import annotations

from collections import Counter

from roundproof.fabric.model import Stretch, Uneven
from roundproof.frozen import dataclass, field
from roundproof.notation.tree import Loop, Onto
from roundproof.source import Span

MOST_STRETCHES = 300
"""Colour stretches kept of a round, for drawing; beyond that the last one takes the rest."""


@dataclass()
class Outcome:
    """What came of working a round. `used` leaves out stitches announced as left; `filled` tells
    that some words filled what there was; `over_at` the words at which the stitches ran out."""

    available: int | None
    used: int = 0
    left: int = 0
    made: int = 0
    chains: int = 0
    """Chains among the stitches made, which count only if the next round works into them."""
    spaces: int = 0
    """Runs of chains among the stitches made, each a space that may be worked into as one."""
    foundation: int = 0
    implied: int = 0
    """Chains that a row from a foundation may skip without a word: those of the turn."""
    far_used: int | None = None
    yarn: str | None = None
    tally: Counter[tuple[str, str | None]] = field(default_factory=Counter)
    stretches: list[Stretch] = field(default_factory=list)
    loops: Counter[Loop] = field(default_factory=Counter)
    uneven: Uneven | None = None
    over_at: Span | None = None
    onto: Counter[Onto] = field(default_factory=Counter)
    """Stitches used at places that are not the round below. Those of other edges are part of
    `available` and `used` as well, unless they go together with the round below."""
    short: int = 0
    """Stitches wanted at such a place beyond those it has."""
    ring: bool = False
    folded: bool = False
    unknown: bool = False
    """Filled a round whose count is not known: what it makes cannot be told."""

    @property
    def far_available(self) -> int:
        """Chains left for the other side: all but the last one, which the end is turned in."""
        return max(0, (self.available or 0) - 1)

    @property
    def over(self) -> int:
        """Stitches needed beyond what there is."""
        if self.available is None:
            return self.short
        far = (self.far_used or 0) - self.far_available
        return max(0, self.used + self.left - self.available, far, self.short)

    @property
    def spare(self) -> int:
        """Stitches not used, and not announced as left."""
        if self.available is None or self.ring:
            return 0
        near = self.available - self.used - self.left
        # the first chain may have been worked twice from above: then the far side ends before it
        far = 0 if self.far_used is None else self.far_available - 1 - self.far_used
        return 0 if 0 < near == self.implied else max(0, near, far)
