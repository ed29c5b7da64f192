"""A pattern file from sorted notes. Every line of the notes stands in it as it was written."""

from __future__ import annotations

from roundproof.pattern.build import _TAKEN  # noqa: F401
