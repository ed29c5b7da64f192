"""The keys of a yarn."""

from __future__ import annotations

from roundproof.pattern import make, model
from roundproof.pattern.groups import Key, Keys, Short
from roundproof.pattern.kinds import MapOf
from roundproof.pattern.values import (
    BALL,
    COUNT,
    GAUGE,
    GRAMS,
    LENGTH,
    LETTER,
    NUMBER,
    SHADE,
    WEIGHT,
    WORDS,
    bare,
)

_NAME = Key("name", WORDS, "The colour's name, as on the label.")
_SHADE = Key("shade", SHADE, "The colour on the screen: # and six signs of 0-9 and a-f.")
COLOUR = Keys("a colour", (_NAME, _SHADE), make.Colour, Short(WORDS, make.colour_named))
COLOURS = MapOf(
    Keys("a colour", (_NAME, _SHADE), make.Colour, Short(SHADE, make.colour_shaded)), lone=True
)

GAUGE_KEYS = Keys(
    "`gauge`",
    (
        Key("stitches", bare(NUMBER), "Stitches counted over the length.", required=True),
        Key("rounds", bare(NUMBER), "Rounds counted over the length.", required=True),
        Key("over", bare(LENGTH), "The length they are counted over.", required=True),
        Key("in", bare(WORDS), "The stitch it is worked in; single crochet if not said.", "stitch"),
    ),
    make.gauge,
    Short(GAUGE, make.gauge_said),
)
BALL_KEYS = Keys(
    "`ball`",
    (
        Key("grams", bare(GRAMS), "What a ball weighs, in grams.", required=True),
        Key("length", bare(LENGTH), "What a ball runs to.", required=True),
    ),
    make.ball,
    Short(BALL, make.ball_said),
)
SWATCH = Keys(
    "`swatch`",
    (
        Key("stitches", bare(COUNT), "Stitches in the swatch.", required=True),
        Key("grams", bare(GRAMS), "What it weighs, in grams.", required=True),
    ),
    model.Swatch,
)

YARN = Keys(
    "a yarn",
    (
        Key("like", WORDS, "Another yarn that this one shares everything with but the colour."),
        Key("letter", LETTER, "The letter it goes by in rounds; given in order if not said."),
        Key("colour", COLOUR, "Its colour: name and shade."),
        Key("colours", COLOURS, "Several colours of the same yarn, each under a name."),
        Key("fibre", WORDS, "What it is made of."),
        Key("weight", WEIGHT, "Standard weight category, 0 to 7."),
        Key("ball", BALL_KEYS, "Grams and length of a ball."),
        Key("balls", COUNT, "Balls needed; worked out if not said."),
        Key("hook", LENGTH, "The hook it is worked with."),
        Key("gauge", GAUGE_KEYS, "Stitches and rounds over a length, with this yarn and hook."),
        Key("swatch", SWATCH, "A weighed swatch, which replaces the estimate of yarn needed."),
    ),
    make.fields,
)
YARNS = MapOf(YARN, lone=True)
