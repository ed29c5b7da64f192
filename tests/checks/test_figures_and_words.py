"""Where the checks of counts, figures and running words begin to say something, and where not."""

from __future__ import annotations

import pytest

from proving import ids_of, proved

HEAD = "title: Pebble\nterms: US\n"
BALL = """\
    R1: 6 sc in magic ring (6)
    R2: inc x 6 (12)
    R3: (sc, inc) x 6 (18)
"""


def ids(rounds: str = "", *, note: str = "", more: str = "", rest: str = "") -> list[str]:
    said = f"    Note: {note}\n" if note else ""
    return ids_of(f"{HEAD}{more}pieces:\n  body: |\n{BALL}{rounds}{said}{rest}")


# ---- counts ----
@pytest.mark.parametrize(
    ("line", "count", "told"),
    [
        ("2 sc in each st around", 36, False),
        ("3 sc in each st around", 54, True),
        ("dec x 9", 9, False),
        ("sc3tog x 6", 6, True),
    ],
)
def test_a_count_may_double_and_halve(line: str, count: int, told: bool) -> None:
    found = ids(f"    R4: {line} ({count})\n    R5: sc around ({count})\n")
    assert ("count-jump" in found) is told


def test_a_frill_at_the_end_or_told_of_is_meant() -> None:
    frill = "    R4: 3 sc in each st around (54)\n"
    assert ids(frill) == []
    assert ids(f"    Note: This round ruffles.\n{frill}    R5: sc around (54)\n") == []


def test_a_frill_that_is_passed_by_is_meant() -> None:
    frill = "    R4: FLO: 3 sc in each st around (54)\n"
    rounds = f"{frill}    R5: in the free back loops of R3: sc around (18)\n"
    assert "count-jump" not in ids(rounds)


def test_a_plain_round_breaks_no_series() -> None:
    rounds = "    R4: sc around (18)\n    R5: (2 sc, inc) x 6 (24)\n    R6: (3 sc, inc) x 6 (30)\n"
    assert ids(rounds) == []


def test_corners_show_from_six_rounds_on() -> None:
    stacked = "".join(f"    R{n}: ({n - 2} sc, inc) x 6 ({6 * n})\n" for n in range(4, 8))
    assert ids(stacked) == []
    assert ids(f"{stacked}    R8: (6 sc, inc) x 6 (48)\n") == ["increases-stacked"]


def test_five_corners_are_a_shape() -> None:
    start = "    R1: 5 sc in magic ring (5)\n    R2: inc x 5 (10)\n"
    rest = "".join(f"    R{n}: ({n - 2} sc, inc) x 5 ({5 * n})\n" for n in range(3, 10))
    assert ids_of(f"{HEAD}pieces:\n  body: |\n{start}{rest}") == []


def test_twelve_are_drawn_shut() -> None:
    close = "assembly:\n  - close: {edge: body, by: gather}\n"
    needle = "notions: [tapestry needle]\n"
    assert ids("    R4: (sc, dec) x 6 (12)\n", more=needle, rest=close) == []
    assert ids(more=needle, rest=close) == ["opening-wide"]


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("BLO: (sc, inv dec) x 6", True),
        ("(sc in BLO, inv dec) x 6", False),
        ("FLO: (sc, inv dec) x 6", False),
    ],
)
def test_the_hidden_decrease_clashes_with_back_loops_alone(line: str, told: bool) -> None:
    assert ("decrease-hidden" in ids(f"    R4: {line} (12)\n")) is told


def test_a_hidden_decrease_in_back_loops_is_mended() -> None:
    text = f"{HEAD}pieces:\n  body: |\n{BALL}    R4: BLO: (sc, inv dec) x 6 (12)\n"
    (finding,) = [f for f in proved(text)[1] if f.check == "decrease-hidden"]
    (edit,) = finding.edits
    assert (edit.span.text, edit.text) == ("inv dec", "dec")


# ---- running words ----
@pytest.mark.parametrize(
    "words",
    [
        "First a) the tail, then b) the rim.",
        "1) Weave in the end. 2) Trim it.",
        "The rim (it is soft) lies outside [as drawn].",
        "It smiles :)",
    ],
)
def test_lists_and_faces_need_no_partner(words: str) -> None:
    assert ids(note=words) == []


@pytest.mark.parametrize(
    "words", ["The rim (soft lies outside.", "The rim soft) lies outside.", "A (b] c."]
)
def test_a_bracket_alone_is_told(words: str) -> None:
    assert ids(note=words) == ["bracket-unpaired"]


@pytest.mark.parametrize(
    "words",
    ["TODO: say how.", "Weave in the XX.", "Is it round???", "See [insert link].", "Lorem ipsum."],
)
def test_a_placeholder_is_told(words: str) -> None:
    assert ids(note=words) == ["placeholder-left"]


