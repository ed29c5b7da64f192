"""Pasted notes become a draft that loads, and no line of them is lost, whatever they hold."""

from __future__ import annotations

import re
import runpy
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundproof.findings import Severity
from roundproof.pattern.load import read_pattern
from roundproof.pattern.model import Pattern, Status, Terms
from roundproof.source import Source
from roundproof.writing.pasted import Pasted, Unreadable, pasted
from roundproof.writing.pasted_text import checked, decoded

RENEW = runpy.run_path(str(Path(__file__).with_name("renew_notes.py")))
FILES: list[Path] = RENEW["files"]()
BREAKS = "\r\n|[\n\r\x0b\x0c\x85\u2028\u2029]"


def made(notes: str | bytes, name: str = "draft", **more: Any) -> Pasted:
    data = notes.encode("utf-8") if isinstance(notes, str) else notes
    return pasted(data, "notes.txt", name, **more)


def loaded(draft: Pasted) -> Pattern:
    """The pattern, which has nothing wrong in its form."""
    pattern, found = read_pattern(Source("pattern.yaml", draft.text), "draft")
    assert pattern is not None
    assert pattern.status is Status.DRAFT
    assert [f.message for f in found if f.severity is Severity.ERROR] == []
    return pattern


def rounds(draft: Pasted) -> dict[str, list[str]]:
    pieces = loaded(draft).pieces
    return {p.key: p.rounds.value.split("\n") if p.rounds else [] for p in pieces}


def in_yaml(char: str) -> bool:
    """Whether YAML 1.2 has the character among those it prints (its rule c-printable); the mark
    of byte order is left out, which editors do not show."""
    code = ord(char)
    allowed = code in (9, 0x85) or 0x20 <= code <= 0x7E or 0xA0 <= code <= 0xD7FF
    allowed = allowed or 0xE000 <= code <= 0xFFFD or code >= 0x10000
    return allowed and char != "\ufeff"


def all_kept(text: str, draft: Pasted) -> None:
    for line in re.split(BREAKS, text):
        said = "".join(c if in_yaml(c) else c.encode("unicode_escape").decode() for c in line)
        assert said.strip() in draft.text


# ---- notes of many kinds ----
@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_notes_become_the_draft_that_is_kept_beside_them(path: Path) -> None:
    """`tests/writing/renew_notes.py` writes what is kept."""
    assert RENEW["draft"](path) == path.with_suffix(".yaml").read_text("utf-8")


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_no_line_of_them_is_lost(path: Path) -> None:
    draft = pasted(path.read_bytes(), path.name, "draft")
    loaded(draft)
    all_kept(decoded(path.read_bytes()), draft)


HEADINGS = {
    "Body:": ("body", 1),
    "BODY": ("body", 1),
    "**Head**": ("head", 1),
    "## Head ##": ("head", 1),
    "Head\n----": ("head", 1),
    "1. Head": ("head", 1),
    "Part 2: Head": ("head", 1),
    "Arms (make 2)": ("arms", 2),
    "Legs - make two": ("legs", 2),
    "Legs – make 4 of these:": ("legs", 4),
    "Fin x 4": ("fin", 4),
    "Fin ×2:": ("fin", 2),
    "2 x ears": ("ears", 2),
    "Four legs:": ("legs", 4),
    "Ears (2)": ("ears", 2),
    "Ears (both alike)": ("ears", 2),
    "Make two arms:": ("arms", 2),
    "Outer gill (make 6)": ("outer gill", 6),
    "Kraken (make 2)": ("kraken", 2),
    "Legs\nMake 4.": ("legs", 4),
    "Back leg": ("rear leg", 1),
    "Front (x2)": ("fore", 2),
}


@pytest.mark.parametrize("heading", HEADINGS)
def test_headings_name_pieces_and_say_how_many(heading: str) -> None:
    notes = f"Some words before it all.\n\n{heading}\nR1: 6 sc in magic ring (6)\nR2: sc around (6)"
    (piece,) = loaded(made(notes)).pieces
    assert (piece.key, piece.make) == HEADINGS[heading]
    all_kept(notes, made(notes))


@pytest.mark.parametrize(
    "line",
    [
        "Insert the eyes here:",
        "Stuff the body now",
        "# look at this again",
        "Note: the body gets wider here.",
        "The next part is easy!",
        "",
    ],
)
def test_words_between_rounds_stay_where_they_are(line: str) -> None:
    notes = f"Body\nR1: 6 sc in magic ring (6)\n{line}\nR2: inc x 6 (12)"
    assert rounds(made(notes)) == {
        "body": ["R1: 6 sc in magic ring (6)", line, "R2: inc x 6 (12)"],
    }


def test_a_line_that_talks_of_a_round_is_a_note() -> None:
    draft = made("R1: 6 sc in magic ring (6)\nRound 2 is fiddly!\nR2: inc x 6 (12)")
    assert rounds(draft)["body"][1] == "Note: Round 2 is fiddly!"
    assert draft.rounds == ((2, 0),)


