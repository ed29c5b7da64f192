"""A piece with its rounds, row by row as it stands on the page."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import pi
from typing import Protocol

from markupsafe import Markup

from roundproof.drawing.bars import (
    between,
    longest_piece,
    round_bar,
    row_pixels,
    ruler,
    silhouette,
    widest_round,
)
from roundproof.drawing.outlines.sheet import Across, widest_of
from roundproof.drawing.shapes import Drawing
from roundproof.drawing.svg import write_svg
from roundproof.drawing.yarns import Marks, YarnMark, yarn_marks
from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.frozen import dataclass
from roundproof.measure.model import Flatness, Form, PieceSize, RoundSize
from roundproof.notation.tree import Action, Again, Instruction, Note
from roundproof.pages.between_rounds import entry, mark_remarks, start_of
from roundproof.pages.figures import counted, in_words, millimetres
from roundproof.pages.hands import turned_name
from roundproof.pages.names import MOST_SINGLES, range_ids, round_ids, shown_label, spoken_label
from roundproof.pages.outlines import outline_figure
from roundproof.pages.prose import inline
from roundproof.pages.values import NoteRow, Photo, PieceWork, RoundRow, Row
from roundproof.pages.wording import either, measure, plain, unbroken, work, written_out
from roundproof.pattern.model import Piece, Terms, Worked
from roundproof.proof import Proof

MOST_BOXES = 100
"""Boxes for the copies of a piece."""


class _Writer(Protocol):
    def __call__(
        self, instruction: Instruction, own: Terms, marks: Marks, /, *, rows: bool
    ) -> Markup: ...


After = Mapping[int, "Inserted"]
"""By round number: what is printed after it."""

_WORKED = {
    Worked.SPIRAL: "in a spiral",
    Worked.JOINED: "each joined",
    Worked.ROWS: "",
    Worked.SURFACE: "on the surface",
}


@dataclass(frozen=True, slots=True)
class Inserted:
    """Steps of the assembly and photos that belong after a round."""

    said: tuple[Markup, ...] = ()
    photos: tuple[Photo, ...] = ()


@dataclass(frozen=True, slots=True)
class Common:
    """What the pieces of a pattern have in common; worked out once."""

    proof: Proof
    marks: Marks
    widest: int
    longest: int
    across: Across

    @classmethod
    def of(cls, proof: Proof) -> Common:
        marks, widest = yarn_marks(proof.pattern), widest_round(proof.fabric)
        return cls(proof, marks, widest, longest_piece(proof.fabric), widest_of(proof))


def piece_work(
    common: Common, key: str, id: str, number: int, after: After, report: str
) -> PieceWork:
    """One piece; `number` is that of its figure, `report` the link for reporting a mistake."""
    proof, marks = common.proof, common.marks
    piece = proof.fabric.pieces[key]
    size = proof.measures.pieces.get(key)
    rows = tuple(_rows(common, piece, id, size, after))
    small = silhouette(piece, common.widest, common.longest, marks)
    hatched = any(isinstance(row, RoundRow) and "hatch" in row.bar for row in rows)
    make = max(1, piece.piece.make)
    uncounted = f"and {make - MOST_BOXES:,} more" if make > MOST_BOXES else ""
    return PieceWork(
        id,
        key,
        piece.piece.name,
        turned_name(piece.piece.name),
        make,
        _figures(piece, make),
        _svg(small),
        _summary(piece, make),
        outline_figure(piece, size, marks, common.across, id, number),
        tuple(range(1, min(make, MOST_BOXES) + 1)) if make > 1 else (),
        uncounted,
        _yarns(piece, marks),
        hatched,
        _svg(ruler(common.widest)),
        ("Row", "Work") if _in_rows(piece) else ("Round", "Work"),
        rows,
        report,
    )


def _svg(drawing: Drawing | None) -> Markup:
    return Markup(write_svg(drawing)) if drawing else Markup("")


def _in_rows(piece: WorkedPiece) -> bool:
    return any(worked.round.label.row for worked in piece.rounds)


def _figures(piece: WorkedPiece, make: int) -> str:
    """ "15 rounds, 146 stitches each"."""
    rounds = sum(worked.rounds for worked in piece.rounds)
    kind = "row" if _in_rows(piece) else "round"
    text = counted(rounds, kind)
    if piece.stitches is not None:
        each = " each" if make > 1 else ""
        text += f", {counted(piece.stitches, 'stitch', 'stitches')}{each}"
    return text


def _summary(piece: WorkedPiece, make: int) -> Markup:
    """Make, rounds, stitches, how it is worked, what it stands for."""
    own: Piece = piece.piece
    rounds = sum(worked.rounds for worked in piece.rounds)
    kind = "row" if _in_rows(piece) else "round"
    how = _WORKED[own.worked.value] if own.worked else "" if kind == "row" else "in a spiral"
    stitches = piece.stitches
    figures = counted(rounds, kind) + (f" {how}" if how else "")
    if stitches is not None:
        figures += f", {counted(stitches, 'stitch', 'stitches')}" + (" each" if make > 1 else "")
    parts = [f"Make {make:,}.", f"{figures}."]
    if own.strands is not None:
        parts.append(f"Work with {counted(own.strands.value, 'strand')} held together.")
    if own.hook is not None:
        parts.append(f"Hook: {millimetres(own.hook.value)}.")
    if own.stands_for is not None:
        parts.append(f"Stands for: {own.stands_for.value}.")
    return plain(" ".join(parts))


def _yarns(piece: WorkedPiece, marks: Marks) -> tuple[YarnMark, ...]:
    """The yarns of a piece in the order in which they come."""
    keys: dict[str, None] = {}
    for worked in piece.rounds:
        for key in (worked.yarn, *(stretch.yarn for stretch in worked.stretches)):
            if key is not None:
                keys[key] = None
    return tuple(marks[key] for key in keys if key in marks and marks[key].letter)


def _rows(
    common: Common, piece: WorkedPiece, id: str, size: PieceSize | None, after: After
) -> Iterable[Row]:
    """Rounds, and between them all that is said, done or seen there, in one row each."""
    named = round_ids(id, piece.rounds)
    ids, taken = iter(named), set(named)
    proof, widest, sizes = common.proof, common.widest, _Sizes(piece, size)
    waiting, before = list(start_of(proof, piece)), None
    for found in piece.entries:
        if isinstance(found, Action | Note):
            waiting.append(entry(found, proof.pattern))
        elif isinstance(found, WorkedRound):
            if waiting:
                yield NoteRow(tuple(waiting), _svg(between(before, widest) if before else None))
            anchors = tuple(each for each in range_ids(id, found) if each not in taken)
            taken.update(anchors)
            yield _round(common, piece, found, next(ids), anchors, sizes)
            before, waiting = found, []
            inserted = _inserted(found, after)
            waiting += inserted.said
            if inserted.photos:
                yield NoteRow(tuple(waiting), _svg(between(found, widest)), inserted.photos)
                waiting = []
    if waiting:
        yield NoteRow(tuple(waiting), Markup(""))


def _inserted(worked: WorkedRound, after: After) -> Inserted:
    label = worked.round.label
    here = [after[number] for number in after if label.first <= number <= label.last]
    said = tuple(text for one in here for text in one.said)
    return Inserted(said, tuple(photo for one in here for photo in one.photos))


class _Sizes:
    """The measures of each round or range, by its place in the outline."""

    def __init__(self, piece: WorkedPiece, size: PieceSize | None) -> None:
        total = sum(worked.rounds for worked in piece.rounds)
        self.size = size
        self.outline: Sequence[RoundSize] = size.outline if size else ()
        self.usable = size is not None and len(self.outline) == total and not size.guessed
        self.first: dict[int, int] = {}
        place = 0
        for worked in piece.rounds:
            self.first[id(worked)] = place
            place += worked.rounds
        self.widest = max(self.outline, key=lambda r: r.length_mm, default=None)

    def of(self, worked: WorkedRound) -> Sequence[RoundSize]:
        if not self.usable:
            return ()
        first = self.first[id(worked)]
        return self.outline[first : first + worked.rounds]


def _round(
    common: Common,
    piece: WorkedPiece,
    worked: WorkedRound,
    id: str,
    anchors: tuple[str, ...],
    sizes: _Sizes,
) -> RoundRow:
    proof, marks, widest = common.proof, common.marks, common.widest
    here = sizes.of(worked)
    ruffled = any(at.flatness is Flatness.RUFFLED for at in here)
    singles = _singles(worked)
    remarks = tuple(_remarks(proof, piece, worked, here, sizes, ruffled))
    count = _count(worked)
    spoken = spoken_label(worked)
    box = f"{piece.piece.name}, {spoken}" + (f", {count} stitches" if count else "")
    return RoundRow(
        id,
        anchors,
        worked.label,
        shown_label(worked),
        worked.round.label.first,
        worked.rounds,
        _svg(round_bar(worked, widest, marks, ruffled=ruffled)),
        row_pixels(worked),
        _svg(between(worked, widest)) if remarks or singles else Markup(""),
        either(work_words(proof, worked, marks), _in_words(proof, worked, marks, written_out)),
        count,
        _count_more(worked, count),
        f"{box}, done",
        remarks,
        singles,
        f"{in_words(worked.rounds).capitalize()} {_kind(worked)}, one by one",
        f"{piece.piece.name} {shown_label(worked)}",
    )


def _kind(worked: WorkedRound) -> str:
    return "rows" if worked.round.label.row else "rounds"


def _count_more(worked: WorkedRound, count: str) -> str:
    stitches = " stitch" if count == "1" else " stitches" if count else ""
    each = f" in each {_kind(worked)[:-1]}" if stitches and worked.rounds > 1 else ""
    return stitches + each


def _count(worked: WorkedRound) -> str:
    made = worked.made if worked.made is not None else worked.stated
    return f"{made:,}" if made is not None else ""


def _singles(worked: WorkedRound) -> tuple[str, ...]:
    label = worked.round.label
    if not 1 < label.rounds <= MOST_SINGLES:
        return ()
    kind = "Row\u00a0" if label.row else "R"
    return tuple(f"{kind}{number}" for number in range(label.first, label.last + 1))


def work_words(proof: Proof, worked: WorkedRound, marks: Marks) -> Markup:
    """The instruction from its tree; one that could not be read as it was typed."""
    return _in_words(proof, worked, marks, work)


def _in_words(proof: Proof, worked: WorkedRound, marks: Marks, write: _Writer) -> Markup:
    found = worked.instruction or next(iter(worked.round.readings), None)
    if worked.round.repeats is not None:
        return plain(_again(worked.round.repeats, worked))
    if found is None:
        return plain(worked.round.work.text)
    return write(found, proof.pattern.written_in, marks, rows=worked.round.label.row)


def _again(again: Again, worked: WorkedRound) -> str:
    kind = _kind(worked)
    one = f"R{again.first}" if kind == "rounds" else f"row {again.first}"
    several = (
        f"R{again.first}–R{again.last}"
        if kind == "rounds"
        else (f"rows {again.first}–{again.last}")
    )
    what = one if again.first == again.last else several
    times = "once" if again.times == 1 else f"{again.times:,} times"
    return f"work {what} again, {times}"


def _remarks(
    proof: Proof,
    piece: WorkedPiece,
    worked: WorkedRound,
    here: Sequence[RoundSize],
    sizes: _Sizes,
    ruffled: bool,
) -> Iterable[Markup]:
    if worked.round.remark:
        yield inline(worked.round.remark, proof.pattern)
    yield from mark_remarks(piece, worked)
    if ruffled:
        yield _ruffles(worked)
    elif sizes.widest is not None and any(at is sizes.widest for at in here):
        yield _check(sizes, worked)


def _ruffles(worked: WorkedRound) -> Markup:
    words = "More stitches than lie flat: the edge waves."
    if worked.made and worked.available:
        on = f"{worked.made:,} stitches on {worked.available:,}"
        words = f"{on} are more than lie flat: the edge waves."
    return Markup("<b>Ruffles.</b> {}").format(unbroken(words))


def _check(sizes: _Sizes, worked: WorkedRound) -> Markup:
    """The widest round is where a maker best lays a ruler."""
    at, size = sizes.widest, sizes.size
    assert at is not None
    if size is not None and size.form is Form.OVAL and size.length_mm and size.diameter_mm:
        said = Markup("{} by {}").format(measure(size.length_mm), measure(size.diameter_mm))
    elif worked.round.label.row:
        said = Markup("{} wide").format(measure(at.length_mm))
    elif at.flatness is Flatness.FLAT:
        said = Markup("{} across").format(measure(2 * at.radius_mm))
    else:
        across = measure(at.length_mm / pi)
        said = Markup("{} round, {} across").format(measure(at.length_mm), across)
    return Markup("<b>Check.</b> {}.").format(said)
