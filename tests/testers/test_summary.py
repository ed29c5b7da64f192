"""Reports summed up: figures against the standard library, corrections, what to publish."""

from __future__ import annotations

import statistics
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reporting import HEAD, folder_of, proof, report, reports, summary
from roundproof.testers import figures
from roundproof.testers.corrections import Advice, corrections
from roundproof.testers.model import Kind, Reports
from roundproof.testers.progress import progress
from roundproof.testers.summary import Compared, Summary


def told(tester: int, text: str, version: str = "1.1.1") -> str:
    return f"pattern: planted\nversion: {version}\ntester: '{tester}'\n{text}\n"


def used(tester: int, before: str, after: str, ball: str = "50 g / 125 m", **more: str) -> str:
    yarns = f"yarns: {{slate: {{ball: {ball}, before: {before}, after: {after}}}}}"
    return told(tester, yarns, **more)


# ---- figures ----
@given(st.lists(st.floats(0, 1000), min_size=1, max_size=9))
def test_least_median_and_most_are_those_of_the_standard_library(grams: list[float]) -> None:
    # Python's module statistics: the median of an even number is the mean of the middle two
    many = tuple(report(HEAD) for _ in grams)
    values = iter(grams)
    found = figures.of(many, lambda _: next(values))
    assert found is not None
    assert (found.low, found.high) == (min(grams), max(grams))
    assert found.middle == pytest.approx(statistics.median(grams))


def test_nothing_has_no_spread() -> None:
    assert figures.of((report(HEAD),), lambda _: None) is None


def test_metres_go_by_the_testers_own_ball() -> None:
    # grams used x (metres a ball / grams a ball) = metres (sassandstitch.com, yardage;
    # franciscangypsydesigns.com, 2015): 20 g of a ball of 100 g in 210 m are 42 m
    found = report(used(1, "100 g", "80 g", "100 g / 210 m"))
    assert found.yarns["slate"].metres == pytest.approx(42)
    # the same said in ounces and yards: 1 oz = 28.349523125 g, 1 yd = 0.9144 m (1959)
    other = report(used(1, "1 oz", "0 oz", "2 oz / 100 yd"))
    assert other.yarns["slate"].grams == pytest.approx(28.349523125)
    assert other.yarns["slate"].metres == pytest.approx(50 * 0.9144)


def test_one_tester_who_reports_twice_is_one() -> None:
    both = Reports((report(used(1, "50 g", "48 g")), report(used(1, "50 g", "47 g"))))
    tested = figures.tested(both)
    assert tested is not None
    assert (tested.grams["slate"].count, tested.grams["slate"].high) == (1, 3)


def test_figures_of_a_stale_version_are_left_out(tmp_path: Path) -> None:
    folder = folder_of(
        tmp_path,
        a=used(1, "50 g", "48 g"),
        b=used(2, "50 g", "47 g", version="1.1.0"),
        c=used(3, "50 g", "10 g", version="1.0.0"),
        d=used(4, "50 g", "10 g", version="7.0.0"),
    )
    found = summary(folder)
    (amount,) = found.amounts
    assert amount.grams is not None
    assert (amount.grams.low, amount.grams.high, amount.grams.count) == (2, 3, 2)
    assert len(found.reports.reports) == 4 and len(found.reports.holding) == 2


def test_the_higher_of_testers_and_estimate_is_published_rounded_up(tmp_path: Path) -> None:
    need = proof().measures.yarns["slate"]
    assert need.grams is not None and need.metres is not None and 1 < need.grams < 4
    (low,) = summary(folder_of(tmp_path / "low", a=used(1, "50 g", "49.9 g"))).amounts
    assert not low.by_testers
    assert low.publish_grams is not None and 0 <= low.publish_grams - need.grams < 1
    (high,) = summary(folder_of(tmp_path / "high", a=used(1, "90 g", "29.9 g"))).amounts
    # 60.1 g x 125 m / 50 g = 150.25 m, in balls of 125 m two
    assert high.by_testers
    assert (high.publish_grams, high.publish_metres, high.publish_balls) == (61, 151, 2)


def by_name(found: Summary) -> dict[str, Compared]:
    return {each.name: each for each in (*found.gauge, *found.sizes, *found.times)}


def test_gauge_size_time_and_filling_stand_beside_the_patterns(tmp_path: Path) -> None:
    one = (
        "gauge: {slate: {stitches: 11, rounds: 12, over: 2 in}}\nstuffing: 2 g\n"
        "size: {height: 21 mm}\ntime: {crochet: 30 min, assembly: 10 min}\n"
    )
    other = (
        "gauge: {slate: {stitches: 23, rounds: 25, over: 10 cm}}\nstuffing: 1 g\n"
        "size: {height: 1 in}\ntime: {crochet: 1 h}\n"
    )
    found = summary(folder_of(tmp_path, a=told(1, one), b=told(2, other)))
    named = by_name(found)
    gauge = named["slate stitches"]
    assert gauge.found.low == pytest.approx(11 * 100 / 50.8) and gauge.found.high == 23
    assert gauge.ours == (23,)
    assert (named["height"].found.high, named["height"].ours) == (25.4, (20,))
    assert named["crochet"].found.middle == 0.75
    hours = proof().measures.hours
    assert named["whole"].found.count == 1 and named["whole"].ours == hours
    assert named["whole"].found.middle == pytest.approx(40 / 60)
    assert found.stuffing is not None and found.stuffing.found.middle == 1.5


