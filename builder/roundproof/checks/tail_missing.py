"""A seam for which neither a yarn is named nor a tail left."""

from __future__ import annotations

from roundproof.checks.base import Check, Found, light
from roundproof.fabric.model import WorkedPiece
from roundproof.findings import Edit, Severity
from roundproof.notation.edges import piece_of
from roundproof.notation.tree import Act, Action, Note
from roundproof.pattern.model import Close, Join
from roundproof.proof import Proof

SEWN = ("whipstitch", "mattress stitch", "backstitch", "running stitch", "knot", "gather")


def _run(proof: Proof) -> Found:
    for step in proof.pattern.assembly:
        verb = step.verb
        if not isinstance(verb, Join | Close) or verb.by is None or verb.by.value not in SEWN:
            continue
        if isinstance(verb, Join) and verb.with_ is not None:
            continue
        ends = [verb.edge, verb.to] if isinstance(verb, Join) else [verb.edge]
        keys = [piece_of(end.value, proof.fabric.pieces) for end in ends if end]
        pieces = [proof.fabric.pieces[key] for key in keys if key]
        told = " ".join(step.step.value.lower().split()) if step.step else ""
        if not pieces or _yarn_told(proof, told) or any(map(_leaves, pieces)):
            continue
        yield CHECK.finding(
            verb.by.span,
            f"What {pieces[0].piece.key} is sewn with is not said: no tail is left, and no yarn"
            " is named.",
            "Write `Fasten off, leaving a 30 cm tail for sewing.` after its last round, or name"
            " the yarn" + (", `with: …`." if isinstance(verb, Join) else " in the step."),
            severity=light(proof.pattern.status),
            piece=pieces[0].piece.key,
            edits=_edits(pieces[0]),
        )


def _leaves(worked: WorkedPiece) -> bool:
    """Whether the lines of a piece leave its yarn for later; a piece that is not fastened off goes
    on with its own."""
    said = [e for e in worked.entries if isinstance(e, Action | Note)]
    off = [e for e in said if isinstance(e, Action) and e.act is Act.FASTEN_OFF]
    return not off or any("tail" in e.text.lower() or "end" in e.text.lower() for e in said)


def _yarn_told(proof: Proof, step: str) -> bool:
    return any(
        word in step
        for word in ("tail", "yarn", "thread", *(y.key.lower() for y in proof.pattern.yarns))
    ) or any(word in step for yarn in proof.pattern.yarns for word in yarn.words if len(word) > 2)


def _edits(worked: WorkedPiece) -> tuple[Edit, ...]:
    """The tail added to a bare line that fastens off."""
    for entry in reversed(worked.entries):
        if isinstance(entry, Action) and entry.act is Act.FASTEN_OFF:
            bare = entry.span.text.strip().rstrip(".").lower() == "fasten off"
            text = "Fasten off, leaving a 30 cm tail for sewing."
            return (Edit(entry.span, text),) if bare and worked.of is None else ()
    return ()


_PATTERN = """\
title: Pebble
terms: US
notions: [tapestry needle]
pieces:
  upper: |
    R1: 6 sc in magic ring (6)
    Fasten off.
  under: |
    R1: 6 sc in magic ring (6)
    Fasten off{}.
assembly:
  - join: {{edge: under, to: upper, by: whipstitch}}
"""

CHECK = Check(
    id="tail-missing",
    title="Nothing left to sew with",
    why=(
        "A maker who has fastened off and cut the yarn short has nothing to sew the piece on with."
        " The line that fastens off says how long a tail to leave, or the step names the yarn."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format(""),
    good=_PATTERN.format(", leaving a 30 cm tail for sewing"),
    source="common practice, no source: a long tail is left by the piece that needs it",
    run=_run,
)
