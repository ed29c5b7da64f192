import re

import pytest

from rendering import elements, page_of, proof_of, text_of_page
from roundproof.pages.pattern import pattern_page
from roundproof.pages.values import NoteRow, PatternPage, Picture, PieceWork, RoundRow
from whole_patterns import PEBBLE

PICTURES = {
    "finished.png": Picture("photos/finished-480.png", 480, 300, "photos/finished-480.png 480w"),
    "eyes.png": Picture("photos/eyes-480.png", 480, 300),
}


@pytest.fixture(scope="module")
def page() -> PatternPage:
    return pattern_page(proof_of(PEBBLE), PICTURES)


def rounds(piece: PieceWork) -> list[RoundRow]:
    return [row for row in piece.rows if isinstance(row, RoundRow)]


def notes(piece: PieceWork) -> str:
    rows = (row for row in piece.rows if isinstance(row, NoteRow))
    return " ".join(str(text) for row in rows for text in row.said)


def test_facts_are_those_a_maker_reads_first(page: PatternPage) -> None:
    facts = {fact.label: (str(fact.value), fact.more) for fact in page.facts}
    assert facts["Size"] == (
        '<span class="cm">2.1\u00a0cm</span><span class="inch" hidden>0.8\u00a0in</span> high,'
        ' <span class="cm">3.4\u00a0cm</span><span class="inch" hidden>1¼\u00a0in</span> wide,'
        " with rim",
        "",
    )
    assert facts["Level"] == ("Easy", "")
    assert facts["Version"] == ("1.2.0", "4 May 2026")
    assert "hours" in facts["Time"][0] or "minutes" in facts["Time"][0]
    assert facts["Time"][1] == "estimated"


def test_rounds_have_the_ids_that_get_printed_on_paper(page: PatternPage) -> None:
    upper = page.pieces[0]
    assert upper.id == "upper"
    assert [row.id for row in rounds(upper)] == [
        "upper-r1", "upper-r2", "upper-r3", "upper-r4-r6", "upper-r7", "upper-r8",
    ]  # fmt: skip
    assert rounds(upper)[3].anchors == ("upper-r4", "upper-r5", "upper-r6")
    assert rounds(upper)[3].singles == ("R4", "R5", "R6")


def test_a_round_is_printed_in_both_terms_with_its_own_first(page: PatternPage) -> None:
    ring = rounds(page.pieces[0])[0]
    assert str(ring.work) == (
        '<span class="ab"><span class="us">6\u00a0sc in magic\u00a0ring</span>'
        '<span class="uk" hidden>6\u00a0dc in magic\u00a0ring</span></span>'
        '<span class="out" hidden>'
        '<span class="us">6\u00a0single crochet in a magic\u00a0ring.</span>'
        '<span class="uk" hidden>6\u00a0double crochet in a magic\u00a0ring.</span></span>'
    )
    british = PEBBLE.replace("terms: US", "terms: UK")
    british = re.sub(r"\bsc\b", "dc", british)
    row = rounds(pattern_page(proof_of(british)).pieces[0])[0]
    assert str(row.work).startswith(
        '<span class="ab"><span class="uk">6\u00a0dc in magic\u00a0ring</span>'
    )


def test_short_groups_hold_together_with_the_comma_behind_them(page: PatternPage) -> None:
    third = rounds(page.pieces[0])[2]
    assert '<span class="g">(sc, inc)\u00a0×\u00a06</span>' in third.work
    after = PEBBLE.replace("(sc, inc) x 6 (18)", "(sc, inc) x 5, sc, inc (18)")
    row = rounds(pattern_page(proof_of(after)).pieces[0])[2]
    assert "×\u00a05,</span> sc, inc" in row.work


def test_colours_go_by_their_letters_and_stay_with_their_stitches(page: PatternPage) -> None:
    last = rounds(page.pieces[0])[-1]
    assert "with\u00a0<b>A</b>\u00a09\u00a0sc, with\u00a0<b>B</b>\u00a09\u00a0sc" in last.work
    assert last.bar.count("<rect") == 2


def test_counts_boxes_and_remarks_stand_with_their_round(page: PatternPage) -> None:
    fourth = rounds(page.pieces[0])[3]
    assert (fourth.count, fourth.count_more) == ("18", " stitches in each round")
    assert fourth.box == "Upper, rounds 4 to 6, 18 stitches, done"
    assert fourth.singles_summary == "Three rounds, one by one"
    assert any("Mark front" in remark for remark in fourth.remarks)
    assert any("Check." in remark for row in rounds(page.pieces[0]) for remark in row.remarks)


def test_yarn_changes_show_a_chip_with_letter_and_name(page: PatternPage) -> None:
    said = notes(page.pieces[0])
    assert '<b>Start with <i class="chip yarn y1">A</i> slate grey.</b>' in said
    assert '<b>Change to <i class="chip yarn y2">B</i> chalk.</b>' in said


