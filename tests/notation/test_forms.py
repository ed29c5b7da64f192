"""The table of forms holds: every row is read, and as the same tree as its house style."""

from __future__ import annotations

import pytest

from notation.texts import read_work
from roundproof.notation.forms import FORMS, TWO_WAYS
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms


@pytest.mark.parametrize(("form", "house"), FORMS)
def test_a_form_is_read_as_its_house_style(form: str, house: str) -> None:
    assert read_work(form)[0] == read_work(house)[0]


@pytest.mark.parametrize(("form", "house"), FORMS)
def test_house_style_is_what_is_written(form: str, house: str) -> None:
    assert written(read_work(form)[0], Terms.US) == house


@pytest.mark.parametrize(("form", "house"), FORMS)
@pytest.mark.parametrize("terms", list(Terms))
def test_what_is_written_is_read_back_as_the_same_tree(form: str, house: str, terms: Terms) -> None:
    tree = read_work(form)[0]
    assert read_work(written(tree, terms), terms)[0] == tree


@pytest.mark.parametrize(("form", "one", "other"), TWO_WAYS)
def test_a_wording_with_two_meanings_is_read_both_ways(form: str, one: str, other: str) -> None:
    first, second = read_work(form)
    assert written(first, Terms.US) == one
    assert written(second, Terms.US) == other


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("(sc, inc) x 6", "(dc, inc) x 6"),
        ("3 hdc, 2 dc in next st", "3 htr, 2 tr in next st"),
        ("sc3tog, tr, dtr", "dc3tog, dtr, trtr"),
        ("sk 2, sl st, ch 3", "miss 2, ss, ch 3"),
        ("sc around, sl st in first st", "dc around, ss in first st"),
    ],
)
def test_us_and_uk_say_the_same(us: str, uk: str) -> None:
    tree = read_work(us)[0]
    assert written(tree, Terms.UK) == uk
    assert read_work(uk, Terms.UK)[0] == tree


@pytest.mark.parametrize(
    "typed",
    [
        "(SC, INC) X 6",
        "( 1 sc , 1 inc )×6",
        "(sc,inc)х6",  # a Cyrillic letter for times
        "(ѕс, inc) x 6",  # look-alike letters in a stitch name
        "[sc; inc] * 6",
        "(single crochet, increase) 6 times",
        "(1\u00a0sc, 1\u202finc) × 6",
    ],
)
def test_characters_of_every_kind_say_the_same(typed: str) -> None:
    assert read_work(typed)[0] == read_work("(sc, inc) x 6")[0]
