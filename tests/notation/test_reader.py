"""Lines of a piece: labels, counts, remarks, actions, notes, and what cannot be read."""

from __future__ import annotations

import pytest

from notation.texts import only_round, read
from roundproof.notation.said import wrongly_repeated
from roundproof.notation.tree import Act, Action, Chain, Loop, Note, Round
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms


@pytest.mark.parametrize(
    ("typed", "label"),
    [
        ("R7: sc around", "R7"),
        ("R7 sc around", "R7"),
        ("Rnd 7: sc around", "R7"),
        ("Round 7 - sc around", "R7"),
        ("rnd. 7) sc around", "R7"),
        ("7. sc around", "R7"),
        ("7) sc around", "R7"),
        ("Row 7: sc across", "R7"),
        ("7th row: sc across", "R7"),
        ("4. Rd: sc around", "R4"),
        ("6. Round 4: sc around", "R4"),
        ("R8-R17: sc around", "R8-R17"),
        ("R8\u2013R17: sc around", "R8-R17"),
        ("Rounds 8 to 17 (10 rounds): sc around", "R8-R17"),
        ("R5&6: sc around", "R5-R6"),
        ("Rnds 5-9: sc around (5 rounds)", "R5-R9"),
    ],
)
def test_labels(typed: str, label: str) -> None:
    assert str(only_round(typed).label) == label


@pytest.mark.parametrize(
    "ending",
    [
        "(18)",
        "[18]",
        "<18>",
        "{18}",
        "(18 sts)",
        "(18 sc)",
        "- 18 sts",
        "\u2013 18",
        "= 18",
        "-> (18)",
        "18 sts total",
        "(total of 18 sc)",
        "(18). Remember the marker.",
    ],
)
def test_counts_in_all_their_clothes(ending: str) -> None:
    found = only_round(f"R3: (sc, inc) x 6 {ending}")
    assert found.stated is not None
    assert found.stated.count == 18
    assert found.stated.span.text == "18"
    assert written(found.readings[0], Terms.US) == "(sc, inc) x 6"
    assert found.work.text == "(sc, inc) x 6"


def test_a_remark_behind_the_count_is_kept() -> None:
    assert only_round("R3: sc around (18), the marker stays").remark == "the marker stays"


def test_an_action_behind_the_count_is_an_entry_of_its_own() -> None:
    script, findings = read("R3: sc around (18). Fasten off, leaving a long tail.")
    round_, act = script.entries
    assert not findings
    assert isinstance(round_, Round) and round_.remark == ""
    assert isinstance(act, Action) and act.act is Act.FASTEN_OFF
    assert act.text == "Fasten off, leaving a long tail."


@pytest.mark.parametrize(
    ("typed", "act", "yarn", "number"),
    [
        ("Change to chalk.", Act.CHANGE_YARN, "chalk", None),
        ("Change colour to B.", Act.CHANGE_YARN, "chalk", None),
        ("Change to sea green.", Act.CHANGE_YARN, "sea", None),
        ("Change to 3.5 mm hook.", Act.CHANGE_HOOK, None, 3.5),
        ("Join chalk in any st.", Act.JOIN_YARN, "chalk", None),
        ("Fasten off.", Act.FASTEN_OFF, None, None),
        ("Do not fasten off.", Act.KEEP_YARN, None, None),
        ("Turn.", Act.TURN, None, None),
        ("Fold flat.", Act.FOLD_FLAT, None, None),
        ("Stuff lightly.", Act.STUFF, None, None),
        ("Move the start 3 sts on.", Act.MOVE_START, None, 3),
    ],
)
def test_actions(typed: str, act: Act, yarn: str | None, number: float | None) -> None:
    script, _ = read(f"R1: 6 sc in magic ring\n{typed}")
    found = script.entries[1]
    assert isinstance(found, Action)
    assert (found.act, found.yarn, found.number, found.text) == (act, yarn, number, typed)


