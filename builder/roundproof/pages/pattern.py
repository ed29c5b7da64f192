"""A proof → the values of its page. Templates loop over them and print."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from roundproof.drawing.yarns import BARE
from roundproof.frozen import replace
from roundproof.pages import front
from roundproof.pages.assembly import album, between_rounds, first_at_once, steps
from roundproof.pages.drawn import NONE, Drawings
from roundproof.pages.figures import day
from roundproof.pages.in_your_yarn import in_your_yarn
from roundproof.pages.materials import materials, used_marks
from roundproof.pages.names import piece_ids
from roundproof.pages.plate import is_preview, plate
from roundproof.pages.prose import inline, prose
from roundproof.pages.rounds import Common, piece_work
from roundproof.pages.sizes import sizes
from roundproof.pages.specimen import scientific_name, specimen
from roundproof.pages.values import ChangeEntry, PatternPage, Picture, PieceWork, Sold
from roundproof.pages.words_used import words_used
from roundproof.pattern.model import Pattern, Status
from roundproof.proof import Proof

_NONE: Mapping[str, Picture] = {}


def pattern_page(
    proof: Proof, pictures: Mapping[str, Picture] = _NONE, drawn: Drawings = NONE
) -> PatternPage:
    """All that a pattern's page prints. `pictures` are its photos by the names the file gives
    them; one that is missing is left out. `drawn` are the drawings beside the page. A
    preview has no rounds, and nothing drawn from them."""
    pattern, preview = proof.pattern, is_preview(proof)
    pictures = first_at_once(proof, pictures)
    ids = piece_ids(proof.fabric.pieces)
    first = plate(proof)
    contact = front.contact(pattern.contact.value) if pattern.contact else None
    return PatternPage(
        pattern.slug,
        front.title_of(pattern),
        front.description(pattern),
        _binomial(pattern),
        prose(pattern.summary, pattern),
        pattern.status,
        front.standing_of(pattern),
        pattern.status is not Status.PUBLISHED,
        preview,
        pattern.written_in,
        pattern.level.value if pattern.level else "",
        pattern.version.value if pattern.version else "",
        day(pattern.date.value) if pattern.date else "",
        front.size_line(pattern),
        first,
        front.facts(proof),
        front.safety(pattern),
        inline(pattern.care, pattern),
        materials(proof),
        (BARE, *used_marks(proof)),
        () if preview else _pieces(proof, ids, pictures, drawn, 2 if first else 1),
        () if preview else steps(proof, ids),
        None if preview else sizes(proof, ids),
        None if preview else in_your_yarn(proof),
        front.left_right(pattern),
        front.handed(pattern),
        album(proof, pictures),
        specimen(proof),
        words_used(pattern, proof.fabric, named_only=preview),
        _changes(pattern, preview),
        pattern.designer.value if pattern.designer else "",
        front.licence(pattern),
        front.permissions(pattern),
        contact,
        tuple(inline(credit, pattern) for credit in pattern.credits),
        Sold(tuple((p.name, p.make) for p in pattern.pieces), contact) if preview else None,
        () if preview else drawn.assembly,
    )


def _binomial(pattern: Pattern) -> Markup:
    named = pattern.specimen.scientific if pattern.specimen else None
    return scientific_name(named.value) if named else Markup("")


def _pieces(
    proof: Proof,
    ids: Mapping[str, str],
    pictures: Mapping[str, Picture],
    drawn: Drawings,
    number: int,
) -> tuple[PieceWork, ...]:
    """`number` is that of the first figure."""
    after, made = between_rounds(proof, pictures), list[PieceWork]()
    common = Common.of(proof)
    for key, piece in proof.fabric.pieces.items():
        report = front.report_link(proof.pattern, piece.piece.name)
        work = piece_work(common, key, ids[key], number, after.get(key, {}), report)
        made.append(replace(work, drawn=drawn.pieces.get(key, ())))
        number += made[-1].outline is not None
    return tuple(made)


def _changes(pattern: Pattern, preview: bool) -> tuple[ChangeEntry, ...]:
    """A preview does not tell what was corrected in its rounds."""
    return tuple(
        ChangeEntry(
            change.version.value,
            day(change.date.value) if change.date else "",
            Markup("") if preview else inline(change.note, pattern),
        )
        for change in pattern.changes
    )
