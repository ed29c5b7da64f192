"""A pattern given as text, proved as a file of that text would be."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

from roundproof.findings import Finding
from roundproof.pattern.load import read_pattern
from roundproof.pipeline import prove_pattern
from roundproof.proof import Proof
from roundproof.source import Source

NAME = "patterns/example/pattern.yaml"


def proved(
    text: str, files: Mapping[str, bytes] | None = None
) -> tuple[Proof | None, tuple[Finding, ...]]:
    """The proof of a pattern and its findings in the order of the text. `files` lie beside it
    while it is checked."""
    pattern, found = read_pattern(Source(NAME, text), "example")
    if pattern is None:
        return None, found
    with TemporaryDirectory() as name:
        folder = Path(name)
        for path, data in (files or {}).items():
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_bytes(data)
        return prove_pattern(pattern, found, folder)


def ids_of(text: str, files: Mapping[str, bytes] | None = None) -> list[str]:
    """The ids of the findings, without those that only say what a draft leaves open."""
    _, findings = proved(text, files)
    return [finding.check for finding in findings if finding.check != "value-missing"]
