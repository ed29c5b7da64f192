"""Plain text keeps every place."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from notation.texts import as_text, read
from roundproof.notation.tokens import Lexicon, plain
from roundproof.pattern.model import Terms
from roundproof.reference import stitches, terms


@given(st.text())
def test_plain_text_is_as_long_as_what_was_typed(text: str) -> None:
    assert len(plain(text)) == len(text)


def test_words_of_the_tables_are_plain_in_small_letters() -> None:
    words = {word for term in terms().values() for word in term.words}
    words |= {word for kind in stitches().values() for word in (*kind.us, *kind.uk)}
    assert all(plain(word) == word.lower() for word in words)


@given(st.text(alphabet=st.characters(exclude_characters="\r\n")))
def test_tokens_stand_where_they_say(text: str) -> None:
    lines = as_text(text).lines
    assert lines is not None
    end = 0
    for token in Lexicon(Terms.US, {}).tokens(lines[0]):
        assert token.span.start >= end
        assert token.span.text
        end = token.span.end


VOCABULARY = """
    sc inc dec 6 x ( ) [ ] * ; , : in next st each around R2 R3-R5 12 (12) ch 2nd from hook BLO
    turn rep from * to last 3 sts leave unworked with A hdc2tog - = magic ring 999999999999
"""
WORDS = st.sampled_from(VOCABULARY.split())


@given(st.lists(WORDS, max_size=25).map(" ".join))
def test_any_jumble_of_words_is_read_or_reported(text: str) -> None:
    script, findings = read(f"R1: {text}")
    unread = [r for r in script.rounds if not (r.readings or r.repeats or r.stray)]
    assert len(unread) <= len(findings)
