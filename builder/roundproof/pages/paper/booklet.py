"""A pattern's page → the values that a booklet prints."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence

from roundproof.drawing.looks import Looks, looks, without_ink
from roundproof.drawing.plate import draw_plate
from roundproof.drawing.sheet import Kind, Sheet
from roundproof.drawing.sheets import Sheets
from roundproof.drawing.svg import write_file
from roundproof.drawing.yarns import shades_of
from roundproof.pages.paper.class_pack import class_pack
from roundproof.pages.paper.form import form
from roundproof.pages.paper.how import Copy, Print
from roundproof.pages.paper.nodes import Nodes, nodes, text_of
from roundproof.pages.paper.parts import Values, drawing, steps, things
from roundproof.pages.values import NoteRow, PatternPage, Photo, PieceWork, RoundRow, Word

MOST_BOXES = 12
"""Boxes beside a range of rounds; a longer one has one for all."""


def booklet(sheets: Sheets, page: PatternPage, how: Print, address: str = "") -> Values:
    """All that the template prints, whatever the paper: texts, nodes (see `nodes`) and drawings as
    SVG. `address` is that of the pattern's page, where it has one."""
    return _Booklet(sheets, page, how, address).values()


class _Booklet:
    def __init__(self, sheets: Sheets, page: PatternPage, how: Print, address: str) -> None:
        self.proof, self.page, self.how, self.address = sheets.proof, page, how, address
        dress = looks if how.style == "standard" else without_ink
        self.looks: Looks = dress(shades_of(sheets.proof.pattern))
        self.drawn: dict[str, list[Sheet]] = {}
        self.assembly: list[Sheet] = []
        if how.style != "aloud" and not page.preview:
            self.take(sheets.of(how.choice.left_handed))

    def take(self, found: Iterator[Sheet]) -> None:
        for sheet in found:
            assembled = sheet.kind in (Kind.PLACES, Kind.EDGES)
            (self.assembly if assembled else self.drawn.setdefault(sheet.piece, [])).append(sheet)

    def nodes(self, markup: str) -> Nodes:
        return nodes(markup, self.how.choice)

    def values(self) -> Values:
        page = self.page
        terms = self.how.choice.terms.upper()
        return {
            "document": page.title,
            "title": page.title,
            "name": text_of(self.nodes(page.name)),
            "designer": page.designer,
            "version": page.version,
            "date": page.date,
            "terms": terms,
            "standing": page.standing,
            "style": self.how.style,
            "room": self.how.room or self.how.copy is not None,
            "class": class_pack(self.proof, self.page, self.how) if self.how.pupils else None,
            "form": form(self.page, self.proof) if self.how.copy else [],
            "lead": self.nodes(page.lead),
            "facts": [
                {"label": f.label, "value": self.nodes(f.value), "more": "" if f.link else f.more}
                for f in page.facts
                if f.label not in ("Terms", "Version")
            ],
            "plate": self.plate(),
            "safety": {"note": self.nodes(page.safety.note), "hazards": page.safety.hazards},
            "materials": {
                "summary": page.materials.summary,
                "things": things(page.materials.things, self.how.choice),
            },
            "yarns": [
                {"letter": y.letter, "name": y.name, "shade": self.shade(y.css)}
                for y in page.yarns
                if y.name
            ],
            "words": [self.word(word) for word in page.words],
            "left_right": self.nodes(page.left_right),
            "handed": page.handed if self.how.choice.left_handed else "",
            "pieces": [self.piece(piece) for piece in page.pieces],
            "steps": steps(page.steps, self.how.choice),
            "drawn": [self.sheet(sheet) for sheet in self.assembly],
            "photos": self.photos(page.photos),
            "sizes": self.sizes(),
            "care": self.nodes(page.care),
            "specimen": self.specimen(),
            "changes": [
                {"version": c.version, "date": c.date, "note": self.nodes(c.note)}
                for c in page.changes
            ],
            "legal": self.legal(),
        }

    def photo(self, photo: Photo) -> Values:
        return {"src": photo.picture.src, "alt": photo.alt, "credit": photo.credit}

    def photos(self, found: Sequence[Photo]) -> list[Values]:
        return [self.photo(each) for each in found] if self.how.photos else []

    def shade(self, css: str) -> str:
        """The tone of a yarn as its bars have it; white where ink is saved."""
        return self.looks.light.get(css, {}).get("fill", "#ffffff")

    def plate(self) -> Values | None:
        drawn = draw_plate(
            self.proof.pattern,
            self.proof.fabric,
            self.proof.measures,
            "plate",
            self.page.plate.title if self.page.plate else "",
            rough=self.page.preview,
        )
        if drawn is None or self.page.plate is None or self.how.style == "aloud":
            return None
        svg = write_file(drawn.drawing, self.looks)
        caption = self.nodes(self.page.plate.caption)
        return {"svg": svg, "alt": self.page.plate.title, "caption": caption}

    def sheet(self, sheet: Sheet) -> Values:
        return drawing(sheet, self.looks)

    def word(self, word: Word) -> Values:
        other = word.uk if self.how.choice.terms == "uk" and word.uk else word.us
        return {"word": other, "means": self.nodes(word.means)}

    def piece(self, piece: PieceWork) -> Values:
        sheets_of = self.drawn.get(piece.key, [])
        outline = next((s for s in sheets_of if s.kind is Kind.OUTLINE), None)
        rest = [s for s in sheets_of if s.kind is not Kind.OUTLINE]
        return {
            "name": text_of(self.nodes(piece.shown)),
            "make": piece.make,
            "summary": self.nodes(piece.summary),
            "outline": self.sheet(outline) if outline else None,
            "rows": [
                self.round(row) if isinstance(row, RoundRow) else self.note(row)
                for row in piece.rows
            ],
            "drawn": [self.sheet(sheet) for sheet in rest],
            "by": piece.columns[0],
        }

    def round(self, row: RoundRow) -> Values:
        return {
            "kind": "round",
            "label": row.shown,
            "boxes": row.rounds if row.rounds <= MOST_BOXES else 1,
            "work": self.nodes(row.work),
            "count": row.count,
            "remarks": [self.nodes(remark) for remark in row.remarks],
        }

    def note(self, row: NoteRow) -> Values:
        said = [self.nodes(text) for text in row.said]
        return {"kind": "note", "said": said, "photos": self.photos(row.photos)}

    def sizes(self) -> Values | None:
        found = self.page.sizes
        if found is None:
            return None
        return {
            "basis": found.basis,
            "making_up": found.making_up,
            "pieces": [
                {
                    "name": each.name,
                    "make": each.make,
                    "size": self.nodes(each.size),
                    "edge": self.nodes(each.edge),
                    "time": each.time,
                }
                for each in found.pieces
            ],
        }

    def specimen(self) -> Values | None:
        found = self.page.specimen
        if found is None:
            return None
        return {
            "lines": [self.nodes(line) for line in found.lines],
            "parts": [
                {
                    "part": part.part,
                    "pieces": self.nodes(part.pieces),
                    "about": self.nodes(part.about),
                }
                for part in found.parts
            ],
            "simplified": [self.nodes(line) for line in found.simplified],
            "statements": [self.nodes(line) for line in found.statements],
            "references": [self.nodes(line) for line in found.references],
        }

    def legal(self) -> Values:
        page = self.page
        contact = page.contact
        link = contact.link if contact and contact.link.startswith("http") else ""
        looked_up = self.address or link
        return {
            "licence": page.licence.words if page.licence else "",
            "permissions": [list(pair) for pair in page.permissions],
            "contact": contact.words if contact else "",
            "href": self.address,
            "code": code(looked_up) if looked_up else "",
            "credits": [self.nodes(credit) for credit in page.credits],
        }


def copy_of(page: PatternPage, copy: Copy | None) -> Values | None:
    """Whose copy it is: no two differ in anything else."""
    if copy is None:
        return None
    contact = page.contact.words if page.contact else ""
    return {"tester": copy.tester, "deadline": copy.deadline, "contact": contact}


def code(address: str) -> str:
    """An address as a QR code (ISO/IEC 18004), as SVG."""
    import segno

    out = io.BytesIO()
    segno.make(address, error="m", micro=False).save(out, kind="svg", border=2, xmldecl=False)
    return out.getvalue().decode()
