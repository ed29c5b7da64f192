"""What a teacher needs for a class: a set for each pupil, and one to spare for every ten begun.

The spare sets are common practice, no source. Yarn is counted by portions wound off whole balls:
what is left of a ball is not joined on for the next pupil. Nothing is said of ages, nor of how many
adults there should be: the rules of the place and of the school apply.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from roundproof.frozen import dataclass
from roundproof.pages.figures import counted, grams, metres, millimetres
from roundproof.pages.label import label
from roundproof.pages.materials import hook_sizes
from roundproof.pages.paper.how import Print
from roundproof.pages.paper.nodes import nodes, text_of
from roundproof.pages.times import hours_words
from roundproof.pages.values import PatternPage
from roundproof.pattern.model import Yarn
from roundproof.proof import Proof

ONE_IN = 10
"""So many pupils have one set to spare."""
LESSON = 1.0
"""Hours: a class of children takes about so long; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Need:
    """A thing to buy: for one, for all sets, and how it is shared out."""

    what: str
    one: str
    all: str
    more: str = ""


def class_pack(proof: Proof, page: PatternPage, how: Print) -> dict[str, object]:
    """Totals, times piece by piece, labels."""
    sets = how.pupils + spare(how.pupils)
    needs = [*_yarns(proof, sets), *_hooks(proof, sets), *_notions(proof, sets)]
    return {
        "pupils": counted(how.pupils, "pupil"),
        "spare": counted(sets - how.pupils, "set"),
        "needs": [{"what": n.what, "one": n.one, "all": n.all, "more": n.more} for n in needs],
        "copying": _copying(page),
        "times": _times(proof, page),
        "all_of_it": _all_of_it(proof),
        "first": _first(proof),
        "apart": len(page.pieces) > 1,
        "labels": sets,
        "label": _label(proof, page, how),
    }


def _copying(page: PatternPage) -> str:
    """Whether it may be printed for a class, as far as it is said."""
    if said := dict(page.permissions).get("Print it", ""):
        return f"May it be printed? The designer says: {said}"
    if page.licence:
        return f"Whether it may be printed for a class goes by its licence, {page.licence.words}."
    return "Whether it may be printed for a class is not said: ask the designer."


def spare(pupils: int) -> int:
    return ceil(pupils / ONE_IN)


# ---- what is needed ----
def _yarns(proof: Proof, sets: int) -> Iterator[Need]:
    for yarn in proof.pattern.yarns:
        need = proof.measures.yarns.get(yarn.key)
        if need is None:
            continue
        name = f"{yarn.letter}, {yarn.name}"
        if need.metres is None:
            yield Need(name, "not known", "see the materials")
            continue
        one = metres(need.metres) + (f", {grams(need.grams)}" if need.grams else "")
        yield Need(name, one, *_of_yarn(yarn, need.metres, sets))


def _of_yarn(yarn: Yarn, one: float, sets: int) -> tuple[str, str]:
    """The metres and balls of a yarn for all, and how many a ball is enough for."""
    all_ = f"{_up(one * sets):,}\u00a0m"
    if yarn.ball is None or yarn.ball.metres <= 0 or one <= 0:
        return all_, ""
    portions = int(yarn.ball.metres / one + 1e-9)
    if portions:
        enough = f"wind off {metres(one)} for each; a ball is enough for {portions:,}"
        return f"{all_}, {counted(ceil(sets / portions), 'ball')}", enough
    balls = _up(one / yarn.ball.metres)
    return f"{all_}, {counted(balls * sets, 'ball')}", f"{counted(balls, 'ball')} for each"


def _hooks(proof: Proof, sets: int) -> Iterator[Need]:
    for size in hook_sizes(proof):
        yield Need(f"Hook, {millimetres(size)}", "1", f"{sets:,}")


def _notions(proof: Proof, sets: int) -> Iterator[Need]:
    for notion in proof.pattern.notions:
        size = f", {millimetres(notion.size.value)}" if notion.size else ""
        name = f"{notion.item.value[:1].upper()}{notion.item.value[1:]}{size}"
        if notion.amount:
            weight = _grams(notion.amount.value)
            if weight is None:
                yield Need(name, notion.amount.value, f"{sets:,} times as much")
            else:
                yield Need(name, f"{weight:g}\u00a0g", f"{_up(weight * sets):,}\u00a0g")
            continue
        each = notion.count.value if notion.count else 1
        yield Need(name, f"{each:,}", f"{each * sets:,}")


def _grams(amount: str) -> float | None:
    number, _, unit = amount.partition(" ")
    try:
        return float(number) if unit.strip() == "g" else None
    except ValueError:
        return None


def _up(amount: float) -> int:
    """The next whole number, where 110.00000000000001 is 110."""
    return ceil(round(amount, 6))


# ---- how long it takes ----
def _times(proof: Proof, page: PatternPage) -> list[list[str]]:
    """Each piece: how many one pupil makes, its rounds, the time for all of them. Making up is the
    last."""
    times = {each.id: each.time for each in page.sizes.pieces} if page.sizes else {}
    rows = [
        [piece.name, str(piece.make), piece.figures, times.get(piece.id, "") or "not known"]
        for piece in page.pieces
    ]
    if proof.pattern.assembly and page.sizes and page.sizes.making_up:
        rows.append(["Making up", "", "", page.sizes.making_up])
    return rows


def _all_of_it(proof: Proof) -> str:
    hours = proof.measures.hours
    if hours is None:
        return ""
    low, high = (max(1, _up(each / LESSON)) for each in hours)
    lessons = f"{low} to {high} lessons" if high > low else counted(high, "lesson")
    return f"{hours_words(*hours)}, or {lessons} of an hour"


def _first(proof: Proof) -> str:
    """The least and the largest piece by the stitches of one copy: where beginners and those with
    more practice may begin."""
    pieces = proof.fabric.pieces.values()
    sizes = {each.piece.name: each.stitches for each in pieces if each.stitches}
    if len(sizes) < 2:
        return ""
    least, most = min(sizes, key=sizes.__getitem__), max(sizes, key=sizes.__getitem__)
    return (
        f"The piece with the fewest stitches is {least}, with {sizes[least]:,};"
        f" {most} has the most, {sizes[most]:,}."
    )


# ---- labels ----
def _label(proof: Proof, page: PatternPage, how: Print) -> dict[str, object]:
    """What stands on each label. Sources stand in the booklet: what is cut out has no room for
    them."""
    words = label(proof, cited=False)
    hazards = dict.fromkeys(thing.hazard for thing in page.materials.things if thing.hazard)
    return {
        "title": words.name if words else page.title,
        "name": text_of(nodes(words.scientific, how.choice)) if words else "",
        "facts": [list(fact) for fact in words.facts] if words else [],
        "hazards": [*hazards],
    }
