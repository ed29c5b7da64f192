"""The drawings of a pattern as files beside its page, for either hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from markupsafe import Markup, escape

from roundproof.drawing.looks import looks
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.drawing.sheets import sheets
from roundproof.drawing.svg import write_file
from roundproof.drawing.yarns import shades_of
from roundproof.frozen import dataclass
from roundproof.pages.names import piece_ids
from roundproof.pages.values import Drawn
from roundproof.proof import Proof

ON_PAGE = (Kind.CHART, Kind.COLOURS, Kind.PLACES, Kind.EDGES)
"""What is a file of its own; the outline stands within the page."""
_NAMES = {
    Kind.CHART: "Stitch chart",
    Kind.OUTLINE: "Outline",
    Kind.COLOURS: "Colours, stitch by stitch",
    Kind.PLACES: "Where things go",
    Kind.EDGES: "The two edges",
}


@dataclass(frozen=True, slots=True)
class Drawings:
    """`shown` by the key of the piece that they are about, `files` by their names."""

    shown: Mapping[str, tuple[Drawn, ...]]
    files: Mapping[str, str]


NONE = Drawings({}, {})


def drawings(proof: Proof) -> Drawings:
    """All files that a page shows. What looks the same for both hands is there once."""
    shown, files = dict[str, list[Drawn]](), dict[str, str]()
    right, left = named(proof, sheets(proof)), named(proof, sheets(proof, mirrored=True))
    style = looks(shades_of(proof.pattern))
    for name, sheet in right.items():
        if sheet.kind not in ON_PAGE:
            continue
        files[name] = write_file(sheet.drawing, style)
        other = left.get(name)
        mirror = ""
        if other is not None and (text := write_file(other.drawing, style)) != files[name]:
            mirror = name.removesuffix(".svg") + "-left.svg"
            files[mirror] = text
        shown.setdefault(sheet.piece, []).append(_drawn(name, mirror, sheet, other or sheet))
    return Drawings({key: tuple(found) for key, found in shown.items()}, files)


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
        _NAMES[sheet.kind],
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


def of_kinds(found: Sequence[Drawn], *kinds: Kind) -> tuple[Drawn, ...]:
    return tuple(drawn for drawn in found if drawn.kind in kinds)