def test_a_mark_is_kept_with_its_stitches() -> None:
    script, _ = read("R1: 20 sc in magic ring\nMark front between sts 9 and 10.")
    found = script.entries[1]
    assert isinstance(found, Action)
    assert (found.act, found.name, found.between) == (Act.MARK, "front", (9, 10))


def test_notes_and_private_lines() -> None:
    script, findings = read(
        "R1: 6 sc in magic ring\nNote: 2 sc, inc would be too wide.\n# try 8?\nPull the ring tight."
    )
    assert not findings
    assert [e.text for e in script.entries if isinstance(e, Note)] == [
        "2 sc, inc would be too wide.",
        "Pull the ring tight.",
    ]


def test_a_round_wrapped_over_lines() -> None:
    script, findings = read("R9\n*sc, inc;\nrep from * around (18)\nR10: sc around")
    assert not findings
    first, second = script.rounds
    assert written(first.readings[0], Terms.US) == "(sc, inc) around"
    assert first.work.text == "*sc, inc;\nrep from * around"
    assert second.label.first == 10


def test_a_piece_without_labels_counts_its_rounds() -> None:
    script, findings = read("6 sc in magic ring\ninc x 6\nPull tight.\n(sc, inc) x 6")
    assert not findings
    assert [(r.label.first, r.label.given) for r in script.rounds] == [
        (1, False),
        (2, False),
        (3, False),
    ]


def test_a_foundation_on_a_line_of_its_own_begins_the_first_round() -> None:
    script, findings = read("Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across (10)")
    assert not findings
    (row,) = script.rounds
    assert written(row.readings[0], Terms.US) == "ch 11, sc in 2nd ch from hook, sc around"
    assert row.label.row


def test_whole_rounds_again() -> None:
    again = only_round("R13-R27: repeat R8-R12 3 more times").repeats
    assert again is not None
    assert (again.first, again.last, again.times) == (8, 12, 3)


def test_free_loops_and_loops_of_single_stitches() -> None:
    found = only_round("R9: in the free front loops of R6, sc around (18)").readings[0]
    assert found.into is not None
    assert (found.into.loop, found.into.round) == (Loop.FRONT, 6)
    mixed = only_round("R9: FLO 3 sc, BLO 3 sc").readings[0]
    assert written(mixed, Terms.US) == "3 sc in FLO, 3 sc in BLO"


@pytest.mark.parametrize(
    ("typed", "check", "words", "mend"),
    [
        ("R2: icn x 6 (12)", "abbreviation-unknown", "icn", "`inc`"),
        ("R2: glorp 3 (12)", "abbreviation-unknown", "glorp", "a stitch, like `sc`"),
        ("R2: (sc, inc x 6 (12)", "round-unread", "(", "`)`"),
        ("R2: sc, inc) x 6 (12)", "round-unread", ")", "`(`"),
        ("R2: *sc, inc (12)", "round-unread", "*", "`rep from *`"),
        ("R2: sc in next (12)", None, "", ""),
        ("R2: () x 6 (12)", "round-unread", "(", "stitches between the brackets"),
        ("R2:", "round-unread", "R2:", "stitches, like `(sc, inc) x 6`"),
        ("R2: 6 htr (6)", "terms-mixed", "htr", "`hdc`"),
        ("R5-R9 (4 rounds): sc around", "round-order", "4", "Write 5"),
    ],
)
def test_what_is_wrong_is_named_once_at_its_words(
    typed: str, check: str | None, words: str, mend: str
) -> None:
    _, findings = read(typed)
    if check is None:
        assert not findings
        return
    (found,) = findings
    assert (found.check, found.span.text) == (check, words)
    assert mend in found.mend


def test_a_line_that_is_not_read_keeps_its_stated_count() -> None:
    script, _ = read("R2: glorp 3, sc (21)\nR3: sc around (21)")
    unread, following = script.rounds
    assert unread.readings == ()
    assert unread.stated is not None and unread.stated.count == 21
    assert following.readings


def test_five_slips_are_five_findings() -> None:
    _, findings = read("R1: glorp\nR2: (sc\nR3: htr\nR4-R5 (3 rounds): sc around\nR6: florp")
    assert len(findings) == 5