def test_notation_in_prose_follows_the_reader_s_terms(page: PatternPage) -> None:
    both = '<span class="us">3\u00a0sc</span><span class="uk" hidden>3\u00a0dc</span>'
    assert both in notes(page.pieces[0])
    assert "12\u00a0dc" in page.lead
    assert "18\u00a0dc" in page.steps[1].text
    assert "{" not in page.description and "12 sc" in page.description


def test_steps_after_a_round_are_printed_there_and_lead_back(page: PatternPage) -> None:
    upper = page.pieces[0]
    places = [row.id if isinstance(row, RoundRow) else "note" for row in upper.rows]
    after = upper.rows[places.index("upper-r4-r6") + 1]
    assert isinstance(after, NoteRow)
    assert "Set the safety eyes" in str(after.said)
    assert [photo.alt for photo in after.photos] == ["Two eyes"]
    assert page.steps[0].back == "#upper-r4-r6"
    assert [photo.alt for photo in page.photos] == ["A grey stone"]


def test_steps_without_words_get_a_sentence(page: PatternPage) -> None:
    assert page.steps[0].text == (
        "Set the safety eyes on the upper between R4 and R5, with 4\u00a0stitches free between the"
        " two, 2 of them on each side of the front mark."
    )
    assert page.steps[2].text.startswith(
        "Whipstitch the last round of each foot to R8 of the upper"
    )


def test_sizes_fits_and_times_of_the_pieces_are_printed(page: PatternPage) -> None:
    assert page.sizes is not None
    upper = page.sizes.pieces[0]
    assert (upper.id, upper.name) == ("upper", "Upper")
    assert "cm" in upper.size and "in" in upper.size and "min" in upper.time
    assert any(step.fit for step in page.steps)
    assert all(": " in step.fit for step in page.steps if step.fit)


def test_copies_have_a_box_each(page: PatternPage) -> None:
    foot = page.pieces[1]
    assert (foot.make, foot.copies) == (3, (1, 2, 3))
    assert "each" in foot.figures
    assert page.pieces[0].copies == ()


def test_materials_say_how_much_and_that_it_is_an_estimate(page: PatternPage) -> None:
    things = {thing.id: thing for thing in page.materials.things}
    slate = things["yarn-y1"]
    assert slate.name == "A, slate grey"
    amount = slate.more[0].replace("\u00a0", " ")
    assert re.match(r"About \d+(\.\d)? m, \d+(\.\d)? g, 1 ball\. Upper\.", amount)
    assert "estimated" in page.materials.summary
    assert "100\u00a0% cotton" in page.materials.summary.replace(" %", "\u00a0%")
    assert things["hook-1"].name == "Hook, 3\u00a0mm"
    assert things["notion-3"].hazard == "Small part."
    assert "embroidered eyes" in things["notion-3"].more[0]
    assert "<circle" in things["notion-3"].drawing


def test_only_words_that_are_printed_are_explained(page: PatternPage) -> None:
    us = [word.us for word in page.words]
    assert "sc, single crochet" in us
    assert "BLO, back loops only" in us
    assert not any(word.startswith(("hdc", "FLO", "ch,")) for word in us)
    single = next(word for word in page.words if word.us.startswith("sc,"))
    assert single.uk == "dc, double crochet"


def test_the_specimen_is_told_with_scale_and_sources(page: PatternPage) -> None:
    assert page.specimen is not None
    assert '<i lang="la">Lapis fictus</i> <span class="g">(Nobody, 1900)</span>' in page.name
    assert any("life size" in line for line in page.specimen.lines)
    assert 'href="#reference-1"' in page.specimen.statements[0]


def test_the_safety_line_names_the_hazard_and_defers_to_local_rules(page: PatternPage) -> None:
    assert "The eyes are small hard parts" in page.safety.note
    assert "Small parts" in page.safety.hazards
    assert page.safety.hazards.endswith(
        "The rules of the place where the object is given or sold apply; they are not settled here."
    )
    assert not re.search(r"\bsafe\b|\b\d+ (months|years)\b", page.safety.hazards)


def test_contacts_and_licences_are_links_only_where_they_are_addresses(page: PatternPage) -> None:
    assert page.contact is not None and page.licence is not None
    assert page.contact.link == "mailto:errata@example.org"
    assert page.licence.words == "CC BY 4.0"
    assert page.licence.link == "https://creativecommons.org/licenses/by/4.0/"
    assert page.pieces[0].report.startswith("mailto:errata@example.org?subject=Pebble%201.2.0")
    for text in ("javascript:alert(1)", "data:text/html,x", "the shop"):
        other = pattern_page(proof_of(PEBBLE.replace("errata@example.org", f'"{text}"')))
        assert other.contact is not None
        assert other.contact.link == ""
        assert other.pieces[0].report == ""


def test_figures_are_numbered_as_they_come(page: PatternPage) -> None:
    html = page_of(PEBBLE)
    numbers = re.findall(r"Fig\.\u00a0(\d+)\.", html)
    assert numbers == [str(n + 1) for n in range(len(numbers))]
    assert len(numbers) >= 3


