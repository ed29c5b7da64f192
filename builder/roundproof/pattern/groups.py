"""Groups of keys: what a mapping of the file may hold, and what becomes of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from roundproof.frozen import dataclass
from roundproof.pattern.desk import Desk
from roundproof.pattern.kinds import Choice, Kind, Schema
from roundproof.pattern.nodes import Map, Node, Scalar
from roundproof.source import Span


@dataclass(frozen=True, slots=True)
class Key:
    """A key that a group of keys has.

    `says` is its line in the JSON Schema, `field` its name in the model where that is another.
    Without a `required` key its group says nothing and is passed over; a `wanted` one is
    missed, no more. `shared` keys may stand in defaults.yaml.
    """

    name: str
    kind: Kind
    says: str
    field: str = ""
    required: bool = False
    wanted: bool = False
    shared: bool = False

    @property
    def adding(self) -> str:
        """How the key is added, in a sentence."""
        mend = f"Add `{self.name}:`, {self.says[:1].lower()}{self.says[1:-1]}"
        if isinstance(self.kind, Choice):
            return f"{mend}: {self.kind.expects}."
        return f"{mend}{f', such as `{self.kind.eg}`' if self.kind.eg not in ('', '…') else ''}."


@dataclass(frozen=True, slots=True)
class Short:
    """A group of keys written as one value: its kind, and what becomes of the value."""

    kind: Kind
    make: Callable[[Any, Span], Any]


@dataclass(frozen=True, slots=True)
class Keys:
    """A group of keys. `make` gets the group's span and the fields that are there; `rule` says
    what is wrong with them together, or nothing."""

    called: str
    keys: tuple[Key, ...]
    make: Callable[..., Any]
    short: Short | None = None
    rule: Callable[[Mapping[str, Any]], str] | None = None

    @property
    def expects(self) -> str:
        inner = ", ".join(f"`{k.name}`" for k in self.keys[:4])
        keys = f"keys such as {inner}" if len(self.keys) > 1 else f"the key {inner}"
        return f"{self.short.kind.expects}, or {keys}" if self.short else keys

    @property
    def eg(self) -> str:
        return self.short.kind.eg if self.short else ""

    def read(self, node: Node, name: str, desk: Desk) -> Any:
        if isinstance(node, Map):
            return self._group(node, name, desk)
        if self.short and isinstance(node, Scalar):
            value = self.short.kind.read(node, name, desk)
            return None if value is None else self.short.make(value, node.span)
        desk.wrong(node, name, self.expects, f"{name}: {self.eg}" if self.eg else "")
        return None

    def _group(self, node: Map, name: str, desk: Desk) -> Any:
        fields = self.fields(node, desk)
        of = self.called if name in self.called else f"`{name}`"
        for key in self.keys:
            asked = (key.required or key.wanted) and (self.called, key.name) not in desk.faulty
            if asked and ((value := node.get(key.name)) is None or _empty(value)):
                desk.lack(key.name, node.span, of, key.adding)
        if any(k.required and (k.field or k.name) not in fields for k in self.keys):
            return None
        faulty = any((self.called, key.name) in desk.faulty for key in self.keys)
        if self.rule and not faulty and (wrong := self.rule(fields)):
            desk.say("value-kind", node.span, wrong)
        return self.make(span=node.span, **fields)

    def fields(self, node: Map, desk: Desk) -> dict[str, Any]:
        """What the keys hold, by field; unknown keys are reported."""
        known = {key.name: key for key in self.keys}
        fields = {}
        for entry in node.entries:
            key = known.get(entry.key.text)
            if key is None:
                desk.unknown_key(entry.key, self.called, tuple(known))
                continue
            if _empty(entry.value):
                continue
            value = key.kind.read(entry.value, key.name, desk)
            if value is None:
                desk.faulty.add((self.called, key.name))
            else:
                fields[key.field or key.name] = value
        return fields

    def schema(self) -> Schema:
        group: Schema = {
            "type": "object",
            "properties": {k.name: {**k.kind.schema(), "description": k.says} for k in self.keys},
            "additionalProperties": False,
        }
        if required := [k.name for k in self.keys if k.required]:
            group["required"] = required
        return {"anyOf": [self.short.kind.schema(), group]} if self.short else group


def _empty(node: Node) -> bool:
    return isinstance(node, Scalar) and node.empty
