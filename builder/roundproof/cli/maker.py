"""What one maker says of their own work on the command line: the pace they keep and
the gauge they get in their own yarn."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from roundproof.checks.base import quoted
from roundproof.checks.results import Regauged, Result, Results
from roundproof.fabric.work import work
from roundproof.frozen import dataclass, replace
from roundproof.measure.finished import finished
from roundproof.measure.gauges_said import Unclear, gauges_said
from roundproof.measure.regauge import in_another_gauge, notion_sizes
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


def in_gauges(results: Results, said: Sequence[str]) -> Results | Refused:
    """The same in the yarn of somebody who gets these gauges. Each may begin with the word for the
    yarn that it stands for, and a colon."""
    found: list[Result] = []
    for result in results.files:
        made = _in_gauges(result, result.proof, said) if result.proof else result
        if isinstance(made, Unclear):
            return Refused(f"{clean(result.title or result.name)}: {clean(made.message)}")
        found.append(made)
    return Results(tuple(found))


def _in_gauges(result: Result, proof: Proof, said: Sequence[str]) -> Result | Unclear:
    gauges = gauges_said(proof.pattern, proof.measures.yarns, said)
    if isinstance(gauges, Unclear):
        return gauges
    pattern = in_another_gauge(proof.pattern, gauges)
    other = replace(proof, pattern=pattern, fabric=work(pattern)[0])
    notions = notion_sizes(proof.pattern, proof.fabric, pattern, other.fabric)
    texts = {key: gauge.span.text for key, gauge in gauges.items() if key in proof.measures.yarns}
    whole = finished(proof.pattern, proof.measures.pieces, other.measures.pieces)
    return replace(result, proof=other, regauged=Regauged(proof, texts, notions, whole))


def _each(results: Results, change: Callable[[Proof], Proof]) -> Results:
    changed = (replace(r, proof=change(r.proof)) if r.proof else r for r in results.files)
    return Results(tuple(changed))
