from rendering import elements, page_of, proof_of
from roundproof.pages.names import piece_ids, round_ids, shown_label, spoken_label
from roundproof.pages.pattern import pattern_page
from roundproof.pages.values import RoundRow


def test_pieces_never_share_an_id_with_each_other_or_with_a_section() -> None:
    ids = piece_ids(["body", "Body!", "assembly", "2nd leg", "ø", "left arm"])
    assert list(ids.values()) == [
        "body", "body-2", "assembly-piece", "piece-2nd-leg", "piece", "left-arm",
    ]  # fmt: skip


def test_numbers_that_come_back_in_a_piece_get_a_letter() -> None:
    text = (
        "terms: US\npieces:\n  a: |\n    R1: 6 sc in magic ring (6)\n    R2: sc around (6)\n"
        "    R1: sc around (6)\n    R2-R4: sc around (6)\n"
    )
    rounds = proof_of(text).fabric.pieces["a"].rounds
    assert round_ids("a", rounds) == ["a-r1", "a-r2", "a-r1-b", "a-r2-r4"]
    ids = [a["id"] for _, a in elements(page_of(text)) if a.get("id")]
    assert len(ids) == len(set(ids))


def test_labels_are_shown_short_and_spoken_in_words() -> None:
    text = (
        "terms: US\npieces:\n  a: |\n    R1: 6 sc in magic ring (6)\n    R2-R4: sc around (6)\n"
        "  b:\n    worked: rows\n    rounds: |\n      Row 1: ch 7, sc in 2nd ch from hook,"
        " 5 sc (6)\n      Rows 2-3: ch 1, turn, 6 sc (6)\n"
    )
    pieces = proof_of(text).fabric.pieces
    shown = [shown_label(worked) for worked in (*pieces["a"].rounds, *pieces["b"].rounds)]
    assert shown == ["R1", "R2–R4", "Row\u00a01", "Rows\u00a02–3"]
    assert spoken_label(pieces["a"].rounds[1]) == "rounds 2 to 4"
    assert spoken_label(pieces["b"].rounds[0]) == "row 1"


def test_a_range_of_five_thousand_rounds_does_not_get_five_thousand_boxes() -> None:
    text = "terms: US\npieces:\n  a: |\n    R1: 6 sc in magic ring\n    R2-R5001: sc around\n"
    rows = pattern_page(proof_of(text)).pieces[0].rows
    (_, long) = (row for row in rows if isinstance(row, RoundRow))
    assert (long.singles, long.anchors) == ((), ())
    assert len(page_of(text)) < 100_000


def test_a_hundred_thousand_copies_do_not_get_a_box_each() -> None:
    text = "terms: US\npieces:\n  a:\n    make: 100000\n    rounds: |\n      6 sc in magic ring\n"
    piece = pattern_page(proof_of(text)).pieces[0]
    assert len(piece.copies) == 100
    assert piece.uncounted == "and 99,900 more"
