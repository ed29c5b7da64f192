"""Materials in notes: what is told plainly goes into `yarns:` and `notions:`."""

from __future__ import annotations

import pytest

from roundproof.findings import Severity
from roundproof.pattern.load import read_pattern
from roundproof.pattern.model import Notion, Pattern, Yarn
from roundproof.source import Source
from roundproof.writing.pasted import pasted

ROUNDS = "\n\nBody\nR1: 6 sc in magic ring (6)\n"


def pattern(materials: str, rounds: str = ROUNDS) -> Pattern:
    made = pasted(f"{materials}{rounds}".encode(), "notes.txt", "draft")
    found, findings = read_pattern(Source("pattern.yaml", made.text), "draft")
    assert found is not None
    assert [f.message for f in findings if f.severity is Severity.ERROR] == []
    for line in materials.splitlines():
        assert line.strip() in made.text
    return found


def listed(line: str) -> Pattern:
    return pattern(f"Materials\n- {line}")


def yarns(found: Pattern) -> list[str]:
    return [yarn.key for yarn in found.yarns]


@pytest.mark.parametrize(
    ("line", "mm"),
    [
        ("3 mm hook", 3.0),
        ("2,5mm crochet hook", 2.5),
        ("crochet hook 3.5mm (US E)", 3.5),
        ("size E hook", 3.5),
        ("US G-6 hook", 4.0),
        ("E/4 hook", 3.5),
        ("No. 10 hook", 3.25),
    ],
)
def test_hooks_in_mm_or_by_letter(line: str, mm: float) -> None:
    (yarn,) = listed(line).yarns
    assert yarn.hook and yarn.hook.value == mm


@pytest.mark.parametrize(
    ("line", "item", "size", "count", "amount"),
    [
        ("2 x 6 mm safety eyes", "safety eyes", 6.0, 2, None),
        ("safety eyes, 8mm, 2", "safety eyes", 8.0, 2, None),
        ("8 mm black safety eyes (2)", "black safety eyes", 8.0, 2, None),
        ("a pair of 9mm safety eyes", "safety eyes", 9.0, 2, None),
        ("Safety eyes x 2 (10 mm)", "Safety eyes", 10.0, 2, None),
        ("fibrefill", "fibrefill", None, None, None),
        ("about 20 g fibrefill", "fibrefill", None, None, "20 g"),
        ("stuffing (20g)", "stuffing", None, None, "20 g"),
        ("tapestry needle", "tapestry needle", None, None, None),
        ("yarn needle", "yarn needle", None, None, None),
        ("3 stitch markers", "stitch markers", None, 3, None),
        ("a cardboard circle", "cardboard circle", None, None, None),
        ("black embroidery thread", "black embroidery thread", None, None, None),
    ],
)
def test_notions_with_size_number_and_amount(
    line: str, item: str, size: float | None, count: int | None, amount: str | None
) -> None:
    (notion,) = listed(line).notions
    assert _told(notion) == (item, size, count, amount)


def _told(notion: Notion) -> tuple[str, float | None, int | None, str | None]:
    size, count, amount = notion.size, notion.count, notion.amount
    return (
        notion.item.value,
        size.value if size else None,
        count.value if count else None,
        amount.value if amount else None,
    )


@pytest.mark.parametrize(
    ("line", "keys"),
    [
        ("DK cotton yarn in sand", ["sand"]),
        ("DK cotton in sand, navy and off-white", ["sand", "navy", "off-white"]),
        ("cotton red + white", ["red", "white"]),
        ("light grey worsted yarn", ["light grey"]),
        ("Yarn A: moss cotton", ["moss"]),
        ("Colour A: kelp", ["kelp"]),
        ("worsted weight yarn", ["main"]),
    ],
)
def test_yarns_go_by_their_colours(line: str, keys: list[str]) -> None:
    assert yarns(listed(line)) == keys


def test_a_yarn_with_everything() -> None:
    found = pattern(
        "You will need\nYarn: DK cotton in sand (50g/125m), 2 balls\nHook: 3 mm\n"
        "Gauge: 23 sts x 25 rounds = 10 cm"
    )
    (yarn,) = found.yarns
    assert _yarn(yarn) == ("sand", "cotton", 3, 50.0, 125.0, 2, 3.0, 23.0)
    assert found.pieces[0].yarn and found.pieces[0].yarn.value == "sand"


def _yarn(yarn: Yarn) -> tuple[object, ...]:
    assert yarn.fibre and yarn.weight and yarn.ball and yarn.balls and yarn.hook and yarn.gauge
    return (
        yarn.key,
        yarn.fibre.value,
        yarn.weight.value,
        yarn.ball.grams,
        yarn.ball.metres,
        yarn.balls.value,
        yarn.hook.value,
        yarn.gauge.stitches,
    )


@pytest.mark.parametrize(
    ("line", "weight"),
    [("4 ply", 1), ("sport weight", 2), ("DK", 3), ("double knitting", 3), ("aran", 4)],
)
def test_weights_by_their_names(line: str, weight: int) -> None:
    (yarn,) = listed(f"{line} yarn in sand").yarns
    assert yarn.weight and yarn.weight.value == weight


def test_one_line_may_list_everything() -> None:
    found = pattern("Materials: sand and navy DK cotton, 3mm hook, 8mm safety eyes, stuffing.")
    assert yarns(found) == ["sand", "navy"]
    assert [notion.item.value for notion in found.notions] == ["safety eyes", "stuffing"]


def test_letters_of_yarns_are_kept_for_the_rounds() -> None:
    found = pattern(
        "Materials\nYarn A: slate cotton\nYarn B: chalk cotton",
        "\n\nBody (yarn B)\nR1: 6 sc in magic ring (6)\nChange to A.\nR2: sc around (6)",
    )
    assert [(yarn.key, yarn.letter) for yarn in found.yarns] == [("slate", "A"), ("chalk", "B")]
    assert found.pieces[0].yarn and found.pieces[0].yarn.value == "chalk"


def test_colours_that_only_the_rounds_name_are_listed() -> None:
    found = pattern("", "Body (sand)\nR1: 6 sc in magic ring (6)\nChange to navy.\nR2: sc around")
    assert yarns(found) == ["sand", "navy"]


def test_several_hooks_are_a_question() -> None:
    found = pattern("Materials\n- 3 mm hook\n- 2.5 mm hook for the fins")
    assert [yarn.hook.value for yarn in found.yarns if yarn.hook] == [3.0]
    assert any("2.5 mm" in question.value for question in found.open)


@pytest.mark.parametrize(
    "line",
    [
        "I bought this yarn at a lovely little shop near the harbour last year.",
        "Yarn is expensive!",
        "My hook was a present.",
        "The gauge does not matter.",
    ],
)
def test_talk_is_no_material(line: str) -> None:
    found = pattern(f"Some words.\n\n{line}")
    assert (found.yarns, found.notions) == ((), ())
