"""The keys of a piece."""

from __future__ import annotations

from typing import Any

from roundproof.frozen import dataclass
from roundproof.pattern import make, model
from roundproof.pattern.desk import Desk
from roundproof.pattern.groups import Key, Keys
from roundproof.pattern.kinds import Choice, ListOf, MapOf, Rounds, Schema, looks_like_rounds, words
from roundproof.pattern.model import Worked
from roundproof.pattern.nodes import Map, Node, Scalar
from roundproof.pattern.values import COUNT, LENGTH, WORDS, YES_NO
from roundproof.pattern.yarn_keys import GAUGE_KEYS

ROUNDS = Rounds()
STARTS = Keys(
    "`starts`",
    (
        Key("in", ListOf(WORDS, lone=True), "The edge it grows out of, in words.", "in_", True),
        Key("each", COUNT, "Loops that each copy takes."),
        Key("first", ListOf(COUNT), "The loop that each copy starts in."),
    ),
    model.Starts,
)
PIECE_KEYS = Keys(
    "a piece",
    (
        Key("name", WORDS, "What the piece is called on the page."),
        Key("make", COUNT, "How many are made; 1 if not said."),
        Key("yarn", WORDS, "The yarn that its first round starts with."),
        Key(
            "worked", Choice({w.value: w for w in Worked}), "How it is worked; spiral if not said."
        ),
        Key("stands_for", WORDS, "The part of the specimen that it stands for."),
        Key("marks", MapOf(WORDS, plain=True), "Landmarks that placements may use, each a place."),
        Key("rounds", ROUNDS, "The rounds, each on a line of its own."),
        Key("starts", STARTS, "Where it grows out of another piece."),
        Key("open_edge", YES_NO, "Whether its edge is meant to stay open."),
        Key("mirror", WORDS, "The piece of which this is the mirror image."),
        Key("same_as", WORDS, "The piece that this is worked like."),
        Key("gauge", GAUGE_KEYS, "Its own gauge, where it differs from the yarn's."),
        Key("hook", LENGTH, "Its own hook, where it differs from the yarn's."),
        Key("strands", COUNT, "Strands of yarn held together."),
        Key("chain_counts", YES_NO, "Whether the turning chain counts as a stitch."),
        Key("right_side", words("outside", "inside"), "Which way the right side faces."),
        Key("start_at", WORDS, "Where on the object the rounds start."),
        Key("path", MapOf(WORDS, plain=True), "The way over another piece of work on its surface."),
    ),
    make.fields,
)


@dataclass(frozen=True, slots=True)
class PieceKind:
    """A piece: its keys, or its rounds alone."""

    expects: str = "rounds after `|`, or keys such as `yarn`, `rounds`"
    eg: str = ""
    group: Keys = PIECE_KEYS

    def read(self, node: Node, name: str, desk: Desk) -> dict[str, Any]:
        if isinstance(node, Scalar) or looks_like_rounds(node):
            rounds = ROUNDS.read(node, name, desk)
            return {"rounds": rounds} if rounds else {}
        if not isinstance(node, Map):
            return {}
        worked = [node.get(key) for key in ("rounds", "mirror", "same_as")]
        fields = self.group.fields(node, desk)
        faulty = (self.group.called, "rounds") in desk.faulty
        if not faulty and all(w is None or (isinstance(w, Scalar) and w.empty) for w in worked):
            mend = f"Add `rounds:` with {ROUNDS.expects}."
            desk.lack("rounds", node.span, f"piece `{name}`", mend)
        return fields

    def schema(self) -> Schema:
        return {"anyOf": [ROUNDS.schema(), self.group.schema()]}


PIECES = MapOf(PieceKind(), lone=True, pieces=True)
