from rendering import proof_of
from roundproof.pages.prose import inline, plain_text, prose
from roundproof.pages.wording import unbroken
from whole_patterns import PEBBLE

PATTERN = proof_of(PEBBLE).pattern


def test_one_paragraph_stands_in_a_line_and_several_stay_paragraphs() -> None:
    assert inline("Hand wash.") == "Hand wash."
    assert inline("One.\n\nTwo.") == "<p>One.</p>\n<p>Two.</p>"
    assert prose(None) == ""


def test_braces_are_notation_where_there_is_a_pattern() -> None:
    assert inline("{12 sc}", PATTERN) == (
        '<span class="us">12\u00a0sc</span><span class="uk" hidden>12\u00a0dc</span>'
    )
    assert inline("{12 sc}") == "{12 sc}"


def test_braces_around_other_words_print_the_words() -> None:
    assert inline("a {quite other} thing", PATTERN) == "a quite other thing"
    assert inline("{<b>}", PATTERN) == "&lt;b&gt;"


def test_the_signs_used_within_are_not_let_in_from_outside() -> None:
    assert inline("\ue0000\ue001 {3 sc}", PATTERN).startswith("0 <span")


def test_plain_text_has_neither_tags_nor_braces() -> None:
    assert plain_text("**Bold** and {3 sc},\n\na <18> & [link](https://example.org).") == (
        "Bold and 3 sc, a <18> & link."
    )


def test_a_number_stays_with_what_it_counts() -> None:
    assert unbroken("2 sc, inc x 6") == "2\u00a0sc, inc\u00a0×\u00a06"
    assert unbroken("100 % cotton, 3.5 mm") == "100\u00a0% cotton, 3.5\u00a0mm"
    assert unbroken("between R4 and R5, sts 8 and 9") == "between R4 and R5, sts 8 and 9"