def test_a_round_like_note_is_warned_of_only_where_rounds_have_labels() -> None:
    _, findings = read("R1: 6 sc in magic ring\ninc x 6")
    assert [f.check for f in findings] == ["note-like-round"]
    _, findings = read("6 sc in magic ring\ninc x 6")
    assert not findings


def test_colours_in_rounds() -> None:
    found = only_round("R8: with A 3 sc, with chalk 17 sc").readings[0]
    assert written(found, Terms.US) == "with slate 3 sc, with chalk 17 sc"
    assert only_round("R8: (A) 3 sc, 17 sc in chalk").readings[0] == found


def test_a_wall_of_brackets_is_a_finding() -> None:
    _, findings = read("R1: " + "(" * 3000 + "sc" + ")" * 3000)
    assert [f.check for f in findings] == ["round-unread"]


@pytest.mark.parametrize(
    ("typed", "check", "words"),
    [
        ("R1: 6 sc in magic ring\nR2: repeat R2-R9 3 more times", "round-unread", "R2-R9"),
        ("R1: 6 sc in magic ring\nR2: as R7", "round-unread", "as R7"),
        (
            "R1: 6 sc in magic ring\nR2: sc around\nR3-R5: repeat R1-R2 3 more times",
            "round-order",
            "R3-R5",
        ),
        ("R1: 99999999999999999999999999 sc in magic ring", "round-unread", "9999"),
        ("R99999999999999: sc around", "round-unread", "R99999999999999"),
    ],
)
def test_rounds_and_numbers_that_cannot_be(typed: str, check: str, words: str) -> None:
    script, findings = read(typed)
    (found,) = [*findings, *wrongly_repeated(script, "body")]
    assert found.check == check
    assert words in found.span.text
    assert found.mend


@pytest.mark.parametrize(
    ("said", "counts"),
    [("counts as a stitch", True), ("counts as first dc here and throughout", True),
     ("does not count", False), ("doesn't count as a stitch", False)],
)  # fmt: skip
@pytest.mark.parametrize("rest", [", 11 dc in magic ring, join (12)", "", ", dc around", " (12)"])
def test_a_chain_said_to_count(said: str, counts: bool, rest: str) -> None:
    chain = only_round(f"R1: ch 3 ({said}){rest}").readings[0].items[0]
    assert isinstance(chain, Chain) and chain.counts is counts


def test_a_label_without_a_number_counts_on() -> None:
    script, findings = read("R1: 6 sc in magic ring\nNext round: inc x 6\nNext 3 rounds: sc around")
    assert not findings
    assert [str(r.label) for r in script.rounds] == ["R1", "R2", "R3-R5"]


@pytest.mark.parametrize("cut", ["R2: *sc, inc; rep\nfrom * around (9)", "R2:\n(sc, inc) x 3\n(9)"])
def test_a_round_goes_on_where_its_line_breaks_off(cut: str) -> None:
    (_, second), findings = read(f"R1: 6 sc in magic ring (6)\n{cut}")[0].rounds, []
    assert not findings and second.stated is not None and second.stated.count == 9


def test_remarks_are_kept_and_are_no_work() -> None:
    found = only_round("R3: (now the eyes) sc around (12), put the eyes in after 2 rounds")
    assert written(found.readings[0], Terms.US) == "sc around"
    assert "the eyes" in found.remark and "after 2 rounds" in found.remark
    assert [span.text for span in found.beside] == ["(now the eyes)"]


def test_a_stray_word_leaves_the_round_unread() -> None:
    script, findings = read("R3: sc nicely in each st (12)")
    (found,) = script.rounds
    assert not findings and found.readings == ()
    assert [span.text for span in found.stray] == ["nicely"]


@pytest.mark.parametrize(
    "typed", ["R3: 2 glorp, inc (12)", "R3: (sc, glorp) x 6 (12)", "R3: sc 3, icn (12)"]
)
def test_a_word_where_a_stitch_could_stand_is_an_error(typed: str) -> None:
    _, findings = read(typed)
    assert [f.check for f in findings] == ["abbreviation-unknown"]
