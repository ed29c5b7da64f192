from roundproof.drawing.placing.clearing import cleared
from roundproof.drawing.shapes import Box, Line, Path

ACROSS = (("M", 0.0, 0.0), ("L", 100.0, 0.0))


def test_a_hairline_leaves_out_what_words_cover() -> None:
    (path,) = cleared([Path(ACROSS, "faint")], [Box(40, -5, 10, 10), Box(45, -5, 15, 10)])
    assert isinstance(path, Path)
    assert path.steps == (("M", 0, 0), ("L", 40, 0), ("M", 60, 0), ("L", 100, 0))


def test_words_beside_it_and_firm_lines_change_nothing() -> None:
    given = [Path(ACROSS, "faint"), Path(ACROSS, "edge"), Line(0, 0, 9, 9, "faint")]
    beside = [Box(40, 1, 10, 10)]
    assert list(cleared(given, beside)) == given
    assert list(cleared(given[1:], [Box(0, -5, 100, 10)])) == given[1:]


def test_a_slanting_line_is_cut_where_it_enters_and_leaves() -> None:
    slant = Path((("M", 0.0, 0.0), ("L", 10.0, 10.0), ("L", 20.0, 10.0)), "dashed")
    (path,) = cleared([slant], [Box(4, 4, 2, 2)])
    assert isinstance(path, Path)
    assert path.steps == (
        ("M", 0, 0), ("L", 4, 4), ("M", 6, 6), ("L", 10, 10), ("L", 20, 10),
    )  # fmt: skip


def test_a_line_under_words_alone_is_gone() -> None:
    assert list(cleared([Path(ACROSS, "faint")], [Box(-1, -1, 102, 2)])) == []
