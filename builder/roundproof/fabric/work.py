"""Works every piece of a pattern, round by round."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping

from roundproof.fabric.edges import find_edge
from roundproof.fabric.model import (
    Base,
    Edge,
    Fabric,
    FreeRun,
    Misfit,
    WorkedPiece,
    WorkedRound,
)
from roundproof.fabric.once import Outcome, fills
from roundproof.fabric.settle import Settled, settle
from roundproof.findings import Finding
from roundproof.frozen import replace
from roundproof.notation.edges import piece_of
from roundproof.notation.own import own_words
from roundproof.notation.reader import Context, read_script
from roundproof.notation.said import one_of_terms, wrongly_repeated
from roundproof.notation.tree import (
    Act,
    Action,
    Chain,
    Entry,
    FarSide,
    Label,
    Loop,
    Note,
    Round,
    Script,
)
from roundproof.pattern.model import Close, Pattern, Piece
from roundproof.reference import stitches

_DRAWN_SHUT = re.compile(r"\b(?:draw|gather|pull|close|weave|thread)\w*\b", re.IGNORECASE)
_MOST_ROUNDS = 10_000
"""Rounds of one line that are worked one by one; further ones are taken to be like the last."""


def work(pattern: Pattern) -> tuple[Fabric, tuple[Finding, ...]]:
    """Read and work all pieces of a pattern."""
    workshop = _Workshop(pattern)
    for piece in pattern.pieces:
        workshop.piece(piece.key)
    return Fabric(dict(workshop.done)), one_of_terms(workshop.findings)


class _Workshop:
    """The pieces of one pattern while they are worked: a piece that grows out of another has the
    other one worked first."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self.colours = {
            word: yarn.key for yarn in pattern.yarns for word in (yarn.key, *yarn.words)
        }
        self.terms = pattern.written_in
        self.keys = [piece.key for piece in pattern.pieces]
        self.done: dict[str, WorkedPiece] = {}
        self.begun: set[str] = set()
        self.own, self.findings = own_words(pattern)

    def piece(self, key: str) -> None:
        piece = self.pattern.piece(key)
        if piece is None or key in self.begun:
            return
        self.begun.add(key)
        script = Script(())
        if piece.rounds is not None:
            context = Context(self.terms, self.colours, key, self.own)
            script, findings = read_script(piece.rounds, context)
            self.findings += [*findings, *wrongly_repeated(script, key)]
        start = self.grown(piece)
        self.done[key] = PieceWork(self.pattern, piece, script, start).whole()

    def grown(self, piece: Piece) -> Edge | None:
        """The edge a piece grows out of, as one edge, or None."""
        if piece.starts is None:
            return None
        edges: list[Edge] = []
        for words in piece.starts.in_:
            self.piece(piece_of(words.value, self.keys) or "")
            found = find_edge(Fabric(self.done), words.value)
            if not isinstance(found, Edge) or found.count is None:
                return Edge(piece.key, words.value, "round", None, None)
            self.take(found)
            edges.append(found)
        total = sum(e.count or 0 for e in edges)
        share = piece.starts.each.value if piece.starts.each else total // max(1, piece.make)
        return replace(edges[0], count=share) if edges else None

    def take(self, edge: Edge) -> None:
        """Loops worked into are free no longer."""
        piece = self.done[edge.piece]
        kept = tuple(
            run for run in piece.free
            if not (run.round == edge.round and f"{run.loop} loops" == edge.kind)
        )  # fmt: skip
        self.done[edge.piece] = replace(piece, free=kept)


