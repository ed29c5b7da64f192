"""The figures of one piece, how each was reached, and why some cannot be told."""

from __future__ import annotations

from roundproof.fabric.edges import count_of
from roundproof.fabric.model import Fabric, WorkedPiece
from roundproof.measure.bands import MOST_STITCHES, Band, Bands, bands_of, round_size
from roundproof.measure.fans import arcs_of, is_fan
from roundproof.measure.figures import cm, number, several, stitches
from roundproof.measure.meridian import Stadium
from roundproof.measure.model import Flatness, Form, PieceSize, RoundSize
from roundproof.measure.outline import Outline, form_of, outline_of
from roundproof.measure.waves import wave_height
from roundproof.pattern.model import Pattern
from roundproof.reference import stitches as stitches_table

_GATHERED = 0.25
"""A round draws the one below together when it closes in by more than its height, and by more
than this share of the widest radius: what is less is the usual closing of an end."""
_FLAT = "a piece worked in rows encloses nothing by itself"


def piece_size(pattern: Pattern, fabric: Fabric, worked: WorkedPiece) -> PieceSize:
    """The figures of one copy of a piece. Never raises: what cannot be told is None and named."""
    bands, form = bands_of(pattern, worked), form_of(worked)
    figures = _figures(form)
    if not bands.bands:
        return _size(worked, form, bands, (), {}, dict.fromkeys(figures, bands.missing), {})
    edge = _edge(pattern, worked)
    if form is Form.ROWS:
        return _rows(worked, bands, edge)
    outline = outline_of(pattern, fabric, worked, bands)
    why = dict.fromkeys(figures, bands.missing) if bands.missing else _unreliable(outline)
    values = {
        "height": outline.reach,
        "diameter": 2 * outline.points[outline.widest].radius,
        "volume": outline.inside / 1000,
    }
    if form is Form.OVAL:
        values["length"] = outline.straight + values["diameter"]
    return _with_edge(worked, form, bands, outline.rounds, values, why, _working(outline), edge)


def _edge(pattern: Pattern, worked: WorkedPiece) -> tuple[int, float] | None:
    """Count and stitch width of the last round, which may be known where a round before is not."""
    last = worked.rounds[-1]
    count, size = count_of(last), round_size(pattern, worked.piece, last)
    if count is None or count > MOST_STITCHES or size is None:
        return None
    return count, size.width


def _with_edge(
    worked: WorkedPiece,
    form: Form,
    bands: Bands,
    outline: tuple[RoundSize, ...],
    values: dict[str, float],
    why: dict[str, str],
    working: dict[str, str],
    edge: tuple[int, float] | None,
) -> PieceSize:
    if edge is not None:
        why.pop("edge", None)
        values["edge"] = edge[0] * edge[1]
        row = "row" if form is Form.ROWS else "round"
        working["edge"] = f"the last {row}: {_by_width(*edge)}"
    return _size(worked, form, bands, outline, values, why, working)


def _size(
    worked: WorkedPiece,
    form: Form,
    bands: Bands,
    outline: tuple[RoundSize, ...],
    values: dict[str, float],
    why: dict[str, str],
    working: dict[str, str],
) -> PieceSize:
    told = {figure: value for figure, value in values.items() if figure not in why}
    gauge = {"gauge": "; ".join(bands.gauges)} if told else {}
    return PieceSize(
        piece=worked.piece.key,
        form=form,
        outline=outline,
        height_mm=told.get("height"),
        diameter_mm=told.get("diameter"),
        length_mm=told.get("length"),
        edge_mm=told.get("edge"),
        volume_ml=told.get("volume"),
        guessed=bands.guessed,
        unreliable=why,
        working={figure: working[figure] for figure in told} | gauge,
    )


def _figures(form: Form) -> tuple[str, ...]:
    named = ("height", "diameter", "length", "edge", "volume")
    return tuple(figure for figure in named if figure != "length" or form is not Form.TURNED)


def _rows(worked: WorkedPiece, bands: Bands, edge: tuple[int, float] | None) -> PieceSize:
    """A flat piece: as wide as its longest row, as long as its rows together."""
    outline: list[RoundSize] = []
    reach = 0.0
    if is_fan(worked):
        return _fan(worked, bands, edge)
    for band in bands.bands:
        reach += band.height
        flat = RoundSize(band.number, band.length, band.length / 2, reach, Flatness.FLAT)
        outline.append(flat)
    wide = max(bands.bands, key=lambda b: b.length)
    why = dict.fromkeys(_figures(Form.ROWS), bands.missing) if bands.missing else {}
    why["volume"] = why.get("volume", _FLAT)
    length = f"{several(len(outline), 'row')} one upon the other: {cm(reach)}"
    values = {"height": reach, "diameter": wide.length, "length": reach}
    working = {
        "height": length,
        "diameter": f"row {wide.number} is the widest: {_by_width(wide.count, wide.width)}",
        "length": length,
    }
    return _with_edge(worked, Form.ROWS, bands, tuple(outline), values, why, working, edge)


def _fan(worked: WorkedPiece, bands: Bands, edge: tuple[int, float] | None) -> PieceSize:
    """Rows that grow from one point: arcs, as wide as the widest is straight across."""
    arcs = arcs_of(bands.bands)
    outline = tuple(
        RoundSize(band.number, band.length, arc.width / 2, arc.radius, Flatness.FLAT)
        for band, arc in zip(bands.bands, arcs, strict=True)
    )
    at = max(range(len(arcs)), key=lambda i: arcs[i].width)
    wide, arc, last = bands.bands[at], arcs[at], max(arcs, key=lambda a: a.reach)
    why = dict.fromkeys(_figures(Form.ROWS), bands.missing) if bands.missing else {}
    why["volume"] = why.get("volume", _FLAT)
    length = f"a fan of {several(len(arcs), 'row')} round one point: {cm(last.reach)}"
    values = {"height": last.reach, "diameter": arc.width, "length": last.reach}
    working = {
        "height": length,
        "diameter": f"row {wide.number} lies in an arc of {cm(arc.radius)} round one point:"
        f" {_by_width(wide.count, wide.width)}, {cm(arc.width)} straight across",
        "length": length,
    }
    return _with_edge(worked, Form.ROWS, bands, outline, values, why, working, edge)