@pytest.mark.parametrize("words", ["Is it round?", "Nothing to be seen.", "An axis from xi to X."])
def test_words_that_only_look_like_one_are_not(words: str) -> None:
    assert ids(note=words) == []


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("As in R3.", False),
        ("As in rounds 2 to 3.", False),
        ("As in R4.", True),
        ("As in round 7.", True),
        ("Work 2 rounds 5 times.", False),
        ("Leave it for rounds 3 cm high.", False),
        ("See photo 1.", True),
    ],
)
def test_what_is_referred_to_is_there(words: str, told: bool) -> None:
    assert ids(note=words) == (["reference-lost"] if told else [])


def test_a_round_of_another_piece_is_found_where_the_piece_is_named() -> None:
    rim = "  rim: |\n    R1: 6 sc in magic ring (6)\n    Note: {}\n"
    text = f"{HEAD}pieces:\n  body: |\n{BALL}{rim}"
    quiet = "piece-unjoined"
    assert [i for i in ids_of(text.format("It meets R3 of the body.")) if i != quiet] == []
    assert [i for i in ids_of(text.format("It meets R3.")) if i != quiet] == ["reference-lost"]


@pytest.mark.parametrize(
    "pair",
    [
        "10 cm (4 in)",
        "30 cm / 12 in",
        "2.5 cm (1 in)",
        "5 cm or 2 inches",
        "50 g (1.75 oz)",
        "4 in (10 cm)",
    ],
)
def test_units_agree_within_rounding(pair: str) -> None:
    assert ids(note=f"It takes {pair} of it.") == []


@pytest.mark.parametrize(
    "pair", ["10 cm (5 in)", "30 cm / 10.5 in", "50 g (3.5 oz)", "4 in (12 cm)"]
)
def test_units_that_do_not_agree_are_told(pair: str) -> None:
    assert ids(note=f"It takes {pair} of it.") == ["pair-differs"]


@pytest.mark.parametrize(
    "words",
    [
        "Take a 3.5 mm hook (E-4).",
        "Take a 3.5 mm (US E/4) hook.",
        "Take a hook of 3 mm, D-3 by some.",
        "Take a hook: 9 mm (M-13).",
        "A hook of 4 mm will do.",
        "I hook the yarn. A hook helps.",
    ],
)
def test_a_name_beside_the_millimetres_is_well(words: str) -> None:
    assert ids(note=words) == []


@pytest.mark.parametrize(
    "words", ["Take a G hook.", "Take a US 7 hook.", "Take hook size E-4.", "A 4 mm (E-4) hook."]
)
def test_a_name_alone_or_of_another_size_is_told(words: str) -> None:
    assert ids(note=words) == ["hook-name"]


# ---- figures ----
YARN = """\
yarns:
  slate: {{weight: {w}, ball: {ball}, hook: {hook} mm, gauge: {g} sts x 25 rounds = 10 cm}}
"""


@pytest.mark.parametrize(
    ("figures", "told"),
    [
        ({}, []),
        ({"g": 12, "hook": 4.5}, []),
        ({"g": 11.9, "hook": 4.5}, ["gauge-odd"]),
        ({"g": 12, "hook": 3}, ["gauge-odd"]),
        ({"g": 29, "hook": 2.5}, []),
        ({"g": 31, "hook": 2.5}, ["gauge-odd"]),
        ({"hook": 6, "g": 14}, ["gauge-odd"]),
        ({"ball": "50 g / 60 m"}, []),
        ({"ball": "50 g / 59 m"}, ["put-up-odd"]),
        ({"ball": "50 g / 240 m"}, []),
        ({"ball": "50 g / 241 m"}, ["put-up-odd"]),
        ({"w": 7, "ball": "100 g / 20 m", "hook": 15, "g": 6}, []),
        ({"w": 0, "ball": "50 g / 400 m", "hook": 1.5, "g": 34}, []),
    ],
)
def test_a_yarn_is_likely_within_wide_limits(figures: dict[str, object], told: list[str]) -> None:
    usual: dict[str, object] = {"w": 3, "ball": "50 g / 125 m", "hook": 3, "g": 22}
    found = ids(more=YARN.format(**(usual | figures)))
    assert [i for i in found if i != "material-unused"] == told


@pytest.mark.parametrize(
    ("level", "told"),
    [("basic", True), ("easy", False), ("intermediate", False), ("complex", False)],
)
def test_a_level_is_low_two_steps_below(level: str, told: bool) -> None:
    yarns = "yarns:\n  slate: {colour: {name: slate}}\n  chalk: {colour: {name: chalk}}\n"
    rounds = "    R4: with slate 9 sc, with chalk 9 sc (18)\n"
    assert ("level-low" in ids(rounds, more=f"level: {level}\n{yarns}")) is told
