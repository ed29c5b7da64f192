"""Hazards that materials bring, as far as their names tell. See hazards.toml."""

from __future__ import annotations

import re
from functools import cache

from roundproof.frozen import dataclass
from roundproof.reference import load_table


@dataclass(frozen=True, slots=True)
class Hazard:
    """A kind of hazard. `has` is what brings it in plain words, `said` are the words of running
    text that tell of it, `warns` is the line to be said about it; hazards.toml tells the rest."""

    id: str
    has: str
    words: tuple[str, ...]
    unless: tuple[str, ...]
    named: tuple[str, ...]
    said: tuple[str, ...]
    warns: str
    source: str

    def seen_in(self, item: str) -> bool:
        """Whether a thing of this name brings the hazard."""
        text = _plain(item)
        return _has(text, self.words, _ONE_OR_MORE) and not _has(text, self.unless)

    def named_in(self, note: str) -> bool:
        """Whether a safety note names the hazard."""
        return _has(_plain(note), self.named, _ANY_ENDING)


@cache
def hazards() -> tuple[Hazard, ...]:
    """All hazards, in the order of the table."""
    return tuple(
        Hazard(
            row["id"],
            row["has"],
            tuple(row["words"]),
            tuple(row["unless"]),
            tuple(row["named"]),
            tuple(row["said"]),
            row["warns"],
            row["source"],
        )
        for row in load_table("hazards")["hazard"]
    )


def hazards_of(item: str) -> tuple[Hazard, ...]:
    """The hazards that a thing brings, by its name."""
    return tuple(hazard for hazard in hazards() if hazard.seen_in(item))


def declared(words: str) -> Hazard:
    """The hazard that a designer's words declare ("small parts"): one of the table if any is
    meant, else one that goes by those words alone."""
    text = _plain(words)
    for hazard in hazards():
        if _has(text, (hazard.id, *hazard.words), _ONE_OR_MORE):
            return hazard
    meant = (hazard for hazard in hazards() if hazard.named_in(words))
    return next(meant, Hazard(words, words, (), (), (text.strip(),), (), "", ""))


@dataclass(frozen=True, slots=True)
class Limit:
    """How long a cord, or how long round a loop, a published rule lets be: `mm`, `rule` its name,
    edition and date."""

    id: str
    mm: float
    rule: str
    source: str


@cache
def limits() -> dict[str, Limit]:
    """The limits for cords and loops, by "cord" and "loop"."""
    rows = load_table("hazards")["limit"]
    return {row["id"]: Limit(row["id"], row["mm"], row["rule"], row["source"]) for row in rows}


_WHOLE = (" ",)
_ONE_OR_MORE = (" ", "s ", "es ")
_ANY_ENDING = ("",)


def _plain(text: str) -> str:
    """Lower-case words between single spaces, one before the first and after the last too."""
    return " ".join(["", *re.findall(r"[^\W_]+", text.lower()), ""])


def _has(text: str, phrases: tuple[str, ...], endings: tuple[str, ...] = _WHOLE) -> bool:
    return any(f" {phrase}{ending}" in text for phrase in phrases for ending in endings)
