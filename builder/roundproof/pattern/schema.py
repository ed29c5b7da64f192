"""Every key a pattern file may have: the one declaration of the file.

Loading, near misses and the JSON Schema all come from here, with the keys of a yarn, of a piece
and of the assembly beside it. Keys marked `shared` may stand in defaults.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from roundproof.pattern import make, model
from roundproof.pattern.assembly_keys import ASSEMBLY, StepKind
from roundproof.pattern.groups import Key, Keys, Short
from roundproof.pattern.kinds import Choice, Kind, ListOf, MapOf, words
from roundproof.pattern.model import Status, Terms
from roundproof.pattern.piece_keys import PIECES, PieceKind
from roundproof.pattern.values import (
    COUNT,
    DATE,
    LENGTH,
    NUMBER,
    PACE,
    STRETCH,
    TEXT,
    TEXTS,
    VERSION,
    WHOLE,
    WORDS,
    YES_NO,
    bare,
)
from roundproof.pattern.yarn_keys import YARNS

_DIMENSIONS = (
    Key("height", LENGTH, "Height."),
    Key("width", LENGTH, "Width."),
    Key("length", LENGTH, "Length."),
    Key("depth", LENGTH, "Depth."),
    Key("span", LENGTH, "From tip to tip.", "span_"),
    Key("around", LENGTH, "Measured round it."),
)
_SOURCE = Key("source", COUNT, "The number of the reference it is taken from.")

SIZE = Keys(
    "`size`",
    (
        *_DIMENSIONS,
        Key("with", WORDS, "What is measured along.", "with_"),
        Key("without", WORDS, "What is left out of the measure."),
    ),
    model.Size,
    rule=make.some_measure,
)
NOTION = Keys(
    "a notion",
    (
        Key("item", WORDS, "What it is.", required=True),
        Key("size", LENGTH, "Its size."),
        Key("count", COUNT, "How many."),
        Key("amount", WORDS, "How much of it."),
        Key("hazard", WORDS, "The hazard it brings, such as a small part."),
        Key("or", WORDS, "What may be taken instead.", "or_"),
    ),
    model.Notion,
    Short(WORDS, make.notion_said),
)
PHOTO = Keys(
    "a photo",
    (
        Key("file", WORDS, "The file in `photos/`.", required=True),
        Key("alt", WORDS, "What it shows, for those who cannot see it."),
        Key("shows", WORDS, "Which view it is."),
        Key("after", WORDS, "The round after which it is shown."),
        Key("by", WORDS, "Who made it."),
        Key("licence", WORDS, "Its licence."),
        Key("source", WORDS, "Where it is from."),
    ),
    model.Photo,
)
CHANGE = Keys(
    "an entry of `changes`",
    (
        Key("version", VERSION, "The version it made.", required=True),
        Key("date", DATE, "The day of the change."),
        Key("note", TEXT, "What changed for a maker.", wanted=True),
    ),
    model.Change,
)
PERMISSIONS = Keys(
    "`permissions`",
    (
        Key("print", WORDS, "May it be printed and handed out?", wanted=True),
        Key("sell", WORDS, "May finished objects be sold?", wanted=True),
        Key("change", WORDS, "May it be changed and passed on?", wanted=True),
        Key("translate", WORDS, "May it be translated?", wanted=True),
        Key("photos", WORDS, "May its photos be used?", wanted=True),
    ),
    model.Permissions,
)
SPECIAL_STITCH = Keys(
    "a special stitch",
    (
        Key("uses", bare(WHOLE), "Stitches of the round below that it uses; 1 if not said."),
        Key("makes", bare(WHOLE), "Stitches that it makes; 1 if not said."),
        Key("height", bare(NUMBER), "Its height in single crochets; 1 if not said."),
        Key("how", TEXT, "How it is worked."),
    ),
    make.fields,
)
SPECIMEN = Keys(
    "`specimen`",
    (
        Key("name", WORDS, "Its everyday name."),
        Key("scientific", WORDS, "Its scientific name."),
        Key(
            "real_size",
            Keys("`real_size`", (*_DIMENSIONS, _SOURCE), model.RealSize),
            "Its size in life.",
        ),
        Key("parts", MapOf(TEXT, plain=True), "Its parts, each with what is said of it."),
        Key("simplified", TEXTS, "What the object leaves out or simplifies."),
        Key(
            "statements",
            ListOf(
                Keys(
                    "a statement",
                    (Key("says", TEXT, "The statement.", required=True), _SOURCE),
                    model.Statement,
                )
            ),
            "What is said about it, each with the number of its reference.",
        ),
        Key("references", TEXTS, "The references, in order of their numbers."),
        Key("handed", YES_NO, "Whether left and right differ."),
    ),
    model.Specimen,
)
ACCEPT = Keys(
    "an entry of `accept`",
    (
        Key("check", WORDS, "The check whose finding is set aside.", required=True),
        Key("at", WORDS, "The piece or the round."),
        Key("because", WORDS, "Why.", wanted=True),
    ),
    model.Accept,
)
SAFETY = Keys(
    "`safety`",
    (Key("note", TEXT, "What a maker has to know about the hazards, in your own words."),),
    make.fields,
)
STATUS = Choice({s.value: s for s in Status})
LEVELS = words("basic", "easy", "intermediate", "complex")

PATTERN = Keys(
    "a pattern",
    (
        Key("format", Choice({"1": 1}), "The form of this file: 1."),
        Key("title", WORDS, "What the pattern is called."),
        Key("version", VERSION, "Three numbers: object or size, instruction, wording."),
        Key("date", DATE, "The day of this version; the newest change's if not said."),
        Key("status", STATUS, "How far it is; draft if not said."),
        Key(
            "show", words("full", "preview"), "What its page shows; full if not said.", shared=True
        ),
        Key("open", TEXTS, "Questions still to settle; never published, and they block release."),
        Key("summary", TEXT, "What it is, in a sentence or two."),
        Key("designer", WORDS, "Who designed it.", shared=True),
        Key("contact", WORDS, "Where a mistake can be reported.", shared=True),
        Key("terms", Choice({t.value: t for t in Terms}), "The terms of the rounds.", shared=True),
        Key("level", LEVELS, "How hard it is.", shared=True),
        Key(
            "pace",
            PACE,
            "Single crochets made in a minute while working; a common one if not said.",
            shared=True,
        ),
        Key(
            "stretch",
            STRETCH,
            "How much filling stretches the fabric; 3 % if not said.",
            shared=True,
        ),
        Key("licence", WORDS, "What others may do with the pattern.", shared=True),
        Key("permissions", PERMISSIONS, "The same in answers, instead of a licence.", shared=True),
        Key("size", SIZE, "The finished size, each measure by its name."),
        Key("yarns", YARNS, "The yarns, each under a name that the rounds use.", shared=True),
        Key("notions", ListOf(NOTION), "What is needed besides yarn and hook.", shared=True),
        Key("safety", SAFETY, "The safety note.", shared=True),
        Key("care", TEXT, "How the object is washed and kept.", shared=True),
        Key("pieces", PIECES, "The pieces, each under its name."),
        Key("assembly", ASSEMBLY, "How the pieces come together, in working order."),
        Key("photos", ListOf(PHOTO), "The photos."),
        Key("changes", ListOf(CHANGE), "What changed, version by version."),
        Key("stitches", MapOf(SPECIAL_STITCH), "Stitches that the pattern invents.", shared=True),
        Key("letters", MapOf(WORDS, plain=True), "Letters used for stitches.", shared=True),
        Key("left_right", words("wearer", "viewer"), "Whose left and right.", shared=True),
        Key("specimen", SPECIMEN, "The creature or thing that the object shows."),
        Key("credits", TEXTS, "Who else had a part in it.", shared=True),
        Key("accept", ListOf(ACCEPT), "Findings set aside, each with a reason."),
    ),
    make.fields,
)
DEFAULTS = Keys("defaults.yaml", tuple(k for k in PATTERN.keys if k.shared), make.fields)


def place_of(key: str, whole: Keys = PATTERN) -> str:
    """The group that a key belongs to, in words, for one that stands in the wrong place; empty
    for a key that no group has."""
    homes = [keys.called for keys in _groups(whole) if any(k.name == key for k in keys.keys)]
    return " or ".join(dict.fromkeys(homes[:3]))


def _groups(kind: Kind) -> Iterator[Keys]:
    """A kind's groups of keys, outer ones first."""
    if isinstance(kind, ListOf | MapOf):
        yield from _groups(kind.item)
    elif isinstance(kind, Keys):
        yield kind
        for key in kind.keys:
            yield from _groups(key.kind)
    elif isinstance(kind, PieceKind | StepKind):
        yield from _groups(kind.group)
