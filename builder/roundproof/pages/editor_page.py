"""What an editor looks at, and what settles it: made from the checks and the list of items."""

from __future__ import annotations

from roundproof.checks import all_checks
from roundproof.checks._items import items
from roundproof.frozen import dataclass
from roundproof.pages.check_pages import check_address

WHO = {
    "M": "computed",
    "M+": "computed once it is declared",
    "W": "a warning; a person decides",
    "P": "a person",
}


@dataclass(frozen=True, slots=True)
class SettledBy:
    """A check by its title, and where its page stands."""

    title: str
    address: str


@dataclass(frozen=True, slots=True)
class EditorRow:
    """One thing to look at: who settles it, the checks that tell of it, how it is made so, and the
    question that the review copy asks."""

    number: int
    about: str
    who: str
    checks: tuple[SettledBy, ...]
    made_so: str
    asks: str


def editor_rows() -> tuple[EditorRow, ...]:
    checks = all_checks()
    return tuple(
        EditorRow(
            item.number,
            item.about[:1].upper() + item.about[1:],
            WHO[item.mark],
            tuple(SettledBy(checks[id].title, check_address(id)) for id in item.checks),
            item.made_so,
            item.asks,
        )
        for item in items()
    )
