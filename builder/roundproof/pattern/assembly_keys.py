"""The keys of the assembly: its verbs, and where on a piece and where round it."""

from __future__ import annotations

from roundproof.frozen import dataclass
from roundproof.pattern import make, model
from roundproof.pattern.desk import Desk
from roundproof.pattern.groups import Key, Keys
from roundproof.pattern.kinds import ListOf, Schema, words
from roundproof.pattern.nodes import Map, Node
from roundproof.pattern.values import COUNT, LENGTH, ROUND, ROUND_RANGE, TEXT, WHOLE, WORDS

_BETWEEN = ListOf(ROUND, size=2)
AT = Keys(
    "`at`",
    (
        Key("footprint", ROUND_RANGE, "Rounds it covers as a closed outline, with `stitches`."),
        Key("between", _BETWEEN, "The two rounds between which it lies, with `stitches`."),
        Key("up", ROUND_RANGE, "Rounds up which it runs."),
        Key("stitches", COUNT, "Stitches it covers."),
    ),
    model.At,
    rule=make.one_place,
)
AROUND = Keys(
    "`around`",
    (
        Key("mark", WORDS, "A landmark of the piece, which it is centred on."),
        Key("apart", WHOLE, "Stitches left free between the two of a pair."),
        Key("free", ListOf(WHOLE), "Stitches left free in each gap, in order."),
        Key("evenly", COUNT, "How many, spread evenly."),
        Key("from", WORDS, "The stitch that an even spread starts at.", "from_"),
        Key("st", COUNT, "The stitch it stands at."),
    ),
    model.Around,
    rule=make.some_place,
)

_SEAMS = (
    "whipstitch",
    "mattress stitch",
    "backstitch",
    "running stitch",
    "knot",
    "glue",
    "crochet",
)
_LOOPS = {"both loops": "both", "front loops": "front", "back loops": "back"}
JOIN = Keys(
    "`join`",
    (
        Key("edge", WORDS, "The edge that is joined on, in words.", required=True),
        Key("to", WORDS, "What it is joined to: an edge or a piece.", wanted=True),
        Key("by", words(*_SEAMS), "How it is joined.", wanted=True),
        Key("at", AT, "Where on the piece."),
        Key("around", AROUND, "Where round the piece."),
        Key("fold", words("flat"), "Whether the edge is folded flat first."),
        Key("loops", words("both", "front", "back", also=_LOOPS), "Which loops are sewn through."),
        Key("ease", words("yes", "gathered", "no"), "Whether the difference is eased or gathered."),
        Key("facing", WORDS, "Which sides face each other or the maker."),
        Key("stuffed", words("before", "while closing", "no"), "When the piece is stuffed."),
        Key("with", WORDS, "The yarn it is joined with.", "with_"),
        Key("stitch", WORDS, "The stitch of a crocheted join."),
        Key("count", COUNT, "How many stitches a crocheted join has."),
        Key("front", WORDS, "The piece that lies in front in a crocheted join."),
    ),
    model.Join,
)
PLACE = Keys(
    "`place`",
    (
        Key("item", WORDS, "What is placed.", required=True),
        Key("piece", WORDS, "The piece it is placed on.", wanted=True),
        Key("between", _BETWEEN, "The two rounds between which it sits.", wanted=True),
        Key("around", AROUND, "Where round the piece."),
    ),
    model.Place,
)
EMBROIDER = Keys(
    "`embroider`",
    (
        Key("piece", WORDS, "The piece that is embroidered.", required=True),
        Key("with", WORDS, "The yarn or thread.", "with_", wanted=True),
        Key("strands", COUNT, "Strands of it."),
        Key(
            "lines",
            ListOf(
                Keys(
                    "a line of embroidery",
                    (
                        Key("name", WORDS, "What other lines call it."),
                        Key("stitch", WORDS, "The stitch."),
                        Key("from", WORDS, "The point it starts at.", "from_"),
                        Key("to", WORDS, "The point it ends at."),
                        Key("times", COUNT, "How often it is worked over."),
                    ),
                    model.Thread,
                )
            ),
            "The lines, each from point to point.",
        ),
    ),
    model.Embroider,
)
JOINT = Keys(
    "`joint`",
    (
        Key("with", WORDS, "What the joint is made with.", "with_", required=True),
        Key("path", ListOf(WORDS), "The points it goes through, in order."),
        Key("passes", COUNT, "How often it goes through."),
    ),
    model.Joint,
)
INSERT = Keys(
    "`insert`",
    (
        Key("item", WORDS, "What goes inside.", required=True),
        Key("piece", WORDS, "The piece it goes into.", wanted=True),
        Key("length", LENGTH, "How long it is cut."),
        Key("ends", WORDS, "What is done with its ends."),
    ),
    model.Insert,
)
STUFF = Keys(
    "`stuff`",
    (
        Key("piece", WORDS, "The piece that is stuffed.", required=True),
        Key("how", WORDS, "How firmly, and what is left unstuffed."),
    ),
    model.Stuff,
)
CLOSE = Keys(
    "`close`",
    (
        Key("edge", WORDS, "The edge that is closed, in words.", required=True),
        Key("by", words("gather", "whipstitch", "crochet"), "How it is closed.", wanted=True),
    ),
    model.Close,
)

_VERBS = (
    Key("join", JOIN, "Joins an edge to an edge or a piece."),
    Key("place", PLACE, "Places an item on a piece."),
    Key("embroider", EMBROIDER, "Embroiders on a piece."),
    Key("joint", JOINT, "Makes a joint that moves."),
    Key("insert", INSERT, "Puts something inside a piece."),
    Key("stuff", STUFF, "Stuffs a piece."),
    Key("close", CLOSE, "Closes an edge."),
)
STEP_KEYS = Keys(
    "an assembly entry",
    (
        *_VERBS,
        Key("step", TEXT, "The designer's wording; made from the verb if not said."),
        Key("after", WORDS, "The round after which this is done."),
    ),
    make.fields,
)


@dataclass(frozen=True, slots=True)
class StepKind:
    """An entry of the assembly: one verb, with its wording and its time."""

    expects: str = "an entry with one verb"
    eg: str = "{join: {edge: arm, to: body, by: whipstitch}}"
    group: Keys = STEP_KEYS

    def read(self, node: Node, name: str, desk: Desk) -> model.Step | None:
        if not isinstance(node, Map):
            desk.wrong(node, name, self.expects, f"- {self.eg[1:-1]}")
            return None
        before = len(desk.findings)
        fields = self.group.fields(node, desk)
        given = [key.name for key in _VERBS if node.get(key.name) is not None]
        if len(given) != 1:
            if len(desk.findings) == before:
                self._count(node, given, desk)
            return None
        verb = fields.pop(given[0], None)
        return None if verb is None else model.Step(verb, node.span, **fields)

    def _count(self, node: Map, given: list[str], desk: Desk) -> None:
        verbs = ", ".join(f"`{key.name}`" for key in _VERBS)
        if given:
            what = f"This entry has {len(given)} verbs: {', '.join(f'`{v}`' for v in given)}."
            mend = "Give each verb an entry of its own, in working order."
        else:
            what, mend = "This entry has no verb.", f"Start it with one of {verbs}."
        desk.say("value-kind", node.span, what, mend)

    def schema(self) -> Schema:
        one = [{"required": [key.name]} for key in _VERBS]
        return {**self.group.schema(), "oneOf": one}


ASSEMBLY = ListOf(StepKind())
