"""What one maker says of their own work on the command line: the pace they keep."""

from __future__ import annotations

from collections.abc import Callable

from roundproof.checks.base import quoted
from roundproof.checks.results import Results
from roundproof.frozen import dataclass, replace
from roundproof.pattern.quantities import Fault, number, pace
from roundproof.proof import Proof
from roundproof.source import Located, Source
from roundproof.telling.cells import clean
from roundproof.words import say


@dataclass(frozen=True, slots=True)
class Refused:
    """Why an option cannot be followed, in a sentence or two."""

    message: str


def at_pace(results: Results, said: str) -> Results | Refused:
    """The same, with the time that somebody takes who makes so many stitches a minute. The number
    may stand alone."""
    plain = number(said)
    value = pace(said if isinstance(plain, Fault) else f"{said} sts a minute")
    if isinstance(value, Fault):
        why = f": {value.why}" if value.why else ""
        return Refused(say("measure.bad_pace", said=quoted(clean(said)), why=why))
    kept = Located(value, Source("--pace", said).span(0, len(said)))
    return _each(results, lambda p: replace(p, pattern=replace(p.pattern, pace=kept)))


def _each(results: Results, change: Callable[[Proof], Proof]) -> Results:
    changed = (replace(r, proof=change(r.proof)) if r.proof else r for r in results.files)
    return Results(tuple(changed))
