"""Measures for people, in a terminal: the pieces, the joins, what to buy, how long it takes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from roundproof.checks.results import Result, Results
from roundproof.measure.meeting import plan_words
from roundproof.measure.model import Fit, Measures, PieceSize, YarnNeed
from roundproof.measure.running_out import shortage
from roundproof.proof import Proof
from roundproof.telling.cells import clean, wrapped
from roundproof.telling.columns import NONE, Row, cm, headed, hours_of, table
from roundproof.telling.measure_then import then_and_now
from roundproof.telling.paint import Paint
from roundproof.telling.tested import time_line, yarn_lines
from roundproof.words import count, listing, say

_NAMES = {"diameter": "width"}
"""Figures that go by another word here."""
_HEADS = (
    "piece", "make", "stitches", "rounds",
    "height", "width", "length", "edge", "volume", "range_head",
)  # fmt: skip


def told(results: Results, paint: Paint, *, working: bool = False) -> str:
    """Every pattern that could be worked, one under the other; with `working`, also how each
    figure was reached."""
    parts = ["\n".join(_file(result, paint, working)) for result in results.files if result.proof]
    return "\n\n".join(parts or [say("measure.nothing")]) + "\n"


def _file(result: Result, paint: Paint, working: bool) -> Iterator[str]:
    name = paint(clean(result.name), "faint")
    title = clean(result.title) if result.title else ""
    yield f"{paint(title, 'bold')}{paint.dot}{name}" if title else name
    if result.proof is None:
        return
    measures = result.proof.measures
    rows = [_piece(result.proof, size) for size in measures.pieces.values()]
    joins = [line for fit in measures.fits for line in _fit(fit, paint)]
    yarns = table([_yarn(need) for need in measures.yarns.values()])
    yarns += _lines(yarn_lines(result.proof.tested, result.proof.pattern), paint)
    sections = (
        *then_and_now(result, joins, paint),
        *(() if result.regauged else (headed(_HEADS, rows, paint, keep=4), joins, yarns)),
        _lines(_short(result.proof), paint),
        (*_whole(measures), *(() if result.regauged else _time(result.proof, paint))),
        _lines(_unreliable(measures), paint),
        _lines(_working(measures), paint) if working else (),
    )
    for section in sections:
        if lines := list(section):
            yield ""
            yield from lines


def _piece(proof: Proof, size: PieceSize) -> Row:
    worked = proof.fabric.pieces[size.piece]
    stitches = worked.stitches
    return [
        size.piece,
        str(worked.piece.make),
        NONE if stitches is None else str(stitches),
        str(sum(each.rounds for each in worked.rounds)),
        *map(cm, (size.height_mm, size.diameter_mm, size.length_mm, size.edge_mm)),
        NONE if size.volume_ml is None else f"{size.volume_ml:.0f} ml",
        hours_of(proof.measures.time[size.piece].hours),
    ]


def _fit(fit: Fit, paint: Paint) -> Iterator[str]:
    first, second = fit.edges
    said = say(
        "measure.join",
        first=first.text,
        second=second.text,
        counts=" : ".join(NONE if n is None else str(n) for n in fit.counts),
        lengths=" : ".join(cm(length) for length in fit.lengths_mm),
    )
    if fit.verdict:
        said += say("measure.verdict", verdict=fit.verdict)
    suggested = [
        say("measure.suggest", count=n, edge=edge.text)
        for n, edge, has in zip(fit.suggest, fit.edges, fit.counts, strict=True)
        if n is not None and n != has
    ]
    if suggested:
        said += say("measure.suggests", either=listing(suggested, "or"))
    if planned := plan_words(fit):
        said += say("measure.plan", plan=planned)
    yield from _lines([said], paint)


def _yarn(need: YarnNeed) -> Row:
    return [
        need.yarn,
        NONE if need.metres is None else f"{need.metres:.0f} m",
        NONE if need.grams is None else f"{need.grams:.0f} g",
        NONE if need.balls is None else count("ball", need.balls),
        say("measure.estimated" if need.estimated else "measure.weighed"),
    ]


def _short(proof: Proof) -> Iterator[str]:
    """Yarns of which too few balls are listed."""
    for yarn in proof.pattern.yarns:
        need = proof.measures.yarns.get(yarn.key)
        if need is not None and (said := shortage(proof.pattern, yarn, need)):
            yield said


def _whole(measures: Measures) -> Iterator[str]:
    grams, hours, up = measures.stuffing_g, measures.hours, measures.making_up.hours
    said = [say("measure.stuffing", grams=round(grams))] if grams else []
    if hours:
        said.append(say("measure.hours", low=f"{hours[0]:.1f}", high=f"{hours[1]:.1f}"))
    if hours and up and up[1]:
        said[-1] += say("measure.making_up", range=hours_of(up))
    if said:
        yield f"  {listing(said)}"


def _time(proof: Proof, paint: Paint) -> Iterator[str]:
    return _lines(time_line(proof.tested), paint)


def _unreliable(measures: Measures) -> Iterator[str]:
    """What cannot be told: all figures of a piece that share a reason in one sentence."""
    for size in measures.pieces.values():
        reasons: dict[str, list[str]] = {}
        for figure, why in size.unreliable.items():
            reasons.setdefault(why, []).append(say(f"measure.{_NAMES.get(figure, figure)}"))
        for why, figures in reasons.items():
            yield say("measure.unreliable", figures=listing(figures, "or"), of=size.piece, why=why)
    for need in measures.yarns.values():
        if need.unreliable:
            yield say(
                "measure.unreliable", figures=say("measure.yarn"), of=need.yarn, why=need.unreliable
            )
    without: dict[str, list[str]] = {}
    for need in measures.yarns.values():
        if need.no_put_up:
            without.setdefault(need.no_put_up, []).append(need.yarn)
    for why, yarns in without.items():
        yield say("measure.no_put_up", of=listing(yarns), why=why)
    for key, value in (("stuffing", measures.stuffing_g), ("hours", measures.hours)):
        reason = measures.working.get(key)
        if value is None and reason:
            yield say("measure.unreliable_whole", figure=say(f"measure.the_{key}"), why=reason)


def _working(measures: Measures) -> Iterator[str]:
    for size in measures.pieces.values():
        for figure, how in size.working.items():
            name = say(f"measure.{_NAMES.get(figure, figure)}")
            yield say("measure.working", figure=name, of=size.piece, how=how)
        spent = measures.time[size.piece]
        if spent.hours is not None:
            name = say("measure.time")
            yield say("measure.working", figure=name, of=size.piece, how=spent.working)
    for fit in measures.fits:
        names = say("measure.to").join(edge.text for edge in fit.edges)
        yield say("measure.working_whole", figure=names, how=fit.working)
    for need in measures.yarns.values():
        yield say("measure.working", figure=say("measure.yarn"), of=need.yarn, how=need.working)
    for key, how in measures.working.items():
        yield say("measure.working_whole", figure=say(f"measure.the_{key}"), how=how)
    up = measures.making_up
    yield say("measure.working_whole", figure=say("measure.the_making_up"), how=up.working)


def _lines(sentences: Iterable[str], paint: Paint) -> Iterator[str]:
    """Sentences wrapped, the first line of each a little out."""
    for sentence in sentences:
        first, *more = wrapped(sentence, paint.columns - 4)
        yield f"  {first}"
        yield from (f"    {line}" for line in more)
