"""YAML is read into nodes with places, and no file is too broken for a finding."""

from __future__ import annotations

from itertools import pairwise

import pytest

from loading import BODY, finding, findings, source
from roundproof.findings import Finding, Severity
from roundproof.pattern.nodes import MAX_DEPTH, MAX_VALUES, Map, Scalar, Seq, tree
from roundproof.pattern.traps import FILE_UNUSABLE


def read(text: str) -> Map:
    root, found = tree(source(text))
    assert root is not None and found == ()
    return root


def refused(text: str) -> Finding:
    root, found = tree(source(text))
    assert root is None
    (only,) = found
    assert (only.check, only.severity) == (FILE_UNUSABLE, Severity.ERROR)
    return only


# ---- places ----
def test_values_are_the_text_they_were() -> None:
    root = read("a: 1.10\nb: yes\nc: 2026-05-04\nd: ~\ne: 0x1F\n")
    texts = [e.value.text for e in root.entries if isinstance(e.value, Scalar)]
    assert texts == ["1.10", "yes", "2026-05-04", "~", "0x1F"]


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_every_value_stands_at_its_own_words(line_end: str) -> None:
    text = line_end.join(
        [
            "# a comment",
            "title:   Pebble  # a stone",
            "yarns:",
            "  slate: {weight: 3, x: 'it''s'}",
            "",
        ]
    )
    root = read(text)
    assert [e.key.span.text for e in root.entries] == ["title", "yarns"]
    title, yarns = (e.value for e in root.entries)
    assert title.span.text == "Pebble"
    assert title.span.begins == (2, 10)
    assert isinstance(yarns, Map)
    slate = yarns.get("slate")
    assert slate is not None and slate.span.text == "{weight: 3, x: 'it''s'}"
    assert isinstance(slate, Map)
    assert [e.value.span.text for e in slate.entries] == ["3", "'it''s'"]


def test_groups_end_with_their_last_value() -> None:
    root = read("a:\n  b:\n    - c\n    - d e\n\n# after\nf: g\n")
    value = root.entries[0].value
    assert value.span.text == "b:\n    - c\n    - d e"
    assert isinstance(value, Map) and isinstance(value.entries[0].value, Seq)


def test_a_byte_order_mark_is_passed_over() -> None:
    assert read("\ufefftitle: Pebble\n").entries[0].key.text == "title"


# ---- what is not used here ----
@pytest.mark.parametrize(
    ("value", "words"),
    [
        ("summary: *stone", "*stone"),
        ("summary: &stone grey", "&stone"),
        ("summary: !stone grey", "!stone"),
        ("open: [*a, *a]", "*a"),
    ],
)
def test_shorthand_is_reported_at_its_words(value: str, words: str) -> None:
    found = findings(f"{value}\nterms: US\n{BODY}")
    assert found[0].check == "value-shorthand"
    assert found[0].span.text == words


def test_an_alias_bomb_does_not_go_off() -> None:
    lines = ["a: &a [x, x]", *(f"{b}: &{b} [*{a}, *{a}]" for a, b in pairwise("abcdefghi"))]
    assert {f.check for f in findings("\n".join(lines))} == {"value-shorthand", "key-unknown"}


def test_a_key_given_twice_is_reported_where_it_comes_again() -> None:
    found = finding(f"title: Pebble\nterms: US\ntitle: Boulder\n{BODY}")
    assert (found.check, found.span.begins) == ("key-doubled", (3, 1))
    assert "line 1" in found.message


def test_a_key_that_is_no_word_is_reported() -> None:
    assert finding(f"? [a, b]\n: c\nterms: US\n{BODY}").check == "value-kind"


# ---- the hash sign ----
def test_a_shade_lost_behind_a_hash_is_reported_and_mended() -> None:
    found = finding(f"terms: US\nyarns:\n  a:\n    colour:\n      shade: #6d7680\n{BODY}")
    assert (found.check, found.span.text) == ("text-cut", "#6d7680")
    assert [edit.text for edit in found.edits] == ['"#6d7680"']


def test_words_lost_behind_a_hash_are_reported() -> None:
    found = finding(f"terms: US\nsummary: Use hook #3 for it\n{BODY}")
    assert (found.check, found.span.text) == ("text-cut", "#3 for it")


