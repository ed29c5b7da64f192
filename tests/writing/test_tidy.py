"""Rounds in house style: nothing else is touched, nothing is lost, the fabric is the same."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.texts import SNIPPETS
from notation.trees import instructions
from proving import proved
from roundproof.fabric.model import WorkedRound
from roundproof.notation.spoken import spoken
from roundproof.notation.tree import Instruction, Repeat, Stitches
from roundproof.pattern.model import Terms
from roundproof.pipeline import prove
from roundproof.proof import Proof
from roundproof.writing.tidy import Tidied, tidied

ROOT = Path(__file__).parents[2]
FILES = sorted((ROOT / "patterns").glob("*/pattern.yaml")) + sorted(
    (ROOT / "tests/planted").glob("*/pattern.yaml")
)
HEAD = "terms: US\nyarns:\n  slate: {letter: A}\n  chalk: {letter: B}\npieces:\n  body:\n"


def proof_of(text: str) -> Proof:
    proof, findings = proved(text)
    assert proof is not None, findings
    return proof


def body(rounds: str, more: str = "") -> str:
    """A pattern of one piece."""
    return HEAD + "    rounds: |\n" + "".join(f"      {r}\n" for r in rounds.split("\n")) + more


def tidy(rounds: str, **options: bool) -> str:
    """The rounds of a piece in house style."""
    made = tidied(proof_of(body(rounds)), **options).text
    return "\n".join(line[6:] for line in made[len(HEAD) :].splitlines()[1:])


def figures(proof: Proof) -> list[object]:
    """What comes of every round, whatever it is called."""

    def told(worked: WorkedRound) -> object:
        counts = (worked.available, worked.used, worked.unworked, worked.made, worked.carries)
        return counts, worked.rounds, dict(worked.tally), worked.loop, worked.misfit is None

    pieces = proof.fabric.pieces.items()
    return [(key, [told(w) for w in piece.rounds], piece.free) for key, piece in pieces]


def proofs(file: Path) -> list[Proof]:
    return list(prove(file).proofs)


# ---- house style ----
@pytest.mark.parametrize(
    ("typed", "house"),
    [
        ("Rnd 4. Sc in each of next 2 sts, 2 sc in next st, repeat around - 24 sts.",
         "R4: (2 sc, inc) around (24)"),
        ("Rounds 5–9 (5 rounds) : [1SC, 1INC] * 6 <24>", "R5-R9: (sc, inc) x 6 (24)"),
        ("R5-R9: sc around (24) (5 rounds)", "R5-R9: sc around (24)"),
        ("4th row: sc across, ch 1, turn", "Row 4: sc across, ch 1, turn"),
        ("R4: with A 3 sc, [B] 3 sc", "R4: with A 3 sc, with B 3 sc"),
        ("R4: 3 sc in slate, with Mauve 3 sc", "R4: with slate 3 sc, with Mauve 3 sc"),
        ("R4: sc around (24), in back loops only", "R4: BLO: sc around (24)"),
        ("R4: sc around - 24 sts. Mind  the marker!", "R4: sc around (24). Mind  the marker!"),
        ("R2: Inc around, do not join", "R2: inc around, do not join"),
        ("R4: sc around, fasten off (24)", "R4: sc around, fasten off (24)"),
        ("R5-R9: repeat rounds 3 to 4, x3 = 24", "R5-R9: repeat R3-R4 3 more times (24)"),
        ("R1: 6 sc in MR. R2: 6 inc.", "R1: 6 sc in magic ring. R2: inc x 6"),
        ("6 sc in MR\ninc around", "R1: 6 sc in magic ring\nR2: inc around"),
        ("Ch 7.\nR1: Sc in 2nd ch from hook, sc 5", "Ch 7.\nR1: sc in 2nd ch from hook, 5 sc"),
        ("R1: 6 sc in MR,\n  then join (6)", "R1: 6 sc in magic ring, sl st in first st (6)"),
        ("R1:\n6 sc in MR", "R1: 6 sc in magic ring"),
    ],
)  # fmt: skip
def test_house_style(typed: str, house: str) -> None:
    assert tidy(typed) == house


def test_uk_rounds_stay_in_uk_terms() -> None:
    text = body("R1: 6 double crochet in MR\nR2: miss 1, 2 treble in next st, Htr").replace(
        "US", "UK"
    )
    made = tidied(proof_of(text)).text
    assert "R1: 6 dc in magic ring\n      R2: miss 1, 2 tr in next st, htr\n" in made


@pytest.mark.parametrize(
    "line",
    ["Note: Sc in each st,  loosely", "# R2: sc in each st", "Change to  chalk.", "Fasten  off."],
)
def test_lines_that_are_no_rounds_are_not_touched(line: str) -> None:
    assert tidy(f"Rnd 1: 6 sc in MR\n{line}") == f"R1: 6 sc in magic ring\n{line}"


def test_a_line_with_two_readings_is_written_in_one_way_once_the_fabric_tells_which() -> None:
    assert tidy("R1: 18 sc in MR (18)\nR2: 2 sc, inc x 6 (24)").endswith("R2: (2 sc, inc) x 6 (24)")
    assert tidy("R1: 8 sc in MR (8)\nR2: 2 sc, inc x 6 (14)").endswith("R2: 2 sc, 6 inc (14)")


# ---- what is left alone ----
@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("R2: 6 blip", "`blip`"),
        ("R2: (sc, inc x 6", "bracket"),
        ("R2: inc around, do not join (12)", "`do not join`"),
        ("R2: inc x 3, htr", "UK name"),
        ("R2-R4 (2 rounds): inc x 6", "3 rounds"),
        ("R2: 2 sc, inc x 6 (23)", "two ways"),
        ("R2: inc x 3,\n# mine\ninc x 3", "private line"),
    ],
)
def test_a_line_that_is_not_sure_is_left_alone_and_named(line: str, why: str) -> None:
    text = body(f"Rnd 1: 6 sc in MR\n{line}\nRnd 9: sc around")
    made = tidied(proof_of(text))
    assert line.replace("\n", "\n      ") in made.text
    assert "R1: 6 sc in magic ring" in made.text and "R9: sc around" in made.text
    (left,) = made.left
    assert (left.piece, left.label.split("-")[0], left.line) == ("body", "R2", 9)
    assert why in left.why


def test_names_of_the_other_terms_are_left_alone_wherever_they_stand() -> None:
    made = tidied(proof_of(body("R1: 6 sc in MR\nR2: 6 htr\nR3: 6 htr in BLO")))
    assert [left.label for left in made.left] == ["R2", "R3"]


def test_rounds_on_the_line_of_their_key_are_left_alone() -> None:
    made = tidied(proof_of("terms: US\npieces:\n  body: 6 sc in MR\n"))
    assert not made.changed and "after `|`" in made.left[0].why


# ---- only the rounds ----
ODD = (
    "\ufeff# head\r\nterms:   US   # which\r\n\r\npieces:\r\n  body:\r\n    rounds: |   # here\r\n"
    "        Rnd 1 :  6 SC in MR  [6]  \r\n\r\n         # mine:  sc in each st\r\n"
    "        Rnd 2: 6 inc - 12.  Mind  the marker\t\r\n        Fasten  off.\r\n\r\n# tail   "
)


def test_every_byte_outside_the_rounds_stays(tmp_path: Path) -> None:
    file = tmp_path / "pattern.yaml"
    file.write_bytes(ODD.encode())
    (proof,) = proofs(file)
    made = tidied(proof)
    expected = ODD.replace("Rnd 1 :  6 SC in MR  [6]", "R1: 6 sc in magic ring (6)")
    expected = expected.replace("Rnd 2: 6 inc - 12", "R2: inc x 6 (12)")
    assert "\ufeff" + made.text == expected


def holes(text: str, made: Tidied) -> list[str]:
    """The text between the edits."""
    ends = [0, *(e.span.end for e in made.edits)]
    starts = [*(e.span.start for e in made.edits), len(text)]
    return [text[a:b] for a, b in zip(ends, starts, strict=True)]


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.parent.name)
@pytest.mark.parametrize("more", [False, True])
def test_nothing_is_edited_but_rounds(file: Path, more: bool) -> None:
    for proof in proofs(file):
        made = tidied(proof, counts=more)
        rounds = [w.round.span for p in proof.fabric.pieces.values() for w in p.rounds]
        for edit in made.edits:
            assert any(s.start <= edit.span.start and edit.span.end <= s.end for s in rounds)
        at = 0
        for hole in holes(made.source.text, made):  # each stands in the new text, in order
            at = made.text.index(hole, at) + len(hole)
        assert at == len(made.text)


# ---- the same work ----
def holds(proof: Proof, **options: bool) -> None:
    """Tidying keeps the fabric, and a second time there is nothing to do."""
    made = tidied(proof, **options)
    again = proof_of(made.text)
    numbers = options.get("renumber")
    assert figures(again) == figures(proof) or numbers
    assert [w.made for p in again.fabric.pieces.values() for w in p.rounds] == [
        w.made for p in proof.fabric.pieces.values() for w in p.rounds
    ]
    assert tidied(again, **options).text == made.text


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.parent.name)
@pytest.mark.parametrize("options", [{}, {"counts": True}, {"counts": True, "renumber": True}])
def test_the_fabric_is_the_same_and_there_is_nothing_left_to_do(
    file: Path, options: dict[str, bool]
) -> None:
    text = file.read_text("utf-8")
    if proved(text)[0] is not None:
        holds(proof_of(text), **options)


lines = st.lists(st.sampled_from(SNIPPETS), min_size=1, max_size=6).map(", ".join)
labels = st.sampled_from(["R{}: ", "Rnd {}. ", "Row {} ", "{}) ", "R{}-R9: ", "", "# ", "Note: "])
endings = st.sampled_from(
    ["", " (12)", " - 6 sts.", "; = 18", ", fasten off", " (6). Then R2", " BLO"]
)


@st.composite
def pieces(draw: st.DrawFn) -> str:
    found = []
    for _ in range(draw(st.integers(1, 5))):
        label = draw(labels).format(draw(st.integers(1, 6)))
        found.append(label + draw(lines) + draw(endings))
    return "\n".join(found)


@given(pieces(), st.booleans(), st.booleans())
@settings(max_examples=300)
def test_pieces_put_together_by_chance(rounds: str, counts: bool, renumber: bool) -> None:
    holds(proof_of(body(rounds)), counts=counts, renumber=renumber)


working = instructions.filter(lambda t: any(isinstance(i, Stitches | Repeat) for i in t.items))


@given(st.lists(working, min_size=1, max_size=3))
def test_rounds_written_out_in_full_become_house_style(trees: list[Instruction]) -> None:
    rounds = [f"Round {n}: {spoken(t, Terms.US)}" for n, t in enumerate(trees, 1)]
    text = body("\n".join(rounds))
    made = tidied(proof_of(text))
    assert not made.left
    assert f"R{len(trees)}: " in made.text
    holds(proof_of(text))


# ---- counts ----
def test_counts_that_are_missing_are_written_and_wrong_ones_stay() -> None:
    rounds = ["R1: 6 sc in magic ring, fasten off. Mind the end", "R2: inc around (11)"]
    rounds += ["R3: (sc, inc) x 6", "R4-R6: sc around"]
    assert tidy("\n".join(rounds), counts=True).split("\n") == [
        "R1: 6 sc in magic ring (6), fasten off. Mind the end",
        "R2: inc around (11)",
        "R3: (sc, inc) x 6 (18)",
        "R4-R6: sc around (18)",
    ]


@pytest.mark.parametrize("line", ["R2: inc x 5", "R2-R3: inc around", "R2: blip"])
def test_no_count_is_written_where_there_is_none_to_state(line: str) -> None:
    assert tidy(f"R1: 6 sc in magic ring (6)\n{line}", counts=True).endswith(line)


# ---- numbers ----
SKIPPING = """\
terms: US
pieces:
  upper:
    marks: {front: "R5 between 9 and 10"}
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      Note: From R4 on it is flat; keep rounds 5 and 6 loose. R9 comes last.
      R4: sc in BLO around (12)
      # R5 was hard
      R5-R6: sc around (12)
      R7-R8: repeat R5-R6
      R9: in the free front loops of R2: sc around (12). See R4
      R10: 12 blip
  rim:
    starts: {in: upper R4 free front loops}
    rounds: |
      R1: sc around (12)
      Note: As R5 of the upper.
