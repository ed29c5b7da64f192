"""The pieces in the data of a page: what is left of them to reckon their sizes by."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import Any

from roundproof.fabric.edges import count_of
from roundproof.fabric.model import Base, Edge, Fabric, WorkedPiece
from roundproof.measure.bands import Band, Bands, bands_of
from roundproof.measure.fans import is_fan
from roundproof.measure.model import Form
from roundproof.measure.outline import drawn_shut, form_of, grown_from, rounds_begin, straights
from roundproof.measure.shares import Share, Sum, edge_sum, share_of, wide
from roundproof.pages.yarn_data_numbers import Data, Numbers, runs, short
from roundproof.pattern.model import Pattern


def piece_data(pattern: Pattern, fabric: Fabric, worked: WorkedPiece, numbers: Numbers) -> Data:
    """One piece; without `bands` where it cannot be told in any gauge. Every yarn of the pattern
    has one here."""
    told: Data = {"make": worked.piece.make} if worked.piece.make > 1 else {}
    bands = bands_of(pattern, worked)
    if bands.bands:
        told["edge"] = numbers.sum(_edge(pattern, fabric, worked))
        if not bands.missing:
            told |= _shape(pattern, fabric, worked, bands, numbers)
    return {name: value for name, value in told.items() if value is not None}


def _edge(pattern: Pattern, fabric: Fabric, worked: WorkedPiece) -> Sum | None:
    last = worked.rounds[-1]
    number = last.round.label.last
    edge = Edge(worked.piece.key, "", "round", count_of(last), None, number)
    return edge_sum(pattern, fabric, edge)


def _shape(
    pattern: Pattern, fabric: Fabric, worked: WorkedPiece, bands: Bands, numbers: Numbers
) -> Data:
    form, first = form_of(worked), bands.bands[0]
    here = share_of(pattern, worked.piece, first.worked) or {}
    told: Data = {"form": "fan" if form is Form.ROWS and is_fan(worked) else form.value}
    if form is Form.TURNED:
        told["start"] = numbers.sum(_start(pattern, fabric, worked, first, here))
    elif form is Form.OVAL:
        told["straight"] = numbers.sum(wide(here, straights(first)))
    if drawn_shut(pattern, worked):
        told["shut"] = 1
    return told | {"bands": list(_segments(pattern, worked, bands.bands, numbers))}


def _start(
    pattern: Pattern, fabric: Fabric, worked: WorkedPiece, first: Band, here: Share
) -> Sum | None:
    """The way round what a piece grows from; None for a start drawn shut."""
    base, available = first.worked.base, first.worked.available
    if rounds_begin(worked) is not None:
        return wide(here, first.count)
    if base is Base.CHAIN and first.worked.chains >= 3:
        return wide(here, first.worked.chains)
    if base is not Base.EDGE or not available:
        return None
    below = grown_from(fabric, worked)
    share = share_of(pattern, below[0].piece, below[1]) if below else here
    return wide(share or {}, available)


def _segments(
    pattern: Pattern, worked: WorkedPiece, bands: tuple[Band, ...], numbers: Numbers
) -> Iterator[list[Any]]:
    """[stitch, its height, counts, below]: one for as long as nothing but the count changes.
    `below` is the place of the earlier round whose loops it goes into, -1 for one that is not
    there; left out where a round goes into the last."""
    told: list[tuple[Any, ...]] = []
    for at, band in enumerate(bands):
        share = share_of(pattern, worked.piece, band.worked) or {}
        here = (numbers.share(share), short(band.worked.height))
        told.append(here if band.into is None else (*here, _below(bands, at, band.into)))
    for (share, height, *below), places in groupby(range(len(bands)), lambda at: told[at]):
        yield [share, height, list(runs(bands[at].count for at in places)), *below]


def _below(bands: tuple[Band, ...], at: int, number: int) -> int:
    return next((i for i in range(at - 1, -1, -1) if bands[i].number == number), -1)
