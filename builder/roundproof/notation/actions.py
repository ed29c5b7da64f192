"""The closed list of lines that mean something without being a round."""

from __future__ import annotations

import re
from collections.abc import Callable

from roundproof.expressions import expression
from roundproof.notation.tokens import Lexicon, plain
from roundproof.notation.tree import Act, Action
from roundproof.source import Line

_Match = re.Match[str]

_WORK = expression(r"\d|\bring\b|\bloops?\b|\bcircle\b")
_COLOUR_CHANGE = expression(
    r"(?:change|switch)(?: colou?r| yarn)? to (?P<yarn>[^.,;]+?)(?: yarn)?\s*(?:[.,;].*)?$"
)
_START_WITH = expression(r"(?:start|begin) (?:with|in) (?P<yarn>[^.,;]+?)\s*(?:[.,;].*)?$")
_JOIN_YARN = expression(
    r"(?:join|attach) (?P<yarn>[^.,;]+?)(?= (?:in|to|at|with|on)\b|[.,;]|$)(?: yarn)?.*$"
)
_HOOK = expression(
    r"(?:change|switch) to (?:a |the )?(?P<mm>\d+(?:[.,]\d+)?) ?mm hook\.?$"
    r"|(?:change|switch) to (?:a |the )?hook (?P<mm2>\d+(?:[.,]\d+)?) ?mm\.?$"
)
_KEEP = expression(r"(?:do not|don't) (?:fasten off|cut(?: the)? yarn).*$")
_FASTEN = expression(r"(?:fasten off|finish off|bind off|fo\b|cut the yarn|cut yarn).*$")
_TURN = expression(r"turn(?: the work)?\.?$")
_FOLD = expression(r"(?:fold|flatten)\b.*\bflat\b.*$|fold (?:it |the \w+ )?in half.*$|flatten\b.*$")
_STUFF = expression(
    r"(?:(?:do not |don't )?stuff|(?:begin|start) (?:to stuff|stuffing)|keep stuffing)\b.*$"
    r"|leave (?:the |it\b)[^.;]*(?:empty|unstuffed|without stuffing)\b.*$"
)
_MOVE = expression(
    r"move (?:the )?(?:start|marker|beginning)(?: of (?:the )?round)?"
    r" (?P<n>\d+) (?:sts?|stitches|stitch) (?:on|forward).*$"
)
_MARK = expression(
    r"mark (?:the )?(?P<name>.+?) between (?:sts?|stitches) (?P<a>\d+) (?:and|-) (?P<b>\d+)\b.*$"
)


def action(line: Line, lexicon: Lexicon) -> Action | None:
    """The action a line stands for, or None. A yarn that is not known leaves `yarn`
    empty and its words in `name`."""
    low = plain(line.text).lstrip()
    if not low.startswith(_STARTS):
        return None
    text = " ".join(low.split())
    for pattern, make in _TABLE:
        match = pattern.match(text)
        if match:
            return make(match, line, lexicon)
    return None


def _simple(act: Act) -> Callable[[_Match, Line, Lexicon], Action | None]:
    def make(_: _Match, line: Line, __: Lexicon) -> Action:
        return Action(act, line.text.strip(), line.span)

    return make


def _yarn(act: Act) -> Callable[[_Match, Line, Lexicon], Action | None]:
    def make(match: _Match, line: Line, lexicon: Lexicon) -> Action | None:
        key = lexicon.yarn(match.group("yarn"))
        words = match.group("yarn").strip()
        if key is None and (act is Act.JOIN_YARN or _WORK.search(words)):
            return None  # 'Join the legs.' is a note, 'Begin with 6 sc in a ring' a round
        return Action(act, line.text.strip(), line.span, yarn=key, name=None if key else words)

    return make


def _hook(match: _Match, line: Line, _: Lexicon) -> Action:
    mm = float((match.group("mm") or match.group("mm2")).replace(",", "."))
    return Action(Act.CHANGE_HOOK, line.text.strip(), line.span, number=mm)


def _move(match: _Match, line: Line, _: Lexicon) -> Action:
    count = min(int(match.group("n")[:9]), 10**9)
    return Action(Act.MOVE_START, line.text.strip(), line.span, number=count)


def _mark(match: _Match, line: Line, _: Lexicon) -> Action:
    places = (int(match.group("a")[:9]), int(match.group("b")[:9]))
    return Action(Act.MARK, line.text.strip(), line.span, name=match.group("name"), between=places)


_STARTS = (
    *(
        "change",
        "switch",
        "start",
        "begin",
        "join",
        "attach",
        "do not",
        "don't",
        "fasten",
        "leave",
        "finish",
    ),
    *("bind", "fo", "cut", "turn", "fold", "flatten", "stuff", "keep", "move", "mark"),
)
"""How every action starts: most lines do not, and are not looked at further."""

_TABLE: tuple[tuple[re.Pattern[str], Callable[[_Match, Line, Lexicon], Action | None]], ...] = (
    (_HOOK, _hook),
    (_COLOUR_CHANGE, _yarn(Act.CHANGE_YARN)),
    (_START_WITH, _yarn(Act.CHANGE_YARN)),
    (_KEEP, _simple(Act.KEEP_YARN)),
    (_FASTEN, _simple(Act.FASTEN_OFF)),
    (_TURN, _simple(Act.TURN)),
    (_FOLD, _simple(Act.FOLD_FLAT)),
    (_STUFF, _simple(Act.STUFF)),
    (_MOVE, _move),
    (_MARK, _mark),
    (_JOIN_YARN, _yarn(Act.JOIN_YARN)),
)
