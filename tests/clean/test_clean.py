"""Whole patterns without a fault: whatever says something of one of them is wrong about it.

They are of many constructions, in both terms, in one to six yarns, as their designers would write
them, and all invented. Those in `tests/clean-soon/` are as clean, and are not worked rightly yet:
each moves here once nothing is said of it any more.
"""

from __future__ import annotations

import importlib.util
import shutil
import sys
from collections import Counter
from functools import cache
from itertools import combinations
from pathlib import Path
from types import ModuleType

import pytest
from PIL import Image, ImageChops, ImageStat

from clean.constructions import CONSTRUCTIONS, constructions, height, pieces, signature
from conftest import roundproof
from roundproof.measure.model import Verdict
from roundproof.pattern.model import Status, Terms
from roundproof.pipeline import prove
from roundproof.proof import Proof

HERE = Path(__file__).parent
SLUGS = sorted(path.parent.name for path in HERE.glob("*/pattern.yaml"))
LONG = 60
"""Rounds from which a piece or an object counts as long."""


@cache
def proof_of(slug: str) -> Proof:
    (result,) = prove(HERE / slug).files
    assert result.proof is not None
    return result.proof


def counts(proof: Proof) -> list[tuple[str, int, int | None, int | None]]:
    """Piece, rounds, stitches used and made, of every line of work."""
    lines = ((p.piece.key, worked) for p in pieces(proof) for worked in p.rounds)
    return [(key, worked.rounds, worked.used, worked.made) for key, worked in lines]


def long_pieces(slug: str) -> list[str]:
    return [p.piece.key for p in pieces(proof_of(slug)) if height(p) > LONG]


# ---- nothing is said of any of them ----
@pytest.mark.parametrize("slug", SLUGS)
def test_a_clean_pattern_has_no_finding_at_all(slug: str) -> None:
    found = prove(HERE / slug).findings
    assert [(f.check, f.span.text, f.message) for f in found] == []


@pytest.mark.parametrize("slug", SLUGS)
def test_it_is_published_and_every_round_states_what_it_makes(slug: str) -> None:
    proof = proof_of(slug)
    assert proof.pattern.status is Status.PUBLISHED
    assert not proof.pattern.accept
    for piece in pieces(proof):
        assert piece.rounds
        for worked in piece.rounds:
            assert worked.stated == worked.made, (piece.piece.key, worked.label)


def test_in_house_style_they_are_as_clean_and_come_to_the_same(tmp_path: Path) -> None:
    room = tmp_path / "clean"
    shutil.copytree(HERE, room, ignore=shutil.ignore_patterns("*.py", "__pycache__"))
    done = roundproof("tidy", room)
    assert done.returncode == 0, done.stdout + done.stderr
    results = prove(room)
    assert [(f.check, f.message) for f in results.findings] == []
    assert any(p.read_bytes() != (HERE / p.relative_to(room)).read_bytes()
               for p in room.glob("*/pattern.yaml"))  # fmt: skip
    for result in results.files:
        assert result.proof is not None
        before = proof_of(result.proof.pattern.slug)
        assert counts(result.proof) == counts(before), result.name


# ---- they are many and unlike ----
def test_there_are_enough_of_them() -> None:
    assert len(SLUGS) >= 40
    assert not {p.parent.name for p in (HERE.parents[1] / "patterns").glob("*/pattern.yaml")} & set(
        SLUGS
    )


def test_five_have_one_piece_of_more_than_sixty_rounds() -> None:
    assert sum(bool(long_pieces(slug)) for slug in SLUGS) >= 5
    totals = (sum(map(height, pieces(proof_of(slug)))) for slug in SLUGS)
    assert sum(total > LONG for total in totals) >= 6


def test_no_two_are_alike_in_construction_terms_yarns_and_joins() -> None:
    for one, two in combinations(SLUGS, 2):
        assert signature(proof_of(one)) != signature(proof_of(two)), (one, two)


def test_they_are_in_both_terms_in_one_to_six_yarns_and_joined_in_every_way() -> None:
    proofs = [proof_of(slug) for slug in SLUGS]
    terms = Counter(proof.pattern.written_in for proof in proofs)
    assert min(terms[Terms.US], terms[Terms.UK]) >= len(SLUGS) // 3
    assert {len(proof.pattern.yarns) for proof in proofs} == {1, 2, 3, 4, 5, 6}


@pytest.mark.parametrize("name", CONSTRUCTIONS)
def test_every_construction_is_met(name: str) -> None:
    assert any(name in constructions(proof_of(slug)) for slug in SLUGS)


