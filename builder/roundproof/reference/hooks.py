"""Crochet hook sizes, from hooks.toml."""

from __future__ import annotations

from functools import cache

from roundproof.frozen import dataclass
from roundproof.reference import load_table


@dataclass(frozen=True, slots=True)
class Hook:
    """A regular hook: its size in mm and what it is called in the US, in the UK and Canada of
    old, and in Japan; empty where no chart has a name."""

    mm: float
    us: str = ""
    uk: str = ""
    jp: str = ""
    sure: str = ""
    note: str = ""


@cache
def hooks() -> tuple[Hook, ...]:
    """All hooks of the table, thinnest first."""
    return tuple(Hook(**row) for row in load_table("hooks")["hook"])


def hook(mm: float) -> Hook | None:
    """The hook of a size in mm, or None where the table has no such size."""
    return next((h for h in hooks() if abs(h.mm - mm) < 1e-9), None)
