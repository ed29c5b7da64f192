"""The drawings of a pattern as files beside its page."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest

from proving import proved
from roundproof.drawing.sheets import Sheets
from roundproof.pages.drawn import drawings, drawings_within, named
from roundproof.pages.pattern_folder import With, pattern_folder
from roundproof.pipeline import prove
from roundproof.proof import Proof

ROOT = Path(__file__).parents[2]
PATTERNS = sorted(ROOT.glob("patterns/*"))

TWO = """terms: US
pieces:
  claw: |
    6 sc in magic ring
  cläw: |
    8 sc in magic ring
  鋏: |
    7 sc in magic ring
"""


def proof_of(text: str) -> Proof:
    proof, _ = proved(text)
    assert proof is not None
    return proof


@pytest.mark.parametrize("folder", PATTERNS, ids=lambda p: p.name)
def test_every_drawing_on_a_page_is_a_file_for_each_hand(folder: Path) -> None:
    proof = prove(str(folder)).files[0].proof
    assert proof is not None
    made = drawings(Sheets(proof))
    shown = [one for each in (*made.pieces.values(), made.assembly) for one in each]
    assert {key for key, each in made.pieces.items() if any(d.kind == "chart" for d in each)} == {
        *proof.fabric.pieces
    }
    assert {src for one in shown for src in (one.src, one.left) if src} == {*made.files}
    for text in made.files.values():
        root = ElementTree.fromstring(text)
        assert root.get("width") and root.get("viewBox")
    for one in shown:
        assert one.title and one.caption and one.width > 0 and one.height > 0


def test_files_of_pieces_of_like_names_are_told_apart() -> None:
    proof = proof_of(TWO)
    names = [*named(proof, Sheets(proof).of())]
    assert len(names) == len(set(names)) >= 3
    assert all(name.isascii() and name.endswith(".svg") for name in names)


def test_a_page_that_is_one_file_has_them_within() -> None:
    proof = proof_of(TWO)
    made = drawings_within(proof)
    assert not made.files
    for each in made.pieces.values():
        assert all(one.src.startswith("data:image/svg+xml;base64,") for one in each)


def test_a_pattern_whose_rounds_are_sold_has_none(tmp_path: Path) -> None:
    """Nothing that a round could be counted in."""
    for show, there in (("full", True), ("preview", False)):
        folder = tmp_path / show
        folder.mkdir()
        text = f"show: {show}\ntitle: Pebble\n{TWO}"
        (folder / "pattern.yaml").write_text(text, "utf-8")
        made = pattern_folder(prove(str(folder)).files[0], With(preview=True))
        assert made is not None
        assert any("/chart-" in file.address for file in made.files) is there


def test_the_folder_of_a_pattern_holds_its_charts() -> None:
    made = pattern_folder(prove(str(ROOT / "patterns/shore-crab")).files[0], With())
    assert made is not None
    addresses = {file.address for file in made.files}
    assert "patterns/shore-crab/chart-body.svg" in addresses
    assert "patterns/shore-crab/chart-body-left.svg" in addresses
