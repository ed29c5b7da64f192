"""Measures for programs: centimetres, millilitres, metres, grams, hours, to two decimals.

What cannot be told reliably is null, and `unreliable` says why.
"""

from __future__ import annotations

from typing import Any

from roundproof.checks.results import Regauged, Result, Results
from roundproof.measure.meeting import plan_words
from roundproof.measure.model import Fit, PieceSize, RunsOut, Tested, YarnNeed
from roundproof.proof import Proof
from roundproof.telling.json_ import dumped
from roundproof.telling.tested import spread_values

_KEYS = {
    "height": "height_cm",
    "diameter": "diameter_cm",
    "length": "length_cm",
    "edge": "edge_cm",
    "volume": "volume_ml",
}
"""The figures of a piece, and what they are called here."""

_NOTHING: dict[str, Any] = {
    "pieces": {},
    "joins": [],
    "yarns": {},
    "stuffing_g": None,
    "hours": None,
    "tested_hours": None,
    "making_up_hours": None,
    "unreliable": {},
    "working": {},
}
"""What there is to measure in a file that cannot be used."""


def told(results: Results, *, working: bool = False) -> str:
    """The whole of what `measure --format json` prints; with `working`, also how each figure was
    reached."""
    files = [_file(result) for result in results.files]
    if not working:
        files = [_without(file, "working") for file in files]
    return dumped({"patterns": files})


def _file(result: Result) -> dict[str, Any]:
    head: dict[str, Any] = {"file": result.name, "title": result.title}
    if result.proof is None:
        return head | _NOTHING
    measures = result.proof.measures
    tested = None if result.regauged else result.proof.tested
    up = measures.making_up
    whole = {"stuffing_g": measures.stuffing_g, "hours": measures.hours}
    said = {key: measures.working.get(key.removesuffix("_g"), "") for key in whole}
    if result.regauged:
        head |= _regauged(result.regauged)
    return head | {
        "pieces": {key: _piece(result.proof, size) for key, size in measures.pieces.items()},
        "joins": [_join(fit) for fit in measures.fits],
        "yarns": {key: _yarn(need) | _tested(tested, key) for key, need in measures.yarns.items()},
        "stuffing_g": _two(measures.stuffing_g),
        "hours": _range(measures.hours),
        "tested_hours": spread_values(tested.hours) if tested else None,
        "making_up_hours": _range(up.hours),
        "unreliable": {key: said[key] for key, value in whole.items() if value is None},
        "working": {key: said[key] for key, value in whole.items() if value is not None}
        | {"making_up_hours": up.working},
    }


def _regauged(regauged: Regauged) -> dict[str, Any]:
    """The gauges of the maker, what the finished thing comes to, and what is placed on the pieces,
    as large as it should be then."""
    notions = [
        {"item": each.item, "size_mm": _two(each.size_mm), "was_mm": _two(each.was_mm)}
        for each in regauged.notions
    ]
    whole = {
        each.stated.word: {"was_cm": _cm(each.stated.mm), "cm": _cm(each.mm)}
        for each in regauged.finished
    }
    return {"another_gauge": dict(regauged.gauges), "finished": whole, "notions": notions}


def _piece(proof: Proof, size: PieceSize) -> dict[str, Any]:
    worked, spent = proof.fabric.pieces[size.piece], proof.measures.time[size.piece]
    how = {_KEYS.get(key, key): how for key, how in size.working.items()}
    why = {_KEYS.get(key, key): why for key, why in size.unreliable.items()}
    (why if spent.hours is None else how)["hours"] = spent.working
    return {
        "make": worked.piece.make,
        "stitches": worked.stitches,
        "rounds": sum(each.rounds for each in worked.rounds),
        "height_cm": _cm(size.height_mm),
        "diameter_cm": _cm(size.diameter_mm),
        "length_cm": _cm(size.length_mm),
        "edge_cm": _cm(size.edge_mm),
        "volume_ml": _two(size.volume_ml),
        "outline": [[_cm(each.radius_mm), _cm(each.height_mm)] for each in size.outline],
        "lies": [each.flatness.value for each in size.outline],
        "gauge_guessed": size.guessed,
        "hours": _range(spent.hours),
        "unreliable": why,
        "working": how,
    }


def _join(fit: Fit) -> dict[str, Any]:
    return {
        "edges": [edge.text for edge in fit.edges],
        "counts": list(fit.counts),
        "lengths_cm": [_cm(length) for length in fit.lengths_mm],
        "fit": _two(fit.fit),
        "suggest": list(fit.suggest),
        "suggest_in_multiple": list(fit.kept),
        "plan": plan_words(fit) or None,
        "working": fit.working,
    }


def _yarn(need: YarnNeed) -> dict[str, Any]:
    return {
        "metres": _two(need.metres),
        "grams": _two(need.grams),
        "balls": need.balls,
        "listed_metres": _two(need.listed_metres),
        "runs_out": _runs_out(need.runs_out),
        "estimated": need.estimated,
        "unreliable": _missing(need),
        "working": need.working,
    }


def _tested(tested: Tested | None, key: str) -> dict[str, Any]:
    """What testers used of a yarn: grams and metres; null where nobody says."""
    grams = tested.grams.get(key) if tested else None
    if tested is None or grams is None:
        return {"tested": None}
    metres = tested.metres.get(key)
    return {"tested": {"grams": spread_values(grams), "metres": spread_values(metres)}}


def _missing(need: YarnNeed) -> dict[str, str]:
    if need.metres is None:
        return {"metres": need.unreliable}
    return dict.fromkeys(("grams", "balls"), need.no_put_up) if need.no_put_up else {}


def _runs_out(place: RunsOut | None) -> dict[str, Any] | None:
    """Where a yarn ends; `round` is null where it does while the piece is sewn on."""
    if place is None:
        return None
    return {"piece": place.piece, "copy": place.copy, "round": place.round}


def _without(value: Any, left_out: str) -> Any:
    """A value of JSON without the entries of some name, at any depth."""
    if isinstance(value, dict):
        return {k: _without(v, left_out) for k, v in value.items() if k != left_out}
    return [_without(v, left_out) for v in value] if isinstance(value, list) else value


def _cm(millimetres: float | None) -> float | None:
    return None if millimetres is None else _two(millimetres / 10)


def _range(hours: tuple[float, float] | None) -> list[float | None] | None:
    return [_two(each) for each in hours] if hours else None


def _two(value: float | None) -> float | None:
    return None if value is None else round(value, 2) + 0.0
