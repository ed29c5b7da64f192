"""What the designer decided about the places that testers wrote about: `decisions.yaml`.

claw R4: {decision: accepted, because: "The count was wrong.", in: 1.1.1}
"""

from __future__ import annotations

from collections.abc import Container, Iterator
from functools import partial
from pathlib import Path

from roundproof.fabric.edges import EdgeProblem
from roundproof.fabric.model import Fabric
from roundproof.findings import Finding, Severity, in_order
from roundproof.pattern.desk import Desk
from roundproof.pattern.files import read_file, shown
from roundproof.pattern.kinds import Named
from roundproof.pattern.nodes import tree
from roundproof.pattern.schema import place_of
from roundproof.pattern.sorts import DECISIONS as SORT
from roundproof.testers.model import Decision, Place
from roundproof.testers.places import elsewhere, place_said
from roundproof.testers.schema import DECISION, DECISIONS


def read_decisions(
    path: Path, fabric: Fabric, places: Container[Place]
) -> tuple[tuple[Decision, ...], tuple[Finding, ...]]:
    """The decisions, and what is wrong with them. One for a place that is none of `places`, which
    testers wrote about, is told and kept."""
    source, findings = read_file(path, shown(path), SORT)
    root = None
    if source is not None:
        root, findings = tree(source, SORT)
    if root is None:
        return (), findings
    desk = Desk(partial(place_of, whole=DECISION))
    read = DECISIONS.read(root, path.name, desk) or ()
    decisions = tuple(_decisions(read, fabric, places, desk))
    return decisions, tuple(in_order((*findings, *desk.findings)))


def _decisions(
    read: tuple[Named, ...], fabric: Fabric, places: Container[Place], desk: Desk
) -> Iterator[Decision]:
    seen: dict[Place, str] = {}
    for named in read:
        words, span = named.key.value, named.key.span
        found = place_said(fabric, words)
        if isinstance(found, EdgeProblem):
            desk.say("key-unknown", span, found.message, found.mend)
            found = elsewhere(words)
        elif found in seen:
            what = f"`{words[:60]}` and `{seen[found][:60]}` are one place, decided twice."
            desk.say("key-doubled", span, what, "Keep one of the two.")
            continue
        elif found not in places:
            what = f"No tester wrote about `{words[:60]}`."
            mend = "Look whether the piece and the round are right, or take the decision out."
            desk.say("key-unknown", span, what, mend, Severity.WARNING)
        seen[found] = words
        values = named.value
        yield Decision(found, span, values["decision"], values.get("because"), values.get("in_"))