class PieceWork:
    """One piece on the hook."""

    def __init__(self, pattern: Pattern, piece: Piece, script: Script, start: Edge | None) -> None:
        self.pattern = pattern
        self.piece = piece
        self.script = script
        self.start = start
        yarn = pattern.yarn(piece.yarn.value) if piece.yarn else None
        only = pattern.yarns[0].key if len(pattern.yarns) == 1 else None
        self.yarn = yarn.key if yarn else (piece.yarn.value if piece.yarn else only)
        self.chain_counts = piece.chain_counts.value if piece.chain_counts else None
        self.entries: list[WorkedRound | Entry] = []
        self.places: list[int] = []
        """Where the rounds stand among the entries."""
        self.candidates: list[int | None] = [start.count if start else None]
        self.free: Counter[tuple[int, Loop]] = Counter()
        self.left: dict[int, int] = {}
        self.fastened = False

    def whole(self) -> WorkedPiece:
        for entry in self.script.entries:
            if isinstance(entry, Round):
                for round_ in self.again(entry):
                    self.round(round_)
            else:
                self.act(entry)
                self.entries.append(entry)
        free = tuple(FreeRun(number, loop, n) for (number, loop), n in self.free.items() if n > 0)
        return WorkedPiece(
            self.piece, tuple(self.entries), free, self.left, self.fastened, self.gathered()
        )

    def act(self, entry: Entry) -> None:
        if not isinstance(entry, Action):
            return
        if entry.act in (Act.CHANGE_YARN, Act.JOIN_YARN):
            self.yarn = entry.yarn or entry.name
        self.fastened = self.fastened or entry.act is Act.FASTEN_OFF

    def rounds(self) -> Iterator[WorkedRound]:
        return (self.worked(place) for place in self.places)

    def worked(self, place: int) -> WorkedRound:
        entry = self.entries[place]
        assert isinstance(entry, WorkedRound)
        return entry

    def keep(self, worked: WorkedRound) -> None:
        self.places.append(len(self.entries))
        self.entries.append(worked)

    def again(self, entry: Round) -> list[Round]:
        """Earlier rounds worked again, as rounds of their own with numbers of their own."""
        again = entry.repeats
        if again is None:
            return [entry]
        source = [
            w.round for w in self.rounds() if again.first <= w.round.label.first <= again.last
        ]
        found: list[Round] = []
        number = entry.label.first
        while source and number <= entry.label.last and len(found) < _MOST_ROUNDS:
            round_ = source[len(found) % len(source)]
            last = min(entry.label.last, number + round_.label.rounds - 1)
            label = Label(number, last, entry.label.span, entry.label.row)
            stated = entry.stated or round_.stated
            found.append(
                replace(
                    round_, label=label, stated=stated, span=entry.span, work=again.span, remark=""
                )
            )
            number = last + 1
        return found or [entry]

    # ---- one line of work ----

    def round(self, round_: Round) -> None:
        if not round_.readings:
            self.unread(round_)
            return
        yarn = self.yarn
        candidates, base = self.into(round_)
        settled = settle(round_, candidates, yarn, self.chain_counts, infer=base is not Base.EDGE)
        if base is Base.ROUND:
            self.carried(settled.available)
        outcomes = self.range(round_, settled)
        self.keep(self.record(round_, settled, outcomes, base, yarn))
        self.loops(round_, outcomes)
        out = outcomes[-1]
        self.yarn = out.yarn
        if out.left:
            self.left[round_.label.last] = out.left
        self.candidates = self.next_counts(round_, out)

    def carried(self, available: int | None) -> None:
        """The count that the last round turned out to leave for this one."""
        below = self.worked(self.places[-1])
        if available is not None and available != below.carries:
            self.entries[self.places[-1]] = replace(below, carries=available)

    def into(self, round_: Round) -> tuple[list[int | None], Base]:
        """The counts that a round may have to work into, and what they are."""
        into = next((r.into for r in round_.readings if r.into), None)
        if into is not None:
            count = self.free.pop((into.round, into.loop), 0)
            return [count], Base.EDGE
        if self.places:
            return self.candidates, Base.ROUND
        if self.start is not None:
            return self.candidates, Base.EDGE
        chained = isinstance(round_.readings[0].items[0], Chain)
        return [None], Base.CHAIN if chained else Base.RING

    def range(self, round_: Round, settled: Settled) -> list[Outcome]:
        """Every round of a range in order; only the first where the rest are the same."""
        outcomes = [settled.outcome]
        limit = min(round_.label.rounds, _MOST_ROUNDS)
        while len(outcomes) < limit:
            last = outcomes[-1]
            if last.over or last.spare or last.uneven or last.available is None:
                break
            made = last.made
            following = settle(round_, [made], last.yarn, self.chain_counts).outcome
            if made == last.available and following.made == made and following.yarn == last.yarn:
                break
            outcomes.append(following)
        return outcomes

    def record(
        self,
        round_: Round,
        settled: Settled,
        outcomes: list[Outcome],
        base: Base,
        yarn: str | None,
    ) -> WorkedRound:
        first, last = outcomes[0], outcomes[-1]
        faulty = next((o for o in outcomes if o.over or o.spare or o.uneven), last)
        stated = round_.stated.count if round_.stated else None
        base = Base.RING if base is Base.RING and last.ring else base
        unknown = faulty.unknown or (fills(settled.instruction.items) and first.available is None)
        loops = set(last.loops)
        return WorkedRound(
            round=round_,
            base=base,
            available=first.available,
            used=None if unknown else faulty.used,
            unworked=faulty.left,
            made=(stated if unknown else _counted(last, stated)),
            stated=stated,
            carries=stated if unknown else _counted(last, stated),
            instruction=settled.instruction,
            yarn=yarn,
            stretches=tuple(last.stretches),
            tally=dict(_one_round(outcomes, round_.label.rounds)),
            height=mean_height(last.tally, self.pattern),
            loop=loops.pop() if len(loops) == 1 else (None if loops else Loop.BOTH),
            chains=first.foundation,
            far_side=any(isinstance(i, FarSide) for i in settled.instruction.items),
            uneven=faulty.uneven,
            misfit=_misfit(outcomes, round_),
            unsettled=settled.unsettled,
            run=_run(outcomes, round_.label.rounds, stated),
            folded=last.folded,
        )

    def unread(self, round_: Round) -> None:
        """A line that could not be read: the piece goes on from its stated count."""
        stated = round_.stated.count if round_.stated else None
        available = next((c for c in self.candidates if c is not None), None)
        run = ((round_.label.rounds, stated),) if stated is not None else ()
        self.keep(
            WorkedRound(
                round_,
                Base.ROUND,
                available,
                None,
                0,
                None,
                stated,
                stated,
                yarn=self.yarn,
                run=run,
            )
        )
        self.candidates = [stated]

    def loops(self, round_: Round, outcomes: list[Outcome]) -> None:
        """Loops that this line leaves free in the rounds below it."""
        below = self.worked(self.places[-2]) if len(self.places) > 1 else None
        number = below.round.label.last if below else 0
        for index in range(min(round_.label.rounds, _MOST_ROUNDS)):
            out = outcomes[min(index, len(outcomes) - 1)]
            under = number if index == 0 else round_.label.first + index - 1
            for loop, other in ((Loop.BACK, Loop.FRONT), (Loop.FRONT, Loop.BACK)):
                if under and out.loops.get(loop):
                    self.free[under, other] += out.loops[loop]

    def next_counts(self, round_: Round, out: Outcome) -> list[int | None]:
        """The counts the next round may start from: what was made, what was stated, and what was
        made without the chains, or with each run of them as one space."""
        if out.unknown:
            return [round_.stated.count if round_.stated else None]
        found: list[int | None] = [_counted(out, None)]
        stated = round_.stated.count if round_.stated else None
        plain = out.made - out.chains
        for count in (stated, plain, plain + out.spaces):
            if count is not None and count not in found:
                found.append(count)
        return found

    def gathered(self) -> bool:
        """Whether the end is drawn shut: said so after the last round, or in the assembly."""
        keys = [piece.key for piece in self.pattern.pieces]
        for step in self.pattern.assembly:
            verb = step.verb
            if not isinstance(verb, Close) or not verb.by or verb.by.value != "gather":
                continue
            if piece_of(verb.edge.value, keys) == self.piece.key:
                return True
        after: list[Entry] = []
        for entry in self.entries:
            after = [] if isinstance(entry, WorkedRound) else [*after, entry]
        words = " ".join(e.text for e in after if isinstance(e, Action | Note))
        return bool(_DRAWN_SHUT.search(words))


