"""What the patterns of a collection share is merged in, one level deep, with its own places."""

from __future__ import annotations

from pathlib import Path

import pytest

from loading import BODY, COMPLETE, findings, loaded, missed
from roundproof.pattern.load import Defaults, load_defaults

SHARED = """\
designer: Roundproof examples
contact: https://example.org/errata
terms: UK
notions: [tapestry needle]
yarns:
  white:
    colour: {name: shell white, shade: "#efe9dc"}
    fibre: 100 % cotton
    weight: 1
    ball: 50 g / 170 m
    hook: 2.5 mm
    gauge: 25 sts x 25 rounds = 10 cm
  black: {like: white, colour: black}
"""


@pytest.fixture
def shared(tmp_path: Path) -> Defaults:
    defaults, found = defaults_of(tmp_path, SHARED)
    assert found == []
    assert defaults is not None
    return defaults


def defaults_of(folder: Path, text: str) -> tuple[Defaults | None, list[str]]:
    path = folder / "defaults.yaml"
    path.write_text(text, encoding="utf-8")
    defaults, found = load_defaults(path, "patterns/defaults.yaml")
    return defaults, [finding.check for finding in found]


def test_what_a_pattern_does_not_say_comes_from_the_defaults(shared: Defaults) -> None:
    pattern = loaded(f"terms: US\n{BODY}", shared)
    assert pattern.designer is not None and pattern.terms is not None
    assert pattern.designer.value == "Roundproof examples"
    assert pattern.terms.value == "US"
    assert pattern.terms.span.source is pattern.source


def test_a_shared_value_has_its_place_in_the_defaults(shared: Defaults) -> None:
    contact = loaded(BODY, shared).contact
    assert contact is not None
    assert contact.span.source.name == "patterns/defaults.yaml"
    assert contact.span.begins == (2, 10)


def test_groups_come_together_one_level_deep(shared: Defaults) -> None:
    own = "yarns:\n  slate: {weight: 3}\n  black: {colour: {name: coal}}\n"
    pattern = loaded(f"{own}{BODY}", shared)
    assert [(y.key, y.shared) for y in pattern.yarns] == [
        ("slate", False),
        ("black", False),
        ("white", True),
    ]
    assert pattern.yarns[1].fibre is None


def test_the_patterns_own_yarns_have_the_first_letters(shared: Defaults) -> None:
    pattern = loaded(f"yarns:\n  slate: {{}}\n{BODY}", shared)
    assert [y.letter for y in pattern.yarns] == ["A", "B", "C"]


def test_a_yarn_may_be_like_a_shared_one(shared: Defaults) -> None:
    slate = loaded(f"yarns:\n  slate: {{like: white}}\n{BODY}", shared).yarn("slate")
    assert slate is not None and slate.hook is not None
    assert slate.hook.value == pytest.approx(2.5)


def test_lists_are_taken_whole_or_not_at_all(shared: Defaults) -> None:
    assert [n.item.value for n in loaded(BODY, shared).notions] == ["tapestry needle"]
    own = loaded(f"notions: [pins]\n{BODY}", shared).notions
    assert [n.item.value for n in own] == ["pins"]


def test_a_shared_yarn_that_goes_unused_misses_nothing(tmp_path: Path) -> None:
    bare, _ = defaults_of(tmp_path, "yarns:\n  moss: {}\n")
    assert missed(COMPLETE, bare) == []
    used = COMPLETE.replace("R2: inc", "Change to moss.\n      R2: inc")
    messages = [f.message for f in missed(used, bare)]
    assert "Yarn `moss` does not say its `hook`." in messages


def test_what_is_wrong_in_the_defaults_is_said_with_them_alone(tmp_path: Path) -> None:
    text = "licens: x\nyarns:\n  white: {hook: 3}\n  black: {like: whit}\n"
    defaults, found = defaults_of(tmp_path, text)
    assert sorted(found) == ["key-unknown", "unit-missing", "value-unknown"]
    assert findings(f"terms: US\n{BODY}", defaults) == []


def test_a_key_of_one_pattern_alone_has_no_place_there(tmp_path: Path) -> None:
    defaults, found = defaults_of(tmp_path, "title: Pebble\nlicence: CC-BY-4.0\n")
    assert found == ["key-unknown"]
    assert loaded(BODY, defaults).title is None


def test_no_defaults_are_no_fault(tmp_path: Path) -> None:
    assert load_defaults(tmp_path / "defaults.yaml", "defaults.yaml") == (None, ())


@pytest.mark.parametrize("text", ["", "a: [", "- a\n", "title: a: b\n"])
def test_defaults_that_cannot_be_used_are_reported(tmp_path: Path, text: str) -> None:
    assert defaults_of(tmp_path, text) == (None, ["file-unusable"])


def test_a_pace_may_be_shared_and_the_pattern_wins(tmp_path: Path) -> None:
    shared, found = defaults_of(tmp_path, "pace: 15 sts a minute\n")
    assert found == []
    (of_all, own) = (
        loaded(BODY, shared).pace,
        loaded(f"pace: 9 sts a minute\n{BODY}", shared).pace,
    )
    assert of_all is not None and own is not None
    assert (of_all.value, own.value) == (15, 9)
    assert of_all.span.source.name == "patterns/defaults.yaml"


def test_what_is_wrong_with_a_pace_is_said_with_an_example() -> None:
    (found,) = findings(f"pace: 99 sts a minute\n{BODY}")
    assert "`pace` should be stitches a minute, and this is `99 sts a minute`" in found.message
    assert found.mend == "Write it like this: `pace: 15 sts a minute`."
