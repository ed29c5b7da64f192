"""Markup of a page as plain values for paper."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from markupsafe import escape

from roundproof.pages.paper.nodes import Choice, nodes, text_of

BOTH = (
    '<p><b>Now.</b> <span class="us">sc</span><span class="uk" hidden>dc</span>, '
    '<span class="cm">6\u00a0cm</span><span class="inch" hidden>2½\u00a0in</span>, '
    '<span class="rh">right</span><span class="lh" hidden>left</span></p>'
)


def test_one_of_each_pair_is_printed() -> None:
    assert text_of(nodes(BOTH, Choice())) == "Now. sc, 6\u00a0cm (2½\u00a0in), right"
    other = Choice(terms="uk", units="inch", left_handed=True)
    assert text_of(nodes(BOTH, other)) == "Now. dc, 2½\u00a0in, left"
    assert text_of(nodes(BOTH, Choice(units="cm"))) == "Now. sc, 6\u00a0cm, right"


def test_short_or_written_out() -> None:
    work = '<span class="ab">2 sc</span><span class="out" hidden>Single crochet twice.</span>'
    assert text_of(nodes(work, Choice())) == "2 sc"
    assert text_of(nodes(work, Choice(written_out=True))) == "Single crochet twice."


def test_what_stands_in_what() -> None:
    found = nodes('<p>a <em>b</em> <a href="https://example.org">c</a></p>', Choice())
    assert found == [
        ["p", {}, ["a ", ["em", {}, ["b"]], " ", ["a", {"href": "https://example.org"}, ["c"]]]]
    ]
    assert nodes("<ul><li>a</li><li>b</li></ul>", Choice()) == [
        ["ul", {}, [["li", {}, ["a"]], ["li", {}, ["b"]]]]
    ]


def test_pictures_and_scripts_are_left_out() -> None:
    assert nodes('a<svg><title>x</title></svg><script>y</script>b<img src="z">', Choice()) == [
        "a",
        "b",
    ]


@given(st.text())
def test_any_text_comes_out_as_it_is(text: str) -> None:
    shown = str(escape(text))
    got = text_of(nodes(f"<p>{shown}</p>", Choice()))
    # HTML has no carriage returns and no null character of its own.
    assert got == text.replace("\r\n", "\n").replace("\r", "\n").replace("\0", "\ufffd") or (
        got == text
    )
