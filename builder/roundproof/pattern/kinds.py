"""The kinds of value a key may have: each reads a node into what the model holds, and describes
itself for people and for the JSON Schema.

Every `read` takes the node, the name of the key it stands at, and the desk for findings; it returns
None where there is nothing that can be used, having said why.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, Protocol

from roundproof.expressions import expression
from roundproof.findings import Edit
from roundproof.frozen import dataclass, field
from roundproof.pattern.desk import Desk
from roundproof.pattern.nodes import Entry, Map, Node, Scalar, Seq
from roundproof.pattern.quantities import Fault
from roundproof.pattern.texts import text_of
from roundproof.source import Located, Text

Schema = dict[str, Any]
_TYPED = {"true": True, "false": False, "1": 1}
"""Words that editors take for more than words."""
_LONG = 200
"""A quantity, number or name of a closed list is never longer than this."""


class Kind(Protocol):
    @property
    def expects(self) -> str:
        """What belongs here, in words: "a length"."""

    @property
    def eg(self) -> str:
        """One way to write it, empty where a line would not do."""

    def read(self, node: Node, name: str, desk: Desk) -> Any: ...

    def schema(self) -> Schema: ...


@dataclass(frozen=True, slots=True)
class Value:
    """One value, read by `parse`; comes as Located, or as the bare value where `bare`."""

    expects: str
    eg: str
    parse: Callable[[str], object]
    types: Schema
    bare: bool = False
    long: bool = False

    def read(self, node: Node, name: str, desk: Desk) -> Any:
        fault = Fault()
        if isinstance(node, Scalar) and (self.long or len(node.text) <= _LONG):
            value = self.parse(node.text.strip())
            if not isinstance(value, Fault):
                return value if self.bare else Located(value, node.span)
            fault = value
        self._wrong(node, name, desk, fault)
        return None

    def _wrong(self, node: Node, name: str, desk: Desk, fault: Fault) -> None:
        eg = f"{name}: {fault.better or self.eg}"
        desk.wrong(node, name, self.expects, eg, fault.why, fault.check)
        if fault.better is not None:
            made = desk.findings.pop()
            desk.say(made.check, made.span, made.message, made.mend, edits=(
                Edit(made.span, fault.better),))  # fmt: skip

    def schema(self) -> Schema:
        return dict(self.types)


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a closed list of words. `values` gives what each stands for, `also` other words that
    are read as one of them."""

    values: Mapping[str, object]
    also: Mapping[str, str] = field(default_factory=dict)

    @property
    def expects(self) -> str:
        names = [f"`{v}`" for v in self.values]
        return f"{', '.join(names[:-1])} or {names[-1]}" if names[1:] else names[0]

    @property
    def eg(self) -> str:
        return next(iter(self.values))

    def read(self, node: Node, name: str, desk: Desk) -> Any:
        if not isinstance(node, Scalar) or len(node.text) > _LONG:
            desk.wrong(node, name, self.expects, f"{name}: {self.eg}")
            return None
        word = self.also.get(node.text, node.text)
        if word not in self.values:
            desk.unknown_value(node.text, node.span, name, tuple(self.values))
            return None
        return Located(self.values[word], node.span)

    def schema(self) -> Schema:
        words = (*self.values, *self.also)
        return {"enum": [*words, *(_TYPED[word] for word in words if word in _TYPED)]}


def words(*values: str, also: Mapping[str, str] | None = None) -> Choice:
    """A closed list of words that stand for themselves."""
    return Choice({v: v for v in values}, also or {})


@dataclass(frozen=True, slots=True)
class Prose:
    """Markdown of any length, in any of YAML's ways."""

    expects: str = "a text"
    eg: str = "…"

    def read(self, node: Node, name: str, desk: Desk) -> Text | None:
        if isinstance(node, Scalar):
            return text_of(node)
        desk.wrong(node, name, self.expects, f"{name}: |")
        return None

    def schema(self) -> Schema:
        return {"type": ["string", "number", "boolean"]}


_LABEL = expression(r"\s*(?:r|rnd|round|row)s?\s*\d", re.IGNORECASE)


def looks_like_rounds(node: Node) -> bool:
    """Rounds written as keys or as a list, because the `|` was left out."""
    if isinstance(node, Map):
        return any(_LABEL.match(e.key.text) for e in node.entries)
    return isinstance(node, Seq)