def mean_height(tally: Mapping[tuple[str, str | None], int], pattern: Pattern) -> float:
    """Mean height of stitches in single crochets; chains and slip joins have none."""
    heights = {kind: stitches()[kind].height for kind, _ in tally if kind in stitches()}
    heights |= {own.key: own.height for own in pattern.stitches}
    counted = {k: n for k, n in tally.items() if heights.get(k[0], 0) > 0}
    total = sum(counted.values())
    return sum(heights[k[0]] * n for k, n in counted.items()) / total if total else 1.0


def _misfit(outcomes: list[Outcome], round_: Round) -> Misfit | None:
    """The first round of a line that does not come out with what there is."""
    for number, out in enumerate(outcomes, round_.label.first):
        if out.available is not None and (out.over or out.spare) and not out.uneven:
            span = out.over_at or round_.work
            needed = out.used + out.left
            return Misfit(number, out.available, needed, out.over, out.spare, span)
    return None


def _counted(out: Outcome, stated: int | None) -> int:
    """Stitches made; without its chains where that is what the text states."""
    if stated is not None and stated == out.made - out.chains:
        return stated
    return out.made


def _run(outcomes: list[Outcome], rounds: int, stated: int | None) -> tuple[tuple[int, int], ...]:
    if len(outcomes) == 1:
        return ((rounds, _counted(outcomes[0], stated)),)
    rest = rounds - len(outcomes) + 1
    return (*((1, o.made) for o in outcomes[:-1]), (max(1, rest), outcomes[-1].made))


def _one_round(outcomes: list[Outcome], rounds: int) -> Mapping[tuple[str, str | None], int]:
    """The tally of one round; for a range whose rounds differ, their mean, rounded."""
    if len(outcomes) == 1:
        return outcomes[0].tally
    total: Counter[tuple[str, str | None]] = Counter()
    for index, out in enumerate(outcomes):
        weight = rounds - len(outcomes) + 1 if index == len(outcomes) - 1 else 1
        for key, count in out.tally.items():
            total[key] += count * max(1, weight)
    return {key: round(count / rounds) for key, count in total.items()}
