"""Details that a pattern does not say of what it has: sizes of notions, whose a photo is, and so
on."""

from __future__ import annotations

import re
from collections.abc import Iterator

from roundproof.expressions import expression
from roundproof.pattern.desk import Lack
from roundproof.pattern.model import Notion, Pattern, Photo, Piece

_SIZED = expression(
    r"\b(?:eyes?|noses?|beads?|buttons?|magnets?|bells?|rings?|wire|dowels?|skewers?|joints?|discs?"
    r"|pompoms?|pearls?)\b",
    re.I,
)
"""Notions that come in many sizes, of which only one will do."""
_NOT_SIZED = expression(r"\bneedles?\b|\bcutters?\b|\b(?:embroidered|felt|yarn|thread)\b", re.I)


def details(pattern: Pattern) -> Iterator[Lack]:
    for notion in pattern.notions:
        yield from _notion(notion)
    for piece in pattern.pieces:
        yield from _piece(pattern, piece)
    for photo in pattern.photos:
        yield from _photo(pattern, photo)


def _notion(notion: Notion) -> Iterator[Lack]:
    name = notion.item.value
    told = notion.size or notion.amount or re.search(r"\d", name)
    if _SIZED.search(name) and not _NOT_SIZED.search(name) and not told:
        mend = "Add its size in mm, such as `size: 6 mm`."
        yield Lack("size", notion.item.span, f"notion `{name[:60]}`", mend)


def _piece(pattern: Pattern, piece: Piece) -> Iterator[Lack]:
    """A piece worked otherwise than the gauge of its yarn was taken."""
    yarn = pattern.yarn(piece.yarn.value) if piece.yarn else None
    if yarn is None and len(pattern.yarns) == 1:
        yarn = pattern.yarns[0]
    if piece.gauge is not None or yarn is None or yarn.gauge is None:
        return
    other = bool(piece.hook and yarn.hook and abs(piece.hook.value - yarn.hook.value) > 1e-6)
    if other or (piece.strands is not None and piece.strands.value > 1):
        why = "with another hook" if other else "with several strands"
        mend = f"It is worked {why}, so add its own `gauge:`, such as `18 sts x 19 rounds = 10 cm`."
        yield Lack("gauge", piece.span, f"piece `{piece.key}`", mend, piece.key)


def _photo(pattern: Pattern, photo: Photo) -> Iterator[Lack]:
    """Who made it, and on what terms: the pattern's licence holds for photos that the designer
    made."""
    of = f"photo `{photo.file.value[:60]}`"
    if photo.by is None:
        yield Lack("by", photo.file.span, of, "Add `by:`, who made it.")
    whose = photo.by.value if photo.by else ""
    own = pattern.designer is not None and whose == pattern.designer.value
    general = pattern.licence or (pattern.permissions and pattern.permissions.photos)
    if photo.licence is None and whose and not (own and general):
        yield Lack("licence", photo.file.span, of, "Add `licence:`, what others may do with it.")
