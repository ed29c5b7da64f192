"""What the keys of a file become in the model: yarns, notions, pieces, assembly and the rest."""

from __future__ import annotations

from datetime import date

import pytest

from loading import BODY, COMPLETE, finding, findings, loaded
from roundproof.pattern.model import (
    Close,
    Embroider,
    Insert,
    Join,
    Notion,
    Pattern,
    Piece,
    Place,
    Status,
    Stuff,
    Terms,
    Worked,
    Yarn,
)


def yarns(lines: str, terms: str = "US") -> tuple[Yarn, ...]:
    body = "".join(f"  {line}\n" for line in lines.strip().split("\n"))
    return loaded(f"terms: {terms}\nyarns:\n{body}{BODY}").yarns


def notion(line: str) -> Notion:
    (only,) = loaded(f"terms: US\nnotions:\n  - {line}\n{BODY}").notions
    return only


def piece(lines: str) -> Piece:
    body = "".join(f"    {line}\n" for line in lines.split("\n"))
    return loaded(f"terms: US\npieces:\n  left claw:\n{body}").pieces[0]


def verb(line: str) -> object:
    (step,) = loaded(f"terms: US\n{BODY}assembly:\n  - {line}\n").assembly
    return step.verb


# ---- the pattern ----
def test_the_head_of_a_pattern() -> None:
    pattern = loaded(COMPLETE)
    assert pattern.slug == "example"
    assert pattern.span.text == "Pebble"
    assert (pattern.status, pattern.terms and pattern.terms.value) == (Status.PUBLISHED, Terms.US)
    assert pattern.safety_note is not None and pattern.safety_note.value == "Nothing hard is used."
    assert pattern.size is not None and pattern.size.height is not None
    assert pattern.size.height.value == pytest.approx(21)
    assert pattern.size.with_ is not None and pattern.size.with_.value == "rim"


def test_without_a_title_things_are_reported_at_the_first_line() -> None:
    assert loaded(f"\n# a stone\nterms: US\n{BODY}").span.text == "# a stone"


def head(pattern: Pattern) -> tuple[str | None, date | None]:
    version = pattern.version.value if pattern.version else None
    return version, pattern.date.value if pattern.date else None


def test_version_and_date_come_from_the_newest_change() -> None:
    changes = (
        "changes:\n"
        "  - {version: 1.2.0, date: 2026-05-04, note: a}\n"
        "  - {version: 1.10.0, date: 2026-06-04, note: b}\n"
    )
    assert head(loaded(f"{BODY}{changes}")) == ("1.10.0", date(2026, 6, 4))
    assert head(loaded(f"version: 2.0.0\n{BODY}{changes}")) == ("2.0.0", date(2026, 6, 4))


# ---- yarns ----
def test_a_yarn_like_another_takes_over_all_but_what_is_its_own() -> None:
    slate, chalk = yarns(
        "slate: {colour: {name: slate grey, shade: '#6d7680'}, fibre: cotton, weight: 3, balls: 2,"
        " ball: 50 g / 125 m, hook: 3 mm, gauge: 23 sts x 25 rounds = 10 cm, letter: S,"
        " swatch: {stitches: 460, grams: 4.6}}\n"
        "chalk: {like: slate, colour: chalk white, hook: 2.5 mm}"
    )
    assert (slate.letter, chalk.letter) == ("S", "A")
    assert chalk.name == "chalk white"
    assert (chalk.shade, chalk.balls, chalk.swatch) == (None, None, None)
    assert (chalk.fibre, chalk.ball, chalk.gauge) == (slate.fibre, slate.ball, slate.gauge)
    assert chalk.hook is not None and chalk.hook.value == pytest.approx(2.5)


def test_likeness_goes_on_from_yarn_to_yarn() -> None:
    a, b, c = yarns("a1: {fibre: cotton}\nb1: {like: a1, hook: 3 mm}\nc1: {like: b1}")
    assert c.fibre == b.fibre == a.fibre
    assert c.hook == b.hook


