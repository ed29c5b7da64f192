"""The checks, one file each: found by looking into this folder, run over a proof.

Every module here is a check, named for its id with underscores, but for those in `HELPERS` and
those whose name starts with an underscore. `base` says what a check file holds. `ids.txt` is the
list of all ids there ever were: it only grows.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module
from os import listdir
from pathlib import Path
from types import ModuleType

from roundproof.checks.base import Check
from roundproof.findings import Finding
from roundproof.proof import Proof

HELPERS = frozenset({"accept", "base", "results"})
FOLDER = Path(__file__).parent
IDS = FOLDER / "ids.txt"
FORMER = frozenset({"key-unworked"})
"""Ids of checks that are gone, since nothing can set them off any more."""


class BadCheck(Exception):
    """A check file that cannot be used: a fault of this package, never of a pattern."""


@cache
def all_checks() -> Mapping[str, Check]:
    """Every check by its id, in the order of the ids. Raises BadCheck."""
    files = (name.removesuffix(".py") for name in listdir(FOLDER) if name.endswith(".py"))
    names = sorted(filter(_is_check, files))
    return gathered(import_module(f"{__name__}.{name}") for name in names)


def gathered(modules: Iterator[ModuleType]) -> Mapping[str, Check]:
    """The checks of some modules by id. Raises BadCheck for a file that breaks the rules."""
    found: dict[str, Check] = {}
    for module in modules:
        check = _check_of(module)
        if check.id in found:
            raise BadCheck(f"{module.__name__}: the id {check.id} is taken by another check")
        found[check.id] = check
    return found


def run_checks(proof: Proof) -> tuple[Finding, ...]:
    """What all checks find in one proof, check by check."""
    runs = (check.run for check in all_checks().values() if check.run is not None)
    return tuple(finding for run in runs for finding in run(proof))


def listed_ids() -> tuple[str, ...]:
    """The committed list of ids."""
    return tuple(IDS.read_text(encoding="utf-8").split())


def _is_check(name: str) -> bool:
    return name not in HELPERS and not name.startswith("_")


def _check_of(module: ModuleType) -> Check:
    check = getattr(module, "CHECK", None)
    if not isinstance(check, Check):
        raise BadCheck(f"{module.__name__}: a check file defines one CHECK, a Check")
    name = module.__name__.rpartition(".")[2]
    if check.id != name.replace("_", "-"):
        raise BadCheck(f"{module.__name__}: its id is {check.id}, its file says another one")
    return check
