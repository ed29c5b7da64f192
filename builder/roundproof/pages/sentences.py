"""Sentences for the steps of an assembly whose wording the designer left open."""

from __future__ import annotations

from functools import singledispatch

from markupsafe import Markup

from roundproof.drawing.yarns import mark_of, yarn_marks
from roundproof.pages.between_rounds import edge_words
from roundproof.pages.figures import counted, length, listed
from roundproof.pages.wording import chip, in_both, plain
from roundproof.pattern.model import (
    Around,
    At,
    Close,
    Embroider,
    Insert,
    Join,
    Joint,
    Place,
    Stuff,
    Thread,
    Verb,
)
from roundproof.proof import Proof
from roundproof.reference import stitches
from roundproof.source import Located

_SEWN = {
    "whipstitch": "Whipstitch",
    "knot": "Knot",
    "glue": "Glue",
    "crochet": "Crochet",
}
_STUFFED = {
    "before": "Stuff it before you join it.",
    "while closing": "Stuff it while you close the seam.",
    "no": "It stays empty.",
}


@singledispatch
def sentence_for(verb: Verb, proof: Proof) -> Markup:
    """What to do, from the entry's own values."""
    raise TypeError(f"no verb: {verb!r}")


def _words(*parts: str | Markup) -> Markup:
    """Parts in one sentence; plain ones are escaped, empty ones left out."""
    shown = [part if isinstance(part, Markup) else plain(part) for part in parts if part]
    text = Markup(" ").join(shown)
    return Markup("{}{}.").format(text[:1].upper(), text[1:]) if text else text


def _value(located: Located[str] | None) -> str:
    return located.value if located else ""


def _piece(key: str, proof: Proof) -> str:
    piece = proof.fabric.pieces.get(key)
    return f"the {piece.piece.name.lower()}" if piece else key


def _yarn(word: Located[str] | None, proof: Proof) -> Markup:
    yarn = proof.pattern.yarn(word.value) if word else None
    if yarn is None:
        return plain(word.value) if word else Markup("")
    return chip(mark_of(yarn_marks(proof.pattern), yarn.key))


@sentence_for.register
def _(verb: Join, proof: Proof) -> Markup:
    by = _value(verb.by)
    start = _SEWN.get(by.lower(), "Sew" if by else "Join")
    method = f"with {by}" if by and by.lower() not in _SEWN else ""
    to = _joined_to(verb, proof)
    with_yarn = Markup("with {}").format(_yarn(verb.with_, proof)) if verb.with_ else Markup("")
    folded = "folded flat," if verb.fold else ""
    done = _words(
        start, edge_words(verb.edge.value, proof), folded, to, _at(verb.at), _around(verb.around),
        _crocheted(verb, proof), method, with_yarn,
    )  # fmt: skip
    more = [_STUFFED[_value(verb.stuffed)]] if _value(verb.stuffed) in _STUFFED else []
    if verb.facing is not None:
        more.append(f"Facing: {verb.facing.value}.")
    if verb.front is not None:
        more.append(f"Hold the {verb.front.value} towards you.")
    return Markup(" ").join([done, *(plain(text) for text in more)])


def _joined_to(verb: Join, proof: Proof) -> Markup:
    """To an edge; or, where the entry says where on it, to the whole piece."""
    if verb.to is None:
        return Markup("")
    key = verb.to.value
    if verb.at is not None and key in proof.fabric.pieces:
        return plain(f"to {_piece(key, proof)}")
    return Markup("to {}").format(edge_words(key, proof))


def _crocheted(verb: Join, proof: Proof) -> Markup:
    """ "in 24 sc", in the reader's terms."""
    if verb.stitch is None or verb.count is None:
        return Markup("")
    kind = stitches().get(verb.stitch.value)
    names = (kind.short(False), kind.short(True)) if kind else (verb.stitch.value,) * 2
    us, uk = (plain(f"in {verb.count.value:,} {name}") for name in names)
    return in_both(us, uk, proof.pattern.written_in)


def _at(at: At | None) -> str:
    if at is None:
        return ""
    wide = f", over {counted(at.stitches.value, 'stitch', 'stitches')}" if at.stitches else ""
    if at.footprint is not None:
        return f"on {at.footprint.value}{wide}"
    if len(at.between) == 2:
        return f"between {at.between[0].value} and {at.between[1].value}{wide}"
    return f"up {at.up.value}{wide}" if at.up else ""


def _around(around: Around | None) -> str:
    if around is None:
        return ""
    at_mark = f"the {around.mark.value} mark" if around.mark else "the start of the round"
    if around.apart is not None:
        free = counted(around.apart.value, "stitch", "stitches")
        return f"with {free} free between the two, half on either side of {at_mark}"
    if around.free:
        gaps = listed([f"{gap.value:,}" for gap in around.free])
        return f"leaving {gaps} stitches free, the first of them about {at_mark}"
    if around.evenly is not None:
        start = f", from {around.from_.value}" if around.from_ else ""
        return f"evenly in {around.evenly.value:,} places{start}"
    if around.st is not None:
        return f"from stitch {around.st.value:,}"
    return f"centred on {at_mark}"


@sentence_for.register
def _(verb: Place, proof: Proof) -> Markup:
    on = f"on {_piece(verb.piece.value, proof)}" if verb.piece else ""
    where = ""
    if len(verb.between) == 2:
        where = f"between {verb.between[0].value} and {verb.between[1].value}"
    around = _around(verb.around)
    return _words("Set the", verb.item.value, on, where + ("," if around and where else ""), around)


@sentence_for.register
def _(verb: Embroider, proof: Proof) -> Markup:
    with_yarn = Markup("with {}").format(_yarn(verb.with_, proof)) if verb.with_ else Markup("")
    strands = counted(verb.strands.value, "strand") if verb.strands else ""
    held = f"({strands})" if strands else ""
    start = _words("Embroider", _piece(verb.piece.value, proof), with_yarn, held)
    lines = [_thread(line) for line in verb.lines]
    return Markup(" ").join([start, *lines])


def _thread(line: Thread) -> Markup:
    name = f"{line.name.value}:" if line.name else ""
    run = f"from {line.from_.value}" if line.from_ else ""
    to = f"to {line.to.value}" if line.to else ""
    times = f"{line.times.value:,} times" if line.times and line.times.value > 1 else ""
    return _words(name, _value(line.stitch), run, to, times)


@sentence_for.register
def _(verb: Joint, proof: Proof) -> Markup:
    path = listed([_piece(place.value, proof) for place in verb.path]) if verb.path else ""
    through = f"through {path}" if path else ""
    passes = f"{verb.passes.value:,} times" if verb.passes and verb.passes.value > 1 else ""
    return _words("Joint with", verb.with_.value, through, passes)


@sentence_for.register
def _(verb: Insert, proof: Proof) -> Markup:
    into = f"into {_piece(verb.piece.value, proof)}" if verb.piece else ""
    long = f"({length(verb.length.value)})" if verb.length else ""
    start = _words("Insert the", verb.item.value, long, into)
    return Markup(" ").join([start, _words(f"Ends: {verb.ends.value}")]) if verb.ends else start


@sentence_for.register
def _(verb: Stuff, proof: Proof) -> Markup:
    return _words("Stuff", _piece(verb.piece.value, proof), _value(verb.how))


@sentence_for.register
def _(verb: Close, proof: Proof) -> Markup:
    edge = edge_words(verb.edge.value, proof)
    by = _value(verb.by)
    if by.lower() == "gather":
        return _words("Draw", edge, "together with the tail, pull tight and sink the end")
    return _words("Close", edge, f"with {by}" if by else "")
