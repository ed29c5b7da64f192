"""The usual wordings are read in one go just as the general reader reads them."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.reading import rounds
from corpus.score import pieces
from notation.test_dialects import cases
from notation.texts import SNIPPETS, as_text
from notation.trees import instructions
from roundproof.notation.forms import FORMS, TWO_WAYS
from roundproof.notation.reader import Context, read_script
from roundproof.notation.tokens import Own
from roundproof.notation.tree import Instruction, Unit
from roundproof.notation.usual import Usual
from roundproof.notation.writer import written
from roundproof.pattern.model import Terms
from roundproof.source import Source

COLOURS = {"slate": "slate", "a": "slate", "chalk": "chalk", "sea green": "sea", "white": "white"}
SCALE = Own("own", "scale", 0, Unit((("dc", 3),), 2, "scale"))
US = Context(Terms.US, COLOURS, "body")
CONTEXTS = {
    "US": US,
    "UK": Context(Terms.UK, COLOURS, "body"),
    "a stitch": Context(Terms.US, COLOURS, "body", {"scale": SCALE, "scales": SCALE}),
    "a stitch named inc": Context(Terms.US, COLOURS, "body", {"inc": SCALE}),
    "a stitch that begins like ours": Context(Terms.US, COLOURS, "body", {"sc over dc": SCALE}),
    "a stitch that begins with a number": Context(Terms.US, {}, "body", {"3-sc scale": SCALE}),
    "a stitch with a sign in its name": Context(Terms.US, {}, "body", {"(2 sc": SCALE}),
    "pieces": Context(
        Terms.US,
        {**COLOURS, "path": "path", "ear": "ear"},
        "body",
        {},
        {"chalk": "chalk", "ear": "ear", "body": "", "2 sc": "s", "18": "t", "dec": "u"},
    ),
    "a piece named end": Context(Terms.US, COLOURS, "end", {}, {"end": "", "around": "a"}),
    "a piece named by a sign": Context(Terms.US, COLOURS, "*", {}, {"*": "", "( 18": "a"}),
    "letters": Context(Terms.US, {}, "body", {"X": Own("stitch", "sc"), "V": Own("inc", "inc")}),
    "a small letter": Context(Terms.US, {}, "body", {"x": Own("stitch", "sc")}),
    "yarns with names of ours": Context(
        Terms.US,
        {"in": "in", "dec": "dec", "rw": "rw", "sea": "s", "sea sc": "t", "double": "d", "x": "x"},
        "body",
    ),
}


def spread(value: object) -> object:
    """A value with all its fields, those that are left out of comparisons too."""
    if isinstance(value, tuple | list):
        return [spread(part) for part in value]
    names = () if isinstance(value, Source) else getattr(value, "__match_args__", ())
    fields = [(name, spread(getattr(value, name))) for name in names]
    return (type(value).__name__, fields) if names else value


def read_both_ways(written_: str, context: Context = US) -> None:
    """The same entries at the same places, and the same findings, with the usual wordings and
    without."""
    text = as_text(written_)
    quick = read_script(text, context)
    with patch.object(Usual, "round", lambda usual, line: None):
        slow = read_script(text, context)
    assert quick == slow
    assert spread(quick) == spread(slow)


def is_usual(line: str, context: Context = US) -> bool:
    """Whether nothing is left for the general reader."""
    with patch("roundproof.notation.reader.work_of_round", side_effect=AssertionError) as general:
        try:
            read_script(as_text(line), context)
        except AssertionError:
            return False
    return not general.called


@pytest.mark.parametrize("file", sorted({piece.file for piece in pieces()}))
def test_the_corpus_is_read_alike(file: str) -> None:
    for piece in pieces():
        if piece.file == file:
            read_both_ways("\n".join(piece.lines), Context(Terms[piece.terms], {}, piece.name))


@pytest.mark.parametrize("context", CONTEXTS.values(), ids=CONTEXTS.keys())
def test_dialects_and_forms_are_read_alike(context: Context) -> None:
    for typed, _ in cases():
        read_both_ways(typed, context)
    for form in FORMS:
        for work in form:
            for ending in ("", ".", " (18)", ". (18 sts)", " = 18", ", 18"):
                read_both_ways(f"R7: {work}{ending}", context)


def test_the_rounds_of_the_benchmark_are_usual_and_read_alike() -> None:
    read_both_ways(rounds(600), Context(Terms.US, {"chalk": "chalk", "slate": "slate"}, "body"))
    for line in rounds(60).split("\n"):
        assert is_usual(line), line


LABELS = (
    """R7:|Rnd 7:|round 7.|Row 7)|R7|RND. 7:|R4-R6:|Rounds 4-6:|Rows 4\u20136:|R4-6|R4-Rnd 6:|R7 -
