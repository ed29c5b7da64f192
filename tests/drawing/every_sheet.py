"""The sheets of all whole patterns there are: those of the collection and the clean ones."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

from roundproof.drawing.sheet import Sheet
from roundproof.pipeline import prove
from roundproof.proof import Proof

ROOT = Path(__file__).parents[2]
FOLDERS = sorted(
    path.parent
    for where in ("patterns", "tests/clean")
    for path in (ROOT / where).glob("*/pattern.yaml")
)
SLUGS = [folder.name for folder in FOLDERS]


def proof_in(slug: str) -> Proof:
    """Proved anew each time."""
    (folder,) = (folder for folder in FOLDERS if folder.name == slug)
    (result,) = prove(folder).files
    assert result.proof is not None
    return result.proof


@cache
def proof(slug: str) -> Proof:
    return proof_in(slug)


def sheets(draw: Callable[..., tuple[Sheet, ...]], slug: str) -> tuple[Sheet, ...]:
    """For either hand."""
    return (*draw(proof(slug)), *draw(proof(slug), mirrored=True))
