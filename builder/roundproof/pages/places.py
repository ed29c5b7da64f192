"""Places on a piece in words: on which rounds, where round it, and single points."""

from __future__ import annotations

from roundproof.fabric.placing import placing_of
from roundproof.fabric.stands import steps_of
from roundproof.notation.edges import piece_of
from roundproof.notation.points import read_point
from roundproof.pages.figures import counted, listed
from roundproof.pattern.model import Around, At, Join, Place
from roundproof.proof import Proof


def at_words(at: At | None) -> str:
    """ "on R8-R10, 3 stitches wide", "between R3 and R4, over 3 stitches"."""
    if at is None:
        return ""
    count = counted(at.stitches.value, "stitch", "stitches") if at.stitches else ""
    if at.footprint is not None:
        return f"on {_rounds(at.footprint.value)}{f', {count} wide' if count else ''}"
    if len(at.between) == 2:
        over = f", over {count}" if count else ""
        return f"between {at.between[0].value} and {at.between[1].value}{over}"
    return f"up {_rounds(at.up.value)}" if at.up else ""


def _rounds(words: str) -> str:
    """A range; one round where it begins and ends with the same."""
    first, dash, last = words.replace("–", "-").partition("-")
    return first.strip() if dash and first.strip() == last.strip() else words


def around_words(verb: Join | Place, proof: Proof) -> str:
    """Where round its host a step sets things; empty where it does not say."""
    around = verb.around
    if around is None:
        return ""
    mark = f"the {around.mark.value} mark" if around.mark else "the start of the round"
    if around.apart is not None:
        return _apart(around.apart.value, mark)
    if around.free:
        return _gaps(around, mark)
    if around.evenly is not None:
        return _evenly(around, verb, proof)
    if around.st is not None:
        return f"starting at stitch\u00a0{around.st.value:,}"
    return f"centred on {mark}"


def _apart(gap: int, mark: str) -> str:
    free = counted(gap, "stitch", "stitches")
    half = f"{gap // 2:,} of them" if gap % 2 == 0 else "half of them"
    return f"with {free} free between the two, {half} on each side of {mark}"


def _gaps(around: Around, mark: str) -> str:
    gaps = [f"{gap.value:,}" for gap in around.free]
    if len(set(gaps)) == 1 and len(gaps) > 1:
        return f"with {counted(around.free[0].value, 'stitch', 'stitches')} free between them"
    first = f"centred on {mark}" if around.mark else f"from {mark}"
    return f"with gaps of {listed(gaps)} stitches, the first {first}"


def _evenly(around: Around, verb: Join | Place, proof: Proof) -> str:
    times = around.evenly.value if around.evenly else 1
    start = f", the first at {_from(around.from_.value)}" if around.from_ else ""
    found = placing_of(proof.fabric, verb)
    count = found.counts[0] if found and len(found.counts) == 1 else 0
    if not 0 < times <= min(count, 60):
        return f"evenly in {times:,} places{start}"
    steps = steps_of(times, count)
    if len(set(steps)) == 1:
        return f"{times:,} of them, one every {counted(steps[0], 'stitch', 'stitches')}{start}"
    return (
        f"{times:,} of them, {listed([f'{step:,}' for step in steps])} stitches on each time{start}"
    )


def _from(words: str) -> str:
    point = words.strip().lower()
    for short in ("sts ", "st "):
        if point.startswith(short):
            return f"stitch\u00a0{point.removeprefix(short)}"
    return words


def point_words(words: str, proof: Proof) -> str:
    """A point: "stitch 3 of R2", "between R2 and R3", "the front mark"; with its piece where that
    is named, as in the path of a joint."""
    key = piece_of(words, proof.fabric.pieces)
    rest = " ".join(words.split())[len(key) :].strip(" ,") if key else words
    name = f"the {proof.fabric.pieces[key].piece.name.lower()}" if key else ""
    piece = f" of {name}" if key else ""
    if key and not rest:
        return name
    point = read_point(rest)
    if point.name:
        return f"{rest}{piece}"
    if point.first != point.last:
        stitch = f", at stitch\u00a0{point.stitch}" if point.stitch else ""
        return f"between R{point.first} and R{point.last}{piece}{stitch}"
    if point.stitch and point.place == point.stitch - 0.5:
        return f"stitch\u00a0{point.stitch} of R{point.first}{piece}"
    if point.stitch:
        return f"between stitches {point.stitch - 1} and {point.stitch} of R{point.first}{piece}"
    return f"R{point.first}{piece}"
