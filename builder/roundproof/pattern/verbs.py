"""The entries of an assembly as the file says them: one verb each, in working order."""

from __future__ import annotations

from roundproof.frozen import dataclass
from roundproof.source import Located, Span, Text


@dataclass(frozen=True, slots=True)
class At:
    """Where on a piece. Exactly one of the three is given: `footprint` (two round labels as text,
    "R8-R11", with `stitches`), `between` (two labels, with `stitches`), `up` (a range)."""

    span: Span
    footprint: Located[str] | None = None
    between: tuple[Located[str], ...] = ()
    up: Located[str] | None = None
    stitches: Located[int] | None = None


@dataclass(frozen=True, slots=True)
class Around:
    """Where round a piece: from a mark or a stitch, apart, with free gaps, or evenly."""

    span: Span
    mark: Located[str] | None = None
    apart: Located[int] | None = None
    free: tuple[Located[int], ...] = ()
    evenly: Located[int] | None = None
    from_: Located[str] | None = None
    st: Located[int] | None = None


@dataclass(frozen=True, slots=True)
class Join:
    """Two edges brought together."""

    edge: Located[str]
    span: Span
    to: Located[str] | None = None
    by: Located[str] | None = None
    at: At | None = None
    around: Around | None = None
    fold: Located[str] | None = None
    loops: Located[str] | None = None
    ease: Located[str] | None = None
    facing: Located[str] | None = None
    stuffed: Located[str] | None = None
    with_: Located[str] | None = None
    stitch: Located[str] | None = None
    count: Located[int] | None = None
    front: Located[str] | None = None


@dataclass(frozen=True, slots=True)
class Place:
    """Something set in place: eyes, beads."""

    item: Located[str]
    span: Span
    piece: Located[str] | None = None
    between: tuple[Located[str], ...] = ()
    around: Around | None = None


@dataclass(frozen=True, slots=True)
class Thread:
    """One line of embroidery."""

    span: Span
    name: Located[str] | None = None
    stitch: Located[str] | None = None
    from_: Located[str] | None = None
    to: Located[str] | None = None
    times: Located[int] | None = None


@dataclass(frozen=True, slots=True)
class Embroider:
    """Lines of thread on a piece."""

    piece: Located[str]
    span: Span
    with_: Located[str] | None = None
    strands: Located[int] | None = None
    lines: tuple[Thread, ...] = ()


@dataclass(frozen=True, slots=True)
class Joint:
    """Limbs hung on a thread, a button or a joint that turns."""

    with_: Located[str]
    span: Span
    path: tuple[Located[str], ...] = ()
    passes: Located[int] | None = None


@dataclass(frozen=True, slots=True)
class Insert:
    """Something put inside: wire, a weight, a magnet."""

    item: Located[str]
    span: Span
    piece: Located[str] | None = None
    length: Located[float] | None = None
    ends: Located[str] | None = None


@dataclass(frozen=True, slots=True)
class Stuff:
    """A piece filled, and how."""

    piece: Located[str]
    span: Span
    how: Located[str] | None = None


@dataclass(frozen=True, slots=True)
class Close:
    """An opening shut."""

    edge: Located[str]
    span: Span
    by: Located[str] | None = None


Verb = Join | Place | Embroider | Joint | Insert | Stuff | Close


@dataclass(frozen=True, slots=True)
class Step:
    """One entry of the assembly, in working order."""

    verb: Verb
    span: Span
    step: Text | None = None
    after: Located[str] | None = None
