"""The JSON Schema of a pattern file, for editors that complete keys and underline mistakes."""

from __future__ import annotations

from typing import Any

from roundproof.pattern.schema import DEFAULTS, PATTERN

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def pattern_schema() -> dict[str, Any]:
    """The schema of pattern.yaml, as plain values for `json.dumps`."""
    return {"$schema": _DIALECT, "title": "A pattern for stuffed crochet", **PATTERN.schema()}


def defaults_schema() -> dict[str, Any]:
    """The schema of defaults.yaml."""
    title = "What the patterns of a collection share"
    return {"$schema": _DIALECT, "title": title, **DEFAULTS.schema()}
