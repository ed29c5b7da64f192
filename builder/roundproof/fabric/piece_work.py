"""Works one piece, line by line."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator

from roundproof.expressions import expression
from roundproof.fabric.model import (
    Base,
    Edge,
    FreeRun,
    WorkedPiece,
    WorkedRound,
)
from roundproof.fabric.once import Places, fills
from roundproof.fabric.outcome import Outcome
from roundproof.fabric.settle import Settled, settle
from roundproof.fabric.sums import (
    absorbed,
    counted,
    mean_height,
    misfit,
    one_round,
    run_of,
    without_chains,
)
from roundproof.frozen import replace
from roundproof.notation.edges import piece_of, read_label
from roundproof.notation.tree import (
    Act,
    Action,
    Again,
    Chain,
    Entry,
    FarSide,
    Instruction,
    Label,
    Loop,
    Note,
    Onto,
    Round,
    Script,
    Spot,
)
from roundproof.notation.units import every_stitch
from roundproof.pattern.model import Close, Pattern, Piece

_DRAWN_SHUT = expression(r"\b(?:draw|gather|pull|close|weave|thread)\w*\b", re.IGNORECASE)
_YARNS = (Act.CHANGE_YARN, Act.JOIN_YARN)
_MOST_ROUNDS = 10_000
"""Rounds of one line that are worked one by one; further ones are taken to be like the last."""


class PieceWork:
    """One piece on the hook."""

    def __init__(
        self,
        pattern: Pattern,
        piece: Piece,
        script: Script,
        start: Edge | None,
        elsewhere: Places,
        taken: Callable[[Onto, int, WorkedRound], None],
    ) -> None:
        """`elsewhere` tells how many stitches there are at a place of another piece, `taken` is
        told of those that a round works into."""
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
        self.elsewhere = elsewhere
        self.taken = taken
        self.taken_up: Counter[int] = Counter()
        """Of the stitches that a round left, how many are worked into since."""
        self.instead: tuple[FreeRun, ...] | None = None
        self.chains = 0
        """Chains among the stitches of the round below."""
        self.fastened = False

    def whole(self) -> WorkedPiece:
        for entry in self.script.entries:
            if isinstance(entry, Round):
                for each in self.again(entry):
                    self.entry(each)
            else:
                self.entry(entry)
        return WorkedPiece(
            self.piece,
            tuple(self.entries),
            self.free_runs(),
            self.left,
            self.fastened,
            self.gathered(),
        )

    def entry(self, entry: Entry) -> None:
        if isinstance(entry, Round):
            self.round(entry)
            return
        self.act(entry)
        self.entries.append(entry)

    def free_runs(self) -> tuple[FreeRun, ...]:
        """The loops that are free so far."""
        return tuple(FreeRun(number, loop, n) for (number, loop), n in self.free.items() if n > 0)

    def act(self, entry: Entry) -> None:
        if not isinstance(entry, Action):
            return
        if entry.act in _YARNS:
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

    def again(self, entry: Round) -> list[Round | Action]:
        """Earlier rounds worked again, as rounds of their own with numbers of their own; a change
        of yarn between them is made again too."""
        again = entry.repeats
        if again is None:
            return [entry]
        found: list[Round | Action] = []
        number, source = entry.label.first, self.source(again)
        while source and number <= entry.label.last and len(found) < _MOST_ROUNDS:
            for each in source:
                if number > entry.label.last:
                    break
                if isinstance(each, Action):
                    found.append(each)
                    continue
                last = min(entry.label.last, number + each.label.rounds - 1)
                label = Label(number, last, entry.label.span, entry.label.row)
                stated = entry.stated or each.stated
                round_ = replace(each, label=label, stated=stated, span=entry.span, remark="")
                found.append(replace(round_, work=again.span))
                number = last + 1
        return found or [entry]

    def source(self, again: Again) -> list[Round | Action]:
        """The rounds that are worked again, with the changes of yarn before and among them. The
        yarn that the first of them begins with is changed to again if another is in hand."""
        found: list[Round | Action] = []
        before: Action | None = None
        for entry in self.entries:
            changes = isinstance(entry, Action) and entry.act in _YARNS
            if isinstance(entry, WorkedRound):
                if again.first <= entry.round.label.first <= again.last:
                    found += [before] if before else []
                    found.append(entry.round)
                before = None
            elif changes and isinstance(entry, Action):
                before = entry
        if not any(isinstance(each, Round) for each in found):
            return []
        return found

    # ---- one line of work ----

    def round(self, round_: Round) -> None:
        if not round_.readings:
            self.unread(round_)
            return
        yarn = self.yarn
        self.instead = None
        candidates, base = self.into(round_)
        infer = base is not Base.EDGE
        settled = settle(round_, candidates, yarn, self.chain_counts, infer, self.there)
        if base is Base.ROUND:
            self.carried(settled.available)
        outcomes = self.range(round_, settled)
        below = self.worked(self.places[-1]) if self.places and base is Base.ROUND else None
        worked = self.record(round_, settled, outcomes, base, yarn)
        if worked.made is not None and worked.made == outcomes[-1].made - outcomes[-1].chains:
            worked = without_chains(worked) if outcomes[-1].chains else worked
        if below is not None and (shared := absorbed(below, worked)):
            self.entries[self.places[-1]] = replace(below, absorbed=shared)
        self.keep(worked)
        self.onto(worked)
        self.loops(round_, outcomes)
        out = outcomes[-1]
        self.yarn = out.yarn
        self.chains = out.chains
        if out.left:
            self.left[round_.label.last] = out.left
        self.candidates = self.next_counts(round_, out)

    def there(self, onto: Onto) -> int | None:
        """How many stitches there are at a place of its own."""
        if onto.spot is Spot.PATH:
            path = crossed(self.piece)
            return path.count if path else None
        if onto.spot is Spot.CHAIN:
            return self.chains
        if onto.spot is Spot.UNWORKED and not onto.piece:
            number = self.left_by(onto)
            left = self.left.get(number)
            return None if left is None else left - self.taken_up[number]
        return self.elsewhere(onto)

    def left_by(self, onto: Onto) -> int:
        """The round whose stitches left unworked are meant: the one named, or the latest."""
        return onto.round or max(self.left, default=0)

    def onto(self, worked: WorkedRound) -> None:
        """Keep in mind what is worked into away from the round below."""
        for onto, count, _ in worked.onto:
            if onto.spot is Spot.UNWORKED and not onto.piece:
                self.taken_up[self.left_by(onto)] += count
            elif onto.piece:
                self.taken(onto, count, worked)

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
            self.instead = None if count else self.free_runs()
            return [count or None], Base.EDGE
        if all(_elsewhere(reading) for reading in round_.readings):
            return [None], Base.EDGE
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
            alike = made == last.available and following.made == made
            if alike and following.stretches == last.stretches and following.yarn == last.yarn:
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
            available=first.available if self.instead is None else 0,
            used=None if unknown else faulty.used,
            unworked=faulty.left,
            made=(stated if unknown else counted(last, stated)),
            stated=stated,
            carries=stated if unknown else counted(last, stated),
            instruction=settled.instruction,
            yarn=yarn,
            stretches=tuple(last.stretches),
            tally=dict(one_round(outcomes, round_.label.rounds)),
            height=mean_height(last.tally, self.pattern),
            loop=loops.pop() if len(loops) == 1 else (None if loops else Loop.BOTH),
            chains=first.foundation,
            far_side=any(isinstance(i, FarSide) for i in settled.instruction.items),
            uneven=faulty.uneven,
            misfit=misfit(outcomes, round_),
            unsettled=settled.unsettled,
            run=run_of(outcomes, round_.label.rounds, stated),
            folded=last.folded,
            instead=self.instead,
            lifted=settled.counting,
            onto=tuple((onto, count, self.there(onto)) for onto, count in first.onto.items()),
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
        found: list[int | None] = [counted(out, None)]
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


def crossed(piece: Piece) -> Edge | None:
    """The path of a piece worked on the surface: one stitch for each round that it crosses."""
    path = piece.path
    if not path or "piece" not in path or "from" not in path or "to" not in path:
        return None
    ends = [read_label(path[end].value) for end in ("from", "to")]
    if ends[0] is None or ends[1] is None:
        return None
    host = path["piece"].value
    return Edge(host, host, "path", abs(ends[0] - ends[1]) + 1, None)


def _elsewhere(reading: Instruction) -> bool:
    """Whether none of the stitches of a round goes into the round below."""
    away = False
    for stitch in every_stitch(reading.items):
        onto = stitch.onto
        if onto is None:
            if stitch.unit.makes:
                return False
        elif onto.both:
            return False
        elif onto.spot is not Spot.CHAIN:
            away = True
    return away
