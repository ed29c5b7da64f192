"""What becomes of a pattern in another gauge, beside what it was in its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from roundproof.checks.results import Regauged, Result
from roundproof.measure.figures import number
from roundproof.proof import Proof
from roundproof.telling.cells import wrapped
from roundproof.telling.columns import NONE, Row, cm, headed, table
from roundproof.telling.paint import Paint
from roundproof.words import listing, say

_HEADS = ("piece", "make", "height", "width", "length", "volume")


def then_and_now(result: Result, joins: Sequence[str], paint: Paint) -> Iterator[Iterable[str]]:
    """The sections that a result in another gauge begins with; none for any other."""
    if result.regauged is None or result.proof is None:
        return
    was, now = result.regauged.was, result.proof
    yield [f"  {line}" for line in wrapped(_heading(result.regauged, paint), paint.columns - 2)]
    rows = [_piece(was, now, key, paint) for key in now.measures.pieces]
    yield table(list(_finished(result.regauged, paint)))
    yield headed(_HEADS, rows, paint, keep=2)
    yield joins
    yield table([_yarn(was, now, key, paint) for key in now.measures.yarns])
    yield table(list(_notions(result.regauged, paint)))


def _heading(regauged: Regauged, paint: Paint) -> str:
    told = [
        say("measure.in_gauge", gauge=gauge, yarns=listing(keys))
        for gauge, keys in _by_gauge(regauged.gauges).items()
    ]
    if not told:
        return say("measure.not_worked_in")
    return say("measure.then_now", gauges=listing(told), arrow=paint.arrow)


def _by_gauge(gauges: Mapping[str, str]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for key, gauge in gauges.items():
        found.setdefault(gauge, []).append(key)
    return found


def _piece(was: Proof, now: Proof, key: str, paint: Paint) -> Row:
    old, new = was.measures.pieces[key], now.measures.pieces[key]
    figures = (
        (old.height_mm, new.height_mm),
        (old.diameter_mm, new.diameter_mm),
        (old.length_mm, new.length_mm),
    )
    return [
        key,
        str(now.fabric.pieces[key].piece.make),
        *(_both(cm(then), cm(here), paint) for then, here in figures),
        NONE if new.volume_ml is None else f"{new.volume_ml:.0f} ml",
    ]


def _yarn(was: Proof, now: Proof, key: str, paint: Paint) -> Row:
    need, old = now.measures.yarns[key], was.measures.yarns[key]
    return [
        key,
        _both(_metres(old.metres), _metres(need.metres), paint),
        say("measure.estimated" if need.estimated else "measure.weighed"),
    ]


def _finished(regauged: Regauged, paint: Paint) -> Iterator[Row]:
    for each in regauged.finished:
        name = say("measure.finished", measure=each.stated.word)
        yield [name, _both(cm(each.stated.mm), cm(each.mm), paint)]


def _notions(regauged: Regauged, paint: Paint) -> Iterator[Row]:
    for each in regauged.notions:
        then, now = (f"{number(size)} mm" for size in (each.was_mm, each.size_mm))
        yield [each.item, _both(then, now, paint)]


def _metres(metres: float | None) -> str:
    return NONE if metres is None else f"{metres:.0f} m"


def _both(then: str, now: str, paint: Paint) -> str:
    """ "5.2 → 7.3 cm"; one figure where both are the same, or one is missing."""
    if then == now or NONE in (then, now):
        return now
    figure, unit = then.rsplit(" ", 1)
    return f"{figure if now.endswith(f' {unit}') else then}{paint.arrow}{now}"
