"""What testers measured, in sum: the least, the middle and the most of each figure.

The spread is told and not only the middle, as testers differ (practice of pattern tests: the
lowest, middle and highest of what each used).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from roundproof.measure.model import Spread, Tested
from roundproof.testers.model import Report, Reports


def of(reports: Iterable[Report], figure: Callable[[Report], float | None]) -> Spread | None:
    """The spread of a figure over those who tell it; None where nobody does."""
    told = [(value, r.who) for r in reports if (value := figure(r)) is not None]
    ranked = sorted(value for value, _ in told)
    if not ranked:
        return None
    half = len(ranked) // 2
    middle = ranked[half] if len(ranked) % 2 else (ranked[half - 1] + ranked[half]) / 2
    return Spread(ranked[0], middle, ranked[-1], len({who for _, who in told}))


def people(reports: Iterable[Report]) -> int:
    """How many testers some reports are from."""
    return len({report.who for report in reports})


def grams_of(key: str) -> Callable[[Report], float | None]:
    return lambda report: report.yarns[key].grams if key in report.yarns else None


def metres_of(key: str) -> Callable[[Report], float | None]:
    return lambda report: report.yarns[key].metres if key in report.yarns else None


def crochet(report: Report) -> float | None:
    return report.time.crochet.value if report.time and report.time.crochet else None


def assembly(report: Report) -> float | None:
    return report.time.assembly.value if report.time and report.time.assembly else None


def hours(report: Report) -> float | None:
    """Hours in all, of a tester who tells both parts."""
    one, other = crochet(report), assembly(report)
    return None if one is None or other is None else one + other


def yarns_of(reports: Iterable[Report]) -> tuple[str, ...]:
    """The keys of the yarns that somebody used."""
    return tuple(dict.fromkeys(key for report in reports for key in report.yarns))


def tested(reports: Reports) -> Tested | None:
    """What was measured of the pattern as it is; None where nobody measured anything."""
    those = reports.holding
    keys = yarns_of(those)
    grams = {key: found for key in keys if (found := of(those, grams_of(key)))}
    metres = {key: found for key in keys if (found := of(those, metres_of(key)))}
    whole = of(those, hours)
    if not grams and whole is None:
        return None
    return Tested(grams, metres, whole)
