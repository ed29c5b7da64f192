"""`roundproof work`: how a round was worked, stitch by stitch."""

from __future__ import annotations

import argparse
import sys

from roundproof.cli.one import one_pattern
from roundproof.cli.shared import put
from roundproof.fabric.edges import find_round, unknown_piece
from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.notation.edges import read_label
from roundproof.proof import Proof
from roundproof.telling import working
from roundproof.telling.cells import clean
from roundproof.telling.paint import paint_for
from roundproof.words import say


class _Stop(Exception):
    """Why there is nothing to show, as a sentence."""


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("pattern", metavar="PATTERN", help=say("options.one_pattern"))
    parser.add_argument("piece", metavar="PIECE", help=say("options.piece"))
    parser.add_argument("round", metavar="ROUND", help=say("options.round"))
    parser.add_argument("--all", action="store_true", help=say("options.all_rows"))


def run(args: argparse.Namespace) -> int:
    """0, or 2 where the pattern cannot be used or has no such piece or round."""
    try:
        proof = _proof(args.pattern)
        piece = _piece(proof, args.piece)
        worked = _round(piece, args.round)
    except _Stop as stop:
        print(stop, file=sys.stderr)
        return 2
    put(working.told(proof, piece, worked, paint_for(sys.stdout), whole=args.all))
    return 0


def _proof(path: str) -> Proof:
    found = one_pattern(path)
    if isinstance(found, str):
        raise _Stop(found)
    assert found.proof is not None
    return found.proof


def _piece(proof: Proof, words: str) -> WorkedPiece:
    """A piece by its key or its name, in whatever case."""
    low = words.strip().lower()
    for key, piece in proof.fabric.pieces.items():
        if low in (key.lower(), piece.piece.name.lower()):
            return piece
    problem = unknown_piece(words, proof.fabric.pieces)
    raise _Stop(clean(f"{problem.message} {problem.mend}"))


def _round(piece: WorkedPiece, words: str) -> WorkedRound:
    number = int(words) if words.isdigit() and len(words) < 7 else read_label(words)
    if number is None:
        raise _Stop(say("work.no_label", words=clean(words)))
    found = find_round(piece, number)
    if isinstance(found, WorkedRound):
        return found
    raise _Stop(clean(f"{found.message} {found.mend}"))