def test_only_totals_that_differ_are_told(tmp_path: Path) -> None:
    found = summary(folder_of(tmp_path, a=told(1, "stitches: {upper: 90, under: 35}")))
    # under: 6 + 12 + 18 stitches
    assert [(t.tester, t.piece, t.said, t.made) for t in found.totals] == [("1", "under", 35, 36)]


def test_answers_are_counted(tmp_path: Path) -> None:
    found = summary(
        folder_of(
            tmp_path, a=told(1, "gauge_met: yes"), b=told(2, "gauge_met: no\ndifficulty: as said"),
            c=told(3, "gauge_met: yes"),
        )
    )  # fmt: skip
    assert found.answers["gauge_met"] == {"yes": 2, "no": 1}
    assert found.answers["difficulty"] == {"as said": 1}


# ---- corrections ----
def said(tester: int, label: str, kind: str, version: str = "1.1.1") -> str:
    return told(tester, f"rounds: {{upper: {{{label}: {{kind: {kind}, read: x}}}}}}", version)


def test_the_gravest_stands_first_then_what_more_stumble_on(tmp_path: Path) -> None:
    kinds = ["remark", "suggestion", "typing slip", "unclear", "cannot go on", "wrong count"]
    rounds = ", ".join(
        f"{label}: {{kind: {kind}, read: x}}"
        for label, kind in zip(("R1", "R2", "R3", "R4"), kinds[2:], strict=True)
    )
    a = told(1, f"rounds: {{upper: {{{rounds}}}, under: {{R1: Fine.}}}}")
    b = told(2, "rounds: {upper: {R2: {kind: unclear, read: y}}, under: {R2: {kind: unclear}}}")
    found = corrections(reports(folder_of(tmp_path, a=a, b=b)))
    # wrong count > cannot go on > unclear (two testers, then one) > typing slip > remark
    assert [each.place.words for each in found] == [
        "upper R4-R6", "upper R3", "upper R2", "under R2", "upper R1", "under R1",
    ]  # fmt: skip
    assert [each.gravest for each in found] == [
        Kind.WRONG_COUNT, Kind.CANNOT_GO_ON, Kind.UNCLEAR, Kind.UNCLEAR, Kind.TYPING_SLIP,
        Kind.REMARK,
    ]  # fmt: skip


def test_two_who_stumble_mean_rewrite_and_one_means_judge(tmp_path: Path) -> None:
    folder = folder_of(
        tmp_path,
        a=said(1, "R4", "unclear"), b=said(2, "R6", "typing slip"), c=said(3, "R2", "unclear"),
        d=said(4, "R2", "suggestion"), e=said(5, "R1", "remark"),
    )  # fmt: skip
    found = {each.place.words: each for each in corrections(reports(folder))}
    assert found["upper R4-R6"].advice is Advice.REWRITE
    assert found["upper R4-R6"].stumbled == ("1", "2")
    assert found["upper R2"].advice is Advice.JUDGE and len(found["upper R2"].written) == 2
    assert found["upper R1"].advice is Advice.READ


def test_one_tester_who_says_it_twice_stumbled_once(tmp_path: Path) -> None:
    folder = folder_of(tmp_path, a=said(1, "R2", "unclear"), b=said(1, "R2", "unclear"))
    assert corrections(reports(folder))[0].stumbled == ("1",)


def test_what_has_no_decision_is_open_and_a_remark_wants_none(tmp_path: Path) -> None:
    folder = folder_of(
        tmp_path,
        a=said(1, "R2", "unclear"), b=said(2, "R3", "suggestion"), c=said(3, "R1", "remark"),
        decisions="upper R3: {decision: declined, because: Taste.}",
    )  # fmt: skip
    found = {each.place.words: each.open for each in corrections(reports(folder))}
    assert found == {"upper R2": True, "upper R3": False, "upper R1": False}
    assert summary(folder).open == 1


@pytest.mark.parametrize(("version", "again"), [("1.1.0", ()), ("1.1.1", ("1",))])
def test_a_place_is_open_again_where_somebody_stumbles_once_it_was_mended(
    tmp_path: Path, version: str, again: tuple[str, ...]
) -> None:
    decided = "upper R2: {decision: accepted, in: 1.1.1}"
    folder = folder_of(tmp_path, a=said(1, "R2", "unclear", version), decisions=decided)
    (found,) = corrections(reports(folder))
    assert (found.again, found.open) == (again, bool(again))


def test_what_is_said_of_another_pattern_is_no_correction_of_this_one(tmp_path: Path) -> None:
    text = said(1, "R2", "wrong count").replace("planted", "limpet")
    found = reports(folder_of(tmp_path, a=text))
    assert corrections(found) == () and len(found.reports) == 1 and found.findings


def test_progress_is_numbers_alone(tmp_path: Path) -> None:
    folder = folder_of(
        tmp_path, a=said(1, "R2", "unclear"), b=said(2, "R2", "unclear", "1.0.0"), c="stuffing: 1 g"
    )
    found = progress(reports(folder))
    assert (found.reports, found.holding, found.open, found.errors) == (3, 1, 1, 2)
