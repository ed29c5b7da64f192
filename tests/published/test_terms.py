"""Stitch names against published tables.

Source of the pairs: the US/UK term table of the trade, as printed alike in three or more
independent places (yarn-trade standards booklets and teaching pages): every stitch from single
crochet up moves one name, chain and slip stitch keep theirs.
"""

from __future__ import annotations

import pytest

from notation.texts import read_work
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms
from roundproof.reference import stitch, stitches

# US abbreviation, US name, UK abbreviation, UK name
PUBLISHED = [
    ("ch", "chain", "ch", "chain"),
    ("sl st", "slip stitch", "ss", "slip stitch"),
    ("sc", "single crochet", "dc", "double crochet"),
    ("hdc", "half double crochet", "htr", "half treble crochet"),
    ("dc", "double crochet", "tr", "treble crochet"),
    ("tr", "treble crochet", "dtr", "double treble crochet"),
    ("dtr", "double treble crochet", "trtr", "triple treble crochet"),
    ("trtr", "triple treble crochet", "quadtr", "quadruple treble crochet"),
]


@pytest.mark.parametrize(("us", "us_name", "uk", "uk_name"), PUBLISHED)
def test_us_and_uk_names(us: str, us_name: str, uk: str, uk_name: str) -> None:
    kind = stitch(us)
    assert (kind.short(uk=False), kind.us_name) == (us, us_name)
    assert (kind.short(uk=True), kind.uk_name) == (uk, uk_name)


@pytest.mark.parametrize(("us", "us_name", "uk", "uk_name"), PUBLISHED[1:])
def test_a_round_written_in_either_terms_is_the_same_round(
    us: str, us_name: str, uk: str, uk_name: str
) -> None:
    tree = read_work(f"3 {us} in next 3 sts, 2 {us} in next st")[0]
    assert read_work(f"3 {uk} in next 3 sts, 2 {uk} in next st", Terms.UK)[0] == tree
    assert read_work(f"{us_name} 3, 2 {us_name} in next st")[0] == tree
    assert uk in written(tree, Terms.UK)


# Turning chains: sc 1, dc 3, tr 4 in six published tables; hdc 2 and taller ones two or more.
@pytest.mark.parametrize(
    ("us", "chains"), [("sc", 1), ("hdc", 2), ("dc", 3), ("tr", 4), ("dtr", 5), ("trtr", 6)]
)
def test_turning_chains(us: str, chains: int) -> None:
    assert stitch(us).turning == chains


# Yarn a stitch: measured strips give sc : hdc : dc = 1 : 1.48 : 1.92 (a published estimate of
# yarn by swatch strips, worsted yarn, 5 mm hook); the table rounds them.
@pytest.mark.parametrize(("us", "ratio"), [("sc", 1.0), ("hdc", 1.48), ("dc", 1.92)])
def test_relative_yarn(us: str, ratio: float) -> None:
    assert stitch(us).yarn == pytest.approx(ratio, rel=0.02)


def test_no_name_stands_for_two_stitches_in_one_set_of_terms() -> None:
    for names in ([k.us for k in stitches().values()], [k.uk for k in stitches().values()]):
        words = [word for group in names for word in group]
        assert len(words) == len(set(words))