@dataclass(frozen=True, slots=True)
class Rounds:
    """Round text: after `|`, or plain on one line, so that every word has its place."""

    expects: str = "rounds as plain lines after `|`"
    eg: str = "|"

    def read(self, node: Node, name: str, desk: Desk) -> Text | None:
        text = text_of(node) if isinstance(node, Scalar) else None
        if text is not None and text.lines is not None:
            return text
        self._form(node, name, desk)
        return None

    def _form(self, node: Node, name: str, desk: Desk) -> None:
        """Says how round text has to be written."""
        mend = f"Write `{name}: |`, and under it, indented, each round on a line of its own."
        if not isinstance(node, Scalar):
            what = "The rounds are written as keys or a list, and they are read as plain lines."
            desk.say("text-form", node.span, what, mend)
            return
        how = {">": "joined into one line by `>`", '"': "in quotes", "'": "in quotes"}
        what = f"The rounds are {how.get(node.style, 'run together over several lines')}, so no "
        sign = re.match(r">[-+\d]*", node.span.text)
        edits = (Edit(node.span.cut(0, sign.end()), "|"),) if sign else ()
        desk.say("text-form", node.span, what + "place in them can be told.", mend, edits=edits)

    def schema(self) -> Schema:
        return {"type": "string"}


@dataclass(frozen=True, slots=True)
class ListOf:
    """Values of one kind, as a tuple. Where `lone`, a single one may stand without its `- `."""

    item: Kind
    lone: bool = False
    size: int | None = None

    @property
    def expects(self) -> str:
        return f"a list of {self.size or 'items'}, each {self.item.expects}"

    @property
    def eg(self) -> str:
        return f"[{', '.join([self.item.eg] * (self.size or 1))}]" if self.item.eg else ""

    def read(self, node: Node, name: str, desk: Desk) -> tuple[Any, ...] | None:
        if self.lone and not isinstance(node, Seq):
            node = Seq((node,), node.span)
        if not isinstance(node, Seq) or self.size not in (None, len(node.items)):
            desk.wrong(node, name, self.expects, f"{name}: {self.eg}" if self.eg else "")
            return None
        filled = (i for i in node.items if not (isinstance(i, Scalar) and i.empty))
        read = (self.item.read(i, name, desk) for i in filled)
        return tuple(value for value in read if value is not None)

    def schema(self) -> Schema:
        items = self.item.schema()
        plain: Schema = {"type": "array", "items": items}
        if self.size:
            plain |= {"minItems": self.size, "maxItems": self.size}
        return {"anyOf": [plain, items]} if self.lone else plain


@dataclass(frozen=True, slots=True)
class Named:
    """A value under a name of the designer's own."""

    key: Located[str]
    value: Any


@dataclass(frozen=True, slots=True)
class MapOf:
    """Values of one kind under names of the designer's own, as a tuple of `Named`, or as a
    read-only mapping where `plain`. Where `lone`, a name may stand without anything after it. Where
    `pieces`, findings inside bear the name as piece."""

    item: Kind
    plain: bool = False
    lone: bool = False
    pieces: bool = False

    @property
    def expects(self) -> str:
        return f"a group of names, each with {self.item.expects}"

    @property
    def eg(self) -> str:
        return ""

    def read(self, node: Node, name: str, desk: Desk) -> Any:
        if not isinstance(node, Map):
            desk.wrong(node, name, self.expects, "")
            return None
        read = [n for e in node.entries if (n := self._named(e, desk)) is not None]
        if self.plain:
            return MappingProxyType({n.key.value: n.value for n in read})
        return tuple(read)

    def _named(self, entry: Entry, desk: Desk) -> Named | None:
        key, node = entry.key, entry.value
        if isinstance(node, Scalar) and node.empty:
            if not self.lone:
                return None
            node = Map((), key.span)
        with desk.at(key.text if self.pieces else desk.piece):
            value = self.item.read(node, key.text, desk)
        return None if value is None else Named(Located(key.text, key.span), value)

    def schema(self) -> Schema:
        item = self.item.schema()
        if self.lone:
            item = {"anyOf": [item, {"type": "null"}]}
        return {"type": "object", "additionalProperties": item}