@pytest.mark.parametrize("status", ["draft", "testing"])
def test_pages_that_are_not_released_say_so_and_ask_not_to_be_listed(status: str) -> None:
    page = pattern_page(proof_of(PEBBLE.replace("status: published", f"status: {status}")))
    assert page.unlisted
    assert page.standing
    assert not pattern_page(proof_of(PEBBLE)).unlisted


def test_a_preview_lets_no_round_out() -> None:
    text = PEBBLE.replace("status: published", "status: published\nshow: preview")
    page = pattern_page(proof_of(text), PICTURES)
    assert page.pieces == () and page.steps == () and page.sold is not None
    assert page.sold.pieces == (("Upper", 1), ("Foot", 3), ("Under", 1))
    assert page.plate is not None and "seam" not in page.plate.svg
    assert [change.note for change in page.changes] == [""]
    html = page_of(text)
    words = text_of_page(html)
    assert "R4" not in words and "Stitch" not in words
    assert 'class="bar' not in html.replace('class="bar solid"', "")
    assert not [a for tag, a in elements(html) if "round" in (a.get("class") or "").split()]
    assert "safety eyes" in words.lower() and "A, slate grey" in words


def test_the_least_pattern_has_a_page() -> None:
    html = page_of("terms: US\npieces:\n  body: |\n    6 sc in magic ring\n    inc around\n")
    words = text_of_page(html)
    assert "6 sc in magic ring" in words
    assert "A draft." in words


def test_findings_stand_beside_what_they_concern() -> None:
    from roundproof.pages.findings_shown import ShownFinding

    found = ShownFinding(
        check="count-stated",
        severity="error",
        message="R4 is wrong.",
        mend="Write 18.",
        piece="upper",
        round="R4-R6",
        line=40,
        words="",
        address="checks/x.html",
    )
    html = page_of(PEBBLE, findings=(found,))
    row = html[html.index('id="upper-r4-r6"') :]
    row = row[: row.index("</li>\n")]
    assert "R4 is wrong." in row and "../../checks/x.html" in row
    assert html.count("R4 is wrong.") == 1


# ---- what the page says by itself where the designer says nothing else ----
def test_the_step_at_which_a_colour_changes_is_in_the_words(page: PatternPage) -> None:
    told = [str(word.means) for word in page.words if "last step of the stitch before" in str(word)]
    assert len(told) == 1
    plain = PEBBLE.replace("R8: with slate 9 sc, with chalk 9 sc (18)", "R8: sc around (18)")
    words = pattern_page(proof_of(plain)).words
    assert not any("last step" in str(word.means) for word in words)


def test_which_side_shows_is_said_once_and_not_against_the_designer(page: PatternPage) -> None:
    said = [str(text) for piece in page.pieces for row in piece.rows if isinstance(row, NoteRow)
            for text in row.said]  # fmt: skip
    assert sum("right side of the fabric faces out" in text for text in said) == 1
    inside = PEBBLE.replace(
        "Change to chalk.", "Turn the work inside out.\n      Change to chalk.", 1
    )
    pieces = pattern_page(proof_of(inside)).pieces
    assert not any("faces out" in notes(piece) for piece in pieces)


def test_a_size_without_more_words_is_that_of_the_whole() -> None:
    bare = PEBBLE.replace(", with: rim}", "}")
    facts = {fact.label: str(fact.value) for fact in pattern_page(proof_of(bare)).facts}
    assert facts["Size"].endswith("</span> wide, over all")


def test_a_hook_that_is_changed_to_is_among_the_materials() -> None:
    other = PEBBLE.replace("Change to chalk.", "Change to 2.5 mm hook.\n      Change to chalk.", 1)
    things = [str(thing.name) for thing in pattern_page(proof_of(other)).materials.things]
    assert [name for name in things if "Hook" in name] == ["Hook, 2.5\u00a0mm", "Hook, 3\u00a0mm"]


def test_a_colour_for_embroidery_alone_has_an_amount_in_words() -> None:
    ink = PEBBLE.replace("notions:", "  ink: {like: slate, colour: {name: ink}}\nnotions:", 1)
    text = ink.replace("assembly:", "assembly:\n  - embroider: {piece: upper, with: ink}", 1)
    things = pattern_page(proof_of(text)).materials.things
    assert any("short length, for embroidery" in str(more) for t in things for more in t.more)


def test_a_left_handed_maker_of_a_subject_with_a_side_is_warned() -> None:
    plain = page_of(PEBBLE)
    assert "The side matters" not in plain and 'class="lh told" hidden' in plain
    handed = page_of(PEBBLE.replace("scientific:", "handed: yes\n  scientific:", 1))
    assert "The side matters: its mirror image would be another thing." in handed
    assert "Worked left-handed it comes out as that other thing" in handed
