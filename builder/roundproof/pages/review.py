"""A proof → the values of the review copy: each round with its counts, findings with reasons,
measures with their working, and the questions that are left to a person."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from markupsafe import Markup

from roundproof.checks import all_checks
from roundproof.checks._items import items
from roundproof.checks.results import summary
from roundproof.drawing.yarns import yarn_marks
from roundproof.fabric.model import WorkedPiece, WorkedRound
from roundproof.findings import Finding, Severity
from roundproof.frozen import replace
from roundproof.notation.tree import Action, Note
from roundproof.notation.writer import written
from roundproof.pages import front
from roundproof.pages.assembly import steps
from roundproof.pages.between_rounds import entry
from roundproof.pages.drawn import NONE, Drawings
from roundproof.pages.figures import day
from roundproof.pages.materials import materials
from roundproof.pages.names import piece_ids, shown_label
from roundproof.pages.review_figures import figures
from roundproof.pages.review_values import (
    Question,
    ReviewFinding,
    ReviewPage,
    ReviewPiece,
    ReviewRound,
    Room,
)
from roundproof.pages.rounds import work_words
from roundproof.pattern.answers import Answer, mark_of
from roundproof.pattern.model import Embroider, Pattern
from roundproof.proof import Proof

_ASKED = {Severity.WARNING, Severity.NOTE}
"""An error has to be mended; of the rest a person may say that it is meant."""


def review_page(
    proof: Proof,
    findings: Sequence[Finding],
    answers: Mapping[str, Answer],
    unread: Sequence[Finding] = (),
    drawn: Drawings = NONE,
) -> ReviewPage:
    """All that the review copy prints. `answers` are the editor's so far, `unread` what could not
    be read of their file, `drawn` the drawings that stand in it."""
    asking = _Asking(proof, answers)
    found = tuple(asking.finding(each) for each in findings)
    by_place = dict(zip(map(id, findings), found, strict=True))
    pattern, total = proof.pattern, summary(tuple(findings))
    ids = piece_ids(proof.fabric.pieces)
    pieces = tuple(
        replace(
            _piece(
                proof, ids[key], piece, [(f, by_place[id(f)]) for f in findings if f.piece == key]
            ),
            drawn=drawn.pieces.get(key, ()),
        )
        for key, piece in proof.fabric.pieces.items()
    )
    questions = tuple(asking.questions())
    safety = front.safety(pattern)
    rooms = [*(each.room for each in found if each.room), *(each.room for each in questions)]
    return ReviewPage(
        front.title_of(pattern),
        pattern.version.value if pattern.version else "",
        day(pattern.date.value) if pattern.date else "",
        pattern.status.value,
        pattern.written_in.value,
        pattern.source.name,
        pattern.designer.value if pattern.designer else "",
        pattern.contact.value if pattern.contact else "",
        safety.note,
        safety.hazards,
        total.errors,
        total.warnings,
        total.notes,
        total.accepted,
        found,
        materials(proof),
        pieces,
        steps(proof, ids),
        tuple(figures(proof)),
        questions,
        tuple(f"{each.message} {each.mend}".strip() for each in unread),
        _answers(rooms),
        sum(1 for room in rooms if not room.said or room.stale),
        drawn.assembly,
    )


class _Asking:
    """Gives each question its key and its mark, and finds what was answered."""

    def __init__(self, proof: Proof, answers: Mapping[str, Answer]) -> None:
        self.proof, self.answers = proof, answers
        self.keys: dict[str, int] = {}
        self.whole = _mark_of_all(proof)

    def finding(self, found: Finding) -> ReviewFinding:
        check = all_checks().get(found.check)
        words = " ".join(found.span.text.split())
        where = " ".join(part for part in (found.piece, found.round) if part)
        asked = found.severity in _ASKED and not found.accepted
        return ReviewFinding(
            found.check,
            check.title if check else found.check,
            found.severity.value,
            where,
            found.span.begins[0],
            words if len(words) <= 80 else "",
            found.message,
            found.mend,
            found.accepted,
            found.because,
            self._room_of(found) if asked else None,
        )

    def _room_of(self, found: Finding) -> Room:
        """The key of a finding is its check and its place; of several there each has a number."""
        key = "/".join(part for part in (found.check, found.piece, found.round) if part)
        self.keys[key] = self.keys.get(key, 0) + 1
        if self.keys[key] > 1:
            key = f"{key}/{self.keys[key]}"
        worked = _round_of(self.proof, found)
        mark = _mark_of_round(self.proof, worked) if worked else mark_of(found.span.text)
        return self.room(key, mark)

    def questions(self) -> Iterator[Question]:
        for item in items():
            if item.asks and _asked_of(self.proof.pattern, item.number):
                room = self.room(f"question-{item.number}", self.whole)
                yield Question(item.number, item.about, item.asks, room)

    def room(self, key: str, mark: str) -> Room:
        answer = self.answers.get(key)
        if answer is None:
            return Room(key, mark)
        return Room(key, mark, answer.says, answer.by, answer.of != mark)


def _asked_of(pattern: Pattern, number: int) -> bool:
    """Whether a question has anything to be asked about in a pattern."""
    verbs = {type(step.verb) for step in pattern.assembly}
    needs: dict[int, object] = {
        31: pattern.stitches,
        32: pattern.stitches,
        38: len(pattern.yarns) > 1,
        79: Embroider in verbs,
        90: pattern.photos,
        93: pattern.photos,
        94: any(photo.after for photo in pattern.photos),
        101: pattern.credits,
        103: pattern.specimen and pattern.specimen.statements,
        104: pattern.specimen and pattern.specimen.scientific,
    }
    return bool(needs.get(number, True))


def _round_of(proof: Proof, found: Finding) -> WorkedRound | None:
    piece = proof.fabric.pieces.get(found.piece or "")
    rounds = piece.rounds if piece else ()
    return next((worked for worked in rounds if worked.label == found.round), None)


def _mark_of_round(proof: Proof, worked: WorkedRound) -> str:
    """A round's mark goes by what was understood, so that another way of typing it is the same."""
    if worked.instruction is None:
        return mark_of(worked.round.work.text)
    text = written(worked.instruction, proof.pattern.written_in, proof.letter)
    return mark_of(text, str(worked.stated))


