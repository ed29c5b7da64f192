"""Cords and loops: what of a pattern is narrow, long and free, measured from its rounds.

A cord is a piece, or a run of chains, much longer than it is wide. One that is sewn down, or grows,
along its length is an edging and none; one that wire keeps stiff does not tangle.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import chain

from roundproof.checks._prose import Said, lines, making
from roundproof.fabric.edges import EdgeProblem, find_edge
from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.frozen import dataclass
from roundproof.measure.bands import round_size
from roundproof.measure.gauge import stitch_size
from roundproof.measure.model import Form, PieceSize
from roundproof.notation.edges import piece_of
from roundproof.notation.tree import Chain, Item, Repeat
from roundproof.pattern.model import Insert, Join, Notion, Piece, Worked
from roundproof.pattern.quantities import in_mm
from roundproof.proof import Proof
from roundproof.reference.hazards import hazards_of
from roundproof.source import Span

WIDEST = 15.0
"""mm. What is wider is a band or a limb: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Cord:
    """A cord `length` mm long, or a loop of that length round; `what` it is in words."""

    what: str
    length: float
    span: Span
    loop: bool = False
    piece: str | None = None
    round: str | None = None
    guessed: bool = False


def cords(proof: Proof) -> Iterator[Cord]:
    """Every cord and loop that a pattern makes or lists, whatever its length."""
    for key, worked in proof.fabric.pieces.items():
        size = proof.measures.pieces.get(key)
        if size is not None and worked.rounds and not _stiff(proof, key):
            yield from _of_piece(proof, worked, size)
            yield from _of_chains(proof, worked)
    yield from _told(proof)
    yield from _tails(proof)
    yield from chain.from_iterable(map(_listed, proof.pattern.notions))
    for step in proof.pattern.assembly:
        verb = step.verb
        if isinstance(verb, Insert) and verb.length and _is_cord(verb.item.value):
            yield Cord(verb.item.value, verb.length.value, verb.length.span)


def _of_piece(proof: Proof, worked: WorkedPiece, size: PieceSize) -> Iterator[Cord]:
    piece, key = worked.piece, worked.piece.key
    if piece.worked and piece.worked.value is Worked.SURFACE:
        return
    if size.form is Form.TURNED and size.outline and _is_ring(proof, worked):
        narrowest = min(band.length_mm for band in size.outline)
        yield Cord(piece.name, narrowest, piece.span, True, key, guessed=size.guessed)
    across, along = (
        size.diameter_mm,
        size.length_mm if size.length_mm is not None else size.height_mm,
    )
    if across is None or along is None or min(across, along) > WIDEST:
        return
    crosswise = across > along
    if size.form is Form.OVAL or (size.form is Form.TURNED and crosswise):
        return  # a disc, or a ring
    edge = min(band.length_mm for band in size.outline) if crosswise else along
    if _held(proof, worked, edge, crosswise):
        return
    loop = _ends(proof, worked) > 1
    what = f"{piece.name}, with both its ends sewn on," if loop else piece.name
    yield Cord(what, max(across, along), piece.span, loop, key, guessed=size.guessed)


def _is_ring(proof: Proof, worked: WorkedPiece) -> bool:
    """Worked round on a chain and open at both edges, with nothing sewn to either."""
    first, key = worked.rounds[0], worked.piece.key
    items = first.instruction.items if first.instruction else ()
    on_chain = bool(items) and isinstance(items[0], Chain) and not first.far_side
    return on_chain and not worked.gathered and not _touched(proof, key) and not worked.piece.starts


def _touched(proof: Proof, key: str) -> bool:
    pieces = proof.fabric.pieces
    joins = (step.verb for step in proof.pattern.assembly if isinstance(step.verb, Join))
    said = [edge.value for join in joins for edge in (join.edge, join.to) if edge]
    return any(piece_of(words, pieces) == key for words in said) or any(
        claim.piece == key and claim.by != key for claim in proof.fabric.claims
    )


def _held(proof: Proof, worked: WorkedPiece, length: float, crosswise: bool) -> bool:
    """Whether it is sewn on, or grows, along its length, or another piece grows out of that.
    `length` is that of its shorter long edge, in mm."""
    key = worked.piece.key
    if crosswise and (worked.piece.starts or worked.rounds[0].base is Base.EDGE):
        return True
    for fit in proof.measures.fits:
        for edge, there in zip(fit.edges, fit.lengths_mm, strict=True):
            if edge.piece == key and there is not None and there >= length / 2:
                return True
    width = length / max(1, worked.rounds[0].made or 1)
    claims = (c for c in proof.fabric.claims if c.piece == key and c.by != key)
    return crosswise and any(claim.count * width >= length / 2 for claim in claims)


