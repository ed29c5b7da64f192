"""'In your yarn' on a pattern's page: what is filled in, what follows, what the script needs."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup, escape

from roundproof.drawing.yarns import mark_of, yarn_marks
from roundproof.fabric.model import Edge
from roundproof.measure.finished import DIMENSIONS
from roundproof.measure.gauge import yarn_stitch
from roundproof.measure.model import Fit
from roundproof.measure.regauge import placed
from roundproof.pages.figures import metres, millimetres, trimmed
from roundproof.pages.other_gauges import other_gauges
from roundproof.pages.sizes import piece_size_words
from roundproof.pages.specimen import SAID
from roundproof.pages.values import GaugeLine, InYourYarn, Predicted
from roundproof.pages.wording import chip, in_both, measure
from roundproof.pages.yarn_data import gauge_lines, in_script, stitch_height, yarn_data
from roundproof.pattern.model import Pattern, Yarn
from roundproof.proof import Proof
from roundproof.reference import stitches

_NONE = Markup("–")


def in_your_yarn(proof: Proof) -> InYourYarn | None:
    """The section; None where no gauge alters anything."""
    lines = gauge_lines(proof)
    if not lines:
        return None
    data = yarn_data(proof, lines)
    for told, fit in zip(data["fits"], proof.measures.fits, strict=True):
        for side, edge in zip(told["sides"], fit.edges, strict=True):
            side |= {"of": edge_words(proof, edge), "yarn": _css(proof, edge.yarn)}
            if _is_end(proof, edge):
                side["ends"] = int(proof.fabric.pieces[edge.piece].piece.make > 1)
    return InYourYarn(
        tuple(_lines(proof, lines)),
        tuple(_predicted(proof)),
        Markup(in_script(data)),
        other_gauges(proof, lines),
    )


def _lines(proof: Proof, lines: tuple[Yarn, ...]) -> Iterator[GaugeLine]:
    """Colours of one yarn go with the first of them until something else is written there."""
    marks, leaders = yarn_marks(proof.pattern), dict[object, int]()
    for place, yarn in enumerate(lines):
        mark, size = mark_of(marks, yarn.key), yarn_stitch(yarn)
        taken = yarn.gauge_of[-1] if yarn.gauge_of else yarn.key
        source = (taken, size and (size.width_mm, size.height_mm))
        tall = stitch_height(yarn)
        yield GaugeLine(
            yarn.key,
            chip(mark),
            f"{mark.letter}, {mark.name}" if mark.letter else mark.name,
            trimmed(100 / size.width_mm) if size else "",
            trimmed(100 / size.height_mm / tall) if size else "",
            _counted_in(proof.pattern, yarn),
            leaders.setdefault(source, place),
            bool(size and size.guessed),
        )


def _counted_in(pattern: Pattern, yarn: Yarn) -> Markup:
    """The stitch that a gauge is taken in, where it is another than single crochet."""
    kind = stitches().get(yarn.gauge.stitch) if yarn.gauge and yarn.gauge.stitch != "sc" else None
    if kind is None:
        return Markup("")
    us, uk = (Markup(escape(kind.short(is_uk))) for is_uk in (False, True))
    return Markup("in {}").format(in_both(us, uk, pattern.written_in))


def _predicted(proof: Proof) -> Iterator[Predicted]:
    """The rows of what follows, each kind in the order of the data."""
    pattern, measures = proof.pattern, proof.measures
    for name in DIMENSIONS:
        if value := getattr(pattern.size, name, None):
            yield Predicted("size", _finished(SAID[name]), measure(value.value))
    for key, size in measures.pieces.items():
        name = proof.fabric.pieces[key].piece.name
        yield Predicted("piece", Markup(escape(name)), _in_lines(piece_size_words(size)))
    for fit in measures.fits:
        verdict = fit.verdict.capitalize() if fit.verdict else _NONE
        yield Predicted("fit", Markup(escape(_joined(proof, fit))), Markup(escape(verdict)))
    for item, mm in dict.fromkeys(each.name for each in placed(pattern, proof.fabric)):
        words = f"{item[:1].upper()}{item[1:]}"
        yield Predicted("notion", Markup(escape(words)), Markup(escape(millimetres(mm))))
    marks = yarn_marks(pattern)
    for key, need in measures.yarns.items():
        amount = Markup(escape(metres(need.metres))) if need.metres is not None else _NONE
        yield Predicted("yarn", chip(mark_of(marks, key)), amount)


def _in_lines(words: Markup) -> Markup:
    """One figure is never broken over two lines."""
    *parts, last = words.split(", ") if words else [_NONE]
    spans = [Markup('<span class="g">{},</span>').format(part) for part in parts]
    return Markup(" ").join([*spans, Markup('<span class="g">{}</span>').format(last)])


def _finished(word: str) -> Markup:
    return Markup("Finished, {}").format(word)


def _joined(proof: Proof, fit: Fit) -> str:
    one, two = (edge_words(proof, edge) for edge in fit.edges)
    return f"{one[:1].upper()}{one[1:]} to {two}"


def edge_words(proof: Proof, edge: Edge) -> str:
    """An edge by the name that its piece has on the page: "bell R6 free front loops"."""
    if not edge.text.startswith(edge.piece):
        return edge.text
    name = proof.fabric.pieces[edge.piece].piece.name.lower()
    return f"{name}{edge.text.removeprefix(edge.piece)}"


def _is_end(proof: Proof, edge: Edge) -> bool:
    """Whether an edge is the last round of its piece, whose count can be chosen."""
    last = proof.fabric.pieces[edge.piece].last
    return edge.kind == "round" and last is not None and edge.round == last.round.label.last


def _css(proof: Proof, key: str | None) -> str:
    return mark_of(yarn_marks(proof.pattern), key).css if key else "y0"
