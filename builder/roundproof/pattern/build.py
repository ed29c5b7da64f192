"""From the values that the keys hold to a `Pattern`."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from roundproof.expressions import expression
from roundproof.pattern import model
from roundproof.pattern.desk import Desk
from roundproof.pattern.kinds import Named
from roundproof.pattern.yarns import us_gauge, yarns_of
from roundproof.reference import stitches
from roundproof.source import Located, Source, Span

_TAKEN = expression(
    r"(?<!\w)(?:r\s*\d+|front|back|loops?|far side|foundation|row ends?|unworked|free)(?!\w)",
    re.IGNORECASE,
)


def pattern_of(
    fields: Mapping[str, Any], slug: str, source: Source, shared: Source | None, desk: Desk
) -> model.Pattern:
    """The pattern; `shared` is the file of the defaults that were merged in."""
    values = {k: v for k, v in fields.items() if k not in ("format", "safety", "status")}
    terms: Located[model.Terms] | None = fields.get("terms")
    in_terms = terms.value if terms else None
    values["status"] = fields["status"].value if "status" in fields else model.Status.DRAFT
    values["yarns"] = yarns_of(fields.get("yarns", ()), in_terms, shared, desk)
    values["pieces"] = tuple(_piece(n, in_terms, desk) for n in fields.get("pieces", ()))
    values["stitches"] = tuple(_stitch(n) for n in fields.get("stitches", ()))
    values["safety_note"] = fields.get("safety", {}).get("note")
    values |= _version(values)
    title: Located[str] | None = fields.get("title")
    span = title.span if title else _first_line(source)
    return model.Pattern(slug, source, span, **values)


def _first_line(source: Source) -> Span:
    """The first line with anything on it."""
    text = source.text
    start = len(text) - len(text.lstrip())
    end = text.find("\n", start)
    line = text[start : end if end >= 0 else len(text)]
    return source.span(start, start + len(line.rstrip()))


def _version(values: Mapping[str, Any]) -> dict[str, Any]:
    """Version and date; the newest entry of the changes gives what is not said."""
    changes: Sequence[model.Change] = values.get("changes", ())
    if not changes:
        return {}
    newest = max(changes, key=lambda c: tuple(map(int, c.version.value.split("."))))
    said = {"version": values.get("version"), "date": values.get("date")}
    return {"version": said["version"] or newest.version, "date": said["date"] or newest.date}


def _piece(named: Named, terms: model.Terms | None, desk: Desk) -> model.Piece:
    key, span = named.key.value, named.key.span
    fields: dict[str, Any] = dict(named.value)
    _check_name(key, span, desk)
    name: Located[str] | None = fields.pop("name", None)
    make: Located[int] | None = fields.pop("make", None)
    fields["gauge"] = us_gauge(fields.get("gauge"), terms, desk)
    called = key.replace("_", " ")
    return model.Piece(
        key,
        span,
        name.value if name else called[:1].upper() + called[1:],
        make.value if make else 1,
        make.span if make else None,
        **fields,
    )


def _check_name(key: str, span: Span, desk: Desk) -> None:
    if found := _TAKEN.search(key):
        word = found[0]
        message = f"A piece cannot be called `{key}`: `{word}` has a meaning where edges are named."
        mend = "Give it another name, such as `rear`, `belly` or `panel`; `name:` can say the rest."
        with desk.at(key):
            desk.say("piece-name", span, message, mend)


def _stitch(named: Named) -> model.SpecialStitch:
    """A stitch of the table keeps what the table says of it, but for what the pattern says."""
    row = stitches().get(named.key.value)
    known = {"uses": row.uses, "makes": row.makes, "height": row.height} if row else {}
    return model.SpecialStitch(named.key.value, named.key.span, **{**known, **named.value})