R6-R4:|7.|R7 :|R7:)|Rnd 7 (2 rounds):|R7: BLO:|R7: in FLO,|r7: blo|R7: (BLO)|R7,|""".replace(
        "\n", "|"
    )
).split("|")
ITEMS = (
    """3 sc|sc 3|sc|3sc|inc|2 dec|sc in BLO around|inc in FLO around
2 sc in BLO around|inv dec|2 inv dec|hdc|4 dc|tr|sc x 3|inc x 6|inc x6|dec 6 times
INC|sc in next 12 sts|1 sc in each of next 3 sts|2 sc in each of the next 3 stitches|increase|scs
2 sc in next st|sc in the next stitch|3 sc in next 3 sts|2 inc in next 2 sts|dec in next 4 sts|decs
sc in each st around|2 sc in each st|sc around|2 sc around|inc around|inc in each st around|htr
dec in each st around|sc2tog|2 sc3tog|sc2tog around|sc2tog x 3|dc2tog in next 2 sts|2 htr|in ear
with chalk|with chalk 3 sc|in slate: inc|change to slate|change to chalk 2 sc|with white sc 2|inc3
with sea green 2 sc|with mauve sc|ch 2|sl st|sc3|0 sc|01 sc|3 sc in BLO|st|2 st|1 st|1st|2nd|3rd st
scale|2 scales|V|X|3 X|in|x|with rw 6 sc|in in 2 sc|with double 2 sc|sea sc|sc sc|3 sc 4|2 sc x 3
bobble|sc in next 1 st|sc in next 2 st
with A sc|in path 2 sc|bobble 2|1000000 sc|sc in each sc around""".replace("\n", "|")
).split("|")
GROUPS = (
    """({}) x 6|({}) around|[{}] 6 times|({}) 6x|({})6|(6x {})|({})|*{}* x 6|*{}* 6 times|*{}*6
