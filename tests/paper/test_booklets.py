"""Booklets as PDF: what programs that read out need, what is on paper, and the same each time.

PDF/UA-1 is ISO 14289-1; Typst refuses to write a file that breaks its rules. What it says of the
file (tags, language, title) is looked at here once more with pikepdf, the text with pdftotext.
"""

from __future__ import annotations

import io
import re
import subprocess
from collections import Counter
from functools import cache
from pathlib import Path

import pikepdf
import pytest

from proving import proved
from roundproof.pages.paper.class_pack import _up, class_pack
from roundproof.pages.paper.how import STYLES, Copy, Print
from roundproof.pages.paper.nodes import Choice, nodes, text_of
from roundproof.pages.paper.printing import Printer, review_copy
from roundproof.pages.values import RoundRow
from roundproof.pipeline import prove
from roundproof.proof import Proof

ROOT = Path(__file__).parents[2]


@cache
def printer(slug: str = "shore-crab") -> Printer:
    proof = prove(str(ROOT / "patterns" / slug)).files[0].proof
    assert proof is not None
    return Printer(proof)


@cache
def booklet(how: Print | None = None, slug: str = "shore-crab") -> bytes:
    data, missing = printer(slug).booklet(how or Print())
    assert not missing
    return data


def text(data: bytes) -> str:
    """What is on paper, in the order it is written in, without the feet of the pages."""
    command = ["pdftotext", "-raw", "-", "-"]
    done = subprocess.run(command, input=data, capture_output=True, check=True)
    words = done.stdout.decode().replace("\u200b", "")
    return " ".join(re.sub(r"[^\n]* page \d+ of \d+", "", words).split())


def text_laid_out(data: bytes) -> str:
    done = subprocess.run(
        ["pdftotext", "-layout", "-", "-"], input=data, capture_output=True, check=True
    )
    return done.stdout.decode()


HOWS = [Print(style=style) for style in STYLES] + [
    Print(copy=Copy("7", "1 May 2027")),
    Print(style="large", pupils=24),
    Print(paper="letter"),
]


@pytest.mark.parametrize("how", HOWS, ids=lambda how: f"{how.style}-{how.paper}-{how.pupils}")
def test_it_can_be_read_out(how: Print) -> None:
    with pikepdf.open(io.BytesIO(booklet(how))) as pdf:
        root = pdf.Root
        assert bool(root.MarkInfo.Marked)
        assert str(root.Lang) == "en"
        assert bool(root.ViewerPreferences.DisplayDocTitle)
        assert str(pdf.docinfo["/Title"]) == "Shore crab"
        with pdf.open_metadata() as told:
            assert told["pdfuaid:part"] == "1"
        kinds = tags(root.StructTreeRoot)
        assert {"/H1", "/H2", "/H3", "/P", "/Figure"} - kinds <= (
            {"/Figure"} if how.style == "aloud" else set()
        )
        if how.style in ("standard", "ink"):
            assert {"/Table", "/TH", "/TD"} <= kinds
        assert "/Outlines" in root
        for page in pdf.pages:
            for font in page.resources.get("/Font", {}).values():
                inner = font.DescendantFonts[0] if "/DescendantFonts" in font else font
                keys = inner.FontDescriptor.keys()
                assert keys & {"/FontFile", "/FontFile2", "/FontFile3"}


def tags(root: pikepdf.Object) -> set[str]:
    found: set[str] = set()
    waiting = [root.K]
    while waiting:
        each = waiting.pop()
        if isinstance(each, pikepdf.Array):
            waiting += list(each)
        elif isinstance(each, pikepdf.Dictionary):
            if "/S" in each:
                found.add(str(each.S))
            if "/K" in each:
                waiting.append(each.K)
    return found


def test_every_picture_is_told_in_words() -> None:
    with pikepdf.open(io.BytesIO(booklet())) as pdf:
        waiting, figures = [pdf.Root.StructTreeRoot.K], 0
        while waiting:
            each = waiting.pop()
            if isinstance(each, pikepdf.Array):
                waiting += list(each)
            elif isinstance(each, pikepdf.Dictionary):
                if each.get("/S") == "/Figure":
                    figures += 1
                    assert str(each.Alt).strip()
                if "/K" in each:
                    waiting.append(each.K)
        assert figures > 5


@pytest.mark.parametrize(
    "paper", [("a4", 595, 842), ("letter", 612, 792), ("both", 595, 792)], ids=str
)
def test_the_paper_is_that_of_the_standard(paper: tuple[str, int, int]) -> None:
    """A4 is 210 x 297 mm (ISO 216), US Letter 8.5 x 11 in (ANSI Y14.1): in points of 1/72 in."""
    name, width, height = paper
    with pikepdf.open(io.BytesIO(booklet(Print(paper=name)))) as pdf:
        for page in pdf.pages:
            _, _, wide, high = (float(n) for n in page.mediabox)
            assert (round(wide), round(high)) == (width, height)


