"""Whether what is placed round a piece comes out even with the rounds it sits on."""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.fabric.model import Fabric, WorkedPiece
from roundproof.fabric.places import Site, at_site, counts_between, marks_of
from roundproof.frozen import dataclass
from roundproof.notation.edges import piece_of, read_edge, read_label
from roundproof.notation.tree import Act, Action
from roundproof.pattern.model import Around, Join, Pattern, Place
from roundproof.source import Located, Span


@dataclass(frozen=True, slots=True)
class Placing:
    """Things put round a piece: `counts` the stitches the rounds there have (one is enough to come
    out even), `wide` the stitches each thing covers (None where that is not said)."""

    piece: str
    rounds: str
    counts: tuple[int, ...]
    wide: Located[int] | None
    around: Around | None
    covers: int | None

    @property
    def most(self) -> int:
        return max(self.counts)

    @property
    def there(self) -> str:
        """'R9 has 44 stitches'."""
        has = "have" if "-" in self.rounds else "has"
        return f"{self.rounds} of {self.piece} {has} {' or '.join(map(str, self.counts))} stitches"


@dataclass(frozen=True, slots=True)
class Misplaced:
    """What does not come out, at its words."""

    span: Span
    message: str
    mend: str


def placings(pattern: Pattern, fabric: Fabric) -> Iterator[Placing]:
    """Everything that assembly places on rounds whose counts are known."""
    for step in pattern.assembly:
        found = placing_of(fabric, step.verb) if isinstance(step.verb, Join | Place) else None
        if found is not None and found.counts:
            yield found


def placing_of(fabric: Fabric, verb: Join | Place) -> Placing | None:
    """What a step places, or None where it does not say on which rounds."""
    return _joined(fabric, verb) if isinstance(verb, Join) else _placed(fabric, verb)


def misplaced(placing: Placing) -> Misplaced | None:
    """What does not come out, or None."""
    around, wide = placing.around, placing.wide
    if wide is not None and wide.value > placing.most:
        return Misplaced(
            wide.span,
            f"The place is {wide.value} stitches wide, and {placing.there}.",
            f"Make it {placing.most} stitches at most.",
        )
    if around is None:
        return None
    if around.free:
        return _gaps(placing, around)
    if around.apart is not None:
        return _pair(placing, around.apart)
    if around.evenly is not None:
        return _spread(placing, around.evenly)
    return _at_stitch(placing, around.st)


def wrong_marks(worked: WorkedPiece) -> Iterator[Misplaced]:
    """Landmarks at stitches that their round does not have."""
    spans = {name: said.span for name, said in (worked.piece.marks or {}).items()}
    for entry in worked.entries:
        if isinstance(entry, Action) and entry.act is Act.MARK and entry.name:
            spans[entry.name] = entry.span
    for name, mark in marks_of(worked).items():
        counts = counts_between(worked, mark.round, mark.round)
        if counts and mark.stitch > max(counts):
            yield Misplaced(
                spans[name],
                f"The mark {name} is at stitch {mark.stitch}, and R{mark.round} of"
                f" {worked.piece.key} has {max(counts)}.",
                f"Count its stitches up to {max(counts)}.",
            )


def _joined(fabric: Fabric, join: Join) -> Placing | None:
    key = piece_of(join.to.value, fabric.pieces) if join.to else None
    if key is None or join.to is None:
        return None
    worked = fabric.pieces[key]
    site = at_site(key, join.at) if join.at else _round_site(fabric, join.to.value)
    if site is None or site.kind == "up":
        return None
    wide = join.at.stitches if join.at else None
    return _placing(worked, site, join.around, wide, wide.value if wide else None)


def _placed(fabric: Fabric, place: Place) -> Placing | None:
    key = piece_of(place.piece.value, fabric.pieces) if place.piece else None
    numbers = [n for label in place.between if (n := read_label(label.value)) is not None]
    if key is None or not numbers:
        return None
    site = Site(key, "between", min(numbers), max(numbers))
    return _placing(fabric.pieces[key], site, place.around, None, 0)


def _round_site(fabric: Fabric, words: str) -> Site | None:
    name = read_edge(words, fabric.pieces)
    if name is None or name.round is None:
        return None
    return Site(name.piece, "between", name.round, name.round)


def _placing(
    worked: WorkedPiece,
    site: Site,
    around: Around | None,
    wide: Located[int] | None,
    covers: int | None,
) -> Placing:
    rounds = f"R{site.first}" if site.first == site.last else f"R{site.first}-R{site.last}"
    counts = counts_between(worked, site.first, site.last)
    return Placing(site.piece, rounds, counts, wide, around, covers)


def _gaps(placing: Placing, around: Around) -> Misplaced | None:
    free, pieces = sum(gap.value for gap in around.free), len(around.free)
    span = around.free[0].span.to(around.free[-1].span)
    said = " + ".join(str(gap.value) for gap in around.free)
    if placing.covers is None:
        rest = [count - free for count in placing.counts]
        if any(left > 0 and left % pieces == 0 for left in rest):
            return None
        return Misplaced(
            span,
            f"The gaps {said} come to {free} and {placing.there}: what is left cannot be shared"
            f" by {pieces}.",
            "Change the gaps, or say with `stitches` how wide each piece is.",
        )
    total = free + pieces * placing.covers
    if total in placing.counts:
        return None
    covered = f" and {pieces} pieces of {placing.covers}" if placing.covers else ""
    nearest = min(placing.counts, key=lambda count: abs(count - total))
    wanted = nearest - pieces * placing.covers
    return Misplaced(
        span,
        f"The gaps {said}{covered} come to {total} stitches, and {placing.there}.",
        f"The gaps must come to {wanted}."
        if wanted >= 0
        else f"{pieces} pieces of {placing.covers} do not go round: there are {nearest} stitches.",
    )


def _pair(placing: Placing, apart: Located[int]) -> Misplaced | None:
    covered = 2 * (placing.covers or 0)
    if apart.value + covered <= placing.most:
        return None
    taken = f" and the two cover {covered}" if covered else ""
    return Misplaced(
        apart.span,
        f"The pair stands {apart.value} stitches apart{taken}, and {placing.there}.",
        f"Set them {max(placing.most - covered, 0)} apart at most.",
    )


def _spread(placing: Placing, evenly: Located[int]) -> Misplaced | None:
    each = max(placing.covers or 1, 1)
    if evenly.value * each <= placing.most:
        return None
    return Misplaced(
        evenly.span,
        f"{evenly.value} spread evenly take {evenly.value * each} stitches, and {placing.there}.",
        f"Spread {placing.most // each} at most.",
    )


def _at_stitch(placing: Placing, stitch: Located[int] | None) -> Misplaced | None:
    if stitch is None or stitch.value <= placing.most:
        return None
    return Misplaced(
        stitch.span,
        f"There is no stitch {stitch.value}: {placing.there}.",
        f"Count up to {placing.most}.",
    )