*{}* around|*{}; rep from * around|*{}, rep from * 5 more times|*{}; repeat from * to end|({}) x 1
*{}, rep from * x 3|*{} rep from * 3 times|[{}) x 2|{} x 3|({}) x 2 in BLO|({}) in next st|({},) x 2
{{{}}} x 2|*{}*x2|( {} )x 3|*{} * 3 times""".replace("\n", "|")
).split("|")
BETWEEN = (", ", ", ", ",", "; ", " , ", " ", ". ", ", then ", " + ", ",, ", " and ", "  ")
ENDS = (
    """| (18)| [18]| <18>| {18}| (18 sts)|. (18 stitches)| = 18| - 18 sts| \u2013 18|.|, (18)| (18).
 (1st)|. 18 sts|=18 sts.| (18 sc)| (18| 18| (18) Stuff.| -> 18|- 18 (3)|,| (6) x 3| ( 18 )|(18) |;
 (0)| .|:| (18)\u200b| - 18 sts\u200b| (18)\u00a0.| (18 st\u0455)""".replace("\n", "|")
).split("|")

MOSTLY = 15
"""How often a bit is a usual one for once that it may be any."""


def bits(usual: Callable[[str], str], some: Sequence[str]) -> st.SearchStrategy[str]:
    """Mostly such bits as leave a line usual."""
    within = [bit for bit in some if is_usual(usual(bit))]
    assert 3 < len(within) < len(some)
    return st.integers(0, MOSTLY).flatmap(lambda n: st.sampled_from(within if n else some))


between = st.integers(0, MOSTLY).flatmap(lambda n: st.sampled_from(BETWEEN[:4] if n else BETWEEN))
ends = bits(lambda bit: f"R7: 2 sc, inc{bit}", ENDS)


def put_together(parts: st.SearchStrategy[str], most: int) -> st.SearchStrategy[str]:
    some = st.lists(parts, min_size=1, max_size=most)
    return st.builds(lambda sign, bits: sign.join(bits), between, some)


def grouped(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    group = bits(lambda bit: f"R7: {bit.format('2 sc, inc')}", GROUPS)
    return st.builds(lambda form, parts: form.format(parts), group, put_together(inner, 3))


some_items = put_together(bits(lambda bit: f"R7: {bit}, 3 sc", ITEMS), 3)
works = put_together(st.recursive(some_items, grouped, max_leaves=5), 3)
lines = st.builds(
    lambda label, work, ending: f"{label} {work}{ending}",
    *(bits(lambda bit: f"{bit} 2 sc, inc", LABELS), works, ends),
)
contexts = st.sampled_from(list(CONTEXTS.values()))


@given(st.lists(lines, min_size=1, max_size=3), contexts)
@settings(max_examples=400)
def test_lines_put_together_by_chance_are_read_alike(some: list[str], context: Context) -> None:
    read_both_ways("\n".join(some), context)


@given(st.lists(st.sampled_from(SNIPPETS), min_size=1, max_size=8), ends)
@settings(max_examples=200)
def test_bits_of_rounds_are_read_alike(words: list[str], ending: str) -> None:
    read_both_ways(f"R7: {' '.join(words)}{ending}")


@given(
    lines, st.integers(0, 80), st.sampled_from(" ,.;:*()[]x36-'\t\u200bor\u00e9\u0130_)"), contexts
)
@settings(max_examples=300)
def test_a_sign_too_many_is_read_alike(line: str, at: int, sign: str, context: Context) -> None:
    read_both_ways(line[:at] + sign + line[at:], context)


@given(instructions, st.sampled_from(ENDS))
@settings(max_examples=200)
def test_house_style_is_read_alike(tree: Instruction, ending: str) -> None:
    for in_terms in Terms:
        line = f"R7: {written(tree, in_terms)}{ending}"
        read_both_ways(line, Context(in_terms, COLOURS, "body"))


def test_rounds_among_other_lines_are_read_alike() -> None:
    pick = random.Random(7)
    usual = rounds(12).split("\n")
    others = (
        *(
            "Ch 7.",
            "(18)",
            "Stuff.",
            "2 sc, inc",
            "Note: mind the gap",
            "# private",
            "",
            "R9: Fasten off.",
        ),
        *(
            "Next round: sc around",
            "R3-R5: sc around",
            "and 2 sc (9)",
            "sc around",
            "x 6 (24)",
            "Ch 24, join",
        ),
        *(
            "R2: 2 sc, inc R3: 3 sc, inc (8)",
            "R1: MC, 6 sc",
            "R2: with MC 6 sc",
            "R3 - 12 sc",
            "R9:",
        ),
    )
    for _ in range(150):
        read_both_ways("\n".join(pick.choice((*usual, *others)) for _ in range(8)))


@pytest.mark.parametrize(
    "line",
    [
        "R7: 3 sc, inc (5)",
        "Rnd 7: sc 3, inc.",
        "Rounds 4-6: sc in each st around (18 sts)",
        "ROW 7. hdc in next 3 sts, 2 hdc in next st - 5 sts",
        "R4-R6 2 inv dec, 4 sc [6]",
        "R7: *2 sc, inc* x 6 = 24",
        "R7: *1 sc in each of next 3 sts, 2 sc in next st; rep from * around. (30 sts)",
        "R7: [2 sc, sc2tog] 6 times {18}",
        "R7: in BLO: sc around",
        "R7: with chalk: 3 sc, in slate 2 sc, (sc, dec) x 2 <9>",
        "R7: ((sc, inc) x 2, dec) x 3",
        "R7: inc x 6 (12)",
    ],
)
def test_usual_wordings_are_read_in_one_go(line: str) -> None:
    assert is_usual(line)
    read_both_ways(line)


@pytest.mark.parametrize(
    "work",
    [
        *(typed for typed, _, _ in TWO_WAYS),
        *("with chalk sc", "(2 sc, inc) x 1", "sc, inc x 6 (7)", "sc in next st", "2 sc, htr"),
        *(
            "sc around, and stuff",
            "2 frob, sc",
            "(2 sc, inc",
            "inc3, sc",
            "6 sc in magic ring",
            "st 3, sc",
        ),
    ],
)
def test_other_wordings_are_left_to_the_general_reader(work: str) -> None:
    assert not is_usual(f"R7: {work}")


@pytest.mark.parametrize(
    ("context", "line"),
    [
        ("UK", "R7: 3 sc, inc (5)"),
        ("a stitch named inc", "R7: 3 sc, inc (5)"),
        ("a stitch that begins like ours", "R7: 3 sc, dec (4)"),
        ("a stitch that begins with a number", "R7: 3 sc, dec (4)"),
        ("a small letter", "R7: (2 sc, inc) x 6"),
        ("pieces", "R7: 3 sc, dec"),
        ("pieces", "R7: in path 2 sc, inc"),
        ("a piece named end", "R7: 3 sc, inc"),
        ("a piece named by a sign", "R7: 3 sc, inc"),
        ("yarns with names of ours", "R7: with sea 3 sc"),
    ],
)
def test_words_of_the_pattern_s_own_come_first(context: str, line: str) -> None:
    assert not is_usual(line, CONTEXTS[context])
