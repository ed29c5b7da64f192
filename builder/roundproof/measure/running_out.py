"""Where the listed balls of a yarn run out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from roundproof.frozen import dataclass
from roundproof.measure.figures import number, percent, several
from roundproof.measure.model import RunsOut, YarnNeed
from roundproof.measure.spending import TAIL, Seam, Spending
from roundproof.notation.numerals import ordinal
from roundproof.pattern.model import Pattern, Yarn

_NEARLY = 1e-6
_NTH = {1: "first", 2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth"}


@dataclass(frozen=True, slots=True)
class _Length:
    """`mm` of yarn in each of so many `rounds`, the first of which is `number`."""

    number: int
    rounds: int
    mm: float


def runs_out(
    yarn: str,
    metres: float,
    pieces: Iterable[Spending],
    seams: Iterable[Seam],
    each: float | None = None,
) -> RunsOut | None:
    """Where so many metres of a yarn end; None where they last. `each` is the mm in a single
    crochet where a swatch was weighed; else every piece has its own."""
    left = 1000 * metres
    for spent in pieces:
        copy = tuple(_lengths(spent, yarn, each))
        done, left = _copies(sum(part.rounds * part.mm for part in copy), spent.piece.make, left)
        if done < spent.piece.make:
            return RunsOut(spent.piece.key, done + 1, f"R{_round(copy, left)}")
    for seam in seams:
        if seam.yarn == yarn:
            done, left = _copies(seam.mm, seam.piece.make, left)
            if done < seam.piece.make:
                return RunsOut(seam.piece.key, done + 1, None)
    return None


def _copies(mm: float, make: int, left: float) -> tuple[int, float]:
    """How many of `make` copies, each of so many mm, there is yarn for, and what then is left."""
    done = make if mm <= 0 else min(int((left + _NEARLY) // mm), make)
    return done, left - done * mm


def _lengths(spent: Spending, yarn: str, each: float | None) -> Iterator[_Length]:
    """What one copy of a piece takes of a yarn, in working order: a tail, the rounds, a tail."""
    rate = spent.rates.get(yarn)
    lines = [line for line in spent.lines if yarn in line.units]
    if rate is None or not lines:
        return
    mm = each if each is not None else rate.mm or 0.0
    yield _Length(lines[0].first, 1, TAIL)
    for line in lines:
        yield _Length(line.first, line.rounds, line.units[yarn] * mm)
    yield _Length(lines[-1].first + lines[-1].rounds - 1, 1, spent.last[yarn])


def _round(copy: Iterable[_Length], left: float) -> int:
    """The number of the round in which so many mm end."""
    number = 0
    for part in copy:
        done = int((left + _NEARLY) // part.mm) if part.mm > 0 else part.rounds
        if done < part.rounds:
            return part.number + done
        left -= part.rounds * part.mm
        number = part.number + part.rounds - 1
    return number


def shortage(pattern: Pattern, yarn: Yarn, need: YarnNeed) -> str:
    """What is short of a yarn, in a sentence; empty where the listed balls hold enough, or none
    are listed."""
    if need.listed_metres is None or need.metres is None or need.listed_metres >= need.metres:
        return ""
    name = yarn.key.rpartition("/")[2].replace("_", " ")
    balls = several(yarn.balls.value if yarn.balls else 0, "ball")
    held, needed = _amounts(yarn, need)
    are = "is" if balls.startswith("1 ") else "are"
    needs = f"are needed with {percent(need.margin)} to spare"
    ends = f"it runs out {_where(pattern, need.runs_out)}" if need.runs_out else ""
    enough = "without that it may just be enough"
    return f"{balls} of {name} {are} {held}, and {needed} {needs}: {ends or enough}."


def _amounts(yarn: Yarn, need: YarnNeed) -> tuple[str, str]:
    """What there is and what is needed: in grams where they were weighed, else in metres."""
    if not need.estimated and need.grams is not None and yarn.ball and yarn.balls:
        return _unlike(yarn.balls.value * yarn.ball.grams, need.grams, "g")
    metres, needed = _unlike(need.listed_metres or 0.0, need.metres or 0.0, "m")
    return metres, f"about {needed}"


def _unlike(held: float, needed: float, unit: str) -> tuple[str, str]:
    """Both to the whole unit, or finer where they would read alike."""
    places = 0 if round(held) < round(needed) else 1 if round(held, 1) < round(needed, 1) else 2
    return f"{number(held, places)} {unit}", f"{number(needed, places)} {unit}"


def _where(pattern: Pattern, place: RunsOut | None) -> str:
    if place is None:
        return ""
    name, piece = place.piece.replace("_", " "), pattern.piece(place.piece)
    if piece is not None and piece.make > 1:
        name = f"the {_NTH.get(place.copy, ordinal(place.copy))} {name}"
    return f"in {place.round} of {name}" if place.round else f"while {name} is sewn on"
