"""Something listed that is never used."""

from __future__ import annotations

from roundproof.checks._materials import (
    is_filling,
    is_part,
    is_said,
    meant_yarn,
    placed,
    stuffings,
    thread_uses,
    words_of,
    yarn_uses,
)
from roundproof.checks._tools import hook_changes, listed_hook, own_hooks, same_hook
from roundproof.checks.base import Check, Found, light, quoted
from roundproof.findings import Edit, Severity
from roundproof.pattern.model import Notion
from roundproof.pattern.notions import notion_for
from roundproof.proof import Proof

_PATTERN = """\
title: Pebble
terms: US
yarns:
  slate: {{colour: {{name: slate grey}}}}
  chalk: {{colour: {{name: chalk white}}}}
pieces:
  body:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      {change}
      R2: inc in each st around (12)
"""


def _run(proof: Proof) -> Found:
    pattern = proof.pattern
    severity = light(pattern.status)
    said, taken = words_of(proof), _taken(proof)
    for yarn in pattern.yarns:
        if not (yarn.shared or yarn.key in taken or any(is_said(w, said) for w in yarn.words)):
            yield CHECK.finding(
                yarn.span,
                f"The yarn {quoted(yarn.key)} is listed, and no round and no step uses it.",
                "Take it off the list, or say where it is used.",
                severity=severity,
            )
    for notion in pattern.notions:
        yield from _notion(proof, notion, said, severity)


def _taken(proof: Proof) -> set[str | None]:
    """The keys of all yarns that are used, under their name or a misspelling."""
    pattern = proof.pattern
    uses = (*yarn_uses(proof), *thread_uses(pattern))
    found = ((pattern.yarn(use.word), use.word) for use in uses)
    taken = {yarn.key if yarn else meant_yarn(pattern, word) for yarn, word in found}
    words = {use.word.lower() for use in uses}  # one word may stand for two yarns
    taken |= {y.key for y in pattern.yarns if words & {y.key.lower(), *y.words}}
    if len(pattern.yarns) == 1 and not all(piece.yarn for piece in pattern.pieces):
        taken.add(pattern.yarns[0].key)
    return taken


def _notion(proof: Proof, notion: Notion, said: str, severity: Severity) -> Found:
    item = quoted(notion.item.value)
    count = placed(proof.pattern, notion)
    if is_filling(notion):
        if "stuff" not in said and "fill" not in said and next(stuffings(proof), None) is None:
            yield CHECK.finding(
                notion.item.span,
                f"{item} is listed, and nothing says what it fills.",
                "Add a step `- stuff: {piece: …}`, or take it off the list.",
                severity=severity,
            )
    elif (hook := listed_hook(notion)) is not None:
        used = (*own_hooks(proof.pattern), *(size for size, _, _ in hook_changes(proof)))
        if not any(same_hook(hook, one) for one in used):
            yield CHECK.finding(
                notion.item.span,
                f"A hook of {hook:g} mm is listed, and nothing is worked with it.",
                "Say where (`Change to 2 mm hook.`, or `hook:` of a yarn or a piece), or take it"
                " off the list.",
                severity=severity,
            )
    elif notion.count and 0 < count < notion.count.value:
        yield CHECK.finding(
            notion.count.span,
            f"{notion.count.value} of {item} are listed and {count} placed.",
            f"List {count}, or place the others too.",
            severity=severity,
            edits=(Edit(notion.count.span, str(count)),),
        )
    elif is_part(notion) and not (
        count or _is_thread(proof, notion) or is_said(notion.item.value, said)
    ):
        yield CHECK.finding(
            notion.item.span,
            f"{item} is listed, and no step places or inserts it.",
            "Add a step `- place: {item: …, piece: …}`, or take it off the list.",
            severity=severity,
        )


def _is_thread(proof: Proof, notion: Notion) -> bool:
    uses = thread_uses(proof.pattern)
    return any(notion_for(proof.pattern, use.word) is notion for use in uses)


CHECK = Check(
    id="material-unused",
    title="Listed and not used",
    why=(
        "Whatever stands on the list is bought. A yarn or a notion that nothing uses costs makers"
        " money, and lets them search for the step they must have missed."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format(change="Note: a plain stone."),
    good=_PATTERN.format(change="Change to chalk."),
    source="common practice, no source",
    run=_run,
)
