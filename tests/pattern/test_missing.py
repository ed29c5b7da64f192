"""What a pattern does not say weighs by its status, and is said once."""

from __future__ import annotations

import pytest

from loading import BODY, COMPLETE, findings, missed
from roundproof.findings import Severity
from roundproof.pattern.load import read_pattern
from roundproof.pattern.model import Status
from roundproof.source import Source


def without(*keys: str, text: str = COMPLETE) -> str:
    """The complete pattern without some of its lines."""
    return "".join(
        line for line in text.splitlines(True) if not line.strip().startswith(tuple(keys))
    )


def test_a_complete_pattern_misses_nothing() -> None:
    assert missed(COMPLETE) == []


def test_a_draft_has_one_note_of_all_that_is_still_to_say() -> None:
    (note,) = missed(f"terms: US\ntitle: Pebble\nyarns:\n  slate: {{hook: 3 mm}}\n{BODY}")
    assert (note.severity, note.span.text) == (Severity.NOTE, "Pebble")
    for words in ("designer", "licence", "changes", "safety: note", "yarn `slate`: colour, fibre"):
        assert words in note.message
    assert "title" not in note.message and "hook" not in note.message


@pytest.mark.parametrize(
    ("status", "severity"), [("testing", Severity.WARNING), ("published", Severity.ERROR)]
)
@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("title:", "`title`"),
        ("summary:", "`summary`"),
        ("designer:", "`designer`"),
        ("contact:", "`contact`"),
        ("level:", "`level`"),
        ("licence:", "`licence`"),
        ("size:", "`size`"),
        ("care:", "`care`"),
        ("colour:", "Yarn `slate` does not say its `colour`"),
        ("fibre:", "`fibre`"),
        ("weight:", "`weight`"),
        ("ball:", "`ball`"),
        ("hook:", "`hook`"),
    ],
)
def test_each_thing_is_missed_by_itself_later(
    status: str, severity: Severity, line: str, says: str
) -> None:
    (found,) = missed(without(line).replace("status: published", f"status: {status}"))
    assert found.severity is severity
    assert says in found.message
    assert found.mend


def test_testers_cannot_do_without_the_gauge() -> None:
    (found,) = missed(without("gauge:").replace("published", "testing"))
    assert found.severity is Severity.ERROR
    assert found.span.text == "slate"


def test_an_empty_safety_is_missed_like_none() -> None:
    text = COMPLETE.replace("  note: Nothing hard is used.", "  note:")
    (found,) = missed(text)
    assert "safety: note" in found.message


def test_a_note_for_a_hazard_is_left_to_its_own_check() -> None:
    text = COMPLETE.replace(
        "safety:\n  note: Nothing hard is used.\n", "notions: [safety eyes 6 mm]\n"
    )
    assert missed(text) == []


def test_permissions_stand_for_a_licence_and_answer_everything() -> None:
    answers = "{print: yes, sell: yes, change: no, translate: ask}"
    (found,) = missed(COMPLETE.replace("licence: CC-BY-4.0", f"permissions: {answers}"))
    assert "`photos`" in found.message


def test_changes_give_the_date_and_are_missed_once() -> None:
    (found,) = missed(COMPLETE.partition("changes:")[0])
    assert "`changes`" in found.message
    (found,) = missed(COMPLETE.replace("date: 2026-05-04, ", ""))
    assert "`date`" in found.message


def test_a_wrong_value_is_not_missed_as_well() -> None:
    text = COMPLETE.replace("level: easy", "level: [easy]").replace("hook: 3 mm", "hook: 3")
    assert missed(text) == []
    assert len(findings(text)) == 2


def test_a_yarn_like_another_misses_only_its_own_colour() -> None:
    text = without("gauge:").replace("safety:", "  chalk: {like: slate}\nsafety:")
    assert [f.message for f in missed(text)] == [
        "Yarn `slate` does not say its `gauge`.",
        "Yarn `chalk` does not say its `colour`.",
    ]


def test_a_piece_without_rounds_misses_them() -> None:
    (found,) = missed(COMPLETE.replace("pieces:\n", "pieces:\n  rim: {yarn: slate}\n"))
    assert (found.piece, "`rounds`" in found.message) == ("rim", True)


def test_a_join_misses_how_and_where_to() -> None:
    text = f"{COMPLETE}assembly:\n  - join: {{edge: body}}\n"
    assert [f.message for f in missed(text)] == [
        "`join` does not say its `to`.",
        "`join` does not say its `by`.",
    ]


def test_a_question_still_open_stops_a_published_pattern() -> None:
    text = COMPLETE.replace("level:", "open: [Is the rim too wide?, And the eyes?]\nlevel:")
    assert [(f.check, f.severity) for f in findings(text)] == [("open-question", "error")] * 2
    assert findings(text.replace("published", "testing")) == []


def test_a_pattern_can_be_judged_as_if_it_had_another_status() -> None:
    source = Source(
        "x", COMPLETE.replace("care: Hand wash cool.\n", "").replace("published", "draft")
    )
    pattern, found = read_pattern(source, "x", judge_as=Status.PUBLISHED)
    assert pattern is not None and pattern.status is Status.PUBLISHED
    assert [f.severity for f in found] == [Severity.ERROR]
