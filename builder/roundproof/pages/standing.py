"""Where a pattern stands on the site: who sees its page, or why nobody does."""

from __future__ import annotations

from enum import StrEnum

from roundproof.checks.results import Result
from roundproof.pattern.model import Status


class Standing(StrEnum):
    PUBLIC = "public"
    UNLISTED = "unlisted"
    """Has a page, but nothing leads there and search engines are told to pass it by."""
    DRAFT = "draft"
    """Shown in the preview only."""
    WITHHELD = "withheld"
    """Not published yet, and has errors: no page until they are mended."""
    STOPS = "stops"
    """Published with errors, or not to be read at all: nothing is built."""
    SHARED = "shared"
    """No pattern: what several of them share, with something to be said about it."""


def standing(result: Result, *, preview: bool = False) -> Standing:
    """Where the pattern of one file stands; the preview shows every pattern, whatever is wrong."""
    status = result.status
    if status is None:
        if preview or not (result.has_errors or not result.usable):
            return Standing.SHARED
        return Standing.STOPS
    if status is Status.PUBLISHED:
        return Standing.STOPS if result.has_errors and not preview else Standing.PUBLIC
    if preview:
        return Standing.UNLISTED if status is Status.TESTING else Standing.DRAFT
    if status is Status.DRAFT:
        return Standing.DRAFT
    return Standing.WITHHELD if result.has_errors else Standing.UNLISTED