def test_likeness_in_a_circle_and_to_nothing_is_reported() -> None:
    text = (
        f"terms: US\nyarns:\n  aa: {{like: bb}}\n  bb: {{like: aa}}\n  cc: {{like: slat}}\n{BODY}"
    )
    assert [f.check for f in findings(text)] == ["value-kind", "value-kind", "value-unknown"]


def test_one_yarn_in_several_colours_comes_as_one_yarn_a_colour() -> None:
    sand, navy = yarns(
        "cotton:\n  fibre: cotton\n  colours: {sand: '#d9c7a3', navy: {name: deep navy}}"
    )
    assert (sand.key, navy.key) == ("cotton/sand", "cotton/navy")
    assert (sand.name, navy.name) == ("sand", "deep navy")
    assert sand.shade is not None and sand.shade.value == "#d9c7a3"
    assert (sand.letter, navy.letter) == ("A", "B")
    assert navy.words == ("navy", "cotton/navy", "deep navy", "b")
    assert sand.span.text == "sand"
    assert sand.fibre == navy.fibre


def test_letters_go_on_in_order_past_those_taken() -> None:
    given = yarns("x1: {letter: B}\nx2: {}\nx3: {}\nc: {}")
    assert [y.letter for y in given] == ["B", "A", "D", "E"]


def test_words_are_the_key_the_colour_and_the_letter() -> None:
    (slate,) = yarns("Slate: {colour: Slate Grey}")
    assert slate.words == ("slate", "slate grey", "a")


@pytest.mark.parametrize(
    ("lines", "word"),
    [
        ("sand: {}\n  cotton: {colours: {sand: '#d9c7a3'}}", "sand"),
        ("one: {colour: sand}\n  two: {colour: Sand}", "sand"),
        ("one: {letter: C}\n  two: {letter: C}", "c"),
    ],
)
def test_a_word_for_two_yarns_is_reported(lines: str, word: str) -> None:
    text = f"terms: US\nyarns:\n  {lines}\n{BODY}"
    found = finding(text)
    assert found.check == "yarn-word-clash"
    assert f"`{word}`" in found.message


def test_a_clashing_word_is_a_colour_first() -> None:
    pattern = loaded(f"yarns:\n  sand: {{}}\n  cotton: {{colours: {{sand: '#d9c7a3'}}}}\n{BODY}")
    assert [y.key for y in pattern.yarns if "sand" in y.words] == ["cotton/sand"]


@pytest.mark.parametrize(
    ("terms", "said", "stitch"),
    [
        ("US", "", "sc"),
        ("UK", "", "sc"),
        ("US", " in hdc", "hdc"),
        ("US", " in half double crochet", "hdc"),
        ("UK", " in dc", "sc"),
        ("UK", " in htr", "hdc"),
        ("UK", " in sc", "sc"),
    ],
)
def test_a_gauge_names_its_stitch_in_us_terms(terms: str, said: str, stitch: str) -> None:
    (yarn,) = yarns(f"slate: {{gauge: 23 sts x 25 rounds = 10 cm{said}}}", terms)
    assert yarn.gauge is not None
    assert yarn.gauge.stitch == stitch
    assert yarn.gauge.stitch_width == pytest.approx(100 / 23)


def test_a_gauge_in_an_unknown_stitch_is_reported() -> None:
    gauge = "{stitches: 23, rounds: 25, over: 10 cm, in: moss}"
    found = finding(f"terms: US\nyarns:\n  slate: {{gauge: {gauge}}}\n{BODY}")
    assert (found.check, found.span.text) == ("value-unknown", gauge)


