"""What is said of a file that YAML cannot read: the usual traps, each in plain words."""

from __future__ import annotations

import re
from collections.abc import Callable

from roundproof.findings import Finding, Severity
from roundproof.frozen import dataclass
from roundproof.source import Source, Span

FILE_UNUSABLE = "file-unusable"
"""The id of the finding of a file that nothing can be made of."""


def unusable(source: Source, message: str, mend: str = "", span: Span | None = None) -> Finding:
    return Finding(FILE_UNUSABLE, Severity.ERROR, span or source.span(0, 0), message, mend)


@dataclass(frozen=True, slots=True)
class _Fault:
    """Where YAML gave up: `line` up to the place, `rest` from it on, `opened` the line on which
    the thing that went wrong was begun, `above` the last line before with anything on it."""

    problem: str
    line: str
    rest: str
    opened: str
    above: str

    @property
    def whole(self) -> str:
        return self.line + self.rest


@dataclass(frozen=True, slots=True)
class _Trap:
    """A usual mistake: how it shows, what is said of it and what mends it."""

    shows: Callable[[_Fault], object]
    message: str
    mend: str
    at_start: bool = False
    """Whether the place to show is where the thing was begun."""


_KEY = r"^\s*(?:- +)*[^\s\"'{\[#][^:#]*:"
_OWN_KEY = _KEY + r"\s+\S.*$"
_SIGN = _KEY + r"?\s+(?:- +)?[*&!%@`]|^\s*(?:- +)?[*&!%@`]"
_LABEL = r"(?i)\s*(?:- )?(?:r|rnd|round|row)s?\s*\d"
_CUT = r"\s#\S"
_QUOTED = _KEY + r"\s+([\"']).*?\1\s*$"

_QUOTES = "Put the whole value in quotes, or write it on the next line, indented, after `|`."

