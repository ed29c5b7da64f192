"""Which constructions of the trade a worked pattern has, by the names the tests use.

Each is told from the fabric, the instruction tree or the assembly, never from a pattern's name.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from roundproof.fabric.edges import in_rows
from roundproof.fabric.model import Base, WorkedPiece, WorkedRound
from roundproof.notation.edges import read_edge
from roundproof.notation.tree import (
    Act,
    Action,
    Chain,
    Item,
    JoinRound,
    Leave,
    Loop,
    Repeat,
    Spot,
    Unit,
)
from roundproof.notation.tree import Stitches as Worked
from roundproof.notation.units import every_stitch
from roundproof.pattern.model import Close, Embroider, Insert, Join, Place, Verb
from roundproof.pattern.model import Worked as Way
from roundproof.proof import Proof
from roundproof.reference import stitches
from roundproof.reference.hazards import hazards_of

Told = Callable[[Proof], bool]
SKIP = Unit((), 1)


# ---- what there is in a pattern ----
def pieces(proof: Proof) -> tuple[WorkedPiece, ...]:
    return tuple(proof.fabric.pieces.values())


def rounds(proof: Proof) -> Iterator[WorkedRound]:
    for piece in pieces(proof):
        yield from piece.rounds


def height(piece: WorkedPiece) -> int:
    """Rounds of a piece, ranges counted out."""
    return sum(worked.rounds for worked in piece.rounds)


def verbs(proof: Proof) -> tuple[Verb, ...]:
    return tuple(step.verb for step in proof.pattern.assembly)


def joins(proof: Proof) -> tuple[Join, ...]:
    return tuple(verb for verb in verbs(proof) if isinstance(verb, Join))


def seams(proof: Proof) -> frozenset[tuple[str, str]]:
    """The kinds of join: the verb, and by what."""
    found = set()
    for verb in verbs(proof):
        if isinstance(verb, Join | Close) and verb.by is not None:
            found.add((type(verb).__name__, verb.by.value))
    return frozenset(found)


def _items(items: tuple[Item, ...]) -> Iterator[Item]:
    for item in items:
        yield item
        if isinstance(item, Repeat):
            yield from _items(item.body)


def _work(proof: Proof) -> Iterator[tuple[Item, ...]]:
    for worked in rounds(proof):
        if worked.instruction is not None:
            yield tuple(_items(worked.instruction.items))


def _acts(proof: Proof) -> set[Act]:
    return {e.act for p in pieces(proof) for e in p.entries if isinstance(e, Action)}


def _kinds(proof: Proof) -> set[str]:
    """Ids and words of all stitches worked."""
    found: set[str] = set()
    for items in _work(proof):
        for stitch in every_stitch(items):
            found |= {stitch.unit.word, *(kind for kind, _ in stitch.unit.makes)}
    return found


def _grown(kind: str) -> Told:
    def told(proof: Proof) -> bool:
        starts = (p.piece.starts for p in pieces(proof))
        names = (read_edge(e.value, proof.fabric.pieces) for s in starts if s for e in s.in_)
        return any(name is not None and name.kind == kind for name in names)

    return told


# ---- how pieces begin and go on ----
def _ring(proof: Proof) -> bool:
    return any(w.base is Base.RING and p.piece.worked is None for p in pieces(proof)
               for w in p.rounds[:1])  # fmt: skip


def _joined_in(kind: str) -> Told:
    def told(proof: Proof) -> bool:
        return any(
            p.piece.worked is not None
            and p.piece.worked.value is Way.JOINED
            and any(k == kind for w in p.rounds for k, _ in w.tally)
            for p in pieces(proof)
        )

    return told


def _rows_seamed(proof: Proof) -> bool:
    """A piece in rows, of which two edges are joined to one another."""
    for join in joins(proof):
        one = read_edge(join.edge.value, proof.fabric.pieces)
        two = read_edge(join.to.value, proof.fabric.pieces) if join.to else None
        if one and two and one.piece == two.piece and in_rows(proof.fabric.pieces[one.piece]):
            return True
    return False


def _rows_then_rounds(proof: Proof) -> bool:
    return any(len({w.round.label.row for w in p.rounds}) == 2 for p in pieces(proof))


def _chain_in_rows(proof: Proof) -> bool:
    return any(in_rows(p) and p.rounds[0].base is Base.CHAIN for p in pieces(proof))


def _chain_ring(proof: Proof) -> bool:
    def closed(worked: WorkedRound) -> bool:
        items = worked.instruction.items if worked.instruction else ()
        return worked.base is Base.CHAIN and any(isinstance(i, JoinRound) for i in items[1:2])

    return any(closed(p.rounds[0]) for p in pieces(proof))


def _passed_by(proof: Proof) -> bool:
    """Three in each front loop, the next round into the back loops behind, as many as before."""
    for piece in pieces(proof):
        for ring, behind in zip(piece.rounds, piece.rounds[1:], strict=False):
            into = behind.instruction.into if behind.instruction else None
            tripled = ring.loop is Loop.FRONT and ring.made == 3 * (ring.available or 0)
            if tripled and into and into.loop is Loop.BACK and behind.made == ring.available:
                return True
    return False


def _opening(proof: Proof) -> bool:
    """Chains in a round, and as many stitches skipped."""

    def skips(items: tuple[Item, ...]) -> bool:
        chains = {i.count for i in items if isinstance(i, Chain)}
        skipped = {i.times for i in items if isinstance(i, Worked) and i.unit == SKIP}
        return bool(chains & skipped)

    return any(map(skips, _work(proof)))


def _runs(proof: Proof) -> bool:
    return any(len({s.yarn for s in w.stretches}) > 1 for w in rounds(proof))


def _frill(times: int) -> Told:
    """A piece grown from another whose round has so many in each stitch."""

    def told(proof: Proof) -> bool:
        grown = (p for p in pieces(proof) if p.piece.starts)
        return any(w.made == times * (w.available or -1) for p in grown for w in p.rounds)

    return told


def _repeated(proof: Proof) -> bool:
    texts = (p.rounds.value for p in proof.pattern.pieces if p.rounds)
    return any(re.search(r"R\w*\s?\d+-\d*.*repeat R\w*\s?\d+", text) for text in texts)


# ---- joining and what is added ----
def _placed(what: str) -> Told:
    def told(proof: Proof) -> bool:
        return any(getattr(join.around, what, None) for join in joins(proof))

    return told


def _at(what: str) -> Told:
    def told(proof: Proof) -> bool:
        return any(getattr(join.at, what, None) for join in joins(proof))

    return told


def _by(seam: str) -> Told:
    return lambda proof: any(by == seam for _, by in seams(proof))


def _worked_in(kind: str) -> Told:
    return lambda proof: kind in _kinds(proof)


def _acted(act: Act) -> Told:
    return lambda proof: act in _acts(proof)


def _made(copies: int) -> Told:
    return lambda proof: any(p.piece.make == copies for p in pieces(proof))


def _item(word: str, kind: type[Verb]) -> Told:
    def told(proof: Proof) -> bool:
        items = (v.item.value for v in verbs(proof) if isinstance(v, kind) and hasattr(v, "item"))
        return any(word in item for item in items)

    return told


def _eased(proof: Proof) -> bool:
    return any(join.ease is not None and join.ease.value == "gathered" for join in joins(proof))


def _posts(proof: Proof) -> bool:
    return any(kind.startswith(("FP", "BP")) for kind in _kinds(proof))


def _soft(proof: Proof) -> bool:
    hard = (hazards_of(notion.item.value) for notion in proof.pattern.notions)
    return not any(hard) and not any(notion.hazard for notion in proof.pattern.notions)


def _own_stitch(proof: Proof) -> bool:
    return any(stitch.key not in stitches() for stitch in proof.pattern.stitches)


def _several(what: str) -> Told:
    def told(proof: Proof) -> bool:
        values = (getattr(yarn, what) for yarn in proof.pattern.yarns)
        return len({value.value for value in values if value}) > 1

    return told


def _onto(spot: Spot, both: bool = False) -> Told:
    """Whether a round goes into places of that kind."""
    return lambda proof: any(
        onto.spot is spot and onto.both == both for w in rounds(proof) for onto, _, _ in w.onto
    )


def _copies_joined(several: bool) -> Told:
    """Whether copies of one piece, or several pieces, are joined on the hook."""

    def told(proof: Proof) -> bool:
        for worked in rounds(proof):
            places = [o for o, _, _ in worked.onto if o.spot is Spot.PIECE and not o.both]
            if len(places) > 1 and (len({o.piece for o in places}) > 1) == several:
                return True
        return False

    return told


def _short_rows(proof: Proof) -> bool:
    return any(
        onto.spot is Spot.UNWORKED and in_rows(piece)
        for piece in pieces(proof)
        for worked in piece.rounds
        for onto, _, _ in worked.onto
    )


CONSTRUCTIONS: dict[str, Told] = {
    "spiral from a ring": _ring,
    "joined rounds of half doubles": _joined_in("hdc"),
    "joined rounds of doubles": _joined_in("dc"),
    "rows folded and seamed": _rows_seamed,
    "rows, then rounds": _rows_then_rounds,
    "foundation chain in rows": _chain_in_rows,
    "down both sides of a chain": lambda proof: any(w.far_side for w in rounds(proof)),
    "tube from a chain joined into a ring": _chain_ring,
    "grown out of free front loops": _grown("front loops"),
    "grown out of free back loops": _grown("back loops"),
    "grown out of row ends": _grown("row ends"),
    "grown out of a foundation": _grown("foundation"),
    "grown out of unworked stitches": _grown("unworked"),
    "a ring of threes in front, passed by behind": _passed_by,
    "shells": _worked_in("shell"),
    "clusters": _worked_in("cluster"),
    "bobbles": _worked_in("bobble"),
    "puffs": _worked_in("puff"),
    "picots": _worked_in("picot"),
    "spikes": _worked_in("spike sc"),
    "loop stitches": _worked_in("loop st"),
    "post stitches": _posts,
    "openings of chains over skipped stitches": _opening,
    "stitches left unworked": lambda p: any(isinstance(i, Leave) for w in _work(p) for i in w),
    "stripes": _acted(Act.CHANGE_YARN),
    "runs of colour within a round": _runs,
    "frill of twos": _frill(2),
    "frill of threes": _frill(3),
    "rounds worked again": _repeated,
    "start moved on": _acted(Act.MOVE_START),
    "closed through both layers": lambda proof: any(w.folded for w in rounds(proof)),
    "folded flat in a join": lambda proof: any(join.fold for join in joins(proof)),
    "hook changed": _acted(Act.CHANGE_HOOK),
    "several hooks": _several("hook"),
    "several weights of yarn": _several("weight"),
    "made twice": _made(2),
    "made four times": _made(4),
    "made six times": _made(6),
    "made eight times": _made(8),
    "embroidered": lambda proof: any(isinstance(verb, Embroider) for verb in verbs(proof)),
    "beads": _item("bead", Place),
    "eyes": _item("eye", Place),
    "wire": _item("wire", Insert),
    "nothing hard": _soft,
    "drawn together at the end": lambda proof: any(p.gathered for p in pieces(proof)),
    "gathered into a join": _eased,
    "stitch of its own": _own_stitch,
    "letters": lambda proof: bool(proof.pattern.letters),
    "footprints": _at("footprint"),
    "along a line between rounds": _at("between"),
    "up a piece": _at("up"),
    "a pair apart": _placed("apart"),
    "evenly round": _placed("evenly"),
    "gaps round": _placed("free"),
    "whipstitch": _by("whipstitch"),
    "mattress stitch": _by("mattress stitch"),
    "backstitch": _by("backstitch"),
    "running stitch": _by("running stitch"),
    "crocheted join": _by("crochet"),
    "knot": _by("knot"),
    "glue": _by("glue"),
    "gather": _by("gather"),
    "mirrored": lambda proof: any(p.of and p.piece.mirror for p in pieces(proof)),
    "the same in another yarn": lambda proof: any(p.of and p.piece.same_as for p in pieces(proof)),
    "two copies joined on the hook": _copies_joined(several=False),
    "two pieces joined on the hook": _copies_joined(several=True),
    "through two layers": _onto(Spot.PIECE, both=True),
    "a split round taken up again": _onto(Spot.UNWORKED),
    "short rows taken up again": _short_rows,
    "copies out of runs of loops": lambda proof: any(
        p.starts and p.starts.each for p in proof.pattern.pieces
    ),
    "on the surface": _onto(Spot.PATH),
}


def constructions(proof: Proof) -> frozenset[str]:
    """The names of all constructions that a pattern has."""
    return frozenset(name for name, told in CONSTRUCTIONS.items() if told(proof))


def signature(proof: Proof) -> tuple[object, ...]:
    """What no two patterns of the folder share: constructions, terms, yarns, kinds of join."""
    pattern = proof.pattern
    return constructions(proof), pattern.written_in, len(pattern.yarns), seams(proof)
