"""Sorted notes as the parts of a pattern: names for pieces and yarns, and what is to settle."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from roundproof.frozen import dataclass, replace
from roundproof.words import listing, say
from roundproof.writing.pasted_junk import Loose
from roundproof.writing.pasted_marks import NoteLine
from roundproof.writing.pasted_materials import Notion, Yarn, sorted_out
from roundproof.writing.pasted_rounds import TermsFound
from roundproof.writing.pasted_sort import Piece, Placed, Sorted
from roundproof.writing.pasted_words import COLOUR, COLOURS

_TAKEN = re.compile(
    r"(?i)(?<!\w)(?:r\s*\d+|front|back|loops?|far side|foundation|row ends?|unworked|free)(?!\w)"
)
_INSTEAD = {"front": "fore", "back": "rear", "loop": "ring", "loops": "rings"}
_CHANGES = re.compile(
    r"(?i)\b(?:change|switch|start|begin|join|attach)\b[^.;]{0,20}?\b(?:to|with|in)\b"
)
_PATTERN = re.compile(
    r"(?i)^(?:free )?(?:crochet |amigurumi )*pattern\s*[:–—-]\s*"
    r"|\s*[:|–—-]\s*(?:an? )?(?:free )?(?:crochet |amigurumi )*pattern\W*$"
)
MOST = 500
"""More pieces than that are none, but a misreading; so are more yarns or notions."""


@dataclass(frozen=True, slots=True)
class NamedYarn:
    key: str
    yarn: Yarn


@dataclass(frozen=True, slots=True)
class NamedPiece:
    """A piece under its key. `name` is what it is called where the key does not tell; `yarn` the
    key of its yarn; `said` the lines that its heading is made of."""

    key: str
    name: str
    make: int | None
    yarn: str
    said: tuple[NoteLine, ...]
    lines: tuple[Placed, ...]


@dataclass(frozen=True, slots=True)
class Draft:
    """Everything that the file will hold. `listed`, `assembly` and `loose` are kept as words."""

    title: str
    title_line: NoteLine | None
    terms: TermsFound
    yarns: tuple[NamedYarn, ...]
    hook: str
    gauge: str
    notions: tuple[Notion, ...]
    listed: tuple[NoteLine, ...]
    pieces: tuple[NamedPiece, ...]
    assembly: tuple[NoteLine, ...]
    loose: tuple[Loose, ...]
    open: tuple[str, ...]


def draft_of(found: Sorted, terms: TermsFound, name: str) -> Draft:
    """The draft of a pattern that the designer calls `name`."""
    title, line = _title(found.title, name)
    loose = found.loose
    if found.title is not None and line is None:
        loose = (Loose(found.title, "heading"), *loose)
    yarns = _yarns(found)
    stuff = found.materials
    return Draft(
        title,
        line,
        terms,
        yarns,
        stuff.hooks[0] if stuff.hooks else "",
        stuff.gauges[0] if stuff.gauges else "",
        _notions(stuff.notions),
        found.listed,
        tuple(_pieces(found.pieces, yarns)),
        found.assembly,
        loose,
        tuple(_questions(found, terms)),
    )


def empty(draft: Draft, lines: Iterable[NoteLine]) -> Draft:
    """The draft with nothing in it but the lines, each without a place."""
    loose = tuple(Loose(line) for line in lines if line.raw)
    bare = TermsFound(draft.terms.terms, "none")
    asked = (say("new.ask_terms_none"),)
    return Draft(draft.title, None, bare, (), "", "", (), (), (), (), loose, asked)


def _title(line: NoteLine | None, name: str) -> tuple[str, NoteLine | None]:
    """The title: the one in the notes where the name on the command line is only an address or a
    part of it, else that name."""
    if line is None:
        return name, None
    said = line.text.strip(" .:–—-*_#~=\"'“”")
    said = _PATTERN.sub("", said) or said
    said = said.capitalize() if said.isupper() else said
    words, wanted = _words(said), _words(name)
    address = name == name.lower() and " " not in name
    return (said, line) if said and (address or wanted <= words) else (name, None)


def _words(text: str) -> set[str]:
    return set(re.findall(r"[^\W_]+", text.lower()))


def _questions(found: Sorted, terms: TermsFound) -> Iterable[str]:
    if terms.why in ("mixed", "unsure", "none"):
        yield say(f"new.ask_terms_{terms.why}", terms=terms.terms.value)
    hooks = list(dict.fromkeys(found.materials.hooks))
    if len(hooks) > 1:
        yield say("new.ask_hooks", hooks=listing(hooks), first=hooks[0])
    gauges = list(dict.fromkeys(found.materials.gauges))
    if len(gauges) > 1:
        yield say("new.ask_gauges", first=gauges[0])
    if found.assembly:
        yield say("new.ask_assembly")


# ---- names ----
def _pieces(pieces: Sequence[Piece], yarns: Sequence[NamedYarn]) -> Iterable[NamedPiece]:
    taken: set[str] = set()
    for piece in pieces:
        head = piece.head
        key = _free(_key(head.name) or "body", taken)
        name = " ".join(head.name.split())
        name = name.capitalize() if name.isupper() else name[:1].upper() + name[1:]
        same = not name or name == key[:1].upper() + key[1:]
        yarn = _yarn_of(head.yarn, yarns)
        unknown = f"in {head.yarn}" if head.yarn and not yarn else ""
        remark = ", ".join(filter(None, (head.remark, unknown)))
        notes = (Placed(f"Note: {remark}"),) if remark else ()
        yarn = yarn or (yarns[0].key if len(yarns) == 1 else "")
        make = head.make if head.make != 1 else None
        yield NamedPiece(key, "" if same else name, make, yarn, piece.said, notes + piece.lines)


def _key(name: str) -> str:
    """A name as a key: small letters, and no words that edges are named by."""
    words = re.sub(r"[^\w' -]", " ", name.lower().replace("&", " and "))
    words = _TAKEN.sub(lambda m: _INSTEAD.get(m[0], " "), words)
    return " ".join(words.replace("_", " ").split()).strip("-' ")


def _free(key: str, taken: set[str]) -> str:
    found, number = key, 2
    while found in taken:
        found, number = f"{key} {number}", number + 1
    taken.add(found)
    return found


def _yarns(found: Sorted) -> tuple[NamedYarn, ...]:
    yarns = sorted_out(found.materials.yarns)[:MOST]
    for colour in _used(found.pieces):
        if not any(colour == y.colour.lower() for y in yarns):
            yarns.append(Yarn(colour=colour))
    if not yarns and (found.materials.hooks or found.materials.gauges):
        yarns = [Yarn()]
    taken: set[str] = set()
    return tuple(NamedYarn(_free(_yarn_key(yarn), taken), yarn) for yarn in yarns)


def _yarn_key(yarn: Yarn) -> str:
    if len(yarn.letter) > 1:
        return yarn.letter
    return yarn.colour.lower() or (f"yarn {yarn.letter}" if yarn.letter else "main")


def _used(pieces: Sequence[Piece]) -> Iterable[str]:
    """Colours that headings and changes of colour name plainly."""
    texts = [f"in {p.head.yarn}" for p in pieces if p.head.yarn]
    texts += [row.text for p in pieces for row in p.lines if len(row.text) < 60]
    for text in texts:
        change = _CHANGES.search(text) or re.match("in ", text)
        colour = (
            COLOUR.match(text, change.end() + (text[change.end() :][:1] == " ")) if change else None
        )
        if colour and colour[0].lower().split()[-1] in COLOURS:
            yield " ".join(colour[0].lower().split())


def _yarn_of(words: str, yarns: Sequence[NamedYarn]) -> str:
    """The key of the yarn that some words name; empty if none."""
    said = re.sub(r"(?i)^(?:the|yarn|colou?r)\s+", "", words.strip())
    for named in yarns:
        if said and (said.lower() in (named.key.lower(), named.yarn.colour.lower())):
            return named.key
        if said and said == named.yarn.letter:
            return named.key
    return ""


def _notions(notions: Sequence[Notion]) -> tuple[Notion, ...]:
    """Each thing once; the fuller telling of it."""
    found: dict[str, Notion] = {}
    for notion in notions[:MOST]:
        key = notion.item.lower()
        had = found.get(key)
        if had is None:
            found[key] = notion
        elif not (had.size or had.count or had.amount):
            found[key] = replace(notion, item=had.item)
        elif notion != had and (notion.size or notion.count or notion.amount):
            found[f"{key} {len(found)}"] = notion
    return tuple(found.values())