def _ends(proof: Proof, worked: WorkedPiece) -> int:
    """How many of its two ends hang on something."""
    ends = {"start"} if worked.piece.starts else set[str]()
    for step in proof.pattern.assembly:
        if not isinstance(step.verb, Join):
            continue
        for said in (step.verb.edge, step.verb.to):
            if said is None or piece_of(said.value, proof.fabric.pieces) != worked.piece.key:
                continue
            edge = find_edge(proof.fabric, said.value)
            if not isinstance(edge, EdgeProblem):
                start = edge.kind in ("foundation", "far side")
                ends.add("start" if start else f"end {edge.round}")
    return len(ends)


def _stiff(proof: Proof, key: str) -> bool:
    """Whether wire or a stick goes into the piece."""
    inserts = (step.verb for step in proof.pattern.assembly if isinstance(step.verb, Insert))
    return any(
        insert.piece is not None
        and piece_of(insert.piece.value, proof.fabric.pieces) == key
        and any(hazard.id == "sharp end" for hazard in hazards_of(insert.item.value))
        for insert in inserts
    )


def _of_chains(proof: Proof, worked: WorkedPiece) -> Iterator[Cord]:
    """Runs of chains within a round that no later stitch goes into."""
    for entry in worked.rounds:
        items = entry.instruction.items if entry.instruction else ()
        skip = 1 if entry.base is Base.CHAIN else 0  # the foundation
        runs = list(_runs(items[skip:]))
        if not runs or not _chains_free(entry):
            continue
        size = round_size(proof.pattern, worked.piece, entry)
        if size is None:
            continue
        for run in runs:
            what = f"The chain of {run.count} in {entry.label}"
            length = run.count * size.width
            key = worked.piece.key
            yield Cord(what, length, run.span, False, key, entry.label, size.guessed)


def _runs(items: tuple[Item, ...]) -> Iterator[Chain]:
    for item in items:
        if isinstance(item, Chain):
            yield item
        elif isinstance(item, Repeat):
            yield from _runs(item.body)


def _chains_free(entry: WorkedRound) -> bool:
    plain = sum(n for (kind, _), n in entry.tally.items() if kind not in ("ch", "sl st"))
    return entry.made is not None and entry.made <= plain


def _told(proof: Proof) -> Iterator[Cord]:
    """Chains that are told of in words: in a step, or as a piece that is nothing else."""
    pattern = proof.pattern
    for step in pattern.assembly:
        for line in lines(step.step):
            yield from _chains_in(proof, line, pattern.pieces[0] if pattern.pieces else None)
    for piece in pattern.pieces:
        if not proof.fabric.pieces[piece.key].rounds:
            for line in lines(piece.rounds):
                yield from _chains_in(proof, line, piece)


def _chains_in(proof: Proof, line: Said, piece: Piece | None) -> Iterator[Cord]:
    if piece is None or line.text.lstrip().startswith("#") or "ch" not in line.text.lower():
        return
    own = proof.pattern.yarn(piece.yarn.value) if piece.yarn else None
    yarn = own or next(iter(proof.pattern.yarns), None)
    size = stitch_size(proof.pattern, piece, yarn.key if yarn else None)
    for match in re.finditer(r"(?i)\b(?:ch|chain|chains?,? of) (\d{2,5})\b", line.text):
        if size is not None:
            what, length = f"The chain of {match[1]}", int(match[1]) * size.width_mm
            yield Cord(what, length, line.place(*match.span()), guessed=size.guessed)


def _tails(proof: Proof) -> Iterator[Cord]:
    """Tails told to stay outside: 'leave the tail hanging, 30 cm'."""
    for line in making(proof):
        low = line.text.lower()
        if "tail" not in low or not re.search(r"hang|dangl|outside", low):
            continue
        if re.search(r"sew|weav|thread|clos|join|later|sink|draw", low):
            continue
        for match in re.finditer(r"(\d{1,3}(?:\.\d+)?) ?(mm|cm|in(?:ch(?:es)?)?)\b", low):
            length = in_mm(match[1], match[2])
            yield Cord("The tail left hanging", length, line.place(*match.span()))


def _listed(notion: Notion) -> Iterator[Cord]:
    if notion.size is not None and _is_cord(notion.item.value):
        yield Cord(notion.item.value, notion.size.value, notion.size.span)


def _is_cord(item: str) -> bool:
    return any(hazard.id == "cord" for hazard in hazards_of(item))
