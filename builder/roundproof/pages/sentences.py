"""Sentences for the steps of an assembly whose wording the designer left open."""

from __future__ import annotations

from functools import singledispatch

from markupsafe import Markup

from roundproof.drawing.yarns import mark_of, yarn_marks
from roundproof.fabric.places import copies
from roundproof.measure.figures import times
from roundproof.notation.edges import piece_of
from roundproof.notation.points import read_point
from roundproof.pages.between_rounds import edge_words
from roundproof.pages.figures import counted, listed
from roundproof.pages.places import around_words, at_words, point_words
from roundproof.pages.wording import chip, in_both, measure, plain
from roundproof.pattern.model import (
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

_BY = {"whipstitch": "Whipstitch", "knot": "Knot", "glue": "Glue", "crochet": "Crochet"}
_STUFFED = {
    "before": "Stuff {} first.",
    "while closing": "Stuff {} as you close the seam.",
    "no": "Leave {} empty.",
}
_LOOPS = {
    "both": "Sew through both loops.",
    "front": "Sew through the front loops.",
    "back": "Sew through the back loops.",
}


@singledispatch
def sentence_for(verb: Verb, proof: Proof) -> Markup:
    """What to do, from the entry's own values."""
    raise TypeError(f"no verb: {verb!r}")


def _words(*parts: str | Markup) -> Markup:
    """Parts in one sentence; plain ones are escaped, empty ones left out. A part that begins with a
    comma stands close to the one before."""
    shown = [part if isinstance(part, Markup) else plain(part) for part in parts if part]
    text = Markup("")
    for part in shown:
        close = not text or str(part).startswith(",")
        text = text + part if close else text + Markup(" ") + part
    return Markup("{}{}.").format(text[:1].upper(), text[1:]) if text else text


def _clause(words: str) -> str:
    return f", {words}" if words else ""


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
    by = _value(verb.by).lower()
    method = f"in {by}" if by and by not in _BY else ""
    crocheted = _crocheted(verb, proof)
    around = around_words(verb, proof)
    several = _several(verb, proof)
    yarn = Markup("with {}").format(_yarn(verb.with_, proof)) if verb.with_ else Markup("")
    done = _words(
        _BY.get(by, "Sew" if by else "Join"), edge_words(verb.edge.value, proof, each=several),
        ", folded flat," if verb.fold else "", _to(verb, proof), at_words(verb.at),
        _clause(around), _clause(method) if verb.at or around else method, crocheted, yarn,
    )  # fmt: skip
    them = "them" if several else "it"
    more = [_STUFFED[_value(verb.stuffed)].format(them)] if _value(verb.stuffed) in _STUFFED else []
    more += [_LOOPS[verb.loops.value]] if verb.loops and verb.loops.value in _LOOPS else []
    more += [f"Facing: {verb.facing.value}."] if verb.facing else []
    more += [f"Hold {_piece(verb.front.value, proof)} towards you."] if verb.front else []
    more += ["Ease the longer edge in."] if _value(verb.ease) == "yes" else []
    more += ["Gather the longer edge evenly."] if _value(verb.ease) == "gathered" else []
    return Markup(" ").join([done, *(plain(text) for text in more)])


def _several(verb: Join, proof: Proof) -> bool:
    """Whether a step joins more than one copy."""
    key = piece_of(verb.edge.value, proof.fabric.pieces)
    return key is not None and max(proof.fabric.pieces[key].piece.make, copies(verb.around)) > 1


def _to(verb: Join, proof: Proof) -> Markup:
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


@sentence_for.register
def _(verb: Place, proof: Proof) -> Markup:
    on = f"on {_piece(verb.piece.value, proof)}" if verb.piece else ""
    where = ""
    if len(verb.between) == 2:
        where = f"between {verb.between[0].value} and {verb.between[1].value}"
    return _words("Set the", verb.item.value, on, where, _clause(around_words(verb, proof)))


@sentence_for.register
def _(verb: Embroider, proof: Proof) -> Markup:
    strands = counted(verb.strands.value, "strand") if verb.strands else ""
    yarn = Markup("with {}").format(_yarn(verb.with_, proof)) if verb.with_ else Markup("")
    if strands and verb.with_:
        yarn = Markup("with {} of {}").format(plain(strands), _yarn(verb.with_, proof))
    start = _words("Embroider", _piece(verb.piece.value, proof), yarn)
    known: set[str] = set()
    lines = []
    for line in verb.lines:
        lines.append(_thread(line, proof, known))
        known |= {line.name.value.lower()} if line.name else set()
    return Markup(" ").join([start, *lines])


def _thread(line: Thread, proof: Proof, known: set[str]) -> Markup:
    name = f"{line.name.value}:" if line.name else ""
    start = f"from {_end(line.from_.value, proof, known)}" if line.from_ else ""
    to = f"to {_end(line.to.value, proof, known)}" if line.to else ""
    if line.from_ and not line.to:
        start = f"at {_end(line.from_.value, proof, known)}"
    often = f"{times(line.times.value)} over" if line.times and line.times.value > 1 else ""
    return _words(name, _value(line.stitch), start, to, _clause(often))


def _end(words: str, proof: Proof, known: set[str]) -> str:
    """A point of a line: an earlier line ends there, a mark is there, or it is counted."""
    name = read_point(words).name
    if name.lower() in known:
        return f"the end of the {name}"
    return f"the {name} mark" if name else point_words(words, proof)


@sentence_for.register
def _(verb: Joint, proof: Proof) -> Markup:
    path = listed([point_words(point.value, proof) for point in verb.path]) if verb.path else ""
    through = f"through {path}" if path else ""
    often = times(verb.passes.value) if verb.passes and verb.passes.value > 1 else ""
    return _words("Go with", verb.with_.value, through, _clause(often))


@sentence_for.register
def _(verb: Insert, proof: Proof) -> Markup:
    into = f"into {_piece(verb.piece.value, proof)}" if verb.piece else ""
    long = Markup(", {},").format(measure(verb.length.value)) if verb.length else ""
    ends = f"its ends {verb.ends.value}" if verb.ends else ""
    return _words("Put the", verb.item.value, long, into, _clause(ends))


@sentence_for.register
def _(verb: Stuff, proof: Proof) -> Markup:
    return _words("Stuff", _piece(verb.piece.value, proof), _value(verb.how))


@sentence_for.register
def _(verb: Close, proof: Proof) -> Markup:
    edge = edge_words(verb.edge.value, proof)
    by = _value(verb.by)
    if by.lower() == "gather":
        return _words("Draw", edge, "together with the tail, pull tight and sink the end")
    how = {"whipstitch": "in whipstitch", "crochet": "with a row of crochet"}.get(by, "")
    return _words("Close", edge, how)
