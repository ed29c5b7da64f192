"""`accept:` sets findings aside, with the designer's reason; here it is worked.

An entry names a check and, with `at`, where: a piece ("under"), a round of it ("under R7"), or the
words at the finding's place ("safety eyes"). What is set aside stays listed and counts no more.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from roundproof.checks import FORMER, accept_final, accept_stale, all_checks
from roundproof.findings import Finding
from roundproof.frozen import replace
from roundproof.pattern.model import Accept


def set_aside(findings: Sequence[Finding], entries: Sequence[Accept]) -> tuple[Finding, ...]:
    """The findings, with those accepted marked, and a finding for each entry that sets nothing
    aside or may not."""
    final = {check.id for check in all_checks().values() if check.final}
    out = list(findings)
    for entry in entries:
        hits = [i for i, finding in enumerate(out) if _meets(entry, finding)]
        if entry.check.value in final:
            out.append(accept_final.finding(entry))
        elif not hits:
            out.append(accept_stale.finding(entry, [*all_checks(), *FORMER]))
        else:
            because = entry.because.value if entry.because else ""
            for i in hits:
                out[i] = replace(out[i], accepted=True, because=because)
    return tuple(out)


def _meets(entry: Accept, finding: Finding) -> bool:
    if entry.check.value != finding.check:
        return False
    return entry.at is None or _is_at(" ".join(entry.at.value.split()), finding)


def _is_at(at: str, finding: Finding) -> bool:
    where = {finding.span.text, finding.piece, f"{finding.piece} {finding.round}"}
    return at in where or _is_round(at, finding)


def _is_round(at: str, finding: Finding) -> bool:
    """Whether "upper R5" is one of the rounds of a finding at "R4-R6" of the upper."""
    piece, _, label = at.rpartition(" R")
    if piece != finding.piece or not label.isdecimal():
        return False
    ends = [int(number) for number in re.findall(r"\d+", finding.round or "")]
    return bool(ends) and ends[0] <= int(label) <= ends[-1]
