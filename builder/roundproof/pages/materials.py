"""Yarns, hooks and notions, each with a box, and what each amounts to."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup, escape

from roundproof.checks._materials import is_filling, thread_uses
from roundproof.checks._tools import hook_changes, listed_hook, same_hook
from roundproof.drawing.bars import yarn_bar
from roundproof.drawing.svg import write_svg
from roundproof.drawing.things import eyes, hook
from roundproof.drawing.yarns import Marks, YarnMark, mark_of, yarn_marks
from roundproof.pages.figures import counted, grams, listed, metres, millimetres, sentence, trimmed
from roundproof.pages.tested import yarn_tested
from roundproof.pages.values import Materials, Thing
from roundproof.pages.wording import in_both, plain
from roundproof.pattern.model import Gauge, Notion, Yarn
from roundproof.proof import Proof
from roundproof.reference import stitches
from roundproof.reference.yarn_weights import yarn_weight


def materials(proof: Proof) -> Materials:
    used = used_yarns(proof)
    things = (*_yarns(proof, used), *_hooks(proof, used), *_notions(proof))
    drawn = any("<svg" in thing.drawing for thing in things)
    return Materials(_summary(proof, used), _legend(things) if drawn else "", things)


def to_buy(proof: Proof) -> str:
    """The yarn and the hooks in a few words: "3 balls of light yarn (3), hook 2.5 mm"."""
    used = [yarn for yarn in used_yarns(proof) if yarn.key in proof.measures.yarns]
    weights = sorted({yarn.weight.value for yarn in used if yarn.weight})
    kinds = [f"{kind.name.lower()} ({n})" for n in weights if (kind := yarn_weight(n))]
    balls = [_balls(proof, yarn) for yarn in used]
    what = f"{listed(kinds)} yarn" if kinds else "yarn"
    if balls and None not in balls:
        what = f"{counted(sum(filter(None, balls)), 'ball')} of {what}"
    sizes = sorted({yarn.hook.value for yarn in used if yarn.hook})
    name = "hooks" if len(sizes) > 1 else "hook"
    hooks = [f"{name} {listed([millimetres(size) for size in sizes])}"] if sizes else []
    parts = [what, *hooks] if kinds or hooks or None not in balls else []
    return ", ".join(parts) if used else ""


def _balls(proof: Proof, yarn: Yarn) -> int | None:
    need = proof.measures.yarns.get(yarn.key)
    return yarn.balls.value if yarn.balls else need.balls if need else None


def used_marks(proof: Proof) -> tuple[YarnMark, ...]:
    """The marks of the yarns that the pattern lists or works with."""
    marks = yarn_marks(proof.pattern)
    return tuple(mark_of(marks, yarn.key) for yarn in used_yarns(proof))


def used_yarns(proof: Proof) -> list[Yarn]:
    """The yarns that the pattern lists or works with."""
    return [yarn for yarn in proof.pattern.yarns if _needed(proof, yarn)]


def _needed(proof: Proof, yarn: Yarn) -> bool:
    """Yarns that every pattern of a collection shares are listed where they are used."""
    return not yarn.shared or yarn.key in proof.measures.yarns or _worked_in(proof, yarn.key) != []


def _summary(proof: Proof, used: list[Yarn]) -> str:
    needs = [need for key, need in proof.measures.yarns.items() if need.metres is not None]
    if not used or not needs:
        return ""
    alike = _same_yarn(used)
    basis = "Metres and grams are estimated from the stitches"
    if not any(need.estimated for need in needs):
        basis = "Metres and grams follow from a weighed swatch"
    elif not all(need.estimated for need in needs):
        basis = "Metres and grams are estimated unless a weighed swatch is named"
    return f"{alike}{basis}, tails and a margin included."


def _same_yarn(used: list[Yarn]) -> str:
    """What all yarns have in common is said once."""
    kinds = {_kind(yarn) for yarn in used}
    kind = kinds.pop() if len(kinds) == 1 else ""
    return f"{sentence(kind)} " if kind and len(used) > 1 else ""


def _kind(yarn: Yarn) -> str:
    """ "100 % cotton, weight 3, 50 g / 125 m a ball"."""
    parts = [yarn.fibre.value] if yarn.fibre else []
    if yarn.weight is not None:
        parts.append(f"weight\u00a0{yarn.weight.value}")
    if yarn.ball is not None:
        parts.append(f"{grams(yarn.ball.grams)} / {metres(yarn.ball.metres)} a ball")
    return ", ".join(parts)


def _legend(things: tuple[Thing, ...]) -> str:
    bars = any(thing.id.startswith("yarn-") and thing.drawing for thing in things)
    drawn = any(not thing.id.startswith("yarn-") and thing.drawing for thing in things)
    texts = ["Bars: metres of each yarn"] if bars else []
    texts += ["Hooks and eyes to one scale"] if drawn else []
    return ". ".join(texts)


def _yarns(proof: Proof, used: list[Yarn]) -> Iterator[Thing]:
    marks = yarn_marks(proof.pattern)
    alike = bool(_same_yarn(used))
    longest = max((need.metres or 0 for need in proof.measures.yarns.values()), default=0.0)
    for yarn in used:
        need = proof.measures.yarns.get(yarn.key)
        share = (need.metres or 0) / longest if need and longest else 0.0
        drawing = write_svg(yarn_bar(share, mark_of(marks, yarn.key))) if share else ""
        kind = "" if alike else sentence(_kind(yarn))
        said = (_amount(proof, yarn), yarn_tested(proof, yarn.key), kind)
        more = [plain(text) for text in said if text]
        yield Thing(
            f"yarn-{mark_of(marks, yarn.key).css}",
            Markup(drawing),
            Markup(escape(f"{yarn.letter}, {yarn.name}" if yarn.letter else yarn.name)),
            tuple(more),
        )


def _amount(proof: Proof, yarn: Yarn) -> str:
    need = proof.measures.yarns.get(yarn.key)
    parts: list[str] = []
    if need is not None and need.metres is not None:
        about = "About " if need.estimated else "By weight of a swatch "
        parts.append(about + metres(need.metres))
        if need.grams is not None:
            parts.append(grams(need.grams))
    if (balls := _balls(proof, yarn)) is not None:
        parts.append(counted(balls, "ball"))
    if need is None and any(proof.pattern.yarn(u.word) is yarn for u in thread_uses(proof.pattern)):
        parts.append("a short length, for embroidery")
    pieces = _worked_in(proof, yarn.key)
    amount = ", ".join(parts)
    return sentence(amount) + (f" {sentence(listed(pieces))}" if pieces else "")


def _worked_in(proof: Proof, key: str) -> list[str]:
    """The names of the pieces that have stitches in a yarn."""
    return [
        piece.piece.name
        for piece in proof.fabric.pieces.values()
        if any(key == yarn for worked in piece.rounds for _, yarn in worked.tally)
    ]


def hook_sizes(proof: Proof) -> list[float]:
    """Every hook that is worked with and stands among no notions, in mm."""
    sizes = [yarn.hook.value for yarn in used_yarns(proof) if yarn.hook]
    sizes += [p.hook.value for p in proof.pattern.pieces if p.hook]
    sizes += [size for size, _, _ in hook_changes(proof) if not _among_notions(proof, size)]
    return sorted(set(sizes))


def _hooks(proof: Proof, used: list[Yarn]) -> Iterator[Thing]:
    marks = yarn_marks(proof.pattern)
    for place, size in enumerate(hook_sizes(proof), 1):
        drawn = hook(size)
        with_it = [y for y in used if y.hook and y.hook.value == size]
        more = _gauges(proof, with_it, marks, several=len(used) > 1)
        drawing = Markup(write_svg(drawn) if drawn else "")
        yield Thing(f"hook-{place}", drawing, plain(f"Hook, {millimetres(size)}"), more)


def _among_notions(proof: Proof, size: float) -> bool:
    listed = filter(None, map(listed_hook, proof.pattern.notions))
    return any(same_hook(size, one) for one in listed)


def _gauges(proof: Proof, yarns: list[Yarn], marks: Marks, *, several: bool) -> tuple[Markup, ...]:
    """One line for each gauge, with the letters of the yarns it belongs to."""
    lines: dict[Markup, list[str]] = {}
    for yarn in yarns:
        if yarn.gauge is not None:
            line = _gauge(yarn.gauge, proof)
            lines.setdefault(line, []).append(mark_of(marks, yarn.key).letter or yarn.name)
    return tuple(
        Markup("{} with {}.").format(line, listed(letters)) if several else line + Markup(".")
        for line, letters in lines.items()
    )


def _gauge(gauge: Gauge, proof: Proof) -> Markup:
    size = (
        f"Gauge in the round: {trimmed(gauge.stitches)} sts × {trimmed(gauge.rounds)} rounds"
        f" = {trimmed(gauge.over / 10)} cm in "
    )
    kind = stitches().get(gauge.stitch)
    names = (kind.short(False), kind.short(True)) if kind else (gauge.stitch, gauge.stitch)
    us, uk = (Markup(escape(name)) for name in names)
    return plain(size) + Markup(" ") + in_both(us, uk, proof.pattern.written_in)


def _notions(proof: Proof) -> Iterator[Thing]:
    filled = False
    for place, notion in enumerate(proof.pattern.notions, 1):
        more = [Markup("Or {}.").format(plain(notion.or_.value))] if notion.or_ else []
        if is_filling(notion):
            filled = True
            more += _filling(proof)
        hazard = sentence(notion.hazard.value) if notion.hazard else ""
        drawing = _notion_drawing(notion)
        yield Thing(f"notion-{place}", drawing, plain(_notion(notion)), tuple(more), hazard)
    if not filled and proof.measures.stuffing_g:
        yield Thing("filling", Markup(""), Markup("Filling"), tuple(_filling(proof)))


def _filling(proof: Proof) -> list[Markup]:
    weight = proof.measures.stuffing_g
    return [plain(f"Estimated from the volume: {grams(weight)}.")] if weight else []


def _notion(notion: Notion) -> str:
    parts = [notion.item.value]
    if notion.size is not None:
        parts.append(millimetres(notion.size.value))
    if notion.amount is not None:
        parts.append(notion.amount.value)
    if notion.count is not None and notion.count.value != 1:
        parts.append(f"{notion.count.value:,}")
    text = ", ".join(parts)
    return text[:1].upper() + text[1:]


def _notion_drawing(notion: Notion) -> Markup:
    if notion.size is None or "eye" not in notion.item.value.lower():
        return Markup("")
    drawn = eyes(notion.size.value, notion.count.value if notion.count else 1)
    return Markup(write_svg(drawn) if drawn else "")
