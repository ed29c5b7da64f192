"""An editor's answers to what only a person can settle, kept beside the pattern in `answers.yaml`.

    increases-stacked/body/R9: {of: 3f2a91c0, says: Meant so; the corners are the shell's., by: M.}

A key is a check, or a question's name, and where it is asked: a piece, and a round of it. `of` is
the mark of what was answered for: as long as that is worded the same, the answer stands.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

from roundproof.findings import Finding, Severity
from roundproof.frozen import dataclass
from roundproof.pattern.nodes import Map, Node, Scalar, tree
from roundproof.source import Source, Span

FILE = "answers.yaml"
MOST_BYTES = 2_000_000
_KEYS = ("of", "says", "by")
_MARK = re.compile(r"[0-9a-f]{8}")


@dataclass(frozen=True, slots=True)
class Answer:
    """What was said by whom, and the mark of what it was said of."""

    key: str
    of: str
    says: str
    by: str
    span: Span


def mark_of(*texts: str) -> str:
    """Eight signs that stand for some texts: another text has another mark."""
    return sha256("\x1f".join(" ".join(t.split()) for t in texts).encode()).hexdigest()[:8]


def read_answers(folder: Path) -> tuple[Mapping[str, Answer], tuple[Finding, ...]]:
    """The answers beside a pattern, by key, and what could not be read of them. No file is no
    answer. Never raises."""
    path = folder / FILE
    try:
        if not path.is_file():
            return {}, ()
        if path.stat().st_size > MOST_BYTES:
            return {}, (_unread(Source(FILE, ""), "It is bigger than 2 MB."),)
        text = path.read_text("utf-8")
    except (OSError, UnicodeError) as fault:
        return {}, (_unread(Source(FILE, ""), f"{fault}."),)
    source = Source(FILE, text)
    if not text.strip():
        return {}, ()
    root, faults = tree(source)
    if root is None:
        return {}, faults
    answers, found = {}, list(faults)
    for entry in root.entries:
        answer = _answer(entry.key, entry.value)
        if isinstance(answer, Finding):
            found.append(answer)
        elif answer.says:  # a line that is still to be filled in says nothing
            answers[answer.key] = answer
    return answers, tuple(found)


def _answer(key: Scalar, value: Node) -> Answer | Finding:
    parts: dict[str, str] = {}
    for entry in value.entries if isinstance(value, Map) else ():
        if entry.key.text in _KEYS and isinstance(entry.value, Scalar):
            parts[entry.key.text] = "" if entry.value.empty else entry.value.text.strip()
    if "says" not in parts or not _MARK.fullmatch(parts.get("of", "")):
        return Finding(
            "value-kind",
            Severity.WARNING,
            key.span,
            f"The answer to `{key.text[:80]}` cannot be read.",
            "Write `{of: …, says: …, by: …}`, with the eight signs that the review copy shows.",
        )
    return Answer(key.text, parts["of"], parts["says"], parts.get("by", ""), key.span)


def _unread(source: Source, why: str) -> Finding:
    return Finding(
        "file-unusable", Severity.WARNING, source.span(0, 0), f"{FILE} cannot be read. {why}", ""
    )
