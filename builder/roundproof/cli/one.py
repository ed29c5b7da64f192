"""The one pattern that a command works on."""

from __future__ import annotations

from roundproof.checks.results import Result
from roundproof.pipeline import prove
from roundproof.telling.cells import clean
from roundproof.words import say


def one_pattern(path: str) -> Result | str:
    """What came of proving the one pattern that a path names, or why it is not one that can be
    used, in a sentence."""
    files = prove(path).files
    found = [result for result in files if result.proof is not None]
    if len(found) == 1:
        return found[0]
    faults = [finding for result in files for finding in result.findings]
    if found or not faults:
        return say("work.several", path=clean(path))
    return clean(f"{path}: {faults[0].message} {faults[0].mend}".rstrip())