# ---- notions ----
@pytest.mark.parametrize(
    ("line", "item", "size", "count", "amount"),
    [
        ("tapestry needle", "tapestry needle", None, None, None),
        ("fibrefill 1 g", "fibrefill", None, None, "1 g"),
        ("fibrefill, 1.75 oz", "fibrefill", None, None, "1.75 oz"),
        ("safety eyes 6 mm, 2", "safety eyes", 6.0, 2, None),
        ("safety eyes, 6 mm x 2", "safety eyes", 6.0, 2, None),
        ("safety eyes (6 mm)", "safety eyes", 6.0, None, None),
        ("2 safety eyes 6 mm", "safety eyes", 6.0, 2, None),
        ("4 mm hook", "4 mm hook", None, None, None),
        ("wire 0.8 mm", "wire", 0.8, None, None),
        ("pin no. 5", "pin no. 5", None, None, None),
        ("'fibrefill 1 g'", "fibrefill", None, None, "1 g"),
    ],
)
def test_a_plain_line_gives_what_plainly_stands_in_it(
    line: str, item: str, size: float | None, count: int | None, amount: str | None
) -> None:
    read = notion(line)
    assert read.item.value == item
    assert (read.size.value if read.size else None) == (size and pytest.approx(size))
    assert (read.count.value if read.count else None) == count
    assert (read.amount.value if read.amount else None) == amount


def test_the_parts_of_a_plain_line_have_their_places() -> None:
    read = notion("safety eyes 6 mm, 2")
    assert read.size is not None and read.count is not None
    assert (read.item.span.text, read.size.span.text) == ("safety eyes", "6 mm")
    assert read.count.span.text == "2"


def test_a_notion_with_keys() -> None:
    read = notion("{item: safety eyes, size: 6 mm, count: 2, hazard: small part, or: felt}")
    assert read.hazard is not None and read.or_ is not None
    assert (read.hazard.value, read.or_.value) == ("small part", "felt")


# ---- pieces ----
def test_a_piece_says_little_by_itself() -> None:
    read = piece("rounds: |\n  R1: 6 sc in magic ring (6)")
    assert (read.key, read.name, read.make, read.make_span) == ("left claw", "Left claw", 1, None)
    assert read.span.text == "left claw"
    assert read.worked is None
    assert read.rounds is not None and read.rounds.value == "R1: 6 sc in magic ring (6)"


def test_a_piece_with_keys() -> None:
    read = piece(
        "name: Claw\nmake: 2\nyarn: chalk\nworked: rows\nmarks: {tip: R4 between 9 and 10}\n"
        "starts: {in: [body R2 free front loops, body row ends]}\n"
        "gauge: 20 sts x 22 rounds = 10 cm\n"
        "hook: 2.5 mm\nstrands: 2\nchain_counts: no\nright_side: inside\nrounds: |\n  Row 1: 6 sc"
    )
    assert (read.name, read.make) == ("Claw", 2)
    assert read.make_span is not None and read.make_span.text == "2"
    assert read.worked is not None and read.worked.value is Worked.ROWS
    assert read.marks is not None and read.marks["tip"].span.text == "R4 between 9 and 10"
    assert read.starts is not None
    assert [s.value for s in read.starts.in_] == ["body R2 free front loops", "body row ends"]
    assert read.chain_counts is not None and read.chain_counts.value is False
    assert read.gauge is not None and read.gauge.stitches == 20


@pytest.mark.parametrize(
    ("form", "says"),
    [
        (">\n      R1: 6 sc", "joined into one line"),
        ('"R1: 6 sc"', "in quotes"),
        ("R1 6 sc\n      R2 inc", "run together"),
        ("\n      - 6 sc\n      - inc", "plain lines"),
        ("\n      R1: 6 sc\n      R2: inc", "plain lines"),
    ],
)
@pytest.mark.parametrize("key", ["body", "body:\n    rounds"])
def test_rounds_in_another_form_are_told_how_to_be_written(key: str, form: str, says: str) -> None:
    text = f"terms: US\npieces:\n  {key}: {form}\n"
    found = finding(text)
    assert (found.check, found.piece) == ("text-form", "body")
    assert says in found.message
    assert "|`" in found.mend
    assert loaded(text).pieces[0].rounds is None


def test_a_folded_sign_can_be_put_right() -> None:
    (edit,) = finding("terms: US\npieces:\n  body: >-\n    R1: 6 sc\n").edits
    assert (edit.span.text, edit.text) == (">-", "|")


@pytest.mark.parametrize(
    "name", ["front", "left back", "body R2", "r 12", "far side", "row ends", "loop", "free end"]
)
def test_a_name_that_edges_need_is_refused(name: str) -> None:
    found = finding(f"terms: US\npieces:\n  {name}: |\n    R1: 6 sc\n")
    assert (found.check, found.span.text, found.piece) == ("piece-name", name, name)


