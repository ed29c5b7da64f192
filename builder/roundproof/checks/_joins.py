"""What the checks of joins share: how much a verdict weighs, and its words."""

from __future__ import annotations

from roundproof.checks._rounds import in_words, work_in_words
from roundproof.findings import Severity
from roundproof.measure.figures import number, percent, stitches
from roundproof.measure.fit import yarn_word
from roundproof.measure.meeting import plan_words
from roundproof.measure.model import Fit, Verdict
from roundproof.measure.reach import Reach
from roundproof.notation.tree import Instruction, Repeat, Stitches, Unit
from roundproof.notation.units import SINGLE, named
from roundproof.proof import Proof

SEVERITY = {
    Verdict.EASE: Severity.NOTE,
    Verdict.CARE: Severity.WARNING,
    Verdict.MISFIT: Severity.ERROR,
}
_PLACES = {
    "footprint": "{} rounds and stitches round",
    "between": "{} stitches wide",
    "up": "{} rounds high",
}


def doubtful(proof: Proof, fit: Fit) -> bool:
    """Whether an edge is a round whose count is at fault: that is said there, and once."""
    for edge in fit.edges:
        worked = proof.fabric.pieces.get(edge.piece)
        found = worked and (worked.at(edge.round) if edge.round else worked.last)
        if found and not found.sound:
            return True
    return False


# ---- counts ----
def left_over(fit: Fit) -> str:
    longer, shorter = _as_they_lie(fit)
    over = longer - shorter
    return f"{over} {'is' if over == 1 else 'are'} left over ({percent(over / shorter)})"


def _as_they_lie(fit: Fit) -> tuple[int, int]:
    one = (fit.counts[0] or 0) // (2 if fit.folded[0] else 1)
    two = (fit.counts[1] or 0) // (2 if fit.folded[1] else 1)
    return max(one, two), min(one, two)


def count_mend(proof: Proof, fit: Fit) -> str:
    """The count each edge would need, and how to bring them together as they are."""
    guest, host = fit.edges
    counts = f"End {guest.piece} with {fit.suggest[0]}, or {host.piece} with {fit.suggest[1]}"
    if fit.verdict is Verdict.MISFIT:
        counts += "; if the longer edge is meant to gather, say `ease: gathered`"
    elif fit.plan is not None:
        counts += f"; or {plan_words(fit)}"
    return f"{counts}.{reach_words(proof, fit)}"


# ---- ways to mend ----
def reach_words(proof: Proof, fit: Fit) -> str:
    """Sentences on how either piece comes to a count that fits, each with a space before it."""
    said = []
    for kept, suited, way in zip(fit.kept, fit.suggest, fit.reach, strict=True):
        if way is None:
            continue
        keeps = f", a multiple of {way.multiple} as before" if kept == way.count != suited else ""
        if way.at:
            said.append(f" {way.at} of {way.piece} has {way.count}{keeps}.")
        else:
            said.append(
                f" After {way.after} of {way.piece}, {_work(proof, way)} makes {way.count}{keeps}."
            )
    return "".join(said)


def _work(proof: Proof, way: Reach) -> str:
    """The round that reaches a count, in the pattern's own terms: '(4 sc, inc) x 6'."""
    span = proof.pattern.span
    increase = Stitches(named(((SINGLE, 2),), 1), 1, span)
    if not way.plain:
        return in_words(Stitches(increase.unit, way.times, span), proof)
    plain = Stitches(Unit(((SINGLE, 1),)), way.plain, span)
    if way.times == 1:
        return work_in_words(Instruction((plain, increase)), proof)
    return in_words(Repeat((plain, increase), way.times, span), proof)


# ---- lengths ----
def length_message(fit: Fit) -> str:
    one, two = fit.edges
    if fit.fullness is not None:
        words = (
            fit.working or f"{one.text} has {fit.counts[0]} stitches, {two.text} {fit.counts[1]}"
        )
        return f"{words}: {number(fit.fullness)} times as long is too little to gather."
    if fit.fit is None:
        return (
            f"{one.text} has {stitches(fit.counts[0] or 0)} and {two.text} has {fit.counts[1]},"
            " and without a gauge for both yarns nobody can tell whether they fit."
        )
    place = "the place" if two.kind in _PLACES else two.text
    shorter = one.text if fit.fit < 1 else place
    share = 1 - min(fit.fit, 1 / fit.fit)
    guess = ", as far as a guessed gauge can tell" if fit.guessed else ""
    return f"{fit.working}: {shorter} is {percent(share)} short{guess}."


def length_mend(proof: Proof, fit: Fit) -> str:
    if fit.fullness is not None:
        return "Make the gathered edge half as long again as the other, or say `ease: yes`."
    if fit.fit is None:
        return "Give each yarn its gauge."
    counts = _counts(proof, fit)
    ways = reach_words(proof, fit)
    if fit.verdict is Verdict.EASE:
        return f"Ease it in, pinned at the quarters{'; ' + counts if counts else ''}.{ways}"
    if fit.verdict is Verdict.CARE:
        return f"{counts}; or ease it in with care, the longer side towards you.{ways}"
    return f"{counts}.{ways}"


def _counts(proof: Proof, fit: Fit) -> str:
    """The counts that would fit, or nothing where no other count is nearer."""
    one, two = fit.suggest
    if one is None or two is None or one == fit.counts[0]:
        return ""
    names = _names(proof, fit)
    if (place := _PLACES.get(fit.edges[1].kind)) is not None:
        return f"{stitches(one)} of {names[0]} would fit, or a place {place.format(two)}"
    return f"{stitches(one)} of {names[0]} would fit, or {two} of {names[1]}"


def _names(proof: Proof, fit: Fit) -> tuple[str, str]:
    one, two = fit.edges
    if one.yarn and two.yarn and one.yarn != two.yarn:
        return yarn_word(proof.pattern, one.yarn), yarn_word(proof.pattern, two.yarn)
    return one.piece, two.piece
