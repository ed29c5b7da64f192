"""A pattern's reports summed up: who wrote, what is to be corrected, and what was measured beside
what the pattern says and what is estimated."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from math import ceil

from roundproof.fabric.model import Fabric
from roundproof.frozen import dataclass
from roundproof.measure.model import Measures, Spread
from roundproof.pattern.model import Pattern, Size
from roundproof.testers import figures
from roundproof.testers.corrections import Correction, corrections
from roundproof.testers.model import Report, Reports

DIMENSIONS = ("height", "width", "length", "depth", "span_", "around")
_QUESTIONS = ("gauge_met", "photos_enough", "difficulty")


@dataclass(frozen=True, slots=True)
class Amount:
    """One yarn: grams and metres that testers used beside those estimated, and what to publish:
    the higher of the highest and the estimate, rounded up (`by_testers` where theirs is higher).
    One designer goes over to testers' figures where they are higher (franciscangypsydesigns.com,
    2015), another always lists a little more than was used (bellacrochet.blogspot.com, 2011)."""

    yarn: str
    grams: Spread | None
    metres: Spread | None
    estimated_grams: float | None
    estimated_metres: float | None
    publish_grams: int | None
    publish_metres: int | None
    publish_balls: int | None
    by_testers: bool


@dataclass(frozen=True, slots=True)
class Compared:
    """A figure that testers measured, by its name ("height", "yarn slate stitches"), beside `ours`:
    one figure, a range, or nothing."""

    name: str
    found: Spread
    ours: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Total:
    """A tester's own total of the stitches of one copy that differs from what the rounds make."""

    tester: str
    piece: str
    said: int
    made: int


@dataclass(frozen=True, slots=True)
class Summary:
    """All of it. `gauge` counts to 10 cm, `sizes` are mm, `times` hours, `answers` how often each
    answer was given, by question. Figures are those of reports whose version still holds."""

    reports: Reports
    corrections: tuple[Correction, ...]
    amounts: tuple[Amount, ...]
    stuffing: Compared | None
    gauge: tuple[Compared, ...]
    sizes: tuple[Compared, ...]
    times: tuple[Compared, ...]
    totals: tuple[Total, ...]
    answers: Mapping[str, Mapping[str, int]]

    @property
    def open(self) -> int:
        """Places that wait for a decision."""
        return sum(each.open for each in self.corrections)


def summed_up(pattern: Pattern, fabric: Fabric, measures: Measures, reports: Reports) -> Summary:
    """The reports of a pattern, beside its measures."""
    those = reports.holding
    ours = measures.stuffing_g
    return Summary(
        reports,
        corrections(reports),
        tuple(_amounts(pattern, measures, those)),
        _compared("stuffing", those, _stuffing, () if ours is None else (ours,)),
        tuple(_gauge(pattern, those)),
        tuple(_sizes(pattern.size, those)),
        tuple(_times(measures, those)),
        tuple(_totals(fabric, those)),
        {name: _answers(those, name) for name in _QUESTIONS},
    )


def _amounts(pattern: Pattern, measures: Measures, reports: tuple[Report, ...]) -> Iterable[Amount]:
    listed = [yarn.key for yarn in pattern.yarns]
    there = figures.yarns_of(reports)
    for key in sorted(there, key=lambda k: listed.index(k) if k in listed else len(listed)):
        grams = figures.of(reports, figures.grams_of(key))
        metres = figures.of(reports, figures.metres_of(key))
        if grams is not None:
            yield _amount(key, grams, metres, pattern, measures)


def _amount(
    key: str, grams: Spread, metres: Spread | None, pattern: Pattern, measures: Measures
) -> Amount:
    yarn, need = pattern.yarn(key), measures.yarns.get(key)
    ours_g, ours_m = (need.grams, need.metres) if need else (None, None)
    most_m = _highest(metres, ours_m)
    ball = yarn.ball if yarn else None
    return Amount(
        key,
        grams,
        metres,
        ours_g,
        ours_m,
        _up(_highest(grams, ours_g)),
        _up(most_m),
        _up(most_m / ball.metres) if ball and most_m else None,
        ours_g is None or grams.high > ours_g,
    )


def _highest(found: Spread | None, ours: float | None) -> float | None:
    figures_ = [figure for figure in (found.high if found else None, ours) if figure is not None]
    return max(figures_, default=None)


def _up(value: float | None) -> int | None:
    return None if value is None else ceil(value - 1e-9)


def _compared(
    name: str,
    reports: tuple[Report, ...],
    figure: Callable[[Report], float | None],
    ours: tuple[float, ...] = (),
) -> Compared | None:
    found = figures.of(reports, figure)
    return Compared(name, found, ours) if found else None


def _stuffing(report: Report) -> float | None:
    return report.stuffing.value if report.stuffing else None


def _gauge(pattern: Pattern, reports: tuple[Report, ...]) -> Iterable[Compared]:
    """Stitches and rounds to 10 cm of each yarn."""
    for key in dict.fromkeys(key for report in reports for key in report.gauge):
        yarn = pattern.yarn(key)
        said = yarn.gauge if yarn else None
        for count in ("stitches", "rounds"):

            def figure(report: Report, key: str = key, count: str = count) -> float | None:
                gauge = report.gauge.get(key)
                return getattr(gauge, count) * 100 / gauge.over if gauge else None

            ours = (getattr(said, count) * 100 / said.over,) if said else ()
            if found := _compared(f"{key} {count}", reports, figure, ours):
                yield found


def _sizes(size: Size | None, reports: tuple[Report, ...]) -> Iterable[Compared]:
    for name in DIMENSIONS:

        def figure(report: Report, name: str = name) -> float | None:
            said = getattr(report.size, name) if report.size else None
            return said.value if said else None

        stated = getattr(size, name) if size else None
        ours = (stated.value,) if stated else ()
        if found := _compared(name.rstrip("_"), reports, figure, ours):
            yield found


def _times(measures: Measures, reports: tuple[Report, ...]) -> Iterable[Compared]:
    whole, up = measures.hours, measures.making_up.hours
    hook = (whole[0] - up[0], whole[1] - up[1]) if whole and up else None
    parts = (
        ("crochet", figures.crochet, hook),
        ("assembly", figures.assembly, up),
        ("whole", figures.hours, whole),
    )
    for name, figure, ours in parts:
        if found := _compared(name, reports, figure, ours or ()):
            yield found


def _totals(fabric: Fabric, reports: tuple[Report, ...]) -> Iterable[Total]:
    for report in reports:
        for key, said in report.stitches.items():
            made = fabric.pieces[key].stitches if key in fabric.pieces else None
            if made is not None and made != said.value:
                yield Total(report.who, key, said.value, made)


def _answers(reports: tuple[Report, ...], name: str) -> dict[str, int]:
    """How often each answer was given, the most usual first."""
    given: dict[str, int] = {}
    for report in reports:
        if (answer := getattr(report, name)) is not None:
            given[answer.value] = given.get(answer.value, 0) + 1
    return dict(sorted(given.items(), key=lambda each: (-each[1], each[0])))