@pytest.mark.parametrize("name", ["backpack", "r2d", "upper", "freesia", "rim"])
def test_other_names_are_free(name: str) -> None:
    assert findings(f"terms: US\npieces:\n  {name}: |\n    R1: 6 sc\n") == []


# ---- assembly ----
def test_the_verbs() -> None:
    join = verb(
        "join: {edge: arm, to: body, by: backstitch, at: {footprint: R8-R11, stitches: 5},"
        " around: {mark: tip, free: [8, 10]}, loops: both loops, ease: yes, stuffed: while closing}"
    )
    assert isinstance(join, Join)
    assert join.at is not None and join.at.footprint is not None
    assert join.at.footprint.value == "R8-R11"
    assert join.around is not None and [n.value for n in join.around.free] == [8, 10]
    assert join.loops is not None and join.loops.value == "both"
    place = verb(
        "place: {item: eyes, piece: body, between: [R4, Rnd 5], around: {st: 3, apart: 0}}"
    )
    assert isinstance(place, Place)
    assert [label.value for label in place.between] == ["R4", "R5"]
    assert isinstance(verb("stuff: {piece: body, how: firmly}"), Stuff)
    assert isinstance(verb("close: {edge: body, by: gather}"), Close)
    assert isinstance(verb("insert: {item: rod, piece: body, length: 30 cm}"), Insert)
    assert isinstance(verb("embroider: {piece: body, with: chalk, strands: 2}"), Embroider)


def test_an_entry_has_its_wording_and_its_time() -> None:
    entry = "  - stuff: {piece: body}\n    after: body R1\n    step: Now.\n"
    (step,) = loaded(f"{BODY}assembly:\n{entry}").assembly
    assert step.step is not None and step.after is not None
    assert (step.step.value, step.after.value) == ("Now.", "body R1")
    assert step.span.text.startswith("stuff:") and step.span.text.endswith("Now.")


@pytest.mark.parametrize(
    ("entry", "says"),
    [
        ("Sew the arms on.", "one verb"),
        ("{step: Sew the arms on.}", "no verb"),
        ("{stuff: {piece: body}, close: {edge: body, by: gather}}", "2 verbs"),
    ],
)
def test_an_entry_without_just_one_verb_is_reported(entry: str, says: str) -> None:
    found = finding(f"terms: US\n{BODY}assembly:\n  - {entry}\n")
    assert found.check == "value-kind"
    assert says in found.message


# ---- the rest ----
def test_the_specimen() -> None:
    text = f"""\
specimen:
  name: common limpet
  scientific: Patella vulgata
  real_size: {{height: 2 cm, span: 6 cm, source: 1}}
  parts: {{shell: A low cone.}}
  simplified: The ribs are left out.
  statements: [{{says: It comes back to its scar., source: 1}}]
  references: [A book of the shore.]
{BODY}"""
    specimen = loaded(text).specimen
    assert specimen is not None and specimen.real_size is not None and specimen.parts is not None
    assert specimen.real_size.span_ is not None
    assert specimen.real_size.span_.value == pytest.approx(60)
    assert specimen.parts["shell"].value == "A low cone."
    assert [t.value for t in specimen.simplified] == ["The ribs are left out."]
    assert specimen.statements[0].source is not None
    assert specimen.statements[0].source.value == 1


def test_special_stitches() -> None:
    stitches = "stitches:\n  frond: {uses: 1, makes: 2, height: 4, how: ch 4}\n  bare: {how: x}\n"
    frond, plain = loaded(stitches + BODY).stitches
    assert (frond.key, frond.makes, frond.height) == ("frond", 2, 4)
    assert (plain.uses, plain.makes, plain.height) == (1, 1, 1)


def test_questions_are_texts_one_or_several() -> None:
    assert [t.value for t in loaded(f"open: [one, two]\n{BODY}").open] == ["one", "two"]
    assert [t.value for t in loaded(f"open: Only this?\n{BODY}").open] == ["Only this?"]