@pytest.mark.parametrize(
    "notes",
    [
        "6 sc in magic ring\ninc x 6\n(sc, inc) x 6",
        "6 sc\ninc x 6 (12)\nsc around",
        "R5: sc around (24)\nR6: (2 sc, dec) x 6 (18)",
        "Moray\n\nR1: 6 sc in magic ring (6)",
    ],
)
def test_rounds_without_a_heading_are_the_body(notes: str) -> None:
    assert list(rounds(made(notes))) == ["body"]


def test_a_piece_may_go_on_counting_where_its_heading_is_plain() -> None:
    notes = "Legs (make 2)\nR1: 6 sc in magic ring (6)\n\nBODY\nR2: sc 6 around first leg, sc 6"
    assert list(rounds(made(notes))) == ["legs", "body"]


def test_two_pieces_of_one_name_are_both_kept() -> None:
    notes = "Leg\nR1: 6 sc in magic ring (6)\n\nLeg\nR1: 5 sc in magic ring (5)"
    assert list(rounds(made(notes))) == ["leg", "leg 2"]


def test_a_round_that_a_page_broke_in_two_is_one_again() -> None:
    notes = "TOP\nRound 1: 6 sc in a magic\nring. (6)\nRound 2: 2 sc in each st\naround. (12)\n"
    assert rounds(made(notes))["top"] == [
        "Round 1: 6 sc in a magic ring. (6)",
        "Round 2: 2 sc in each st around. (12)",
    ]


def test_a_crossed_out_round_is_a_private_line() -> None:
    draft = made("Body\nR1: 6 sc in magic ring (6)\n~~R2: sc around~~\nR2: inc x 6 (12)")
    assert rounds(draft)["body"][1] == "# ~~R2: sc around~~"
    assert draft.rounds == ((2, 0),)


def test_what_comes_after_the_last_round_and_is_no_work_is_put_aside() -> None:
    draft = made("Body\nR1: 6 sc in magic ring (6)\nFasten off.\n\nVisit my shop for more!\n")
    assert rounds(draft)["body"][-1] == "Fasten off."
    assert [each.line.number for each in draft.draft.loose] == [5]


# ---- terms ----
@pytest.mark.parametrize(
    ("notes", "terms", "asked"),
    [
        ("R1: 6 sc in magic ring", "US", False),
        ("R1: 6 dc in ring, 2 htr", "UK", False),
        ("R1: 6 dc in magic ring\nR2: miss 1 st, 5 dc", "UK", False),
        ("UK terms\nR1: 6 dc in magic ring", "UK", False),
        ("Written in British terminology.\nR1: 6 dc in magic ring", "UK", False),
        ("This uses US crochet terms.\nR1: 6 dc in magic ring", "US", False),
        ("R1: 6 dc in magic ring", "US", True),
        ("R1: 6 sc in magic ring\nR2: htr in each st", "US", True),
        ("Body", "US", True),
    ],
)
def test_terms_are_told_by_what_is_said_and_by_the_names(
    notes: str, terms: str, asked: bool
) -> None:
    pattern = loaded(made(notes))
    assert pattern.terms and pattern.terms.value is Terms(terms)
    assert any("terms" in question.value for question in pattern.open) is asked


def test_a_site_with_terms_of_its_own_is_not_asked() -> None:
    pattern = loaded(made("R1: 6 dc in magic ring", shared=Terms.UK))
    assert pattern.terms and pattern.terms.value is Terms.UK
    assert pattern.open == ()


# ---- title ----
@pytest.mark.parametrize(
    ("first", "name", "title"),
    [
        ("Shore crab", "draft", "Shore crab"),
        ("# Shore crab", "draft", "Shore crab"),
        ("SHORE CRAB - FREE CROCHET PATTERN", "draft", "Shore crab"),
        ("Little shore crab", "Crab", "Little shore crab"),
        ("Some notes of mine", "Shore crab", "Shore crab"),
        ("Hi Ada,", "draft", "draft"),
        ("From: Ada", "draft", "draft"),
        ("I made this when we were all at the sea for a week in May.", "draft", "draft"),
        ("https://example.org/crab", "draft", "draft"),
        ("R1: 6 sc in magic ring", "draft", "draft"),
    ],
)
def test_the_title_is_the_first_line_where_it_plainly_is_one(
    first: str, name: str, title: str
) -> None:
    notes = f"{first}\n\nBody\nR1: 6 sc in magic ring (6)\n"
    pattern = loaded(made(notes, name))
    assert pattern.title and pattern.title.value == title
    all_kept(notes, made(notes, name))