def _unreliable(outline: Outline) -> dict[str, str]:
    """Which figures the model cannot tell, and why."""
    why: dict[str, str] = {}
    wall = [outline.rounds[i] for i in outline.wall]
    ruffled = next((r for r in wall if r.flatness is Flatness.RUFFLED), None)
    if ruffled is not None:
        reason = (
            f"R{ruffled.number} ruffles ({_frill(ruffled.fullness)}), and how a frill stands does"
            " not follow from counts"
        )
        why = {f: reason for f in _figures(outline.form) if f != "edge"}
        if _short_frill(outline, ruffled):
            del why["volume"]
    elif (drawn := _drawn_together(outline)) is not None:
        reason = f"R{drawn.number} is drawn together more than a round can lean in"
        why = {"height": reason, "volume": reason}
    if outline.form is Form.OVAL and "volume" not in why and (reason := _odd_oval(outline)):
        why["volume"] = reason
    return why


def _frill(fullness: float) -> str:
    waves = number(wave_height(fullness), 1)
    return f"{number(fullness)} times the circle it lies on, in waves {waves} times as high as long"


def _short_frill(outline: Outline, ruffled: RoundSize) -> bool:
    """Whether only a frill ruffles, shorter than the piece it ends."""
    begins = outline.frill or 0
    ends = len(outline.rounds) - begins
    return outline.rounds[begins] is ruffled and ends < len(outline.wall) - ends


def _drawn_together(outline: Outline) -> RoundSize | None:
    """A round that gathers, other than at the last few stitches of a closing."""
    widest = outline.points[outline.widest].radius
    before = outline.start or 0.0
    for band, size in ((outline.bands[i], outline.rounds[i]) for i in outline.wall):
        if before - size.radius_mm - band.height > _GATHERED * widest:
            return size
        before = size.radius_mm
    return None


def _odd_oval(outline: Outline) -> str:
    counts = [band.count for band in outline.bands]
    if max(counts) <= counts[0]:
        return "a pocket worked down both sides of a chain takes its shape from the filling"
    if any(band.length < 2 * outline.straight for band in outline.bands):
        return "the oval is drawn in past its ends, and counts do not tell how it then lies"
    return ""


def _by_width(count: int, width: float) -> str:
    are = "is" if count == 1 else "are"
    return f"{stitches(count)} of {number(width)} mm {are} {cm(count * width)}"


def _working(outline: Outline) -> dict[str, str]:
    """How each figure was reached, with its numbers."""
    widest = outline.widest
    wide, radius = outline.bands[widest], outline.points[widest].radius
    bands = tuple(outline.bands[i] for i in outline.wall)
    rounds, aside = _counted(outline, len(bands)), _aside(outline)
    shut = ", and the last drawn shut" if outline.shut else ""
    said = {
        "height": f"{rounds} of {_heights(bands)}, each of them less in height the more"
        f" it leans{shut}: {cm(outline.reach)}{aside}{_mixed(outline)}",
        "diameter": f"R{wide.number} is the widest: {_by_width(wide.count, wide.width)} round,"
        f" {_across(2 * radius, outline.points[widest].fullness)}",
        "volume": f"slices between one round and the next,"
        f" {several(len(bands) - outline.rows, 'round')} in all:"
        f" {number(outline.inside / 1000, 1)} ml{aside}",
    }
    if outline.form is Form.OVAL:
        oval = Stadium(outline.straight, radius)
        said["diameter"] = f"a half circle of {cm(radius)} on each side at R{wide.number}"
        said["length"] = (
            f"the chain between the ends, {cm(oval.straight)}, and a half circle of"
            f" {cm(radius)} at each end: {cm(oval.length)}"
        )
    return said


def _counted(outline: Outline, bands: int) -> str:
    rounds = several(bands - outline.rows, "round")
    return f"{several(outline.rows, 'row')} and {rounds}" if outline.rows else rounds


def _aside(outline: Outline) -> str:
    """What hangs off the wall and is not counted with it."""
    if not outline.hung:
        return ""
    numbers = [f"R{outline.bands[i].number}" for i in sorted(outline.hung)]
    hang = "hangs" if len(numbers) == 1 else "hang"
    return f", without {_listed(numbers)}, which {hang} off it"


def _listed(words: list[str]) -> str:
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def _across(diameter: float, fullness: float) -> str:
    if fullness < 1.005:
        return f"which is {cm(diameter)} across"
    return (
        f"more than lies flat in rounds of this height ({number(fullness)} times), so"
        f" {cm(diameter)} across"
    )


def _mixed(outline: Outline) -> str:
    """A round of stitches of several heights is as high as their mean, which is worth a word."""
    for band in outline.bands:
        kinds = {kind for kind, _ in band.worked.tally}
        heights = {stitches_table()[kind].height for kind in kinds if kind in stitches_table()}
        if len(heights - {0.0}) > 1:
            return f"; R{band.number} has stitches of several heights and counts with their mean"
    return ""


def _heights(bands: tuple[Band, ...]) -> str:
    low, high = min(b.height for b in bands), max(b.height for b in bands)
    return f"{number(low)} mm" if high - low < 0.005 else f"{number(low)} to {number(high)} mm"
