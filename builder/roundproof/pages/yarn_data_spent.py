"""The yarns in the data of a page: what is left of their stitches and seams to reckon metres by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from roundproof.measure.gauge import diameter
from roundproof.measure.model import Fit
from roundproof.measure.shares import Unit, share_of, unit_of
from roundproof.measure.spending import SEAM, TAIL, THREAD, Seam, Spending
from roundproof.pages.yarn_data_numbers import Data, Numbers, short
from roundproof.pattern.model import Pattern, Piece, Yarn


class Spent:
    """What all pieces and seams of a pattern take. `fits` are its joins in the order of the data;
    `pattern` has the gauges that are known."""

    def __init__(
        self,
        pattern: Pattern,
        pieces: Iterable[Spending],
        seams: Iterable[Seam],
        fits: tuple[Fit, ...],
        numbers: Numbers,
    ) -> None:
        self.pattern, self.fits, self.numbers = pattern, fits, numbers
        self.pieces, self.seams = tuple(pieces), tuple(seams)

    def yarn(self, yarn: Yarn) -> Data | None:
        """One yarn; None where a round in it could not be counted."""
        if any(yarn.key in piece.unread for piece in self.pieces):
            return None
        seams = [seam for seam in self.seams if seam.yarn == yarn.key]
        ends = sum(piece.ends(yarn.key) * piece.piece.make for piece in self.pieces)
        told: Data = {
            "line": self.numbers.lines.get(yarn.key),
            "thick": short(thick) if (thick := diameter(yarn)) is not None else None,
            "stitches": self._amounts(yarn, ((p.piece, _stitches(p, yarn)) for p in self.pieces)),
            "ends": short(ends + sum(2 * TAIL * seam.piece.make for seam in seams)),
            "weighed": self._weighed(yarn),
            "along": list(self._along(seams)),
            "hooked": self._amounts(yarn, ((s.piece, _hooked(s)) for s in seams)),
            "sewn": list(self._sewn(seams)),
        }
        return {name: value for name, value in told.items() if value not in (None, [])}

    def _amounts(self, yarn: Yarn, found: Iterable[tuple[Piece, float | None]]) -> list[float]:
        """[stitch, so many single crochets of it, ...]."""
        amounts: dict[Unit, float] = {}
        for piece, amount in found:
            unit = unit_of(self.pattern, piece, yarn.key)
            if amount is not None and unit is not None:
                amounts[unit] = amounts.get(unit, 0.0) + amount * piece.make
        return self.numbers.amounts(amounts)

    def _weighed(self, yarn: Yarn) -> float | None:
        """Metres in the stitches by a weighed swatch, which another gauge leaves behind."""
        swatch, ball = yarn.swatch, yarn.ball
        if not swatch or not ball or swatch.stitches <= 0 or ball.grams <= 0:
            return None
        units = sum((_stitches(p, yarn) or 0.0) * p.piece.make for p in self.pieces)
        return short(units * swatch.grams / swatch.stitches * ball.metres / ball.grams)

    def _along(self, seams: Iterable[Seam]) -> Iterator[float]:
        """[join, yarn over its length, ...]."""
        for seam in seams:
            if seam.fit is not None and seam.stitches is None:
                yield next(i for i, fit in enumerate(self.fits) if fit is seam.fit)
                yield short(SEAM * seam.piece.make)

    def _sewn(self, seams: Iterable[Seam]) -> Iterator[list[Any]]:
        """[stitch, rounds up, stitches across, yarn over its length] of lines of embroidery."""
        for line, make in ((seam.line, seam.piece.make) for seam in seams):
            share = share_of(self.pattern, line.worked.piece, line.way.here) if line else None
            if line and share:
                way = [short(line.way.up), short(line.way.across)]
                yield [self.numbers.share(share), *way, short(THREAD * line.times * make)]


def _stitches(piece: Spending, yarn: Yarn) -> float | None:
    """Single crochets in one copy of a piece; None where it has none of the yarn."""
    if yarn.key not in piece.rates:
        return None
    return sum(line.units.get(yarn.key, 0.0) * line.rounds for line in piece.lines)


def _hooked(seam: Seam) -> float | None:
    return None if seam.stitches is None else float(seam.stitches)
