"""The drawings of a pattern as files beside its page, for either hand."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator, Mapping, Sequence

from markupsafe import Markup, escape

from roundproof.drawing.looks import looks
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.drawing.sheets import ALL, HANDED, Sheets
from roundproof.drawing.svg import write_file
from roundproof.drawing.yarns import shades_of
from roundproof.frozen import dataclass, field
from roundproof.pages.names import piece_ids
from roundproof.pages.values import Drawn
from roundproof.proof import Proof

_NAMES = {
    Kind.CHART: "Stitch chart",
    Kind.OUTLINE: "Outline",
    Kind.COLOURS: "Colours, stitch by stitch",
    Kind.PLACES: "Where things go",
    Kind.EDGES: "The two edges",
}


_OF_ASSEMBLY = (Kind.PLACES, Kind.EDGES)


@dataclass(frozen=True, slots=True)
class Drawings:
    """`pieces` by the key of the piece, `assembly` for the steps, `files` by their names."""

    pieces: Mapping[str, tuple[Drawn, ...]]
    assembly: tuple[Drawn, ...] = ()
    files: Mapping[str, str] = field(default_factory=dict)


NONE = Drawings({})


def drawings(sheets: Sheets) -> Drawings:
    """All that a page shows as files beside it. What looks the same for both hands is there once;
    the outline stands within the page."""
    proof = sheets.proof
    style, files = looks(shades_of(proof.pattern)), dict[str, str]()
    right = named(proof, sheets.of(kinds=ALL - {Kind.OUTLINE}))
    left = named(proof, sheets.of(mirrored=True, kinds=HANDED))
    shown: list[tuple[Sheet, Drawn]] = []
    for name, sheet in right.items():
        files[name] = write_file(sheet.drawing, style)
        other, mirror = left.get(name, sheet), ""
        if other is not sheet and (text := write_file(other.drawing, style)) != files[name]:
            mirror = name.removesuffix(".svg") + "-left.svg"
            files[mirror] = text
        shown.append((sheet, _drawn(name, mirror, sheet, other)))
    return _shared_out(shown, files)


def drawings_within(proof: Proof) -> Drawings:
    """The same, and the outlines, for a page that is one file: they stand in it, for right-handed
    makers."""
    style, shown = looks(shades_of(proof.pattern)), list[tuple[Sheet, Drawn]]()
    for sheet in Sheets(proof).of():
        text = b64encode(write_file(sheet.drawing, style).encode()).decode()
        shown.append((sheet, _drawn(f"data:image/svg+xml;base64,{text}", "", sheet, sheet)))
    return _shared_out(shown, {})


def _shared_out(shown: Sequence[tuple[Sheet, Drawn]], files: Mapping[str, str]) -> Drawings:
    pieces: dict[str, list[Drawn]] = {}
    assembly: list[Drawn] = []
    for sheet, drawn in shown:
        assembled = sheet.kind in _OF_ASSEMBLY
        (assembly if assembled else pieces.setdefault(sheet.piece, [])).append(drawn)
    return Drawings({key: tuple(found) for key, found in pieces.items()}, tuple(assembly), files)


def named(proof: Proof, found: Iterator[Sheet]) -> Mapping[str, Sheet]:
    """Sheets by the names of their files: 'chart-left-claw.svg'."""
    ids = piece_ids(proof.fabric.pieces)
    names: dict[str, Sheet] = {}
    for sheet in found:
        part = f"-{sheet.part}" if sheet.part else ""
        name, number = f"{sheet.kind}-{ids.get(sheet.piece, 'pattern')}{part}", 1
        while f"{name}.svg" in names:
            number += 1
            name = f"{name.rstrip('0123456789').rstrip('-')}-{number}"
        names[f"{name}.svg"] = sheet
    return names


def _drawn(name: str, mirror: str, sheet: Sheet, other: Sheet) -> Drawn:
    box = sheet.drawing.box
    assert box is not None
    return Drawn(
        sheet.kind.value,
        _NAMES[sheet.kind] if sheet.kind not in _OF_ASSEMBLY else sheet.drawing.title.rstrip("."),
        name,
        mirror,
        round(box.width),
        round(box.height),
        sheet.drawing.title,
        _either_hand(sheet.caption, other.caption),
        () if sheet.kind is Kind.CHART else sheet.words,
    )


def _either_hand(right: str, left: str) -> Markup:
    if right == left:
        return escape(right)
    return Markup('<span class="rh">{}</span><span class="lh" hidden>{}</span>').format(right, left)
