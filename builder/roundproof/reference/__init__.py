"""Published tables as data. Each row names its source; see the TOML files beside this one."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from roundproof import tables
from roundproof.frozen import dataclass, replace


@cache
def load_table(name: str) -> dict[str, Any]:
    """The table `name`.toml of this folder, as tomllib gives it."""
    return tables.load(Path(__file__).with_name(f"{name}.toml"))


@dataclass(frozen=True, slots=True)
class StitchKind:
    """A stitch of the table. `height`, `yarn` and `pace` (stitches a minute) are relative to a
    single crochet; `turning` is the number of turning chains; `steps` are sentences. `into` is what
    the hook goes into; `uses` the stitches it is worked over; one that does not count (a picot) is
    no stitch of its round; `made_of` are the stitches that a mere name stands for, as (id, how
    many); a `vague` name means different things to different designers."""

    id: str
    us: tuple[str, ...]
    us_name: str
    uk: tuple[str, ...]
    uk_name: str
    steps: tuple[str, ...]
    height: float
    yarn: float
    pace: float
    turning: int
    source: str
    into: str = "top"
    uses: int = 1
    counts: bool = True
    made_of: tuple[tuple[str, int], ...] = ()
    vague: bool = False

    @property
    def makes(self) -> int:
        """Stitches it leaves for the next round."""
        return sum(count for _, count in self.made_of) if self.made_of else int(self.counts)

    def short(self, uk: bool) -> str:
        """The usual abbreviation."""
        return (self.uk if uk else self.us)[0]

    def name(self, uk: bool) -> str:
        return self.uk_name if uk else self.us_name


@dataclass(frozen=True, slots=True)
class Term:
    """A word of the trade that is not a stitch. `part` is the part it plays in a round; `words`
    are all its spellings. `short`, `name`, `means` and `steps` are for keys and glossaries; `{sc}`
    in them stands for a single crochet in the reader's terms. A term without `means` is plain
    English."""

    id: str
    part: str
    words: tuple[str, ...]
    us_short: str
    uk_short: str
    name: str
    means: str
    steps: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Technique:
    """A way of working that is no stitch: sewing, closing, changing yarn. See techniques.toml."""

    id: str
    us: str
    uk: str
    means: str
    steps: tuple[str, ...]
    source: str


@cache
def stitches() -> dict[str, StitchKind]:
    """All stitches by id (mostly the US abbreviation), in the order of the table."""
    table = load_table("stitches")
    kinds = {row["id"]: _kind(row) for row in table["stitch"]}
    posts = [_post(kinds[base], row) for row in table["post"] for base in _ROUND_POSTS]
    return kinds | {kind.id: kind for kind in posts}


_ROUND_POSTS = ("sc", "hdc", "dc", "tr", "dtr")
"""The stitches that the abbreviation list has round posts too."""


def _kind(row: dict[str, Any]) -> StitchKind:
    made_of = tuple((kind, count) for kind, count in row.get("made_of", ()))
    several = {key: tuple(row[key]) for key in ("us", "uk", "steps")}
    return StitchKind(**{**row, **several, "made_of": made_of})


def _post(base: StitchKind, row: dict[str, str]) -> StitchKind:
    """A stitch worked round the post of the one below, on one side."""
    side, letters = row["side"], row["letters"]
    steps = tuple(step.replace("in the stitch", row["round"]) for step in base.steps)

    def words(names: tuple[str, ...], name: str) -> tuple[str, ...]:
        short = [f"{letters}{names[0]}", f"{letters} {names[0]}", f"{side} post {names[0]}"]
        return (*short, f"{side} post {name}", f"{letters} {name}")

    uk_short = base.short(uk=True)
    raised = [f"r{uk_short}{row['raised']}", f"r{row['raised']}{uk_short}"]
    raised.append(f"raised {uk_short} {side}")
    return replace(
        base,
        id=f"{letters}{base.id}",
        us=words(base.us, base.us_name),
        us_name=f"{side} post {base.us_name}",
        uk=(*words(base.uk, base.uk_name), *raised),
        uk_name=f"{side} post {base.uk_name}",
        steps=steps,
        into=f"{side} post",
        source="abbreviation list; height, yarn and pace as for the stitch itself",
    )


def stitch(id: str) -> StitchKind:
    """The stitch of an id; KeyError where there is none."""
    return stitches()[id]


def short_name(id: str, uk: bool) -> str:
    """The usual abbreviation of a stitch; a stitch that a pattern declares goes by its own name."""
    kind = stitches().get(id)
    return kind.short(uk) if kind else id


def full_name(id: str, uk: bool) -> str:
    """The full name of a stitch; a stitch that a pattern declares goes by its own name."""
    kind = stitches().get(id)
    return kind.name(uk) if kind else id


@cache
def terms() -> dict[str, Term]:
    """All terms by id."""
    rows = load_table("terms")["term"]
    return {row["id"]: _term(row) for row in rows}


@cache
def spoken() -> dict[str, tuple[str, tuple[str, ...]]]:
    """The part and the words of every term by its id: all that reading needs of them."""
    rows = load_table("terms")["term"]
    return {row["id"]: (row["part"], tuple(row["words"])) for row in rows}


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
        tuple(row.get("steps", ())),
        row.get("source", ""),
    )


@cache
def techniques() -> tuple[Technique, ...]:
    """All techniques, in the order of the table."""
    rows = load_table("techniques")["technique"]
    return tuple(
        Technique(**{"uk": row["us"], **row, "steps": tuple(row["steps"])}) for row in rows
    )
