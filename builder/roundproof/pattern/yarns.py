"""The yarns of a pattern: what one shares with another, its colours, letters and words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from roundproof.frozen import replace
from roundproof.pattern.desk import Desk
from roundproof.pattern.kinds import Named
from roundproof.pattern.make import Colour
from roundproof.pattern.model import Gauge, Terms, Yarn
from roundproof.pattern.yarn_keys import YARN
from roundproof.reference import StitchKind, stitches
from roundproof.source import Located, Source, Span

_OWN = ("like", "letter", "colour", "colours", "balls", "swatch")
"""What a yarn that is `like` another does not take over."""

_ASKED = {"colour", "fibre", "weight", "ball", "hook", "gauge"}
_LIKE_DEPTH = 20


def yarns_of(
    named: Sequence[Named], terms: Terms | None, shared: Source | None, desk: Desk
) -> tuple[Yarn, ...]:
    """The yarns, one for each colour, the pattern's own before those of the defaults (whose
    places are in the file `shared`)."""
    by_key = {n.key.value: n for n in named}
    own_first = sorted(named, key=lambda n: n.key.span.source is shared)
    made = [y for n in own_first for y in _colours(n, _whole(n, by_key, desk), terms, shared, desk)]
    for one in own_first:
        _missed(one, desk)
    return _worded(_lettered(made), desk)


def _missed(named: Named, desk: Desk) -> None:
    """What a yarn should say and does not. One that is like another has only its colour to say."""
    fields: dict[str, Any] = named.value
    colour: Colour | None = fields.get("colour")
    said = fields.keys() - {"colour"}
    if "colours" in fields or (colour and colour.name):
        said |= {"colour"}
    asked = {"colour"} if "like" in fields else _ASKED
    for key in YARN.keys:
        if key.name in asked - said and ("a yarn", key.name) not in desk.faulty:
            desk.lack(key.name, named.key.span, f"yarn `{named.key.value}`", key.adding)


def us_gauge(gauge: Gauge | None, terms: Terms | None, desk: Desk) -> Gauge | None:
    """A gauge with its stitch by the US name, as the model has it; it is a US single crochet where
    the gauge names none, whatever the terms."""
    if gauge is None or (gauge.stitch == "sc" and terms is not Terms.UK):
        return gauge
    stitch = stitch_called(gauge.stitch, terms)
    if stitch is None:
        message = f"`{gauge.stitch}` is no stitch that a gauge can be worked in."
        desk.say("value-unknown", gauge.span, message, "Name a stitch, such as `in: hdc`.")
    return replace(gauge, stitch=stitch or "sc")


def stitch_called(word: str, terms: Terms | None) -> str | None:
    """The id of a stitch by its name in the pattern's terms, or else in the others."""
    known = {name: s.id for s in stitches().values() for name in (*s.us, *s.uk)}
    ours = {name: s.id for s in stitches().values() for name in _names(s, terms)}
    return ours.get(word) or known.get(word)


def _names(kind: StitchKind, terms: Terms | None) -> tuple[str, ...]:
    return kind.uk if terms is Terms.UK else kind.us


def _whole(named: Named, by_key: Mapping[str, Named], desk: Desk) -> dict[str, Any]:
    """A yarn's fields with those of the yarn it is like, and of the one that is like in turn."""
    fields: dict[str, Any] = dict(named.value)
    seen, like = {named.key.value}, fields.get("like")
    gauge_of = [named.key.value]
    while like is not None:
        other = by_key.get(like.value)
        if other is None:
            desk.unknown_value(like.value, like.span, "like", tuple(by_key))
            break
        if like.value in seen or len(seen) > _LIKE_DEPTH:
            message = (
                f"`{named.key.value}` is like `{like.value}`, and that leads round in a circle."
            )
            desk.say("value-kind", like.span, message, "Write one of them out.")
            break
        seen.add(like.value)
        gauge_of += [] if "gauge" in fields else [like.value]
        fields = {k: v for k, v in other.value.items() if k not in _OWN} | fields
        like = other.value.get("like")
    return fields | {"gauge_of": tuple(gauge_of)}


def _colours(
    named: Named, fields: dict[str, Any], terms: Terms | None, shared: Source | None, desk: Desk
) -> Iterator[Yarn]:
    """One yarn, or one for each of its colours."""
    key, span = named.key.value, named.key.span
    rest = {k: v for k, v in fields.items() if k not in ("like", "letter", "colour", "colours")}
    rest |= {"gauge": us_gauge(rest.get("gauge"), terms, desk), "shared": span.source is shared}
    letter: Located[str] | None = fields.get("letter")
    colours: tuple[Named, ...] = fields.get("colours") or ()
    for nth, named_colour in enumerate(colours):
        one, at = named_colour.key.value, named_colour.key.span
        first = letter if nth == 0 else None
        yield _yarn(f"{key}/{one}", one, at, named_colour.value, first, rest)
    if not colours:
        yield _yarn(key, key, span, fields.get("colour"), letter, rest)


def _yarn(
    key: str,
    word: str,
    span: Span,
    colour: Colour | None,
    letter: Located[str] | None,
    rest: dict[str, Any],
) -> Yarn:
    name = colour.name.value if colour and colour.name else word.replace("_", " ")
    shade = colour.shade if colour else None
    words = tuple(dict.fromkeys(w.lower() for w in (word, key, name)))
    return Yarn(key, letter.value if letter else "", name, words, span, shade, **rest)


def _lettered(yarns: Sequence[Yarn]) -> list[Yarn]:
    """Letters in order for the yarns without one, skipping those taken."""
    taken = {y.letter for y in yarns} | {w.upper() for y in yarns for w in y.words}
    free = (letter for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ" if letter not in taken)
    return [y if y.letter else replace(y, letter=next(free, "")) for y in yarns]


def _worded(yarns: Sequence[Yarn], desk: Desk) -> tuple[Yarn, ...]:
    """The yarns with the words that name them. A word that two claim is reported, and stays with
    a colour before a yarn, else with the first, so that the rounds can still be read."""
    owners: dict[str, Yarn] = {}
    for yarn in sorted(yarns, key=lambda y: "/" not in y.key):
        for word in _words(yarn):
            if (owner := owners.setdefault(word, yarn)) is not yarn:
                _clash(word, owner, yarn, desk)
    return tuple(replace(y, words=tuple(w for w in _words(y) if owners[w] is y)) for y in yarns)


def _words(yarn: Yarn) -> tuple[str, ...]:
    return (*yarn.words, *((yarn.letter.lower(),) if yarn.letter else ()))


def _clash(word: str, one: Yarn, other: Yarn, desk: Desk) -> None:
    later = max(one, other, key=lambda y: y.span.start)
    message = f"`{word}` could be the yarn `{one.key}` or the yarn `{other.key}`."
    mend = "Give one of them another name, so that a round can say which is meant."
    desk.say("yarn-word-clash", later.span, message, mend)
