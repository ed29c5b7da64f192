"""Assembly in working order, and what of it is printed between the rounds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from markupsafe import Markup

from roundproof.frozen import replace
from roundproof.notation.edges import read_edge
from roundproof.pages.names import round_ids
from roundproof.pages.prose import inline
from roundproof.pages.rounds import Inserted
from roundproof.pages.sentences import sentence_for
from roundproof.pages.sizes import fit_words
from roundproof.pages.values import Photo, Picture, Step
from roundproof.pattern import model
from roundproof.proof import Proof
from roundproof.source import Located

Place = tuple[str, int]
"""A piece's key and a round's number."""


def steps(proof: Proof, ids: Mapping[str, str]) -> tuple[Step, ...]:
    """Every step; one that is done while a piece is worked leads back to its round."""
    return tuple(_step(proof, step, ids) for step in proof.pattern.assembly)


def _step(proof: Proof, step: model.Step, ids: Mapping[str, str]) -> Step:
    text, fit = step_words(proof, step), fit_words(proof, step.verb)
    place = place_of(step.after, proof)
    if place is None or (anchor := round_anchor(proof, place, ids)) is None:
        return Step(text, fit=fit)
    after = f"After {proof.fabric.pieces[place[0]].piece.name} R{place[1]}"
    return Step(text, f"#{anchor}", after, fit)


def step_words(proof: Proof, step: model.Step) -> Markup:
    if step.step is not None:
        return inline(step.step, proof.pattern)
    return sentence_for(step.verb, proof)


def place_of(after: Located[str] | None, proof: Proof) -> Place | None:
    """The piece and round that `after` names."""
    edge = read_edge(after.value, proof.fabric.pieces) if after else None
    if edge is None:
        return None
    last = proof.fabric.pieces[edge.piece].last
    number = edge.round if edge.round is not None else last.round.label.last if last else None
    return (edge.piece, number) if number is not None else None


def round_anchor(proof: Proof, place: Place, ids: Mapping[str, str]) -> str | None:
    """The id of the row a round stands in, or None where there is no such round."""
    piece = proof.fabric.pieces[place[0]]
    for worked, anchor in zip(piece.rounds, round_ids(ids[place[0]], piece.rounds), strict=True):
        if worked.round.label.first <= place[1] <= worked.round.label.last:
            return anchor
    return None


def first_at_once(proof: Proof, pictures: Mapping[str, Picture]) -> dict[str, Picture]:
    """The same pictures, the one that comes first on the page marked so."""
    pieces = list(proof.fabric.pieces)

    def order(name: str) -> tuple[int, int]:
        photo = next(p for p in proof.pattern.photos if p.file.value == name)
        place = place_of(photo.after, proof)
        return (pieces.index(place[0]), place[1]) if place else (len(pieces), 0)

    named = [p.file.value for p in proof.pattern.photos if p.file.value in pictures]
    first = min(named, key=order, default="")
    return {name: replace(each, first=name == first) for name, each in pictures.items()}


def between_rounds(proof: Proof, pictures: Mapping[str, Picture]) -> dict[str, dict[int, Inserted]]:
    """By piece and round: the steps and photos that are printed after it."""
    after: dict[str, dict[int, Inserted]] = {}
    for step in proof.pattern.assembly:
        if (place := place_of(step.after, proof)) is not None:
            text = Markup("<p><b>Now.</b> {}</p>").format(step_words(proof, step))
            _add(after, place, Inserted((text,)))
    for photo in proof.pattern.photos:
        place, shown = place_of(photo.after, proof), photo_value(photo, pictures)
        if place is not None and shown is not None:
            _add(after, place, Inserted((), (shown,)))
    return after


def _add(after: dict[str, dict[int, Inserted]], place: Place, more: Inserted) -> None:
    here = after.setdefault(place[0], {})
    old = here.get(place[1], Inserted())
    here[place[1]] = Inserted((*old.said, *more.said), (*old.photos, *more.photos))


def album(proof: Proof, pictures: Mapping[str, Picture]) -> tuple[Photo, ...]:
    """The photos that stand by themselves and not at a round."""
    return tuple(_album(proof, pictures))


def _album(proof: Proof, pictures: Mapping[str, Picture]) -> Iterator[Photo]:
    for photo in proof.pattern.photos:
        if place_of(photo.after, proof) is None:
            shown = photo_value(photo, pictures)
            if shown is not None:
                yield shown


def photo_value(photo: model.Photo, pictures: Mapping[str, Picture]) -> Photo | None:
    """A photo as it is shown; None where there is no picture of it."""
    picture = pictures.get(photo.file.value)
    if picture is None:
        return None
    shows = photo.shows.value if photo.shows else ""
    parts = [
        shows[:1].upper() + shows[1:],
        photo.by.value if photo.by else "",
        photo.licence.value if photo.licence else "",
        photo.source.value if photo.source else "",
    ]
    credit = ". ".join(part.rstrip(".") for part in parts if part)
    return Photo(picture, photo.alt.value if photo.alt else "", f"{credit}." if credit else "")