@pytest.mark.parametrize("slug", ["shore-crab", "sea-urchin", "moon-jelly"])
@pytest.mark.parametrize("style", STYLES)
def test_every_round_is_there_once_and_in_order(slug: str, style: str) -> None:
    choice = Choice(
        terms=printer(slug).proof.pattern.written_in.lower(), written_out=style == "aloud"
    )
    words = text(booklet(Print(choice, style=style), slug))
    mark = ":" if style in ("large", "aloud") else ""
    lines = [
        " ".join(f"{row.shown}{mark} {text_of(nodes(row.work, choice))}".split())
        for piece in printer(slug).shown.page.pieces
        for row in piece.rows
        if isinstance(row, RoundRow)
    ]
    at = 0
    for line in lines:
        at = words.index(line, at) + 1
    for line in lines:
        # Two pieces may begin alike, and a round may begin as another one goes on.
        assert words.count(line) == sum(other.startswith(line) for other in lines), line


def test_version_date_and_page_stand_on_every_page() -> None:
    pages = text_laid_out(booklet()).split("\f")[:-1]
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in page
        assert "version 1.1.0" in page and "2 November 2026" in page and "US terms" in page


def test_large_print_is_large_and_has_no_second_column() -> None:
    """24 pt, black, sans serif: guides for low vision that practice 4.3 names."""
    data = booklet(Print(style="large"))
    assert "Version 1.1.0, 2 November 2026, US terms" in text(data)
    letters: Counter[float] = Counter()
    with pikepdf.open(io.BytesIO(data)) as pdf:
        for page in pdf.pages:
            size = 0.0
            for operands, operator in pikepdf.parse_content_stream(page):
                if str(operator) == "Tf":
                    size = float(operands[1])
                elif str(operator) == "TJ":
                    shown = (each for each in operands[0] if isinstance(each, pikepdf.String))
                    letters[size] += sum(len(bytes(each)) // 2 for each in shown)
    # What is smaller is the foot, which says nothing new, and letters within drawings.
    assert {size for size in letters if size < 24} <= {10.0, 12.0}
    small = sum(many for size, many in letters.items() if size < 24)
    assert letters.total() - small > 2 * small > 0


def test_two_runs_give_the_same_bytes() -> None:
    proof = prove(str(ROOT / "patterns/moon-jelly")).files[0].proof
    assert proof is not None
    how = Print(copy=Copy("3"))
    first = Printer(proof).booklet(how)
    Printer(proof).booklet(Print(copy=Copy("4")))
    assert Printer(proof).booklet(how) == first


def test_two_testers_copies_differ_in_whose_they_are_alone() -> None:
    one, other = (text_laid_out(booklet(Print(copy=Copy(who)))) for who in ("Q1", "Q2"))
    assert one != other
    assert one.replace("Q1", "*") == other.replace("Q2", "*")
    for page in one.split("\f")[:-1]:
        assert "Test copy for Q1. Not for sharing or publishing." in page


def test_a_tester_finds_deadline_form_and_room() -> None:
    words = text(booklet(Print(copy=Copy("7", "1 May 2027"))))
    assert "Test copy for tester 7." in words and "From tester 7." in words
    assert "Please report by 1 May 2027." in words
    assert "to https://example.org/errata by 1 May 2027." in words
    assert "https://example.org/errata" in words
    for asked in (
        "Wrong, unclear, better",
        "Before, g",
        "Was the gauge met?",
        "Stuffing used, g",
        "Assembly: where did you have to guess?",
        "May they be shown?",
        "cannot go on",
    ):
        assert asked in words, asked


def test_a_class_has_totals_with_something_to_spare() -> None:
    """Worked out by hand for 24 pupils and three sets to spare, 27: 41.8 m of bronze each, four
    from a ball of 170 m; two eyes, ten pins and 2 g of filling each."""
    words = text(booklet(Print(style="large", pupils=24)))
    for told in (
        "For the teacher: 24 pupils",
        "With 3 sets to spare",
        "A, bronze: 1,129 m, 7 balls (42 m, 12 g for one; wind off 42 m for each; a ball is"
        " enough for 4)",
        "Hook, 2.5 mm: 27 (1 for one)",
        "Safety eyes, 5 mm: 54 (2 for one)",
        "Pins: 270 (10 for one)",
        "Fibrefill: 54 g (2 g for one)",
        "All of it: 3–7 hours, or 4 to 7 lessons of an hour.",
        "Making up: 0.5–1 h",
        "fewest stitches is Finger, with 16; Body has the most, 480",
        "goes by its licence, CC BY 4.0",
        "rules of the place and of the school",
    ):
        assert told in words.replace("\u00a0", " "), told
    assert words.count("Made by") == words.count("Caution: Small part.") - 1 == 27


@pytest.mark.parametrize(
    ("pupils", "balls"), [(1, 1), (7, 2), (8, 3), (11, 4), (30, 9), (1000, 275)]
)
def test_balls_are_counted_by_whole_portions(pupils: int, balls: int) -> None:
    """41.8 m each from balls of 170 m: four pupils a ball, by hand; one set to spare for every
    ten begun."""
    sets = pupils + -(-pupils // 10)
    needs = class_pack(printer().proof, printer().shown.page, Print(pupils=pupils))["needs"]
    assert isinstance(needs, list)
    assert f", {balls:,}\u00a0ball" in needs[0]["all"] and -(-sets // 4) == balls


def test_sums_are_not_lost_in_the_binary() -> None:
    """27.5 sets of 4 g are 110 g, where 100 * 1.1 is 110.00000000000001 (IEEE 754)."""
    assert 100 * 1.1 > 110
    assert _up(100 * 1.1) == 110 and _up(110.2) == 111


def test_hooks_of_yarns_that_are_not_used_are_not_bought() -> None:
    found = printer("moon-jelly")
    needs = class_pack(found.proof, found.shown.page, Print(pupils=30))["needs"]
    assert isinstance(needs, list)
    assert [n["what"] for n in needs if "Hook" in n["what"]] == [
        "Hook, 3\u00a0mm", "Hook, 3.5\u00a0mm"
    ]  # fmt: skip


def test_left_and_right_are_turned_round_for_the_other_hand() -> None:
    right = text(booklet())
    left = text(booklet(Print(Choice(left_handed=True))))
    assert "at the crab's right side" in right and "at the crab's left side" in left
    assert "worked clockwise" in left and "worked anticlockwise" in right


SOLD = """\
title: Pebble
show: preview
terms: US
pieces:
  body: |
    R1: 6 sc in magic ring (6)
    R2: inc around (12)
"""


def test_the_review_copy() -> None:
    proof = printer().proof
    findings = prove(str(ROOT / "patterns/shore-crab")).files[0].findings
    data, missing = review_copy(proof, findings, "a4")
    assert not missing and data == review_copy(proof, findings, "a4")[0]
    words = text(data)
    for told in (
        "Nothing was found.",
        "Questions for a person",
        "How it was reached",
        "Stated",
        "views.png: From above and below",
        "Join A bronze in the free front loops of R6",
        "Wrong, unclear, better",
        "Hand wash cool",
        "Oxford University Press",
        "First edition.",
    ):
        assert told in words, told
    assert "Test copy" not in words


def test_editors_see_the_rounds_that_are_sold() -> None:
    proof, findings = proved(SOLD)
    assert proof is not None
    assert text(review_copy(proof, findings, "a4")[0]).count("inc around") == 3  # typed, and twice


# ---- hostile words ----
HOSTILE = {
    "typst": "#panic() #set page(width: 1pt) *b* _i_ $x$ `raw` // gone",
    "quotes": "\"Crab\" 'n' \\ {key} [x] <tag> & @ref",
    "emoji": "Crab 🦀 → 🐚 ⅓ Ωμέγα",
    "no font": "Crab 蟹",
    "hebrew": "סרטן החוף",
    "arabic": "سرطان الشاطئ",
    "long": "crab" * 300,
}


def hostile(title: str) -> Proof:
    quoted = title.replace("\\", "\\\\").replace('"', '\\"')
    proof, _ = proved(
        f'title: "{quoted}"\nterms: US\nsummary: "{quoted}"\npieces:\n  body:\n'
        f'    name: "{quoted}"\n    rounds: |\n'
        "      R1: 6 sc in magic ring (6)\n      R2: inc around (12)\n"
    )
    assert proof is not None
    return proof


@pytest.mark.parametrize("name", HOSTILE)
def test_words_are_printed_as_they_are_typed(name: str) -> None:
    title = HOSTILE[name]
    data, missing = Printer(hostile(title)).booklet(Print())
    shown = text(data)
    if name == "no font":
        assert missing == ("蟹",) and "Crab [U+87F9]" in shown
    elif name in ("hebrew", "arabic"):
        assert not missing
        assert set(title) <= set(shown)
    elif name == "long":
        assert "".join(title.split()) in "".join(shown.split())
    else:
        assert not missing and " ".join(title.split()) in shown
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert str(pdf.docinfo["/Title"]) == title


def test_a_pattern_whose_rounds_are_sold_has_none_of_them_on_paper() -> None:
    proof, _ = proved(SOLD)
    assert proof is not None
    assert "inc around" not in text(Printer(proof).booklet(Print())[0])