# ---- what they come to is plausible ----
@pytest.mark.parametrize("slug", SLUGS)
def test_every_join_fits(slug: str) -> None:
    for fit in proof_of(slug).measures.fits:
        assert fit.verdict is Verdict.FITS, (fit.edges[0].text, fit.edges[1].text, fit.mismatch)


@pytest.mark.parametrize("slug", SLUGS)
def test_every_yarn_worked_with_is_one_ball_or_two(slug: str) -> None:
    needs = proof_of(slug).measures.yarns.values()
    assert needs
    for need in needs:
        assert need.metres is not None and 0 < need.metres < 250, need.yarn
        assert need.balls in (1, 2), need.yarn


STATED: dict[str, tuple[tuple[str, str, str], ...]] = {
    # slug: (dimension as stated, piece, figure it agrees with)
    "acorn-barnacles": (("width", "stone", "diameter"), ("height", "stone", "height")),
    "bath-sponge": (("width", "side", "diameter"),),
    "beadlet-anemone": (("width", "column", "diameter"), ("height", "column", "height")),
    "bootlace-worm": (("length", "worm", "height"),),
    "brain-coral": (("width", "dome", "diameter"), ("height", "dome", "height")),
    "cuttlefish": (("width", "mantle", "diameter"), ("length", "mantle", "length")),
    "driftwood": (
        ("length", "log", "height"),
        ("width", "log", "diameter"),
        ("around", "log", "edge"),
    ),
    "fan-worm": (("width", "tube", "diameter"), ("height", "tube", "height")),
    "goose-barnacles": (("width", "float", "diameter"), ("height", "float", "height")),
    "grey-seal": (("width", "body", "diameter"), ("length", "body", "height")),
    "hermit-crab": (("width", "shell", "diameter"), ("height", "shell", "height")),
    "herring-gull": (("width", "body", "diameter"), ("height", "body", "height")),
    "limpet": (("width", "cone", "diameter"), ("height", "cone", "height")),
    "lugworm": (("width", "worm", "diameter"), ("length", "worm", "height")),
    "mussel": (("width", "outer valve", "diameter"), ("length", "outer valve", "length")),
    "pencil-urchin": (("width", "ball", "diameter"), ("height", "ball", "height")),
    "pipefish": (("width", "body", "diameter"), ("length", "body", "height")),
    "razor-shell": (("length", "shell", "diameter"),),
    "sand-dollar": (("width", "top", "diameter"),),
    "scallop": (("length", "upper valve", "height"), ("width", "upper valve", "diameter")),
    "sea-cucumber": (("width", "body", "diameter"), ("length", "body", "height")),
    "sea-lettuce": (("width", "cobble", "diameter"), ("height", "cobble", "height")),
    "sea-slug": (("width", "mantle", "diameter"), ("length", "mantle", "length")),
    "staghorn-coral": (("width", "hand", "diameter"), ("height", "hand", "height")),
    "tube-sponge": (("width", "mat", "diameter"), ("height", "tube", "height")),
    "turret-shell": (("width", "spire", "diameter"), ("height", "spire", "height")),
}
"""Sizes that one piece alone decides. The purse is folded, the starfish and the kelp are as long as
several pieces together."""


@pytest.mark.parametrize("slug", STATED)
def test_the_size_it_states_is_the_size_it_comes_to(slug: str) -> None:
    proof = proof_of(slug)
    for dimension, piece, figure in STATED[slug]:
        stated = getattr(proof.pattern.size, dimension).value
        measured = getattr(proof.measures.pieces[piece], f"{figure}_mm")
        assert measured == pytest.approx(stated, rel=0.03), (dimension, piece)


# ---- their pictures ----
def _drawing() -> ModuleType:
    spec = importlib.util.spec_from_file_location("draw_outlines", HERE / "draw_outlines.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("slug", SLUGS)
def test_a_picture_is_said_to_be_a_drawing_and_drawn_from_the_rounds(slug: str) -> None:
    (photo,) = proof_of(slug).pattern.photos
    assert photo.alt is not None and photo.alt.value.startswith("Drawing, no photo")
    drawing = _drawing()
    # Not byte for byte: how lines are drawn may change with the imaging library.
    with Image.open(drawing.file_of(slug)) as kept:
        apart = ImageChops.difference(kept.convert("RGB"), drawing.picture(slug).convert("RGB"))
    assert max(ImageStat.Stat(apart).mean) < 1, "run `python tests/clean/draw_outlines.py`"