# ---- anything at all ----
ODD = [
    "",
    " \n\t\n",
    "---\n...\n%YAML 1.2\n&a *a !b\n",
    "\ufeffR1: 6 sc in magic ring",
    "a: b: c\n- [x\n{\n\"'\n# x\n#x\n| >\n",
    "Body\n\tR1: 6 sc in magic ring\n \t R2: inc x 6\t(12)",
    "\x00\x07\x1b[31m\x7f\x9b\ufffe\uffff",
    "R1: 6 sc in magic ring\u2028R2: inc x 6\x85R3: sc around\x0cR4",
    "yes:\nR1: 6 sc in magic ring\nno (make 2)\nR1: 5 sc in magic ring",
    "R4 (make 2)\nR1: 6 sc in magic ring\nFree front loops\nR1: 5 sc in magic ring",
    "Yarn: {'\"} #1 in red, 99 mm hook, gauge\nHook: 0 mm, 9999999999999999999999 mm",
    "Materials\n" + "- 0 g / 0 m cotton in sand\n- 999999999999 safety eyes 0 mm\n",
    "Gauge: 0 sts x 0 rounds = 0 cm\nGauge: 1/0 sts x 1 round = 10 cm",
    "Body (make 0)\nR1: 6 sc in magic ring\nArm (make 999)\nR1: 6 sc in magic ring",
    "R1: " + "(" * 3000,
    "( " * 20_000,
    "Body\n" * 3000,
    "|" * 3000 + "\n" + "\t".join("12345"),
    "\u202eR1: 6 sc\u2066 in magic ring (6)",
    "R1: 6 sc in magic ring\r\n\r\nR2: inc x 6\rR3: sc around\r\n",
    "~~~~\n~~\n**\n****\n<b>\n<br>\n&amp;\n&nbsp;\n&#0;\n&#x110000;\n",
]


@pytest.mark.parametrize("notes", ODD, ids=range(len(ODD)))
def test_odd_text_loads_and_is_kept(notes: str) -> None:
    draft = made(notes)
    loaded(draft)
    all_kept(notes.removeprefix("\ufeff"), draft)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_every_usual_encoding_is_read(encoding: str) -> None:
    draft = made("Süße Krabbe\n\nBody\nR1: 6 sc in magic ring × 1 (6)\n".encode(encoding))
    assert 'title: "Süße Krabbe"' in draft.text
    assert rounds(draft)["body"] == ["R1: 6 sc in magic ring × 1 (6)"]


@pytest.mark.parametrize("encoding", ["latin-1", "cp1252"])
def test_western_bytes_are_read(encoding: str) -> None:
    assert 'title: "Café"' in made("Café\n\nR1: 6 sc in magic ring".encode(encoding)).text


LINES = st.sampled_from(
    """
    Body|Arms (make 2)|**Head**|## Fin x 4|Materials|Abbreviations|Assembly|Gauge|Note: x
    R1: 6 sc in magic ring (6)|R2: inc x 6 (12)|Rnd 3: (sc, inc|) x 6|4. sc around|sc around|inc x 6
    2|3|Page 2|----|Fasten off.|Fasten off, leaving a long|tail for sewing.|Change to navy.|Make 2.
    - DK cotton in sand, navy|Hook: 3 mm|2 x 6 mm safety eyes|23 sts x 25 rounds = 10 cm|~~R2: no~~
    > R2: inc x 6|1\t6 sc in MR\t6|\\| 2 \\| inc x 6 \\| 12 \\||<p>R3: sc<br>R4: inc</p>|&times; 6
    Sew the arms to the body.|Visit my shop!|Love,|From: a@b|Body: R1: 6 sc in MR|With sand:|# x||
    """.strip()
    .replace("\n    ", "|")
    .replace("\\|", "\x00")
    .split("|")
).map(lambda line: line.replace("\x00", "|"))


@settings(deadline=None, max_examples=200)
@given(st.lists(LINES | st.text(max_size=30), max_size=25).map("\n".join))
def test_no_line_of_any_notes_is_lost(notes: str) -> None:
    draft = made(b"\xef\xbb\xbf" + notes.encode("utf-8"))
    loaded(draft)
    all_kept(notes, draft)


@settings(deadline=None, max_examples=200)
@given(st.binary(max_size=200))
def test_any_bytes_load_or_are_refused(data: bytes) -> None:
    try:
        loaded(made(checked(data, "notes.txt")))
    except Unreadable as stop:
        assert "Nothing was written" in str(stop)


@pytest.mark.parametrize(
    "notes",
    [
        "a\n" * 500_000,
        "x" * 1_000_000,
        "Leg\nR1: 6 sc in magic ring (6)\n" * 2_000,
        "Materials\n" + "DK yarn in sand, 3 mm hook\n" * 5_000,
        "6 sc in magic ring\n" * 20_000,
    ],
    ids=["short lines", "one line", "pieces", "materials", "rounds"],
)
def test_long_notes_load_whole(notes: str) -> None:
    draft = made(notes)
    loaded(draft)
    for line in set(notes.split("\n")):
        assert draft.text.count(line) >= notes.split("\n").count(line) or not line


def test_notes_that_no_pattern_file_can_hold_are_refused() -> None:
    with pytest.raises(Unreadable, match="2 MB"):
        made(("\x01" * 999 + "\n") * 1_000)
