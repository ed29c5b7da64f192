"""Safety on the pages: the designer's note on top, hazards by name, and no promise of ours."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from conftest import ROOT
from rendering import copy_for_testers, page_of, text_of_page
from roundproof.pages.front import LOCAL_RULES
from roundproof.reference.hazards import hazards
from whole_patterns import PEBBLE

NOTE = "The eyes are small hard parts. Keep them from young children."
PROMISE = re.compile(
    r"\b(?:safe|safer|safest|safely|CE|UKCA|certif\w*|approved|conform\w*|ages?|aged|months?"
    r"|years?|birth|baby|babies|toddlers?|under (?:3|three))\b|\b\d+ ?\+"
)
PATTERNS = sorted(path.parent.name for path in ROOT.glob("patterns/*/pattern.yaml"))


@pytest.mark.parametrize("made", [page_of, copy_for_testers], ids=["page", "test copy"])
def test_the_note_and_the_hazards_stand_above_materials_and_rounds(made: object) -> None:
    words = text_of_page(made(PEBBLE))  # type: ignore[operator]
    note, hazard = words.index(NOTE), words.index("Small parts can come loose")
    rules = words.index(LOCAL_RULES)
    assert note < hazard < rules < words.index("Materials", rules) < words.index("R1")


@pytest.mark.parametrize("made", [page_of, copy_for_testers], ids=["page", "test copy"])
def test_every_page_defers_to_local_rules_even_without_a_note(made: object) -> None:
    bare = "title: Pebble\nterms: US\npieces:\n  body: |\n    R1: 6 sc in magic ring (6)\n"
    assert LOCAL_RULES in text_of_page(made(bare))  # type: ignore[operator]


def test_what_is_used_and_not_listed_is_named_too() -> None:
    text = PEBBLE.replace(
        "assembly:\n", "assembly:\n  - insert: {item: florist wire, piece: under}\n"
    )
    assert "Wire and other stiff parts have sharp ends" in text_of_page(page_of(text))


def test_what_may_be_taken_instead_is_named_too() -> None:
    text = PEBBLE.replace("or: embroidered eyes", "or: disc magnets")
    assert "Magnets can be swallowed" in text_of_page(page_of(text))


def test_no_line_of_ours_promises_safety_or_names_years() -> None:
    for line in (LOCAL_RULES, *(hazard.warns for hazard in hazards())):
        assert not PROMISE.search(line), line


@pytest.mark.parametrize("page", ["index.html", "tester.html"])
@pytest.mark.parametrize("name", PATTERNS)
def test_no_promise_stands_on_a_page_but_the_designers_own(
    built_site: Path, name: str, page: str
) -> None:
    html = (built_site / "patterns" / name / page).read_text("utf-8")
    own = (ROOT / "patterns" / name / "pattern.yaml").read_text("utf-8")
    said = {match.group() for match in PROMISE.finditer(text_of_page(html))}
    assert said <= {match.group() for match in PROMISE.finditer(own)}


@pytest.mark.parametrize(
    "template", sorted(ROOT.glob("theme/*.html")) + sorted(ROOT.glob("theme/parts/*.html")),
    ids=lambda path: path.name,
)  # fmt: skip
def test_no_template_holds_a_promise(template: Path) -> None:
    text = re.sub(r"{[#%{].*?[#%}]}|<[^>]*>", " ", template.read_text("utf-8"), flags=re.DOTALL)
    assert PROMISE.findall(text) == []
