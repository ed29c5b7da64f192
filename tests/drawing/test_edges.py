import pytest

from drawing.every_sheet import SLUGS, proof, proof_in
from drawing.test_placement import hold, written
from rendering import proof_of
from roundproof.drawing.joining.pair import pairs
from roundproof.drawing.joining.sheet import LONG, edge_sheets
from roundproof.drawing.looks import looks
from roundproof.drawing.shapes import Path, Rect
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.drawing.svg import write_file
from roundproof.measure.spacing import partner

# 18 stitches at 23 to 10 cm and 20 at 24.7 to 10 cm.
SHELL = """
terms: US
yarns:
  ivory:
    gauge: {ivory} sts x 25 rounds = 10 cm
  glass:
    gauge: 23 sts x 25 rounds = 10 cm
pieces:
  upper:
    yarn: glass
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: (sc, inc) x 6 (18)
  underside:
    yarn: ivory
    rounds: |
      R1: 5 sc in magic ring (5)
      R2: inc x 5 (10)
      R3: inc x 10 (20)
assembly:
  - join: {{edge: upper, to: underside, by: {by}{more}}}
"""


def shell(ivory: float = 25.6, by: str = "whipstitch", more: str = "") -> str:
    return SHELL.format(ivory=ivory, by=by, more=more)


def one(text: str) -> Sheet:
    (sheet,) = edge_sheets(proof_of(text))
    return sheet


def strips(sheet: Sheet) -> list[Rect]:
    return [s for s in sheet.drawing.shapes if isinstance(s, Rect) and s.css == "edge"]


def classes(sheet: Sheet) -> set[str]:
    return {shape.css for shape in sheet.drawing.shapes if isinstance(shape, Path)}


def test_the_words_are_good_enough_to_work_from() -> None:
    sheet = one(shell())
    assert (sheet.kind, sheet.piece, sheet.part) == (Kind.EDGES, "upper", "1")
    assert [line.replace("\u00a0", " ") for line in sheet.words] == [
        "Edge of Upper: 18 stitches, 7.8 cm (3.1 in).",
        "Edge of Underside: 20 stitches, 7.8 cm (3.1 in).",
        "They fit: 0.2 % apart.",
        "Two of Underside go into stitches 5 and 14 of Upper, one into every other.",
    ]


def test_each_strip_is_as_long_as_its_own_gauge_makes_it() -> None:
    for ivory in (20, 24, 25.6, 27):
        upper, lower = strips(one(shell(ivory)))
        lengths = 18 * 100 / 23, 20 * 100 / ivory
        assert float(str(upper.width)) / float(str(lower.width)) == pytest.approx(
            lengths[0] / lengths[1]
        )
        assert max(float(str(upper.width)), float(str(lower.width))) == pytest.approx(LONG)


def test_every_stitch_of_the_edge_with_more_goes_to_its_partner() -> None:
    sheet = one(shell())
    upper, lower = strips(sheet)
    ends = set()
    for path in sheet.drawing.shapes:
        if not isinstance(path, Path) or path.css not in ("line", "faint"):
            continue
        for (_, x, y), (_, x2, y2) in zip(path.steps[::2], path.steps[1::2], strict=True):
            if float(y) == float(str(upper.y)) + float(str(upper.height)) and y2 == lower.y:
                share = (float(x) + LONG / 2) / float(str(upper.width)) * 18
                other = (float(x2) + LONG / 2) / float(str(lower.width)) * 20
                ends.add((round(share + 0.5, 6), round(other + 0.5, 6)))
    assert ends == {(partner(cell, 20, 18), cell) for cell in range(1, 21)}


def test_what_is_longer_is_hatched_and_the_count_is_told_that_would_fit() -> None:
    sheet = one(shell(20))
    assert "hatch" in classes(sheet)
    assert sheet.words[2] == "Underside is 28 % longer: they do not fit."
    assert sheet.words[-1] == "Would fit: 23 on Upper or 16 on Underside, with the other unchanged."
    assert "hatch" not in classes(one(shell()))


def test_an_edge_that_is_gathered_is_not_hatched() -> None:
    sheet = one(shell(15, more=", ease: gathered"))
    assert "hatch" not in classes(sheet)
    assert "gathered, 1.7 to 1" in sheet.words[2]


def test_edges_that_are_folded_lie_in_pairs() -> None:
    (sheet,) = (s for s in edge_sheets(proof("shore-crab")) if s.piece == "claw")
    assert sheet.words[0].startswith("Edge of Claw: 8 stitches, folded flat 4 pairs")
    assert sheet.words[-1] == "They meet pair for stitch."
    assert abs(float(str(strips(sheet)[0].width)) - float(str(strips(sheet)[1].width))) < 1e-6


def test_round_a_place_the_corners_are_shown() -> None:
    (sheet,) = (s for s in edge_sheets(proof("cuttlefish")) if s.piece == "head")
    assert {"9 sts", "3 rounds"} <= set(written(sheet))
    (pair,) = (p for p in pairs(proof("cuttlefish")) if p.fit.edges[0].piece == "head")
    assert pair.corners and not pair.matched
    mm = [section.long for section in pair.strips[1].sections]
    assert mm == pytest.approx([36, 12, 36, 12])  # 25 stitches and 25 rounds to 10 cm


def test_a_knot_has_no_diagram_and_glue_no_lines() -> None:
    assert edge_sheets(proof_of(shell(by="knot"))) == ()
    assert "stitches go together" not in one(shell(by="glue")).caption
    assert "stitches go together" in one(shell()).caption


def test_without_a_gauge_unlike_yarns_have_no_diagram() -> None:
    bare = "\n".join(line for line in shell().splitlines() if "gauge" not in line)
    bare = bare.replace("  ivory:", "  ivory: {letter: A}").replace(
        "  glass:", "  glass: {letter: B}"
    )
    assert edge_sheets(proof_of(bare)) == ()
    alike = bare.replace("yarn: ivory", "yarn: glass")
    assert "by the counts" in one(alike).caption  # stitches of one yarn are equally wide


@pytest.mark.parametrize("slug", SLUGS)
def test_no_two_labels_lie_on_one_another(slug: str) -> None:
    for sheet in edge_sheets(proof(slug)):
        hold(sheet)


def test_the_same_pattern_gives_the_same_bytes() -> None:
    a, b = (
        [write_file(s.drawing, looks({})) for s in edge_sheets(proof_in("shore-crab"))]
        for _ in range(2)
    )
    assert a == b


def test_hostile_names_and_vast_counts() -> None:
    vast = (
        shell()
        .replace("inc x 10 (20)", "900000 sc in each st (9000000)")
        .replace("(sc, inc) x 6 (18)", "800000 sc in each st (9600000)")
    )
    vast = vast.replace("  upper:\n", "  upper:\n    name: '</text><script>x</script>'\n")
    for sheet in edge_sheets(proof_of(vast)):
        hold(sheet)
        svg = write_file(sheet.drawing, looks({}))
        assert len(svg) < 40_000 and "<script" not in svg
