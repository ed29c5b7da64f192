"""Edges found in worked pieces: how many stitches, loops or rows there are, and in which yarn."""

from __future__ import annotations

from collections.abc import Iterable

from roundproof.fabric.model import Base, Edge, Fabric, FreeRun, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass
from roundproof.notation.edges import EdgeKind, EdgeName, piece_of, read_edge
from roundproof.notation.tree import Act, Action, JoinRound, Loop, Turn
from roundproof.pattern.model import Worked
from roundproof.pattern.near import nearest


@dataclass(frozen=True, slots=True)
class EdgeProblem:
    """Why words name no edge, and what there is instead: two whole sentences."""

    message: str
    mend: str


_SIDES = {
    EdgeKind.ROW_ENDS: "row ends",
    EdgeKind.LEFT_ROW_ENDS: "row ends",
    EdgeKind.RIGHT_ROW_ENDS: "row ends",
}
_LOOPS = {EdgeKind.FRONT_LOOPS: Loop.FRONT, EdgeKind.BACK_LOOPS: Loop.BACK, EdgeKind.LOOPS: None}


def find_edge(fabric: Fabric, words: str) -> Edge | EdgeProblem:
    """The edge that some words name. Its count is None where the round could not be read."""
    name = read_edge(words, fabric.pieces)
    if name is None:
        return _unread(words, fabric.pieces)
    worked = fabric.pieces[name.piece]
    if not worked.rounds:
        return EdgeProblem(f"{name.piece} has no rounds yet, so it has no edge.", "")
    if name.kind is EdgeKind.ROUND:
        return _round(worked, name, words)
    if name.kind is EdgeKind.UNWORKED:
        return _unworked(worked, name, words)
    if name.kind in _LOOPS:
        return _free(worked, name, words)
    if name.kind in _SIDES:
        return _row_ends(worked, name, words)
    return _chain(worked, name, words)


def find_round(worked: WorkedPiece, number: int) -> WorkedRound | EdgeProblem:
    """A round of a piece by its number."""
    found = worked.at(number)
    if found is not None:
        return found
    kind, key = _kind(worked), worked.piece.key
    if not (highest := max((r.round.label.last for r in worked.rounds), default=0)):
        return EdgeProblem(f"There is no R{number} in {key}: it has no rounds yet.", "")
    return EdgeProblem(
        f"There is no R{number} in {key}.", f"The {kind}s of {key} go up to R{highest}."
    )


def count_of(worked: WorkedRound) -> int | None:
    """The stitches a round leaves for whatever comes next."""
    return worked.made if worked.carries is None else worked.carries


def yarn_of(worked: WorkedRound) -> str | None:
    """The key of the yarn in which a round has most of its stitches."""
    known = [s for s in worked.stretches if s.yarn]
    if not known:
        return worked.yarn
    totals: dict[str | None, int] = {}
    for stretch in known:
        totals[stretch.yarn] = totals.get(stretch.yarn, 0) + stretch.made
    return max(totals, key=lambda yarn: totals[yarn])


def in_rows(worked: WorkedPiece) -> bool:
    """Whether a piece is worked to and fro: said so, or begun on a chain that is neither joined
    into a ring nor worked down both sides, or begun so and turned."""
    said = worked.piece.worked
    if said is not None:
        return said.value is Worked.ROWS
    if not worked.rounds:
        return False
    first = worked.rounds[0]
    if first.base is not Base.CHAIN or first.far_side or first.chains < 3:
        return False
    return turns(worked) or not _joined(first)


def unknown_piece(word: str, names: Iterable[str]) -> EdgeProblem:
    """What to say of a piece that is not there."""
    known = tuple(names)
    like = nearest(word, known)
    mend = f"Did you mean {like}?" if like else f"The pieces are: {', '.join(known)}."
    return EdgeProblem(f"There is no piece {quoted(word)}.", mend if known else "")


def quoted(words: str, most: int = 60) -> str:
    """A designer's words within a sentence, shortened if they go on and on."""
    text = " ".join(words.split())
    return f"`{text if len(text) <= most else text[: most - 1] + '…'}`"


def _unread(words: str, pieces: Iterable[str]) -> EdgeProblem:
    known = tuple(pieces)
    piece = piece_of(words, known)
    if piece is None:
        return unknown_piece(_subject(words), known)
    rest = " ".join(words.split())[len(piece) :].strip()
    return EdgeProblem(
        f"{quoted(rest)} is not an edge of {piece}.",
        f"An edge is the piece alone ({piece}, its last round), a round ({piece} R6), loops"
        f" ({piece} R6 free front loops), unworked sts, row ends, far side or foundation.",
    )


