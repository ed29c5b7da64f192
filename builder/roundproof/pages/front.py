"""The front of a pattern's page: facts, safety, and how it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from urllib.parse import quote

from markupsafe import Markup, escape

from roundproof.pages.figures import day
from roundproof.pages.licences import licence_of
from roundproof.pages.materials import to_buy
from roundproof.pages.prose import plain_text, prose
from roundproof.pages.specimen import size_words
from roundproof.pages.tested import time_tested
from roundproof.pages.times import hours_words
from roundproof.pages.values import Contact, Fact, Safety
from roundproof.pages.wording import in_both, plain
from roundproof.pattern.hazards import brought
from roundproof.pattern.model import Pattern, Status
from roundproof.proof import Proof

LOCAL_RULES = (
    "The rules of the place where the object is given or sold apply; they are not settled here."
)

_STANDING = {
    Status.TESTING: "In testing. This page is not released: numbers and words may still change.",
    Status.DRAFT: "A draft. Numbers and words will still change.",
}
_MAIL = re.compile(r"[^\s@<>\"']+@[^\s@<>\"']+\.[^\s@<>\"']+")
_WEB = re.compile(r"https?://[^\s<>\"']+", re.I)


def title_of(pattern: Pattern) -> str:
    return pattern.title.value if pattern.title else pattern.slug


def standing_of(pattern: Pattern) -> str:
    """What a reader of a page that is not released must know."""
    return _STANDING.get(pattern.status, "")


def facts(proof: Proof) -> tuple[Fact, ...]:
    return tuple(_facts(proof))


def _facts(proof: Proof) -> Iterator[Fact]:
    pattern = proof.pattern
    if pattern.size is not None and (words := size_line(pattern)):
        yield Fact("Size", words)
    if wanted := to_buy(proof):
        yield Fact("To buy", plain(wanted[:1].upper() + wanted[1:]), "all of it", "#materials")
    if proof.measures.hours is not None:
        hours = Markup('<span class="g">{}</span>').format(hours_words(*proof.measures.hours))
        said = ["estimated", *([by] if (by := time_tested(proof)) else [])]
        yield Fact("Time", hours, "; ".join(said))
    if pattern.level is not None:
        yield Fact("Level", Markup(escape(pattern.level.value.capitalize())))
    terms = in_both(Markup("US"), Markup("UK"), pattern.written_in)
    yield Fact("Terms", terms, "words used", "#words")
    if pattern.version is not None:
        date = day(pattern.date.value) if pattern.date else ""
        link = "#changes" if pattern.changes else ""
        yield Fact("Version", Markup(escape(pattern.version.value)), date, link)


def size_line(pattern: Pattern) -> Markup:
    """ "2.1 cm high, 3.4 cm wide, with rim"; "over all" where several pieces come together and
    nothing is left out."""
    size = pattern.size
    if size is None:
        return Markup("")
    parts = [size_words(size)]
    if size.with_ is not None:
        parts.append(Markup("with {}").format(size.with_.value))
    if size.without is not None:
        parts.append(Markup("without {}").format(size.without.value))
    if len(parts) == 1 and sum(piece.make for piece in pattern.pieces) > 1:
        parts.append(Markup("over all"))
    return Markup(", ").join(part for part in parts if part)


def safety(pattern: Pattern) -> Safety:
    """The designer's note first. The line below names what the materials bring and defers to
    local rules; it never says that a thing is safe, nor for whom."""
    warnings = dict.fromkeys(_warnings(pattern))
    return Safety(prose(pattern.safety_note, pattern), " ".join([*warnings, LOCAL_RULES]))


def _warnings(pattern: Pattern) -> Iterator[str]:
    for _, hazard in brought(pattern):
        yield hazard.warns or f"Hazard named by the designer: {hazard.id}."


def description(pattern: Pattern) -> str:
    """For search engines and links: the summary, or what the page is."""
    text = plain_text(pattern.summary)
    return text or f"{title_of(pattern)}, a pattern for stuffed crochet."


def contact(text: str) -> Contact:
    """A web or mail address becomes a link; anything else stays words."""
    words = " ".join(text.split())
    if _WEB.fullmatch(words):
        return Contact(words, words)
    return Contact(words, f"mailto:{words}" if _MAIL.fullmatch(words) else "")


def report_link(pattern: Pattern, piece: str) -> str:
    """Where to report a mistake in a piece: a mail says which pattern and version it is about."""
    link = contact(pattern.contact.value).link if pattern.contact else ""
    if not link.startswith("mailto:"):
        return link
    version = f" {pattern.version.value}" if pattern.version else ""
    return f"{link}?subject={quote(f'{title_of(pattern)}{version}, {piece}')}"


def licence(pattern: Pattern) -> Contact | None:
    """Creative Commons licences lead to their text."""
    if pattern.licence is None:
        return None
    text = pattern.licence.value
    known = licence_of(text)
    return Contact(known.words, known.address) if known else contact(text)


def permissions(pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """The five questions a maker asks, as far as they are answered."""
    given = pattern.permissions
    if given is None:
        return ()
    asked = {
        "Print it": given.print,
        "Sell what you make": given.sell,
        "Change it": given.change,
        "Translate it": given.translate,
        "Use the photos": given.photos,
    }
    return tuple((question, answer.value) for question, answer in asked.items() if answer)


def left_right(pattern: Pattern) -> Markup:
    if pattern.left_right is None:
        return Markup("")
    own = "Left and right are the object's own, as it would say them itself."
    yours = "Left and right are yours, as you look at the object."
    said = {"wearer": own, "viewer": yours}.get(pattern.left_right.value, "")
    return Markup(escape(said))


def handed(pattern: Pattern) -> str:
    """What a left-handed maker of a subject must know whose mirror image is another thing."""
    specimen = pattern.specimen
    if specimen is None or specimen.handed is None or not specimen.handed.value:
        return ""
    return (
        "The side matters here: the mirror image of this subject is another thing. Worked"
        " left-handed it comes out as that other thing, and as a model of this one it is wrong."
        " For the form that is meant it has to be worked with the right hand."
    )
