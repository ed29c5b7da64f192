"""What testers measured, in tables for a terminal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from roundproof.measure.figures import number
from roundproof.measure.model import Spread
from roundproof.telling.cells import wrapped
from roundproof.telling.columns import NONE, Row, headed
from roundproof.telling.paint import Paint
from roundproof.testers.summary import Amount, Compared, Summary
from roundproof.words import count, say

SHORT = 4
"""Hours; what takes less is told in minutes."""
_YARN = ("yarn", "count", "grams", "metres", "estimate", "publish")
_MEASURED = ("measured", "count", "least", "median", "most", "ours")


def figures(found: Summary, paint: Paint) -> Iterator[Iterable[str]]:
    """The parts: yarn, everything else that is measured, totals that differ, answers."""
    amounts = [_amount(each) for each in found.amounts]
    yield headed(_YARN, amounts, paint, keep=6, words="testers")
    if amounts:
        yield wrapped(say("testers.publish_rule"), paint.columns)
    yield headed(_MEASURED, [*_rows(found)], paint, keep=6, words="testers")
    totals = (
        say("testers.total", who=t.tester, said=count("stitch", t.said), piece=t.piece, made=t.made)
        for t in found.totals
    )
    yield [f"  {line}" for total in totals for line in wrapped(total, paint.columns - 2)]
    yield [*_answers(found)]


def _amount(amount: Amount) -> Row:
    return [
        amount.yarn,
        str(amount.grams.count) if amount.grams else NONE,
        _three(amount.grams),
        _three(amount.metres),
        _both(amount.estimated_grams, amount.estimated_metres),
        _publish(amount),
    ]


def _three(found: Spread | None) -> str:
    if found is None:
        return NONE
    places = 1 if found.high < 100 else 0
    low, middle, high = (number(f, places) for f in (found.low, found.middle, found.high))
    if low == high:
        return middle
    return say("testers.three", low=low, middle=middle, high=high)


def _both(grams: float | None, metres: float | None) -> str:
    if grams is None or metres is None:
        return NONE if grams is None else say("testers.gram", grams=number(grams, 0))
    return say("testers.both", grams=number(grams, 0), metres=number(metres, 0))


def _publish(amount: Amount) -> str:
    return _both(amount.publish_grams, amount.publish_metres)


def _rows(found: Summary) -> Iterator[Row]:
    if found.stuffing:
        yield _row(say("testers.stuffing"), found.stuffing)
    for each in found.gauge:
        yarn, _, what = each.name.rpartition(" ")
        yield _row(say(f"testers.gauge_{what}", yarn=yarn), each)
    for each in found.sizes:
        yield _row(say("testers.size", name=each.name), each, 10)
    for each in found.times:
        minutes = each.found.high < SHORT
        unit = say("testers.minutes" if minutes else "testers.hours")
        name = say(f"testers.time_{each.name}", unit=unit)
        yield _row(name, each, 1 / 60 if minutes else 1, 0 if minutes else 1)


def _row(name: str, found: Compared, by: float = 1, places: int = 1) -> Row:
    ours = [number(figure / by, places) for figure in found.ours]
    spread = found.found
    return [
        name,
        str(spread.count),
        *(number(figure / by, places) for figure in (spread.low, spread.middle, spread.high)),
        say("testers.range", low=ours[0], high=ours[-1]) if ours[1:] else "".join(ours) or NONE,
    ]


def _answers(found: Summary) -> Iterator[str]:
    for question, given in found.answers.items():
        if given:
            said = [say("testers.answer", answer=a, number=n) for a, n in given.items()]
            asked = say(f"testers.{question}")
            yield f"  {say('testers.answers', question=asked, answers=', '.join(said))}"