@pytest.mark.parametrize(
    "line", ["title: A # a comment", "title: A   #close", "title: 'A' #close", "open: # none"]
)
def test_comments_are_left_alone(line: str) -> None:
    assert findings(f"{line}\nterms: US\n{BODY}") == []


# ---- bounds ----
@pytest.mark.parametrize(
    "text",
    [
        "[" * 5000,
        "a: " + "{" * 5000,
        "- " * 5000 + "a",
        "\n".join(" " * n + "a:" for n in range(300)),
        "a: " + "[" * 5000 + "]" * 5000,
    ],
)
def test_deep_nesting_is_refused_at_the_level_that_is_too_much(text: str) -> None:
    assert str(MAX_DEPTH) in refused(text).message


def test_depth_up_to_the_bound_is_read() -> None:
    deep = MAX_DEPTH - 1
    read("a: " + "[" * deep + "]" * deep)


def test_too_many_values_are_refused() -> None:
    text = "a: [" + "x, " * (MAX_VALUES + 1) + "]"
    assert f"{MAX_VALUES:,}" in refused(text).message


# ---- files that cannot be used: where it shows, and what is said ----
TRAPS = [
    ("", "", "empty"),
    ("  \n\n", "", "empty"),
    ("# only this\n", "", "only comments"),
    ("- a\n- b\n", "- a\n- b", "keys"),
    ("Some prose.\n", "Some prose.", "keys"),
    ("title: Pebble: a stone\n", ":", "second colon"),
    ("a:\n  - step: Note: sew it\n", ":", "second colon"),
    ("pieces:\n\tbody: x\n", "\t", "tab"),
    ("pieces:\n  body: |\n\tR1: 6 sc\n", "\t", "tab"),
    ("yarns:\n  a: {shade: #6d7680}\ntitle: b\n", "{", "comment"),
    ("summary: Use #3 for\n  the eyes\n", "t", "cut off"),
    ("title: * sea *\n", " ", "starts with"),
    ("title: @sea\n", "@", "starts with"),
    ("title: %sea\n", "%", "starts with"),
    ("title: `sea`\n", "`", "starts with"),
    ("%sea\ntitle: x\n", "t", "starts with"),
    ('title: "Pebble\nterms: US\n', '"', "never closed"),
    ('title: "Peb\\qle"\n', "q", "`\\`"),
    ('title: "\\UFFFFFFFF"\n', "", "cannot be read"),
    ("title: 'it's'\n", "s", "closing quotation mark"),
    ("open: [a] b\n", "b", "closing bracket"),
    ("size: {height: 2 cm\ntitle: x\n", "{", "`{`"),
    ("open: [a, b\ntitle: x\n", "[", "`[`"),
    ("size: {a: b: c}\n", ":", "cannot be read"),
    ("title\nterms: US\n", ":", "no colon"),
    ("title: x\npieces\n  body: y\n", "p", "no colon"),
    ("title: x\n  level: easy\n", ":", "indented"),
    ("a:\n  b: c\n d: e\n", "d", "does not stand under"),
    ("- a\nb: c\n", "b", "does not stand under"),
    ("pieces:\n  body: |\n    x\n   y\n", "y", "indented less"),
    ("open: - a\n", "-", "list"),
    ("pieces:\n  body:\n    R1: 6 sc\n    (sc, inc) x 6\n", "(", "look like rounds"),
    ("title: x\n---\ntitle: y\n", "---", "second text"),
    ("title: x\n...\ny\n", "", "second text"),
    ("title: a\x07b\n", "\x07", "cannot be seen"),
    ("title: a\0b\n", "\0", "cannot be seen"),
]


@pytest.mark.parametrize(("text", "words", "says"), TRAPS)
def test_a_trap_is_told_in_plain_words_at_its_place(text: str, words: str, says: str) -> None:
    found = refused(text)
    assert found.span.text == words
    assert says in found.message
    assert found.mend


@pytest.mark.parametrize("odd", ["\\0", "\\x07", "\\ud800"])
def test_a_character_that_cannot_be_printed_does_not_get_in(odd: str) -> None:
    found = finding(f'title: "a{odd}b"\nterms: US\n{BODY}')
    assert found.check == "value-kind"
    root, _ = tree(source(f'title: "a{odd}b"\n'))
    assert root is not None
    assert root.get("title") == Scalar("a\ufffdb", root.entries[0].value.span, '"')
