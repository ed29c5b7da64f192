"""The editor's review copy → the values that its template for paper prints."""

from __future__ import annotations

from collections.abc import Iterable

from roundproof.drawing.looks import looks
from roundproof.drawing.sheets import Sheets
from roundproof.drawing.yarns import shades_of
from roundproof.pages.paper.nodes import Choice, Nodes, nodes
from roundproof.pages.paper.parts import Values, drawing, steps, things
from roundproof.pages.review_values import ReviewFinding, ReviewPage, ReviewPiece, Room
from roundproof.proof import Proof


def review(proof: Proof, page: ReviewPage) -> Values:
    """All that the template prints, in the terms that the pattern is written in."""
    choice, style = Choice(terms=proof.pattern.written_in.lower()), looks(shades_of(proof.pattern))
    return {
        "document": f"{page.title}: review copy",
        "title": f"{page.title}: review copy",
        "designer": page.designer,
        "version": page.version,
        "date": page.date,
        "terms": page.terms,
        "style": "standard",
        "facts": [
            {"label": label, "value": [value], "more": ""}
            for label, value in (
                ("Version", page.version or "not numbered"),
                ("Date", page.date or "not dated"),
                ("Status", page.status),
                ("Terms", page.terms),
                ("File", page.file),
                ("Contact", page.contact),
            )
            if value
        ],
        "tally": _tally(page),
        "unread": list(page.unread),
        "safety": {"note": nodes(page.note, choice), "hazards": page.rules},
        "findings": [_finding(found) for found in page.findings],
        "things": things(page.materials.things, choice),
        "pieces": [_piece(piece, choice) for piece in page.pieces],
        "steps": steps(page.steps, choice),
        "drawn": [drawing(sheet, style) for sheet in Sheets(proof).of()],
        "figures": [
            [figure.of, figure.name, figure.value or "not told", figure.how]
            for figure in page.figures
        ],
        "questions": [
            {"text": question.text, "room": _room(question.room)} for question in page.questions
        ],
    }


def _tally(page: ReviewPage) -> str:
    told = (
        (page.errors, "error", "errors"),
        (page.warnings, "warning", "warnings"),
        (page.notes, "note", "notes"),
        (page.accepted, "set aside", "set aside"),
        (page.open, "question open", "questions open"),
    )
    return ", ".join(f"{n} {one if n == 1 else many}" for n, one, many in told) + "."


def _finding(found: ReviewFinding) -> Values:
    return {
        "severity": "Set aside" if found.accepted else found.severity.capitalize(),
        "where": found.where or "The pattern",
        "check": found.check,
        "title": found.title,
        "line": found.line,
        "words": found.words,
        "message": found.message,
        "mend": found.mend,
        "reason": found.reason,
        "room": _room(found.room) if found.room else None,
    }


def _room(room: Room) -> Values:
    return {"key": room.key, "said": room.said, "by": room.by, "stale": room.stale}


def _piece(piece: ReviewPiece, choice: Choice) -> Values:
    return {
        "name": piece.name,
        "make": piece.make,
        "rounds": [
            {
                "label": row.label,
                "work": nodes(row.work, choice),
                "typed": row.typed,
                "counts": [row.available, row.used, row.unworked, row.made, row.stated],
                "sound": row.sound,
                "said": _each(row.said, choice),
                "found": [found.message for found in row.found],
            }
            for row in piece.rounds
        ],
        "after": _each(piece.after, choice),
    }


def _each(found: Iterable[str], choice: Choice) -> list[Nodes]:
    return [nodes(text, choice) for text in found]
