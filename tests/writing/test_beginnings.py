"""A new site and a new pattern hold together, and never cost anybody a file."""

from pathlib import Path

import pytest

from roundproof.checks.results import Results
from roundproof.pipeline import prove
from roundproof.writing.beginnings import SITE, InTheWay, write_pattern, write_site


def found(patterns: Path) -> Results:
    return prove(patterns)


def test_a_new_site_has_a_pattern_without_findings(tmp_path: Path) -> None:
    write_site(tmp_path / "shore", "Shore")
    assert found(tmp_path / "shore/patterns").findings == ()


def test_the_size_of_the_first_pattern_is_what_its_rounds_measure(tmp_path: Path) -> None:
    write_site(tmp_path, "Shore")
    [proof] = found(tmp_path / "patterns").proofs
    measured = proof.measures.pieces["float"]
    size = proof.pattern.size
    assert size and size.height and size.width
    assert measured.height_mm == pytest.approx(size.height.value, abs=0.5)
    assert measured.diameter_mm == pytest.approx(size.width.value, abs=0.5)


def test_every_file_of_a_new_site_is_written_and_filled_in(tmp_path: Path) -> None:
    written = write_site(tmp_path, "Tide & line")
    assert sorted(written) == sorted(tmp_path / name for name in SITE)
    for file in written:
        text = file.read_text("utf-8")
        assert "{title}" not in text and "{version}" not in text, file


@pytest.mark.parametrize("there", SITE)
def test_a_file_in_the_way_stops_a_new_site_before_anything_is_written(
    tmp_path: Path, there: str
) -> None:
    (tmp_path / there).parent.mkdir(parents=True, exist_ok=True)
    (tmp_path / there).write_text("mine")
    with pytest.raises(InTheWay, match="nothing was written"):
        write_site(tmp_path, "Shore")
    assert (tmp_path / there).read_text() == "mine"
    assert [p for p in tmp_path.rglob("*") if p.is_file()] == [tmp_path / there]


def test_a_site_goes_into_a_folder_with_other_things(tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()
    write_site(tmp_path, "Shore")
    assert (tmp_path / "mkdocs.yml").exists()


@pytest.mark.parametrize(
    "title", ["Crab", 'The "old" crab: #1', "カニ", "{x} \\ 'y'", "- [", "yes"]
)
def test_a_new_pattern_is_a_draft_without_a_mistake(tmp_path: Path, title: str) -> None:
    write_pattern(tmp_path, "crab", title)
    results = found(tmp_path)
    [proof] = results.proofs
    assert proof.pattern.title and proof.pattern.title.value == title
    unprinted = {"glyph-missing"} if title == "カニ" else set()
    assert {finding.check for finding in results.findings} == {"value-missing"} | unprinted
    assert results.exit_code() == 0


def test_a_draft_with_all_its_suggestions_taken_still_reads(tmp_path: Path) -> None:
    """What stands behind a `#` is meant to be used by taking the sign away."""
    file = write_pattern(tmp_path, "crab", "Crab")
    head, _, rest = file.read_text("utf-8").partition("format: 1")
    lines = [
        line.replace("# ", "", 1) if _is_suggestion(line) else line for line in rest.split("\n")
    ]
    file.write_text(f"{head}format: 1" + "\n".join(lines), "utf-8")
    checks = {finding.check for finding in found(tmp_path).findings}
    assert checks <= {
        "value-missing",
        "photo-missing",
        "edge-unknown",
        "material-unused",
        "size-differs",
    }


def _is_suggestion(line: str) -> bool:
    bare = line.strip()
    return bare.startswith("# ") and (":" in bare or bare.startswith("#   - "))


def test_a_pattern_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    file = write_pattern(tmp_path, "crab", "Crab")
    file.write_text("mine")
    with pytest.raises(InTheWay, match="left as it was"):
        write_pattern(tmp_path, "crab", "Crab")
    assert file.read_text() == "mine"
