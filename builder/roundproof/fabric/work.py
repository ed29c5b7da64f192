"""Works every piece of a pattern; a piece that grows out of others has those worked first."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.fabric.edges import find_edge
from roundproof.fabric.ledger import Ledger
from roundproof.fabric.model import Claim, Edge, Fabric, WorkedPiece, WorkedRound
from roundproof.fabric.piece_work import PieceWork, crossed
from roundproof.findings import Finding
from roundproof.frozen import replace
from roundproof.notation.edges import piece_of
from roundproof.notation.mirror import mirrored
from roundproof.notation.own import context_of, own_words
from roundproof.notation.reader import read_script
from roundproof.notation.said import one_of_terms, wrongly_repeated
from roundproof.notation.tree import Act, Action, Entry, Onto, Script, Spot
from roundproof.notation.units import every_stitch
from roundproof.pattern.model import Pattern, Piece, Starts
from roundproof.source import Span

_HANDED_ON = ("yarn", "worked", "gauge", "hook", "strands", "chain_counts", "right_side")
"""What a piece has from the one whose rounds it takes, unless it says otherwise."""


def work(pattern: Pattern) -> tuple[Fabric, tuple[Finding, ...]]:
    """Read and work all pieces of a pattern."""
    workshop = _Workshop(pattern)
    for piece in pattern.pieces:
        workshop.piece(piece.key)
    done = {p.key: workshop.done[p.key] for p in pattern.pieces if p.key in workshop.done}
    fabric = Fabric(done, tuple(workshop.ledger.claims), dict(workshop.differing))
    return fabric, one_of_terms(workshop.findings)


class _Workshop:
    """The pieces of one pattern while they are worked."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self.keys = [piece.key for piece in pattern.pieces]
        self.done: dict[str, WorkedPiece] = {}
        self.begun: set[str] = set()
        self.ledger = Ledger()
        self.scripts: dict[str, Script] = {}
        self.differing: dict[str, WorkedPiece] = {}
        """What a piece would be if its rounds were those of the piece it says it mirrors."""
        self.own, self.findings = own_words(pattern)

    def piece(self, key: str) -> None:
        piece = self.pattern.piece(key)
        if piece is None or key in self.begun:
            return
        self.begun.add(key)
        source = self.source(piece)
        if source is not None:
            piece = _like(piece, source.piece)
        script = self.scripts[key] = self.script(piece)
        taken = self.taken_from(piece, source)
        if piece.rounds is None and taken is not None:
            script = self.scripts[key] = taken
        for onto in _named(script):
            self.piece(onto.piece)
        start = self.grown(piece)
        bench = _Bench(self, piece)
        work = PieceWork(self.pattern, piece, script, start, bench.there, bench.take)
        worked = work.whole()
        if source is not None and piece.rounds is None:
            worked = replace(worked, of=source.piece.key)
            worked = _marks_turned(worked) if piece.mirror else worked
        elif taken is not None:
            like = PieceWork(self.pattern, piece, taken, start, bench.there, _nobody)
            self.differing[key] = like.whole()
        self.done[key] = worked

    # ---- what is worked ----

    def source(self, piece: Piece) -> WorkedPiece | None:
        """The piece whose rounds, or their mirror image, a piece is."""
        words = piece.mirror or piece.same_as
        if words is None:
            return None
        self.piece(words.value)
        return self.done.get(words.value)

    def taken_from(self, piece: Piece, source: WorkedPiece | None) -> Script | None:
        """The rounds of another piece, or their mirror image, as those of this one."""
        if source is None:
            return None
        script = self.scripts[source.piece.key]
        if piece.mirror is None:
            return script
        return mirrored(script, source.piece.yarn.value if source.piece.yarn else None)

    def script(self, piece: Piece) -> Script:
        """The rounds of a piece as they are written."""
        if piece.rounds is None:
            return Script(())
        context = context_of(self.pattern, piece.key, self.own)
        script, findings = read_script(piece.rounds, context)
        self.findings += [*findings, *wrongly_repeated(script, piece.key)]
        return script

    # ---- what it is worked onto ----

    def grown(self, piece: Piece) -> Edge | None:
        """The edge a piece grows out of, as one edge, or None."""
        if piece.starts is None:
            return crossed(piece)
        edges: list[Edge] = []
        for words in piece.starts.in_:
            self.piece(piece_of(words.value, self.keys) or "")
            found = find_edge(Fabric(self.done), words.value)
            if not isinstance(found, Edge) or found.count is None:
                return Edge(piece.key, words.value, "round", None, None)
            edges.append(found)
        if not edges:
            return None
        hosts = [self.pattern.piece(edge.piece) for edge in edges]
        counts = [
            self.free(edge) * (host.make if host else 1)
            for edge, host in zip(edges, hosts, strict=True)
        ]
        share = self.share(piece, piece.starts, sum(counts))
        if len(edges) == 1:
            self.runs(piece, piece.starts, edges[0], share)
        else:
            for edge, count in zip(edges, counts, strict=True):
                self.claim(edge, 0, 1, count, piece.key, "", piece.starts.span)
        return replace(edges[0], count=share)

    def share(self, piece: Piece, starts: Starts, total: int) -> int:
        """How many loops each copy takes."""
        return starts.each.value if starts.each else total // max(1, piece.make)

    def runs(self, piece: Piece, starts: Starts, edge: Edge, share: int) -> None:
        """Each copy takes its run of the loops: from where it is said to start, or the next."""
        host = self.pattern.piece(edge.piece)
        hosts = host.make if host else 1
        each_host = max(1, -(-piece.make // hosts))
        for copy in range(piece.make):
            on, nth = divmod(copy, each_host)
            told = starts.first[copy].value if copy < len(starts.first) else 0
            first = told or 1 + nth * share
            span = starts.first[copy].span if told else starts.span
            self.claim(edge, on + 1 if hosts > 1 else 0, first, share, piece.key, "", span)

    def free(self, edge: Edge) -> int:
        """What nobody works into yet of an edge that a piece starts from. Loops worked into are
        taken off the edge itself."""
        if edge.kind.endswith("loops"):
            return edge.count or 0
        host = self.pattern.piece(edge.piece)
        taken = self.ledger.taken(edge.piece, edge.kind, edge.round, 0)
        return max(0, (edge.count or 0) - taken // (host.make if host else 1))

    def claim(
        self, edge: Edge, copy: int, first: int, count: int, by: str, label: str, span: Span
    ) -> None:
        claim = Claim(
            edge.piece, edge.kind, edge.round, copy, first, count, edge.count, by, label, span
        )
        self.ledger.claims.append(claim)
        if copy < 2:  # every copy of the piece has them
            self.take(edge, count)

    def take(self, edge: Edge, count: int) -> None:
        """Loops worked into are free no longer."""
        piece = self.done.get(edge.piece)
        if piece is None or not edge.kind.endswith("loops"):
            return
        kept = []
        for run in piece.free:
            if run.round == edge.round and f"{run.loop} loops" == edge.kind:
                count, here = count - min(count, run.count), max(0, run.count - count)
                run = replace(run, count=here)
            if run.count:
                kept.append(run)
        self.done[edge.piece] = replace(piece, free=tuple(kept))


class _Bench:
    """Where the rounds of a piece find the other edges that they go into."""

    def __init__(self, shop: _Workshop, piece: Piece) -> None:
        self.shop = shop
        self.piece = piece

    def edge(self, onto: Onto) -> Edge | None:
        key = onto.piece
        host = self.shop.pattern.piece(key)
        if host is None or key not in self.shop.done or onto.copy > host.make:
            return None
        number = f" R{onto.round}" if onto.round else ""
        words = f"{key}{number} unworked sts" if onto.spot is Spot.UNWORKED else key
        found = find_edge(Fabric(self.shop.done), words)
        return found if isinstance(found, Edge) else None

    def there(self, onto: Onto) -> int | None:
        """How many stitches nobody works into yet at a place of another piece."""
        edge = self.edge(onto)
        host = self.shop.pattern.piece(onto.piece)
        if edge is None or host is None:
            return None
        return self.shop.ledger.free(edge, onto.copy, host.make)

    def take(self, onto: Onto, count: int, worked: WorkedRound) -> None:
        edge = self.edge(onto)
        if edge is None:
            return
        free = self.there(onto) or 0
        flat = onto.both and not onto.front and 2 * count == free
        taken = 2 * count if flat else count
        span = worked.round.work
        self.shop.claim(edge, onto.copy, 0, taken, self.piece.key, worked.label, span)


def _nobody(_: Onto, __: int, ___: WorkedRound) -> None:
    """What is worked only to be compared takes nothing."""


def _like(piece: Piece, source: Piece) -> Piece:
    """A piece with what it has from the one whose rounds it takes."""
    missing = [name for name in _HANDED_ON if getattr(piece, name) is None]
    return replace(piece, **{name: getattr(source, name) for name in missing})


def _marks_turned(worked: WorkedPiece) -> WorkedPiece:
    """A mirrored piece with its landmarks on the other side: between 8 and 9 of 44 stitches are
    those between 36 and 37."""
    entries: list[WorkedRound | Entry] = []
    made: int | None = None
    for entry in worked.entries:
        if isinstance(entry, WorkedRound):
            made = entry.made
        elif isinstance(entry, Action) and entry.act is Act.MARK and entry.between and made:
            first, last = (made + 1 - stitch for stitch in reversed(entry.between))
            text = f"Mark {entry.name} between sts {first} and {last}."
            entry = replace(entry, between=(first, last), text=text)
        entries.append(entry)
    return replace(worked, entries=tuple(entries))


def _named(script: Script) -> Iterator[Onto]:
    """The places in other pieces that the rounds of a piece name."""
    for round_ in script.rounds:
        for reading in round_.readings:
            for stitch in every_stitch(reading.items):
                if stitch.onto is not None and stitch.onto.piece:
                    yield stitch.onto
