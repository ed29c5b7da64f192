"""Published tables as data. Each row names its source; see the TOML files beside this one."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from roundproof.frozen import dataclass


@cache
def load_table(name: str) -> dict[str, Any]:
    """The table `name`.toml of this folder, as tomllib gives it."""
    return tomllib.loads(Path(__file__).with_name(f"{name}.toml").read_text("utf-8"))


@dataclass(frozen=True, slots=True)
class StitchKind:
    """A stitch of the table. `height`, `yarn` and `pace` (stitches a minute) are relative to a
    single crochet; `turning` is the number of turning chains."""

    id: str
    us: tuple[str, ...]
    us_name: str
    uk: tuple[str, ...]
    uk_name: str
    steps: str
    height: float
    yarn: float
    pace: float
    turning: int
    source: str

    def short(self, uk: bool) -> str:
        """The usual abbreviation."""
        return (self.uk if uk else self.us)[0]

    def name(self, uk: bool) -> str:
        return self.uk_name if uk else self.us_name


@dataclass(frozen=True, slots=True)
class Term:
    """A word of the trade that is not a stitch. `part` is the part it plays in a round; `words`
    are all its spellings. `short`, `name` and `means` are for keys and glossaries; `{sc}` in them
    stands for a single crochet in the reader's terms. A term without `means` is plain English."""

    id: str
    part: str
    words: tuple[str, ...]
    us_short: str
    uk_short: str
    name: str
    means: str
    source: str


@cache
def stitches() -> dict[str, StitchKind]:
    """All stitches by id (the US abbreviation), in order of height."""
    rows = load_table("stitches")["stitch"]
    return {
        row["id"]: StitchKind(**{**row, "us": tuple(row["us"]), "uk": tuple(row["uk"])})
        for row in rows
    }


def stitch(id: str) -> StitchKind:
    """The stitch of an id; KeyError where there is none."""
    return stitches()[id]


@cache
def terms() -> dict[str, Term]:
    """All terms by id."""
    rows = load_table("terms")["term"]
    return {row["id"]: _term(row) for row in rows}


def _term(row: dict[str, Any]) -> Term:
    short = row.get("us_short", row["words"][0])
    return Term(
        row["id"],
        row["part"],
        tuple(row["words"]),
        short,
        row.get("uk_short", short),
        row.get("name", ""),
        row.get("means", ""),
        row.get("source", ""),
    )