# Tried from the top: the first that shows is told.
TRAPS = (
    _Trap(
        lambda f: "\t" in re.match(r"\s*", f.whole)[0],  # type: ignore[index]
        "A tab stands at the start of this line, where only spaces can indent.",
        "Indent with spaces, two for each step.",
    ),
    _Trap(
        lambda f: "unknown escape" in f.problem or "escape sequence" in f.problem,
        "In double quotes a `\\` starts a sign of its own, and this one means nothing.",
        "Use single quotes, or write `\\\\`.",
    ),
    _Trap(
        lambda f: "quoted scalar" in f.problem,
        "A quotation mark is opened here and never closed.",
        "Close it at the end of the value.",
        at_start=True,
    ),
    _Trap(
        lambda f: (
            (re.match(_SIGN, f.whole) or f.above[:1] == "%") and "expected ','" not in f.problem
        ),
        "A value that starts with `*`, `&`, `!`, `%`, `@` or a backtick means something else to "
        "YAML.",
        _QUOTES,
    ),
    _Trap(
        lambda f: "flow" in f.problem and re.search(_CUT, f.opened),
        "A `#` after a space starts a comment, so the bracket on this line is never closed.",
        'Put the value with the `#` in quotes: `shade: "#6d7680"`.',
        at_start=True,
    ),
    _Trap(
        lambda f: "flow" in f.problem and f.opened.count("{") > f.opened.count("}"),
        "A `{` is opened here and not closed.",
        "Close it with `}`; inside it, put values with a comma, a colon or a bracket in quotes.",
        at_start=True,
    ),
    _Trap(
        lambda f: "flow" in f.problem and f.opened.count("[") > f.opened.count("]"),
        "A `[` is opened here and not closed.",
        "Close it with `]`; inside it, put values with a comma, a colon or a bracket in quotes.",
        at_start=True,
    ),
    _Trap(
        lambda f: "flow" in f.problem,
        "Inside `{ }` or `[ ]` this cannot be read.",
        "Put a comma between values, and values with a comma, a colon or a bracket in quotes.",
    ),
    _Trap(
        lambda f: "values are not allowed" in f.problem and re.match(_OWN_KEY, f.line),
        "This line has a second colon followed by a space, which YAML takes for another key.",
        _QUOTES,
    ),
    _Trap(
        lambda f: "values are not allowed" in f.problem and re.match(_OWN_KEY, f.above),
        "This key is indented as if it belonged to the value on the line above.",
        "Give it the indentation of the key above, or put a text of several lines after `|`.",
    ),
    _Trap(
        lambda f: "values are not allowed" in f.problem,
        "The line above has no colon followed by a space, so it is not a key.",
        "Write a colon and a space after each key.",
    ),
    _Trap(
        lambda f: "entries are not allowed" in f.problem,
        "A list cannot start on the line of its key.",
        "Write each `- ` on a line of its own, under the key.",
    ),
    _Trap(
        lambda f: "block" in f.problem and re.search(_CUT, f.above),
        "The text above is cut off at its `#`, which starts a comment, so this line is left over.",
        _QUOTES,
    ),
    _Trap(
        lambda f: "block" in f.problem and f.line.rstrip().endswith(("]", "}")),
        "Words follow the closing bracket.",
        "Put the whole value in quotes, or take the brackets or the words out.",
    ),
    _Trap(
        lambda f: "block" in f.problem and re.match(_QUOTED, f.line),
        "Words follow the closing quotation mark.",
        "Put the whole value in quotes, or none of it.",
    ),
    _Trap(
        lambda f: "block" in f.problem and ("could not find" in f.problem or "scalar" in f.problem),
        "This line is indented less than the text it belongs to, or is a key without its colon.",
        "Indent all lines of a text alike, deeper than its key; write `: ` after a key.",
    ),
    _Trap(
        lambda f: "could not find" in f.problem and re.match(_LABEL, f.above),
        "These lines look like rounds, and no `|` says that they are plain text.",
        "Write `|` after the key above them, as in `rounds: |`, and indent all of them alike.",
        at_start=True,
    ),
    _Trap(
        lambda f: "could not find" in f.problem,
        "This line is no key, as it has no colon followed by a space, and no text goes on here.",
        "Write `: ` after a key; write a text of several lines after `|`, all of it indented.",
        at_start=True,
    ),
    _Trap(
        lambda f: "block" in f.problem,
        "This line does not stand under any of the lines above it.",
        "Indent it exactly as the keys, or the `- `, that it belongs with.",
    ),
)


def explained(source: Source, fault: Exception) -> Finding:
    """The finding for what the YAML reader raised."""
    if (position := getattr(fault, "position", None)) is not None:
        return _odd_character(source, position)
    marks = [getattr(fault, f"{which}_mark", None) for which in ("problem", "context")]
    places = [_seen(source, mark.index) for mark in marks if mark is not None]
    if not places:
        return unusable(
            source,
            "The file cannot be read as YAML.",
            "Look for an odd sign, such as a `\\` in double quotes.",
        )
    told = _fault(source, str(fault), places[0], places[-1])
    trap = next((t for t in TRAPS if t.shows(told)), None)
    place = places[-1] if trap and trap.at_start else places[0]
    span = source.span(place, min(place + 1, len(source.text)))
    if trap is None:
        return unusable(source, "This cannot be read as YAML.", _QUOTES, span)
    return unusable(source, trap.message, trap.mend, span)


def _seen(source: Source, index: int) -> int:
    """A place that can be shown: at the end of the file, the last character with ink."""
    return index if index < len(source.text) else max(len(source.text.rstrip()) - 1, 0)


def _fault(source: Source, problem: str, at: int, opened: int) -> _Fault:
    number, column = source.place(at)
    line = source.line(number)
    above = next((t for n in range(number - 1, 0, -1) if (t := source.line(n)).strip()), "")
    start = source.line(source.place(opened)[0])
    return _Fault(problem, line[: column - 1], line[column - 1 :], start, above)


def _odd_character(source: Source, position: int) -> Finding:
    code = ord(source.text[position]) if position < len(source.text) else 0
    message = f"A character that cannot be seen stands here (U+{code:04X})."
    span = source.span(position, position + 1)
    return unusable(source, message, "Delete it; it often comes along when text is pasted.", span)