def _subject(words: str) -> str:
    """The words that stand where the key of a piece should: those before a label, or all."""
    parts = words.split()
    for end in range(1, len(parts)):
        if read_edge(f"x {' '.join(parts[end:])}", ("x",)):
            return " ".join(parts[:end])
    return words


def _kind(worked: WorkedPiece) -> str:
    return "row" if in_rows(worked) else "round"


def _round(worked: WorkedPiece, name: EdgeName, words: str) -> Edge | EdgeProblem:
    found = worked.rounds[-1] if name.round is None else find_round(worked, name.round)
    if isinstance(found, EdgeProblem):
        return found
    number = name.round or found.round.label.last
    return Edge(name.piece, words, "round", count_of(found), yarn_of(found), number)


def _unworked(worked: WorkedPiece, name: EdgeName, words: str) -> Edge | EdgeProblem:
    left = {n: count for n, count in worked.left.items() if name.round in (None, n)}
    if name.round is not None and isinstance(no := find_round(worked, name.round), EdgeProblem):
        return no
    if not left:
        where = f"R{name.round} of {name.piece}" if name.round else name.piece
        others = ", ".join(f"R{n} ({count})" for n, count in sorted(worked.left.items()))
        mend = f"Stitches are left unworked in {others}." if others else _leave(name)
        return EdgeProblem(f"No stitches are left unworked in {where}.", mend)
    number = max(left)
    found = worked.at(number)
    yarn = yarn_of(found) if found else None
    return Edge(name.piece, words, "unworked", left[number], yarn, number)


def _leave(name: EdgeName) -> str:
    return f'Say "leave 6 sts unworked" in the round of {name.piece} that leaves them.'


def _free(worked: WorkedPiece, name: EdgeName, words: str) -> Edge | EdgeProblem:
    if name.round is not None and isinstance(no := find_round(worked, name.round), EdgeProblem):
        return no
    runs = [run for run in worked.free if _matches(run, name)]
    if not runs:
        where = f"R{name.round} of {name.piece}" if name.round else name.piece
        return EdgeProblem(f"{where} leaves no {_loops(name)}.", _which_are_free(worked, name))
    number = runs[-1].round
    count = sum(run.count for run in runs if run.round == number)
    found = worked.at(number)
    kind = f"{runs[-1].loop.value} loops"
    return Edge(name.piece, words, kind, count, yarn_of(found) if found else None, number)


def _matches(run: FreeRun, name: EdgeName) -> bool:
    loop = _LOOPS[name.kind]
    return loop in (None, run.loop) and name.round in (None, run.round)


def _loops(name: EdgeName) -> str:
    loop = _LOOPS[name.kind]
    return f"{loop.value} loops free" if loop else "loops free"


def _which_are_free(worked: WorkedPiece, name: EdgeName) -> str:
    free = ", ".join(f"R{run.round} ({run.count} {run.loop.value} loops)" for run in worked.free)
    if free:
        return f"Loops of {name.piece} are free in {free}."
    back = _LOOPS[name.kind] is not Loop.BACK
    return (
        f"To leave {'front' if back else 'back'} loops free, work the round after in"
        f" {'BLO' if back else 'FLO'}."
    )


def _row_ends(worked: WorkedPiece, name: EdgeName, words: str) -> Edge | EdgeProblem:
    if not in_rows(worked):
        return EdgeProblem(
            f"{name.piece} is worked in rounds, so it has no row ends.",
            f"Name a round of it ({name.piece} R3), or say worked: rows.",
        )
    rows = sum(r.rounds for r in worked.rounds)
    return Edge(name.piece, words, "row ends", rows, yarn_of(worked.rounds[0]), None, per_row=True)


def _chain(worked: WorkedPiece, name: EdgeName, words: str) -> Edge | EdgeProblem:
    first = worked.rounds[0]
    kind = name.kind.value
    if first.base is not Base.CHAIN or not first.chains:
        return EdgeProblem(f"{name.piece} does not start from a chain, so it has no {kind}.", "")
    if first.far_side:
        return EdgeProblem(
            f"Both sides of the foundation chain of {name.piece} are worked in R1 already.", ""
        )
    usable = first.available or first.chains
    return Edge(name.piece, words, kind, usable, yarn_of(first), None)


def _joined(first: WorkedRound) -> bool:
    items = first.instruction.items if first.instruction else ()
    return any(isinstance(item, JoinRound) for item in items)


def turns(worked: WorkedPiece) -> bool:
    """Whether the work is turned anywhere in a piece."""
    turned = (e.act is Act.TURN for e in worked.entries if isinstance(e, Action))
    items = (i for r in worked.rounds if r.instruction for i in r.instruction.items)
    return any(turned) or any(isinstance(item, Turn) for item in items)
