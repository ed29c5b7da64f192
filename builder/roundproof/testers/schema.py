"""Every key of a report and of the decisions: the one declaration of both."""

from __future__ import annotations

from typing import Any

from roundproof.frozen import replace
from roundproof.pattern.groups import Key, Keys, Short
from roundproof.pattern.kinds import Choice, Kind, ListOf, MapOf, Value, words
from roundproof.pattern.values import COUNT, DATE, TEXT, VERSION, WORDS
from roundproof.pattern.yarn_keys import BALL_KEYS, GAUGE_KEYS
from roundproof.source import Located, Span, Text
from roundproof.testers import model
from roundproof.testers.quantities import hours, measured, weighed

_AMOUNT = {"type": "string"}
WEIGHED = Value("a weight with its unit", "31.4 g", weighed, _AMOUNT)
MEASURED = Value("a length with its unit", "9.5 cm", measured, _AMOUNT)
HOURS = Value("a time with its unit", "3 h", hours, _AMOUNT)

KIND = Choice({kind.value: kind for kind in model.Kind})


def _remark(said: Text, span: Span) -> model.Said:
    return model.Said(span, remark=said)


_SAID = (
    Key("kind", KIND, "What it is; a remark if not said."),
    Key("read", TEXT, "What was read."),
    Key("did", TEXT, "What was done."),
    Key("instead", TEXT, "What might stand there instead."),
)
SAID = Keys("what is said of a round", _SAID, model.Said, Short(TEXT, _remark))


def _correction(where: Located[str], span: Span, **said: Any) -> tuple[Located[str], model.Said]:
    return where, model.Said(span, **said)


CORRECTION = Keys(
    "a correction",
    (
        Key("where", WORDS, "The piece and the round.", required=True),
        *_SAID,
    ),
    _correction,
)
YARN_USED = Keys(
    "a yarn of the report",
    (
        Key("yarn", WORDS, "Maker, name, fibre and colour."),
        Key("ball", BALL_KEYS, "Grams and length of a ball."),
        Key("before", WEIGHED, "What there was before."),
        Key("after", WEIGHED, "What was left."),
    ),
    model.YarnUsed,
)
SIZES = Keys(
    "`size`",
    (
        Key("height", MEASURED, "Height."),
        Key("width", MEASURED, "Width."),
        Key("length", MEASURED, "Length."),
        Key("depth", MEASURED, "Depth."),
        Key("span", MEASURED, "From tip to tip.", "span_"),
        Key("around", MEASURED, "Measured round it."),
        Key("points", TEXT, "Between which points it was measured."),
    ),
    model.Sizes,
)
TIMES = Keys(
    "`time`",
    (
        Key("crochet", HOURS, "Time on the hook."),
        Key("assembly", HOURS, "Time for making up."),
    ),
    model.Times,
)


def _yes_no(other: str) -> Choice:
    return words("yes", other, "no", also={"true": "yes", "false": "no"})


PICTURES = Keys(
    "`pictures`",
    (
        Key("taken", ListOf(WORDS, lone=True), "Which there are."),
        Key("shown", _yes_no("yes, without my name"), "Whether they may be shown."),
        Key("credit", WORDS, "The name to stand beside them."),
    ),
    model.Pictures,
)
_ROUNDS = MapOf(ListOf(SAID, lone=True))

REPORT = Keys(
    "a report",
    (
        Key("format", Choice({"1": 1}), "The form of this file: 1."),
        Key("pattern", WORDS, "The name of the pattern's folder."),
        Key("version", VERSION, "The version tested, as printed on the copy."),
        Key("tester", WORDS, "The identity on the copy, a number or a name."),
        Key("started", DATE, "The first day."),
        Key("finished", DATE, "The last day."),
        Key("hook", replace(MEASURED, eg="3 mm"), "The hook."),
        Key("hook_make", TEXT, "Make and kind of the hook."),
        Key("yarns", MapOf(YARN_USED), "The yarns, by the pattern's own keys."),
        Key("stuffing", WEIGHED, "The filling that was used."),
        Key("gauge", MapOf(GAUGE_KEYS), "The gauge reached, by the yarn's key."),
        Key("gauge_met", _yes_no("nearly"), "Whether the gauge was met."),
        Key("size", SIZES, "The finished size."),
        Key("time", TIMES, "How long it took."),
        Key("rounds", MapOf(_ROUNDS, pieces=True), "What is said of the rounds."),
        Key("corrections", ListOf(CORRECTION), "What has no room beside its round."),
        Key("stitches", MapOf(COUNT), "The tester's own totals for one copy."),
        Key("guessed", TEXT, "Where the assembly had to be guessed."),
        Key("materials", TEXT, "What was missing or not used."),
        Key("abbreviations", TEXT, "What was not explained."),
        Key("photos_enough", _yes_no("none in my copy"), "Whether the photos were enough."),
        Key(
            "difficulty",
            words("easier than said", "as said", "harder than said"),
            "How hard it was.",
        ),
        Key("hand", words("right", "left"), "Which hand holds the hook."),
        Key("reading_aids", TEXT, "What was used to read the pattern."),
        Key("pictures", PICTURES, "Pictures, and whether they may be shown."),
    ),
    dict,
)
DECISION = Keys(
    "a decision",
    (
        Key("decision", Choice({v.value: v for v in model.Verdict}), "What it is.", required=True),
        Key("because", TEXT, "Why."),
        Key("in", VERSION, "The version that has it.", "in_"),
    ),
    dict,
)
DECISIONS: Kind = MapOf(DECISION)
