"""What every check file holds, and how the files are found.

A check is a module of this folder whose name is its id with underscores. It defines one `CHECK`.
Nothing else is to be edited when a check is added, except the list of ids, which only grows.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from roundproof.fabric.edges import quoted as quoted
from roundproof.findings import Edit, Finding, Severity
from roundproof.frozen import dataclass, field
from roundproof.measure.figures import times as times
from roundproof.pattern.model import Status
from roundproof.proof import Proof
from roundproof.source import Span

Found = Iterator[Finding]


@dataclass(frozen=True, slots=True)
class Check:
    """`id`: trade words joined by hyphens. `title`: what the finding is called on its page.
    `why`: why it matters to a maker (Markdown, a paragraph or two). `severity`: the heaviest it
    reports. `bad` and `good`: whole pattern files; bad gives exactly this id, good nothing at all.
    `source`: where the rule is from, or 'common practice, no source'. `run`: the function, or None
    for a finding that comes up while the file is read (its page and examples stand here all the
    same). `files`: what lies in the pattern's folder beside the examples, by path from there
    ("photos/front.png"). `final`: no `accept:` sets this finding aside."""

    id: str
    title: str
    why: str
    severity: Severity
    bad: str
    good: str
    source: str
    run: Callable[[Proof], Found] | None = None
    files: Mapping[str, bytes] = field(default_factory=dict)
    final: bool = False

    def finding(
        self,
        span: Span,
        message: str,
        mend: str = "",
        *,
        severity: Severity | None = None,
        piece: str | None = None,
        round: str | None = None,
        edits: tuple[Edit, ...] = (),
    ) -> Finding:
        return Finding(self.id, severity or self.severity, span, message, mend, piece, round, edits)


def light(status: Status) -> Severity:
    """The weight of what is worth a look and no more: a note in a draft, then a warning."""
    return Severity.NOTE if status is Status.DRAFT else Severity.WARNING


def missing(status: Status, *, early: bool = False) -> Severity:
    """How much it weighs that something is still to say: nothing much in a draft, much in a
    published pattern. `early` is for what a tester cannot do without."""
    if status is Status.DRAFT:
        return Severity.NOTE
    return Severity.ERROR if early or status is Status.PUBLISHED else Severity.WARNING
