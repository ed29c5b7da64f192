"""One measured figure with its numbers, the formula and where that is from."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from roundproof.checks.results import Result, Results
from roundproof.frozen import dataclass
from roundproof.measure.model import Form, Measures, PieceSize, Spent
from roundproof.pattern.near import nearest
from roundproof.telling.cells import clean, wrapped
from roundproof.telling.json_ import dumped
from roundproof.telling.paint import Paint
from roundproof.words import listing, say

_NAMES = {"diameter": "width"}
_WHOLE = {"stuffing": "stuffing", "hours": "time"}


@dataclass(frozen=True, slots=True)
class Why:
    """`title` the figure in words, `how` with its numbers, or `missing` why there is none;
    `formula` the key of the formula it follows."""

    title: str
    how: str
    missing: str
    formula: str

    @property
    def lines(self) -> tuple[str, ...]:
        told = f"{self.how}." if self.how else say("why.missing", why=self.missing)
        return (told, self._said("formula"), self._said("source"))

    def _said(self, what: str) -> str:
        return say(f"why.{what}", **{what: say(f"{what}s.{self.formula}")})


def named(results: Results, name: str) -> list[tuple[Result, Why]]:
    """The figures of that name in all patterns; a join may be named by its first edge alone."""
    wanted = _plain(name)
    return [
        (result, why)
        for result in results.files
        if result.proof
        for known, why in _figures(result.proof.measures)
        if _plain(known) == wanted or _begins_join(_plain(known), wanted)
    ]


def told(found: Sequence[tuple[Result, Why]], paint: Paint) -> str:
    parts = []
    for result, why in found:
        of = f"{clean(result.title)}: " if result.title else ""
        lines = [paint(f"{of}{clean(why.title)}", "bold")]
        for sentence in why.lines:
            first, *more = wrapped(clean(sentence), paint.columns - 4)
            lines += [f"  {first}", *(f"    {line}" for line in more)]
        parts.append("\n".join(lines))
    return "\n\n".join(parts) + "\n"


def told_json(found: Sequence[tuple[Result, Why]]) -> str:
    """The same for programs."""
    figures = [
        {
            "file": result.name,
            "title": result.title,
            "figure": why.title,
            "working": why.how,
            "unreliable": why.missing or None,
            "formula": say(f"formulas.{why.formula}"),
            "source": say(f"sources.{why.formula}"),
        }
        for result, why in found
    ]
    return dumped({"figures": figures})


def unknown(results: Results, name: str) -> str:
    """What to say of a name that no figure bears, with the nearest there is, or all of them."""
    said = say("why.unknown", name=clean(name))
    proofs = [result.proof for result in results.files if result.proof]
    names = list(dict.fromkeys(n for p in proofs for n, _ in _figures(p.measures)))
    if near := nearest(_plain(name), names):
        return f"{said} {say('why.near', near=near)}"
    return f"{said} {say('why.names', names=listing(names, 'and'))}" if names else said


def _plain(name: str) -> str:
    """A name as compared: "height of upper" is "upper height", "hours" are "time"."""
    words = " ".join(name.split()).casefold()
    head, of, rest = words.partition(" of ")
    if of and head in {"yarn", "join"}:
        words = f"{head} {rest}"
    elif of:
        words = f"{rest} {head}"
    if words.endswith(" diameter"):
        words = words.removesuffix("diameter") + "width"
    if words.endswith(" edge"):
        words = words.removesuffix("edge") + say("measure.edge")
    return re.sub(r"\bhours$", "time", words)


def _begins_join(known: str, wanted: str) -> bool:
    return wanted.startswith("join ") and known.startswith(f"{wanted}{say('measure.to')}")


def _figures(measures: Measures) -> Iterator[tuple[str, Why]]:
    """Every figure by its name."""
    for size in measures.pieces.values():
        yield from _piece(size)
        title = say("why.of", figure=say("measure.time"), of=size.piece)
        yield f"{size.piece} {say('measure.time')}", _time(title, measures.time[size.piece])
    for fit in measures.fits:
        edges = say("measure.to").join(edge.text for edge in fit.edges)
        title = say("why.join", edges=edges)
        missing = "" if fit.working else say("why.no_lengths")
        yield title, Why(title, fit.working, missing, "join")
    for need in measures.yarns.values():
        title = say("why.yarn", yarn=need.yarn)
        yield title, Why(title, need.working, need.unreliable, "yarn")
    values = {"stuffing": measures.stuffing_g, "hours": measures.hours}
    for key, value in values.items():
        how = measures.working.get(key, "")
        known, unknown_ = (how, "") if value is not None else ("", how)
        yield _WHOLE[key], Why(_WHOLE[key], known, unknown_, key)
    yield say("why.making_up"), _time(say("why.making_up"), measures.making_up)


def _time(title: str, spent: Spent) -> Why:
    how, missing = (spent.working, "") if spent.hours else ("", spent.working)
    return Why(title, how, missing, "hours")


def _piece(size: PieceSize) -> Iterator[tuple[str, Why]]:
    for figure in dict.fromkeys([*size.working, *size.unreliable]):
        word = say(f"measure.{_NAMES.get(figure, figure)}")
        missing = size.unreliable.get(figure, "")
        why = Why(
            say("why.of", figure=word, of=size.piece),
            "" if missing else size.working.get(figure, ""),
            missing,
            _formula(size.form, figure),
        )
        yield f"{size.piece} {word}", why


def _formula(form: Form, figure: str) -> str:
    name = _NAMES.get(figure, figure)
    if form is Form.ROWS and name in {"height", "width", "length"}:
        return "width_rows" if name == "width" else "height_rows"
    if form is Form.OVAL and name in {"width", "length"}:
        return f"{name}_oval"
    return name
