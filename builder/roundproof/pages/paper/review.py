"""The editor's review copy → the values that its template for paper prints."""

from __future__ import annotations

from collections.abc import Iterable

from roundproof.pages.paper.nodes import Choice, Nodes, nodes
from roundproof.pages.paper.parts import Values
from roundproof.pages.review_values import ReviewFinding, ReviewPage, ReviewPiece, Room


def review(
    page: ReviewPage, photos: Iterable[tuple[str, str]], pattern: Values, choice: Choice
) -> Values:
    """All that the template prints: what was found and computed, the names of the photos with their
    descriptions, then the `pattern` as a booklet has it."""
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
        "findings": [_finding(found) for found in page.findings],
        "pieces": [_piece(piece, choice) for piece in page.pieces],
        "figures": [
            [figure.of, figure.name, figure.value or "not told", figure.how]
            for figure in page.figures
        ],
        "questions": [
            {"text": question.text, "room": _room(question.room)} for question in page.questions
        ],
        "photos": [{"file": file, "alt": alt or "not described"} for file, alt in photos],
        "pattern": pattern,
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
