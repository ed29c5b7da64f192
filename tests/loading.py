"""A pattern given as text, loaded and no more, for the tests of that room."""

from __future__ import annotations

from roundproof.findings import Finding, in_order
from roundproof.pattern.load import Defaults, read_pattern
from roundproof.pattern.model import Pattern
from roundproof.source import Source

BODY = "pieces:\n  body: |\n    R1: 6 sc in magic ring (6)\n"
"""The least that is a pattern, to put after what a test is about."""


def source(text: str) -> Source:
    return Source("patterns/example/pattern.yaml", text)


def loaded(text: str, defaults: Defaults | None = None) -> Pattern:
    pattern, _ = read_pattern(source(text), "example", defaults)
    assert pattern is not None
    return pattern


def findings(text: str, defaults: Defaults | None = None) -> list[Finding]:
    """What is wrong, in the order of the file, without what is only still to say."""
    _, found = read_pattern(source(text), "example", defaults)
    return [finding for finding in in_order(found) if finding.check != "value-missing"]


def finding(text: str, defaults: Defaults | None = None) -> Finding:
    """The only thing that is wrong."""
    (found,) = findings(text, defaults)
    return found


def missed(text: str, defaults: Defaults | None = None) -> list[Finding]:
    """What is still to say."""
    _, found = read_pattern(source(text), "example", defaults)
    return [finding for finding in in_order(found) if finding.check == "value-missing"]


COMPLETE = """\
format: 1
title: Pebble
status: published
summary: A small stone.
designer: Roundproof examples
contact: https://example.org/errata
terms: US
level: easy
licence: CC-BY-4.0
size: {height: 2.1 cm, width: 3.4 cm, with: rim}
yarns:
  slate:
    colour: {name: slate grey, shade: "#6d7680"}
    fibre: 100 % cotton
    weight: 3
    ball: 50 g / 125 m
    hook: 3 mm
    gauge: 23 sts x 25 rounds = 10 cm
safety:
  note: Nothing hard is used.
care: Hand wash cool.
pieces:
  body:
    yarn: slate
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc in each st around (12)
changes:
  - {version: 1.0.0, date: 2026-05-04, note: First edition.}
"""
