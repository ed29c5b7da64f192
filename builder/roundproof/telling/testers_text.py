"""Testers' reports for the designer, in a terminal: who wrote, what is to be corrected, and what
was measured beside what the pattern says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from roundproof.checks.results import Result
from roundproof.findings import in_order
from roundproof.measure.figures import number
from roundproof.source import Located, Text
from roundproof.telling.cells import clean, width, wrapped
from roundproof.telling.columns import NONE, Row, headed
from roundproof.telling.paint import Paint
from roundproof.telling.testers_figures import figures
from roundproof.telling.text import each as findings
from roundproof.testers.corrections import Correction, Written
from roundproof.testers.figures import people
from roundproof.testers.model import Decision, Kind, Report, Verdict, YarnUsed
from roundproof.testers.summary import Summary
from roundproof.words import count, listing, say

LONGEST = 800
"""Characters of one text that are printed; a longer one is in its file."""
_STYLES = {Kind.WRONG_COUNT: "red", Kind.CANNOT_GO_ON: "red", Kind.UNCLEAR: "yellow"}
_WHO = ("tester", "tested", "since", "days", "file")
NAME, FILE = 16, 36
"""Characters of a name, and of a file's, within a table."""
Told = Text | Located[str] | None


def told(result: Result, found: Summary, paint: Paint) -> str:
    """All of it, in parts with an empty line between."""
    head = paint(clean(result.title or result.name), "bold")
    head += paint(f"{paint.dot}{clean(result.name)}", "faint") if result.title else ""
    parts = [head]
    if not found.reports.reports and not found.reports.others:
        folder = f"{result.name.rpartition('/')[0] or '.'}/testers/"
        parts.append(say("testers.none", folder=clean(folder)))
    else:
        parts += ["\n".join(lines) for part in _parts(result, found, paint) if (lines := [*part])]
    return "\n\n".join(parts) + "\n"


def _parts(result: Result, found: Summary, paint: Paint) -> Iterator[Iterable[str]]:
    reports = found.reports.reports
    yield headed(_WHO, [_who(each) for each in reports], paint, words="testers", left=5)
    yield _about(result, found, paint)
    yield _corrections(found, paint)
    for each in found.corrections:
        yield _correction(each, people(found.reports.own), paint)
    yield from figures(found, paint)
    for said in findings(in_order(found.reports.findings), paint):
        yield [said]


# ---- who wrote ----
def _who(report: Report) -> Row:
    days = [day.value.isoformat() for day in (report.started, report.finished) if day]
    both = len(set(days)) == 2
    return [
        _clipped(report.tester.value, NAME) if report.tester else NONE,
        report.version.value if report.version else NONE,
        say(f"testers.{_standing(report)}"),
        say("testers.days_of", first=days[0], last=days[1]) if both else "".join(days[:1]) or NONE,
        _clipped(report.file.rpartition("/")[2], FILE),
    ]


def _standing(report: Report) -> str:
    if not report.readable:
        return "unread"
    return "other" if " " in report.standing.value else report.standing.value


def _about(result: Result, found: Summary, paint: Paint) -> Iterator[str]:
    reports, proof = found.reports.reports, result.proof
    version = proof.pattern.version if proof else None
    said = say(
        "testers.in_all",
        reports=count("report", len(reports)),
        testers=count("tester", people(found.reports.own)),
        holding=len(found.reports.holding),
        version=version.value if version else say("testers.this"),
    )
    yield from _lines(said, paint)
    for report in reports:
        if parts := [*_parts_of(report)]:
            what = "; ".join(parts)
            who = _clipped(report.who, NAME)
            yield from _lines(say("testers.about", who=who, what=what), paint)


def _parts_of(report: Report) -> Iterator[str]:
    """What one tester tells of themselves and of what they worked with."""
    if report.hand:
        yield say("testers.hand", hand=report.hand.value)
    hook = [f"{number(report.hook.value)} mm"] if report.hook else []
    hook += [_short(report.hook_make, report)] if report.hook_make else []
    if hook:
        yield say("testers.hook", hook=", ".join(hook))
    for key, used in report.yarns.items():
        yield from _yarn(key, used)
    if report.size and report.size.points:
        yield say("testers.measured_at", points=_short(report.size.points, report))
    if report.reading_aids:
        yield say("testers.reads", aids=_short(report.reading_aids, report))
    pictures = report.pictures
    if pictures:
        views = listing([_clipped(view.value) for view in pictures.taken]) or say(
            "testers.no_views"
        )
        said = say("testers.taken", views=views)
        if pictures.shown:
            said = say("testers.may_show", taken=said, shown=pictures.shown.value)
        if pictures.credit:
            said = say("testers.credit", pictures=said, name=_clipped(pictures.credit.value))
        yield said


