"""Where findings are gathered while one file is read."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from roundproof.findings import Edit, Finding, Severity
from roundproof.frozen import dataclass
from roundproof.pattern.near import nearest
from roundproof.pattern.nodes import Node, Scalar, Seq
from roundproof.source import Span


@dataclass(frozen=True, slots=True)
class Lack:
    """Something the file does not say yet: which key, of what ("yarn `slate`", or the pattern
    itself where empty), and how it is added."""

    key: str
    span: Span
    of: str = ""
    mend: str = ""
    piece: str | None = None


class Desk:
    """`place_of` tells in words where a key belongs that stands in the wrong place. `faulty` holds
    the keys, each with its group, whose value could not be used: they are not missing as well."""

    def __init__(self, place_of: Callable[[str], str]) -> None:
        self.place_of = place_of
        self.piece: str | None = None
        self.findings: list[Finding] = []
        self.lacks: list[Lack] = []
        self.faulty: set[tuple[str, str]] = set()

    @contextmanager
    def at(self, piece: str | None) -> Iterator[None]:
        """Findings made inside belong to this piece."""
        before, self.piece = self.piece, piece
        yield
        self.piece = before

    def say(
        self,
        check: str,
        span: Span,
        message: str,
        mend: str = "",
        severity: Severity = Severity.ERROR,
        edits: tuple[Edit, ...] = (),
    ) -> None:
        self.findings.append(Finding(check, severity, span, message, mend, self.piece, edits=edits))

    def lack(self, key: str, span: Span, of: str, mend: str) -> None:
        self.lacks.append(Lack(key, span, of, mend, self.piece))

    def wrong(
        self, node: Node, name: str, expects: str, eg: str, why: str = "", check: str = "value-kind"
    ) -> None:
        """A value of another kind than its key asks for."""
        because = f": {why}" if why else ""
        message = f"`{name}` should be {expects}, and this is {_found(node)}{because}."
        self.say(check, node.span, message, f"Write it like this: `{eg}`." if eg else "")

    def unknown_key(self, key: Scalar, of: str, names: tuple[str, ...]) -> None:
        """A key that the schema does not have here."""
        near = nearest(key.text, names)
        place = "" if near else self.place_of(key.text)
        message = f"{_quoted(key.text)} is not a key of {of}."
        if near:
            self.faulty.add((of, near))
            edits = (Edit(key.span, near),)
            self.say("key-unknown", key.span, message, f"Did you mean `{near}`?", edits=edits)
        elif place:
            self.say("key-unknown", key.span, message, f"It belongs to {place}: move it there.")
        else:
            mend = f"Take it out. {of[:1].upper()}{of[1:]} has {_listed(names)}."
            self.say("key-unknown", key.span, message, mend)

    def unknown_value(self, text: str, span: Span, name: str, values: tuple[str, ...]) -> None:
        """A value that is none of a closed list."""
        near = nearest(text, values)
        message = f"`{name}` cannot be {_quoted(text)}: it is {_either(values)}."
        edits = (Edit(span, near),) if near else ()
        mend = f"Did you mean `{near}`?" if near else "Use one of these."
        self.say("value-unknown", span, message, mend, edits=edits)


def _found(node: Node) -> str:
    if isinstance(node, Scalar):
        return _quoted(node.text) if node.text.strip() else "empty"
    if isinstance(node, Seq):
        return "a list"
    keys = ", ".join(_quoted(entry.key.text) for entry in node.entries[:3])
    return f"a group of keys ({keys})" if keys else "a group of keys"


def _quoted(words: str) -> str:
    """A designer's words within a sentence, shortened if they go on and on."""
    text = " ".join(words.split())
    return f"`{text if len(text) <= 60 else text[:59] + '…'}`"


def _listed(names: tuple[str, ...]) -> str:
    shown = ", ".join(f"`{n}`" for n in names[:12])
    return f"{shown} and others" if len(names) > 12 else shown


def _either(values: tuple[str, ...]) -> str:
    quoted = [f"`{v}`" for v in values]
    return " or ".join(filter(None, (", ".join(quoted[:-1]), quoted[-1])))
