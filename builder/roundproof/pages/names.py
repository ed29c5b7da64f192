"""Ids of a pattern's page: `shell-r7` for a round, `shell-r4-r6` for a range. They get printed on
paper and must not change; two things never share one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from roundproof.fabric.model import WorkedRound
from roundproof.writing.slug import slug

SECTIONS = frozenset(
    {"content", "safety", "settings", "materials", "pieces", "assembly", "specimen", "words"}
    | {"photos", "changes", "report", "plate", "hatch", "filling"}
)
"""Ids the templates use themselves."""


def piece_ids(keys: Iterable[str]) -> Mapping[str, str]:
    """An id for each piece; `body-2` would be a second `body`."""
    ids: dict[str, str] = {}
    taken = set(SECTIONS)
    for key in keys:
        name = slug(key) or "piece"
        name = name if not name[0].isdigit() else f"piece-{name}"
        ids[key] = _free(name if name not in SECTIONS else f"{name}-piece", taken)
    return ids


def round_ids(piece: str, rounds: Iterable[WorkedRound]) -> list[str]:
    """An id for each round or range of a piece; numbers that come back get a letter."""
    taken: set[str] = set()
    return [_free(f"{piece}-{_label(worked)}", taken, letters=True) for worked in rounds]


MOST_SINGLES = 100
"""A range up to this long can be told apart into its rounds."""


def range_ids(piece: str, worked: WorkedRound) -> tuple[str, ...]:
    """Each round of a range can be led to as well; none for a single round."""
    label = worked.round.label
    if not 1 < label.rounds <= MOST_SINGLES:
        return ()
    return tuple(f"{piece}-r{number}" for number in range(label.first, label.last + 1))


def _label(worked: WorkedRound) -> str:
    label = worked.round.label
    return f"r{label.first}" + (f"-r{label.last}" if label.last != label.first else "")


def _free(name: str, taken: set[str], letters: bool = False) -> str:
    found, number = name, 1
    while found in taken:
        number += 1
        found = f"{name}-{chr(96 + number)}" if letters and number <= 26 else f"{name}-{number}"
    taken.add(found)
    return found


def shown_label(worked: WorkedRound) -> str:
    """ "R7", "R9–R10", "Row 4", "Rows 4–15"."""
    label = worked.round.label
    if label.row:
        one = label.first == label.last
        return f"Row\u00a0{label.first}" if one else f"Rows\u00a0{label.first}–{label.last}"
    return re.sub("-", "–", str(label))


def spoken_label(worked: WorkedRound) -> str:
    """ "round 7", "rounds 9 to 10", for what is read out."""
    label = worked.round.label
    kind = "row" if label.row else "round"
    if label.first == label.last:
        return f"{kind} {label.first}"
    return f"{kind}s {label.first} to {label.last}"