def _mark_of_all(proof: Proof) -> str:
    """The mark of the whole pattern: every line of its file but the private ones."""
    lines = proof.pattern.source.text.splitlines()
    return mark_of(*(line for line in lines if not line.lstrip().startswith("#")))


def _piece(
    proof: Proof,
    id: str,
    piece: WorkedPiece,
    found: Iterable[tuple[Finding, ReviewFinding]],
) -> ReviewPiece:
    here = list(found)
    rounds, said = [], list[Markup]()
    for each in piece.entries:
        if isinstance(each, Action | Note):
            said.append(entry(each, proof.pattern))
        elif isinstance(each, WorkedRound):
            mine = tuple(shown for finding, shown in here if finding.round == each.label)
            rounds.append(_round(proof, each, tuple(said), mine))
            said = []
    labels = {each.label for each in piece.rounds}
    rest = tuple(shown for finding, shown in here if finding.round not in labels)
    name, make = piece.piece.name, piece.piece.make
    return ReviewPiece(id, name, make, tuple(rounds), tuple(said), rest)


def _round(
    proof: Proof, worked: WorkedRound, said: tuple[Markup, ...], found: tuple[ReviewFinding, ...]
) -> ReviewRound:
    return ReviewRound(
        shown_label(worked),
        work_words(proof, worked, yarn_marks(proof.pattern)),
        " ".join(worked.round.work.text.split()),
        _count(worked.available),
        _count(worked.used),
        _count(worked.unworked),
        _count(worked.made),
        _count(worked.stated),
        worked.sound,
        said,
        found,
    )


def _count(number: int | None) -> str:
    return "–" if number is None else f"{number:,}"


def _answers(rooms: Sequence[Room]) -> str:
    """The file of answers as it stands, with a line to fill in for each that is still open."""
    lines = []
    for room in rooms:
        said = _quoted(room.said) if room.said and not room.stale else ""
        by = f", by: {_quoted(room.by)}" if room.by and said else ", by: "
        lines.append(f'{room.key}: {{of: "{room.of}", says: {said}{by}}}')
    return "\n".join(lines) + "\n" if lines else ""


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
