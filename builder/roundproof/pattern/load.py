"""A pattern file, with the defaults of its collection, read into a `Pattern`."""

from __future__ import annotations

from pathlib import Path

from roundproof.findings import Finding
from roundproof.frozen import dataclass, replace
from roundproof.pattern.build import pattern_of
from roundproof.pattern.desk import Desk
from roundproof.pattern.files import PATTERN_FILE, read_file
from roundproof.pattern.missing import missing
from roundproof.pattern.model import Pattern, Status, Terms
from roundproof.pattern.nodes import Entry, Map, Node, tree
from roundproof.pattern.schema import DEFAULTS, PATTERN, place_of
from roundproof.pattern.yarns import yarns_of
from roundproof.source import Located, Source


@dataclass(frozen=True, slots=True)
class Defaults:
    """What all patterns of a collection share. Read once, then merged into each."""

    source: Source
    root: Map


def load_defaults(path: Path, name: str) -> tuple[Defaults | None, tuple[Finding, ...]]:
    """The defaults and what is wrong with them; None where there is no such file."""
    if not path.exists():
        return None, ()
    source, findings = read_file(path, name)
    if source is None:
        return None, findings
    root, findings = tree(source)
    if root is None:
        return None, findings
    desk = Desk(place_of)
    fields = DEFAULTS.fields(root, desk)
    terms: Located[Terms] | None = fields.get("terms")
    yarns_of(fields.get("yarns", ()), terms.value if terms else None, source, desk)
    known = {key.name for key in DEFAULTS.keys}
    kept = tuple(e for e in root.entries if e.key.text in known)
    return Defaults(source, Map(kept, root.span)), (*findings, *desk.findings)


def load_pattern(
    path: Path, name: str, defaults: Defaults | None = None, judge_as: Status | None = None
) -> tuple[Pattern | None, tuple[Finding, ...]]:
    """The pattern of a file and all that is wrong with it or missing; None where the file cannot
    be used. What is wrong in the defaults alone is not said again. With `judge_as` the pattern is
    taken to have that status, whatever it says."""
    source, findings = read_file(path, name)
    if source is None:
        return None, findings
    slug = path.absolute().parent.name if path.name == PATTERN_FILE else path.stem
    return read_pattern(source, slug, defaults, judge_as)


def read_pattern(
    source: Source, slug: str, defaults: Defaults | None = None, judge_as: Status | None = None
) -> tuple[Pattern | None, tuple[Finding, ...]]:
    """The same for a text that is at hand."""
    root, findings = tree(source)
    if root is None:
        return None, findings
    desk = Desk(place_of)
    shared = defaults.source if defaults else None
    fields = PATTERN.fields(_merged(root, defaults), desk)
    pattern = pattern_of(fields, slug, source, shared, desk)
    if judge_as is not None:
        pattern = replace(pattern, status=judge_as)
    own = (f for f in desk.findings if f.span.source is not shared)
    return pattern, (*findings, *own, *missing(pattern, desk))


def _merged(root: Map, defaults: Defaults | None) -> Map:
    """The pattern's keys, then those of the defaults it does not have; where both hold groups,
    their entries come together, the pattern's own before the others."""
    if defaults is None:
        return root
    entries = [_with(entry, defaults.root.get(entry.key.text)) for entry in root.entries]
    own = {entry.key.text for entry in root.entries}
    entries += (entry for entry in defaults.root.entries if entry.key.text not in own)
    return Map(tuple(entries), root.span)


def _with(entry: Entry, other: Node | None) -> Entry:
    value = entry.value
    if not isinstance(value, Map) or not isinstance(other, Map):
        return entry
    own = {e.key.text for e in value.entries}
    both = (*value.entries, *(e for e in other.entries if e.key.text not in own))
    return Entry(entry.key, Map(both, value.span))
