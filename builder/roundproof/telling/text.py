"""Findings for people, in a terminal.

Two columns: on the left what a line is (its severity, the number of a source line, `mend`), on the
right the words. A file is named once, above its findings.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from roundproof.checks.results import Result, Results
from roundproof.findings import Finding
from roundproof.telling.cells import clean, width, wrapped
from roundproof.telling.excerpt import excerpt
from roundproof.telling.paint import SEVERITY, Paint
from roundproof.words import count, listing, say

LEFT = 9
"""Columns of the left-hand side; two more part it from the right."""


def told(results: Results, paint: Paint) -> str:
    """All findings, file by file, and a summary as the last line."""
    parts = [part for result in results.files for part in _file(result, paint)]
    return "\n\n".join([*parts, _summary(results, paint)]) + "\n"


def _file(result: Result, paint: Paint) -> Iterator[str]:
    if not result.findings:
        return
    name = paint(clean(result.name), "faint" if result.title else "bold")
    yield f"{paint(clean(result.title), 'bold')}{paint.dot}{name}" if result.title else name
    yield from each(result.findings, paint)


def each(findings: Iterable[Finding], paint: Paint) -> Iterator[str]:
    """Each finding, those at one place and of one check as one, with its lines."""
    for _, alike in groupby(findings, _place):
        yield "\n".join(_findings(list(alike), paint))


def _place(finding: Finding) -> tuple[object, ...]:
    """What findings have in common that are told under one heading."""
    at = finding.span
    return finding.check, finding.severity, finding.accepted, at.source.name, at.start, at.end


def _findings(alike: list[Finding], paint: Paint) -> Iterator[str]:
    """One finding, or several that one check has at the same words."""
    finding = alike[0]
    style = "faint" if finding.accepted else SEVERITY[finding.severity]
    word = say("severity.accepted" if finding.accepted else f"severity.{finding.severity}")
    yield from _headline(finding, paint, paint(f"{word:>{LEFT}}", style, "bold"))
    if not finding.accepted:
        yield from _excerpt(finding, paint, style)
    for each in alike:
        yield from _words("", each.message, paint)
        if each.mend and not each.accepted:
            label = paint(f"{say('severity.mend'):>{LEFT}}", "green")
            yield from _words(label, each.mend, paint)


def _headline(finding: Finding, paint: Paint, label: str) -> Iterator[str]:
    """Check, piece and round, and the place, which stays whole so that it can be clicked."""
    line, column = finding.span.begins
    place = f"{clean(finding.span.source.name)}:{line}:{column}"
    where = " ".join(filter(None, (finding.piece, finding.round)))
    what = paint.dot.join(filter(None, (finding.check, clean(where))))
    shown = paint(finding.check, "bold") + paint(what[len(finding.check) :], "faint")
    if LEFT + 2 + width(what) + len(paint.dot) + width(place) <= paint.columns:
        yield f"{label}  {shown}{paint(paint.dot + place, 'faint')}"
    else:
        yield f"{label}  {shown}"
        yield f"{'':{LEFT}}  {paint(place, 'faint')}"


def _words(label: str, text: str, paint: Paint) -> Iterator[str]:
    for line in wrapped(text, paint.columns - LEFT - 2):
        yield f"{label or ' ' * LEFT}  {line}"
        label = ""


def _excerpt(finding: Finding, paint: Paint, style: str) -> Iterator[str]:
    part = excerpt(finding.span, paint.columns - LEFT - 3, paint.ellipsis)
    if part is None:
        return
    bar = paint(paint.bar, "faint")
    yield f"{paint(f'{part.number:>{LEFT - 1}}', 'faint')} {bar} {part.line}"
    more = say("check.more_lines", lines=count("line", part.more)) if part.more else ""
    yield f"{'':{LEFT}}{bar} {paint(part.marks, style)} {more}".rstrip()


def _summary(results: Results, paint: Paint) -> str:
    if not results.files:
        return say("check.no_patterns")
    total = results.summary
    live = sum(1 for r in results.files if any(not f.accepted for f in r.findings))
    files = count("file", len(results.files))
    numbers = {"error": total.errors, "warning": total.warnings, "note": total.notes}
    counts = listing([count(noun, number) for noun, number in numbers.items() if number])
    if not live:
        said = [paint(say("check.nothing", files=files), "green")]
    else:
        key = "check.found_all" if live == len(results.files) else "check.found"
        style = "red" if total.errors else "yellow" if total.warnings else "cyan"
        said = [paint(say(key, counts=counts, some=live, files=files), style, "bold")]
    if total.accepted:
        said.append(say("check.aside", number=total.accepted))
    if results.unusable:
        said.append(say("check.unusable", files=count("file", len(results.unusable))))
    return " ".join(said)
