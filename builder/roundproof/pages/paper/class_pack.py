"""What a teacher needs for a class: everything so many times, with something to spare.

Ten per cent more yarn and filling, and one more of each small thing for every ten pupils: common
practice, no source. Nothing is said of ages, nor of how many adults there should be: the rules of
the place and of the school apply.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from roundproof.frozen import dataclass
from roundproof.pages.figures import counted
from roundproof.pages.label import label
from roundproof.pages.paper.how import Print
from roundproof.pages.paper.nodes import nodes, text_of
from roundproof.pages.values import PatternPage
from roundproof.proof import Proof

SPARE = 0.1
"""Of yarn and filling; and of each small thing one in so many."""
MOST_LABELS = 60


@dataclass(frozen=True, slots=True)
class Need:
    """A thing to buy: for one, for the class with what is spare."""

    what: str
    one: str
    all: str


def class_pack(proof: Proof, page: PatternPage, how: Print) -> dict[str, object]:
    """Totals, times piece by piece, labels."""
    pupils = how.pupils
    needs = [*_yarns(proof, pupils), *_hooks(proof, pupils), *_notions(proof, pupils)]
    words = label(proof)
    name = text_of(nodes(words.scientific, how.choice)) if words else ""
    return {
        "pupils": pupils,
        "needs": [{"what": n.what, "one": n.one, "all": n.all} for n in needs],
        "times": _times(proof, page),
        "labels": min(pupils, MOST_LABELS),
        "label": {
            "title": words.name if words else page.title,
            "name": name,
            "facts": [list(fact) for fact in words.facts] if words else [],
        },
    }


def _yarns(proof: Proof, pupils: int) -> Iterator[Need]:
    for yarn in proof.pattern.yarns:
        need = proof.measures.yarns.get(yarn.key)
        if need is None:
            continue
        name = f"{yarn.letter}, {yarn.name}"
        if need.metres is None:
            yield Need(name, "not known", "see the materials")
            continue
        metres = need.metres * pupils * (1 + SPARE)
        one, all_ = f"{ceil(need.metres)} m", f"{ceil(metres):,} m"
        if yarn.ball and yarn.ball.metres > 0:
            all_ += f", {counted(ceil(metres / yarn.ball.metres), 'ball')}"
        yield Need(name, one, all_)


def _hooks(proof: Proof, pupils: int) -> Iterator[Need]:
    for size in sorted({yarn.hook.value for yarn in proof.pattern.yarns if yarn.hook}):
        yield Need(f"Hook, {size:g} mm", "1", str(_with_spare(pupils)))


def _notions(proof: Proof, pupils: int) -> Iterator[Need]:
    for notion in proof.pattern.notions:
        size = f", {notion.size.value:g} mm" if notion.size else ""
        name = f"{notion.item.value[:1].upper()}{notion.item.value[1:]}{size}"
        if notion.amount:
            grams = _grams(notion.amount.value)
            if grams is None:
                yield Need(name, notion.amount.value, f"{pupils} times as much, and some to spare")
            else:
                yield Need(name, f"{grams:g} g", f"{ceil(grams * pupils * (1 + SPARE)):,} g")
            continue
        each = notion.count.value if notion.count else 1
        yield Need(name, str(each), f"{each * _with_spare(pupils):,}")


def _grams(amount: str) -> float | None:
    number, _, unit = amount.partition(" ")
    try:
        return float(number) if unit.strip() == "g" else None
    except ValueError:
        return None


def _with_spare(pupils: int) -> int:
    return pupils + ceil(pupils * SPARE)


def _times(proof: Proof, page: PatternPage) -> list[list[str]]:
    """Each piece: how many one pupil makes, its rounds, the time for all of them."""
    times = {each.id: each.time for each in page.sizes.pieces} if page.sizes else {}
    return [
        [piece.name, str(piece.make), piece.figures, times.get(piece.id, "") or "not known"]
        for piece in page.pieces
    ]
