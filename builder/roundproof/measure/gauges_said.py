"""Which yarns are meant by the gauges that a maker names: `slate: 18 sts x 20 rounds = 10 cm`."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping

from roundproof.fabric.edges import quoted
from roundproof.frozen import dataclass
from roundproof.measure.gauge import yarn_stitch
from roundproof.pattern.model import Gauge, Pattern, Yarn
from roundproof.pattern.near import nearest
from roundproof.pattern.quantities import Fault, gauge
from roundproof.pattern.yarns import stitch_called
from roundproof.source import Source

_EXAMPLE = "18 sts x 20 rounds = 10 cm"


@dataclass(frozen=True, slots=True)
class Unclear:
    """Why it cannot be told which gauge is meant, or for which yarn."""

    message: str


@dataclass(frozen=True, slots=True)
class _Said:
    """A gauge and the word for its yarn, empty where it is for all of them."""

    word: str
    gauge: Gauge


def gauges_said(
    pattern: Pattern, used: Collection[str], said: Iterable[str]
) -> Mapping[str, Gauge] | Unclear:
    """The gauges of the yarns that are meant, by the yarns' keys. One that is named holds for its
    colours too, and for the yarns that have their gauge from it; a gauge without a name is for all
    yarns in `used` that no other names, and these must be in one gauge."""
    named: dict[str, Gauge] = {}
    plain: Gauge | None = None
    for text in said:
        read = _read(pattern, text)
        if isinstance(read, Unclear):
            return read
        if not read.word:
            plain = read.gauge
        elif (entry := _entry(pattern, read.word)) is not None:
            named[entry] = read.gauge
        else:
            return _no_yarn(pattern, used, read.word)
    return _spread(pattern, used, named, plain)


def _read(pattern: Pattern, text: str) -> _Said | Unclear:
    word, value = "", gauge(text)
    whole = text
    if isinstance(value, Fault) and ":" in text:
        word, _, text = (part.strip() for part in text.partition(":"))
        value = gauge(text)
    if isinstance(value, Fault):
        why = f": {value.why}" if value.why else ""
        example = f'Write it like this: --gauge "{_EXAMPLE}".'
        return Unclear(f"{quoted(whole)} is no gauge{why}. {example}")
    terms = pattern.terms.value if pattern.terms else None
    stitch = (stitch_called(value.stitch, terms) if value.stitch else None) or "sc"
    span = Source("--gauge", text).span(0, len(text))
    return _Said(word, Gauge(value.stitches, value.rounds, value.over, span, stitch))


def _entry(pattern: Pattern, word: str) -> str | None:
    """The entry of `yarns`, or one of its colours, that a word names."""
    low = word.lower()
    entries = {y.gauge_of[0].lower(): y.gauge_of[0] for y in pattern.yarns if y.gauge_of}
    if low in entries:
        return entries[low]
    yarn = pattern.yarn(word)
    return yarn.key if yarn else None


def _spread(
    pattern: Pattern, used: Collection[str], named: Mapping[str, Gauge], plain: Gauge | None
) -> Mapping[str, Gauge] | Unclear:
    found: dict[str, Gauge] = {}
    rest: list[Yarn] = []
    for yarn in pattern.yarns:
        word = next((w for w in (yarn.key, *yarn.gauge_of) if w in named), None)
        if word is not None:
            found[yarn.key] = named[word]
        elif yarn.key in used:
            rest.append(yarn)
    if plain is None:
        return found
    if len({_stitch(yarn) for yarn in rest}) > 1:
        return _several(rest)
    return found | {yarn.key: plain for yarn in rest}


def _stitch(yarn: Yarn) -> tuple[float, float] | None:
    size = yarn_stitch(yarn)
    return (round(size.width_mm, 9), round(size.height_mm, 9)) if size else None


def _several(yarns: list[Yarn]) -> Unclear:
    names = _names(yarns)
    listed = f"{', '.join(names[:-1])} and {names[-1]}"
    example = f'--gauge "{names[0]}: {_EXAMPLE}"'
    return Unclear(
        f"The yarns {listed} are not all in one gauge. Say which of them yours stands for, as in"
        f" {example}; --gauge may be given several times."
    )


def _names(yarns: Iterable[Yarn]) -> list[str]:
    """Their entries in `yarns`, each once: a yarn in several colours has one gauge."""
    return list(dict.fromkeys(yarn.gauge_of[0] if yarn.gauge_of else yarn.key for yarn in yarns))


def _no_yarn(pattern: Pattern, used: Collection[str], word: str) -> Unclear:
    names = _names(yarn for yarn in pattern.yarns if yarn.key in used)
    near = nearest(word, names)
    mend = f"Did you mean {near}?" if near else f"Its yarns are: {', '.join(names)}."
    return Unclear(f"There is no yarn called {quoted(word)}. {mend if names else ''}".strip())
