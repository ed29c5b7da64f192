"""Patterns that the tests of the pages share."""

from __future__ import annotations

PEBBLE = """\
format: 1
title: Pebble
version: 1.2.0
date: 2026-05-04
status: published
summary: A small stone, worked with {12 sc} round its middle.
designer: Roundproof examples
contact: errata@example.org
terms: US
level: easy
licence: CC-BY-4.0
size: {height: 2.1 cm, width: 3.4 cm, with: rim}
yarns:
  slate:
    letter: A
    colour: {name: slate grey, shade: "#6d7680"}
    fibre: 100 % cotton
    weight: 3
    ball: 50 g / 125 m
    hook: 3 mm
    gauge: 23 sts x 25 rounds = 10 cm
  chalk: {like: slate, colour: {name: chalk, shade: "#eceae4"}}
notions:
  - fibrefill 1 g
  - tapestry needle
  - {item: safety eyes, size: 6 mm, count: 2, hazard: small part, or: embroidered eyes}
safety:
  note: The eyes are small hard parts. Keep them from young children.
care: Hand wash cool.
pieces:
  upper:
    name: Upper
    yarn: slate
    stands_for: upper surface
    marks: {front: R4 between 9 and 10}
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc in each st around (12)
      R3: (sc, inc) x 6 (18)
      R4-R6: sc around (18)
      Note: Now with <b>the other</b> colour: {3 sc} in a row.
      Change to chalk.
      R7: sc in BLO around (18)
      R8: with slate 9 sc, with chalk 9 sc (18)
      Fasten off.
  foot:
    name: Foot
    make: 3
    yarn: chalk
    rounds: |
      R1: 6 sc in magic ring (6)
      Fasten off, leaving a 20 cm tail.
  under:
    name: Under
    yarn: chalk
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc x 6 (12)
      R3: (sc, inc) x 6 (18)
      Fasten off.
assembly:
  - place: {item: safety eyes, piece: upper, between: [R4, R5], around: {mark: front, apart: 4}}
    after: upper R6
  - join: {edge: under, to: upper, by: whipstitch, stuffed: while closing}
    step: Whipstitch the under to the upper over {18 sc}.
  - join: {edge: foot, to: upper R8, at: {between: [R7, R8], stitches: 3}, by: whipstitch}
photos:
  - {file: finished.png, alt: "A grey stone", shows: finished, by: Roundproof examples}
  - {file: eyes.png, alt: "Two eyes", after: upper R6}
specimen:
  name: Pebble
  scientific: Lapis fictus (Nobody, 1900)
  real_size: {width: 34 mm, source: 1}
  parts: {upper surface: The side that is seen.}
  simplified: [It is rounder than a stone.]
  statements: [{says: Stones are hard., source: 1}]
  references: ["A book of stones."]
changes:
  - {version: 1.2.0, date: 2026-05-04, note: "Clearer words for {sc} around."}
"""
