"""What stands between rounds: how a piece starts, actions, notes, steps and photos that belong
after a round."""

from __future__ import annotations

import re

from markupsafe import Markup, escape

from roundproof.drawing.yarns import Marks, mark_of, yarn_marks
from roundproof.fabric.edges import in_rows
from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.notation.edges import EdgeKind, read_edge
from roundproof.notation.tree import Act, Action, Note
from roundproof.pages.prose import prose
from roundproof.pages.wording import chip, plain, typed_lengths, unbroken
from roundproof.pattern.model import Pattern
from roundproof.proof import Proof

_EDGES = {
    EdgeKind.FRONT_LOOPS: "the free front loops of",
    EdgeKind.BACK_LOOPS: "the free back loops of",
    EdgeKind.LOOPS: "the free loops of",
    EdgeKind.UNWORKED: "the unworked stitches of",
    EdgeKind.ROW_ENDS: "the row ends of",
    EdgeKind.LEFT_ROW_ENDS: "the left row ends of",
    EdgeKind.RIGHT_ROW_ENDS: "the right row ends of",
    EdgeKind.FAR_SIDE: "the far side of the foundation chain of",
    EdgeKind.FOUNDATION: "the foundation of",
}


def paragraph(html: Markup) -> Markup:
    return Markup("<p>{}</p>").format(html)


def start_of(proof: Proof, piece: WorkedPiece) -> tuple[Markup, ...]:
    """With which yarn and where a piece begins."""
    said: list[Markup] = []
    first = piece.rounds[0] if piece.rounds else None
    yarn = chip(mark_of(yarn_marks(proof.pattern), first.yarn if first else None))
    if piece.piece.starts is not None:
        edges = [edge_words(edge.value, proof) for edge in piece.piece.starts.in_]
        joined = Markup(" and ").join(edges)
        what = Markup(" {}").format(yarn) if yarn else Markup("")
        said.append(Markup("<b>Join{}</b> in {}.").format(what, joined))
        if piece.piece.starts.each is not None and piece.piece.make > 1:
            each = piece.piece.starts.each.value
            said.append(Markup("Each copy takes {} of them, one after the other.").format(each))
    elif yarn:
        said.append(Markup("<b>Start with {}.</b>").format(yarn))
    if piece.piece.start_at is not None:
        said.append(Markup("The round starts at {}.").format(plain(piece.piece.start_at.value)))
    if piece.piece.right_side is not None:
        side = plain(piece.piece.right_side.value)
        said.append(Markup("Right side of the fabric: {}.").format(side))
    elif _first_round(proof, piece) and not _turned_out(proof):
        said.append(Markup("The right side of the fabric faces out."))
    return (paragraph(Markup(" ").join(said)),) if said else ()


def _first_round(proof: Proof, piece: WorkedPiece) -> bool:
    """Whether this is the first piece worked in rounds: what holds for all is said there."""
    return piece is next((p for p in proof.fabric.pieces.values() if not in_rows(p)), None)


def _turned_out(proof: Proof) -> bool:
    """Whether the designer says which side shows, by a key or in words."""
    pieces = proof.fabric.pieces.values()
    said = [e.text for p in pieces for e in p.entries if isinstance(e, Note | Action)]
    told = re.search(r"\b(?:right|wrong) side|inside out", " ".join(said), re.I)
    return told is not None or any(p.piece.right_side is not None for p in pieces)


def edge_words(words: str, proof: Proof, *, each: bool = False) -> Markup:
    """An edge as a maker says it: "the free front loops of R6 of the body"; with `each`, that of
    every copy."""
    edge = read_edge(words, proof.fabric.pieces)
    if edge is None:
        return plain(words)
    name = f"{'each' if each else 'the'} {proof.fabric.pieces[edge.piece].piece.name.lower()}"
    if edge.kind is EdgeKind.ROUND:
        return plain(
            f"{f'R{edge.round}' if edge.round is not None else 'the last round'} of {name}"
        )
    where = f"R{edge.round} of " if edge.round is not None else ""
    text = f"{_EDGES[edge.kind]} {where}{name}"
    return plain(text)


def entry(found: Action | Note, pattern: Pattern) -> Markup:
    """A note as Markdown; an action in the designer's words, the yarn by its chip."""
    if isinstance(found, Note):
        return prose(found.text, pattern)
    marks = yarn_marks(pattern)
    mark = mark_of(marks, found.yarn)
    if found.act is Act.CHANGE_YARN and mark.name and _bare_change(found.text):
        return paragraph(Markup("<b>Change to {}.</b>").format(chip(mark)))
    return paragraph(_with_chip(found, pattern, marks))


def _bare_change(text: str) -> bool:
    """Nothing is said but the change."""
    return not re.search(r"[.,;:]\s*\S", text)


def _with_chip(action: Action, pattern: Pattern, marks: Marks) -> Markup:
    """The text with its first clause in bold; a chip where it names the yarn."""
    head, tail = _clauses(" ".join(action.text.split()))
    name = next((y for y in pattern.yarns if y.key == action.yarn), None)
    if name is not None:
        words = sorted((re.escape(word) for word in name.words), key=len, reverse=True)
        found = re.search(rf"(?<!\w)(?:{'|'.join(words)})(?!\w)", head, re.I) if words else None
        if found is not None:
            before, after = _shown(head[: found.start()]), _shown(head[found.end() :])
            parts = (before, chip(marks[name.key]), after, _shown(tail))
            return Markup("<b>{}{}{}</b>{}").format(*parts)
    return Markup("<b>{}</b>{}").format(_shown(head), _shown(tail))


def _shown(text: str) -> Markup:
    """Words of the designer's, lengths in both units."""
    return typed_lengths(str(escape(unbroken(text))))


def _clauses(text: str) -> tuple[str, str]:
    """Up to and with the first stop or comma, and the rest."""
    found = re.search(r"[.,;:](?=\s|$)", text)
    end = found.end() if found else len(text)
    head = text[:end] if found else text + "."
    return head[:1].upper() + head[1:], text[end:]


def mark_remarks(piece: WorkedPiece, worked: WorkedRound) -> list[Markup]:
    """Marks that the piece declares for this round."""
    remarks = []
    for name, where in (piece.piece.marks or {}).items():
        found = re.match(r"\s*r(?:ound|nd|ow)?\s*(\d+)\s*(.*)", where.value, re.I)
        label = worked.round.label
        if found and label.first <= int(found[1]) <= label.last:
            place = unbroken(re.sub(r"between (\d)", r"between sts \1", found[2]))
            remarks.append(Markup("<b>Mark {}</b> {}.").format(name, place))
    return remarks