def _yarn(key: str, used: YarnUsed) -> Iterator[str]:
    parts = [_clipped(used.yarn.value)] if used.yarn else []
    if used.ball:
        grams, metres = number(used.ball.grams, 1), number(used.ball.metres, 0)
        parts.append(say("testers.ball_of", grams=grams, metres=metres))
    if parts:
        yield say("testers.yarn_of", yarn=_clipped(key, NAME), name=", ".join(parts))


# ---- corrections ----
def _corrections(found: Summary, paint: Paint) -> Iterator[str]:
    if not found.corrections:
        yield say("testers.no_corrections")
        return
    verdicts = [each.decision.verdict.value for each in found.corrections if each.decision]
    counts = {verdict.value: verdicts.count(verdict) for verdict in Verdict}
    said = say("testers.counts", open=found.open, **counts)
    yield f"{paint(say('testers.corrections'), 'bold')}{paint.dot}{said}"
    yield from _lines(say("testers.rule"), paint, indent=0)


def _correction(each: Correction, testers: int, paint: Paint) -> Iterator[str]:
    kind, name = each.gravest, clean(_clipped(each.place.words))
    of = count("tester", testers)
    stumbled = say("testers.stumbled", stumbled=len(each.stumbled), testers=of)
    parts = [stumbled, say(f"testers.{each.advice}")] if each.stumbled else []
    if each.open and not each.again:
        parts.append(say("testers.open"))
    style = _STYLES.get(kind, "cyan")
    tail = "".join(f"{paint.dot}{part}" for part in parts)
    yield f"  {paint(name, 'bold')}{paint.dot}{paint(kind.value, style)}{tail}"
    for one in each.written:
        yield from _written(one, paint)
    if each.decision:
        yield from _lines(_decided(each, each.decision), paint, indent=4)


def _written(one: Written, paint: Paint) -> Iterator[str]:
    """Who wrote, of which version where it is not counted, and each text on lines of its own."""
    said, report = one.note.said, one.report
    holds = report.standing.holds
    who = _clipped(report.who, NAME)
    if report.version and not holds:
        who += f" ({report.version.value})"
    about = say(f"testers.{one.note.about}") if one.note.about else ""
    lead = paint.dot.join(clean(part) for part in (who, about or one.note.kind.value))
    parts = [_short(said.remark, report)] if said.remark else []
    named = (("read_said", said.read), ("did", said.did), ("instead", said.instead))
    parts += [say(f"testers.{key}", words=_short(words, report)) for key, words in named if words]
    if len(parts) == 1 and width(lead) + width(parts[0]) + 7 <= paint.columns:
        yield f"    {lead}{paint.dot}{clean(parts[0])}"
        return
    yield f"    {lead}"
    for part in parts:
        yield from _lines(part, paint, indent=6)


def _decided(each: Correction, decision: Decision) -> str:
    version = decision.in_.value if decision.in_ else ""
    because = decision.because.value if decision.because else ""
    said = say(
        "testers.decided",
        verdict=decision.verdict.value.value,
        version=say("testers.decided_in", version=version) if version else "",
        because=say("testers.decided_because", because=because) if because else "",
    )
    if not each.again:
        return said
    again = say("testers.again", who=listing(list(each.again)), version=version)
    return f"{said.rstrip('.')}. {again[:1].upper()}{again[1:]}."


# ---- words ----
def _short(said: Told, report: Report) -> str:
    """A text as it was typed; of a very long one the beginning, and where the rest is."""
    words = said.value if said else ""
    if len(words) <= LONGEST:
        return words
    assert said is not None
    at = f"{report.file}:{said.span.begins[0]}"
    more = count("more_character", len(words) - LONGEST)
    return say("testers.cut", text=words[:LONGEST], more=more, file=at)


def _clipped(words: str, most: int = 200) -> str:
    """Words that should be few, shortened if they go on and on."""
    text = " ".join(words.split())
    return text if len(text) <= most else f"{text[: most - 1]}…"


def _lines(said: str, paint: Paint, indent: int = 2) -> Iterator[str]:
    """A sentence wrapped, its further lines two columns in."""
    for place, line in enumerate(wrapped(said, paint.columns - indent - 2)):
        yield f"{'':{indent if not place else indent + 2}}{line}"