assembly:
  - place: {item: safety eyes, piece: upper, between: [R5, "R6"]}
    after: upper R6
    step: Between R5 and R6, and never in R1.
  - join: {edge: rim, to: upper R9, by: whipstitch, at: {footprint: R5-R8, stitches: 2}}
    step: Sew the rim on between R5 and R6 of the upper. R5 is the lower one.
photos:
  - {file: a.png, alt: "The upper, R4, from above", after: upper R5}
accept:
  - {check: join-fit, at: upper R4, because: R5 is easy}
"""


@pytest.fixture(scope="module")
def renumbered() -> Tidied:
    return tidied(proof_of(SKIPPING), renumber=True)


@pytest.mark.parametrize(
    "line",
    [
        'marks: {front: "R4 between 9 and 10"}',
        "Note: From R3 on it is flat; keep rounds 4 and 5 loose. R8 comes last.",
        "R3: BLO: sc around (12)",
        "R4-R5: sc around (12)",
        "R6-R7: repeat R4-R5",
        "R8: in the free front loops of R2: sc around (12). See R3",
        "R9: 12 blip",
        "starts: {in: upper R3 free front loops}",
        "Note: As R4 of the upper.",
        'piece: upper, between: [R4, "R5"]}',
        "after: upper R5\n",
        "step: Between R4 and R5, and never in R1.",
        "to: upper R8, by: whipstitch, at: {footprint: R4-R7, stitches: 2}",
        "step: Sew the rim on between R4 and R5 of the upper. R5 is the lower one.",
        'alt: "The upper, R3, from above", after: upper R4',
        "at: upper R3, because: R5 is easy",
        "# R5 was hard",
    ],
)
def test_whatever_names_a_round_moves_along(renumbered: Tidied, line: str) -> None:
    assert line in renumbered.text


def test_every_move_is_told(renumbered: Tidied) -> None:
    told = {(one.old, one.new) for one in renumbered.renumbered}
    assert told == {
        ("R4", "R3"),
        ("R5-R6", "R4-R5"),
        ("R7-R8", "R6-R7"),
        ("R9", "R8"),
        ("R10", "R9"),
    }
    moved = [(m.before, m.after) for m in renumbered.moved if m.after]
    assert ("rounds 5 and 6", "rounds 4 and 5") in moved and ("R5-R8", "R4-R7") in moved
    assert len(moved) == 17


def test_what_is_not_certain_is_told_and_left(renumbered: Tidied) -> None:
    left = [(m.span.begins[0], m.before, m.why) for m in renumbered.moved if not m.after]
    assert left == [(10, "R5", "tidy.private_line"), (25, "R5", "tidy.which_piece")]


def test_a_number_that_stood_twice_is_told() -> None:
    rounds = "R1: 6 sc in MR\nR2: inc x 6\nR2: sc around\nR3: sc around\nNote: R2 and R3 are easy."
    made = tidied(proof_of(body(rounds)), renumber=True)
    assert [(one.old, one.new) for one in made.renumbered] == [("R2", "R3"), ("R3", "R4")]
    (moved,) = made.moved
    assert (moved.after, moved.why) == ("R3 and R4", "tidy.stood_twice")


def test_numbers_that_start_again_after_fastening_off_go_on_doing_so() -> None:
    rounds = "R1: 6 sc in magic ring\nFasten off.\nR1: 6 sc in magic ring\nR3: inc x 6"
    assert tidy(rounds, renumber=True).endswith("R1: 6 sc in magic ring\nR2: inc x 6")


def test_rounds_that_run_backwards_keep_their_numbers() -> None:
    made = tidied(proof_of(body("R1: 6 sc in magic ring\nR9-R5: sc around")), renumber=True)
    assert not made.renumbered and "R9-R5" in made.text
    assert any("backwards" in left.why for left in made.left)
