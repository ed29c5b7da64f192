"""Something used that the list of materials lacks."""

from __future__ import annotations

from roundproof.checks._materials import (
    Use,
    is_filling,
    item_uses,
    meant_notion,
    meant_yarn,
    placed,
    stuffings,
    thread_uses,
    yarn_uses,
)
from roundproof.checks._tools import hook_changes, listed_hooks, same_hook, tools_asked
from roundproof.checks.base import Check, Found, light, missing, quoted
from roundproof.findings import Edit, Finding, Severity
from roundproof.pattern.model import Pattern
from roundproof.pattern.notions import notion_for
from roundproof.proof import Proof

_PATTERN = """\
title: Pebble
terms: US
yarns:
  slate: {{colour: {{name: slate grey}}}}
pieces:
  body:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      Change to {yarn}.
      R2: inc in each st around (12)
"""


def _run(proof: Proof) -> Found:
    pattern = proof.pattern
    seen: set[str] = set()
    for use in yarn_uses(proof):
        if pattern.yarn(use.word) is None and use.word not in seen:
            seen.add(use.word)
            yield _yarn(pattern, use)
    for use in (*thread_uses(pattern), *item_uses(pattern)):
        known = pattern.yarn(use.word) or notion_for(pattern, use.word)
        if known is None and use.word not in seen:
            seen.add(use.word)
            yield _item(pattern, use)
    yield from _counts(pattern)
    yield from _tools(proof)
    yield from _hooks(proof)


def _yarn(pattern: Pattern, use: Use) -> Finding:
    listed = ", ".join(f"`{yarn.key}`" for yarn in pattern.yarns)
    near = meant_yarn(pattern, use.word)
    return CHECK.finding(
        use.span,
        f"The yarn {quoted(use.word)} is used here, and `yarns:` lists "
        + (f"only {listed}." if listed else "none."),
        (f"Write `{near}`, or list" if near else "List") + f" {quoted(use.word)} under `yarns:`.",
        severity=Severity.ERROR if listed else missing(pattern.status),
        piece=use.piece,
        round=use.round,
        edits=(Edit(use.span, near),) if near and use.span.text == use.word else (),
    )


def _item(pattern: Pattern, use: Use) -> Finding:
    near = meant_notion(pattern, use.word)
    line = (
        f"List it under `notions:`, for instance `- {{item: {use.word[:60]}, count: {use.count}}}`."
    )
    return CHECK.finding(
        use.span,
        f"{quoted(use.word)} is used here and not listed among the materials.",
        f"Write `{near}`, which is listed." if near else line,
        severity=Severity.ERROR if pattern.notions else missing(pattern.status),
        piece=use.piece,
        edits=(Edit(use.span, near),) if near else (),
    )


def _counts(pattern: Pattern) -> Found:
    for notion in pattern.notions:
        needed = placed(pattern, notion)
        if notion.count and needed > notion.count.value:
            item = quoted(notion.item.value)
            yield CHECK.finding(
                notion.count.span,
                f"{needed} of {item} are placed and {notion.count.value} listed.",
                f"List {needed}, or place fewer.",
                edits=(Edit(notion.count.span, str(needed)),),
            )


def _tools(proof: Proof) -> Found:
    pattern = proof.pattern
    for asked in tools_asked(proof):
        yield CHECK.finding(
            asked.span,
            f"This is {asked.does}, and no {asked.tool} is listed.",
            f"Add `- {asked.line}` under `notions:`.",
            severity=light(pattern.status),
            piece=asked.piece,
        )
    stuffed = next(stuffings(proof), None)
    if stuffed and not any(map(is_filling, pattern.notions)):
        yield CHECK.finding(
            stuffed,
            "This is stuffed, and no filling is listed.",
            "Add the filling under `notions:` with its amount, for instance `- fibrefill 20 g`.",
            severity=missing(pattern.status),
        )


def _hooks(proof: Proof) -> Found:
    """Hooks that are changed to, and that neither a yarn, a piece nor a notion names."""
    pattern = proof.pattern
    listed = listed_hooks(pattern)
    for size, span, piece in hook_changes(proof):
        if not any(same_hook(size, one) for one in listed):
            listed.append(size)
            yield CHECK.finding(
                span,
                f"A hook of {size:g} mm is used here and not listed among the materials.",
                f"Add `- hook {size:g} mm` under `notions:`.",
                severity=missing(pattern.status),
                piece=piece,
            )


CHECK = Check(
    id="material-unlisted",
    title="Used and not listed",
    why=(
        "Makers buy what the list says before they start. A yarn, an eye or a needle that turns up"
        " only in the rounds or the assembly stops them half-way, often with the shop shut."
    ),
    severity=Severity.ERROR,
    bad=_PATTERN.format(yarn="chalk"),
    good=_PATTERN.format(yarn="slate"),
    source="common practice, no source",
    run=_run,
)
