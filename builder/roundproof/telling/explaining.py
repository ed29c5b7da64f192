"""A check explained in a terminal: why it matters, a bad and a good example, its source."""

from __future__ import annotations

from collections.abc import Iterable

from roundproof.checks.base import Check
from roundproof.telling.cells import wrapped
from roundproof.telling.paint import SEVERITY, Paint
from roundproof.words import say


def told(check: Check, paint: Paint) -> str:
    """One check, ready to print."""
    severity = paint(say(f"severity.{check.severity}"), SEVERITY[check.severity])
    paragraphs = [
        f"{paint(check.title, 'bold')}{paint.dot}{paint(check.id, 'faint')}{paint.dot}{severity}",
        *("\n".join(wrapped(part, paint.columns)) for part in check.why.split("\n\n")),
        *_example("explain.bad", check.bad, "red", paint),
        *_example("explain.good", check.good, "green", paint),
        paint(
            "\n".join(wrapped(say("explain.source", source=check.source), paint.columns)), "faint"
        ),
    ]
    return "\n\n".join(paragraphs) + "\n"


def listed(checks: Iterable[Check], paint: Paint) -> str:
    """All checks, a line each."""
    rows = list(checks)
    width = max(len(check.id) for check in rows)
    lines = (f"  {paint(f'{check.id:<{width}}', 'bold')}  {check.title}" for check in rows)
    return "\n".join([say("explain.list"), "", *lines]) + "\n"


def _example(key: str, text: str, style: str, paint: Paint) -> list[str]:
    bar = paint(paint.bar, style)
    lines = [f"  {bar} {line}".rstrip() for line in text.rstrip().splitlines()]
    return ["\n".join([say(key), "", *lines])]
