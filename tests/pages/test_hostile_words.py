"""HTML, script and links that do things, in every text field of a pattern, stay words."""

import re

import pytest

from rendering import copy_for_testers, elements, page_of, proof_of, text_of_page
from roundproof.pages.pattern import pattern_page
from roundproof.pages.values import Picture
from whole_patterns import PEBBLE

EVIL = "<script>alert(1)</script><img src=x onerror=alert(2)>\\\"'{{7*7}}</style>"
LINK = "[here](javascript:alert(3)) [there](data:text/html,x) ![p](https://example.com/p.png)"
REAL = {"script", "img", "iframe", "object", "style", "link", "base", "meta"}

# Every place of the file where a designer can write words, each once.
FIELDS = {
    "title: Pebble": 'title: "{}"',
    "version: 1.2.0\ndate": 'version: "{}"\ndate',
    "summary: A small stone, worked with {12 sc} round its middle.": 'summary: "{}"',
    "designer: Roundproof examples": 'designer: "{}"',
    "contact: errata@example.org": 'contact: "{}"',
    "licence: CC-BY-4.0\nsize": 'licence: "{}"\nsize',
    "with: rim": 'with: "{}"',
    "letter: A": 'letter: "{}"',
    "name: slate grey": 'name: "{}"',
    'shade: "#6d7680"': 'shade: "{}"',
    "fibre: 100 % cotton": 'fibre: "{}"',
    "fibrefill 1 g": '"{}"',
    "item: safety eyes, size": 'item: "{}", size',
    "hazard: small part": 'hazard: "{}"',
    "or: embroidered eyes": 'or: "{}"',
    "note: The eyes are small hard parts. Keep them from young children.": 'note: "{}"',
    "care: Hand wash cool.": 'care: "{}"',
    "name: Upper": 'name: "{}"',
    "stands_for: upper surface": 'stands_for: "{}"',
    "front: R4 between 9 and 10": 'front: "R4 {}"',
    "Note: Now with <b>the other</b> colour: {3 sc} in a row.": "Note: {}",
    "Fasten off, leaving a 20 cm tail.": "Fasten off, {}",
    "R2: inc in each st around (12)": "R2: {}",
    "step: Whipstitch the under to the upper over {18 sc}.": 'step: "{}"',
    "by: whipstitch, stuffed": 'by: "{}", stuffed',
    'alt: "A grey stone"': 'alt: "{}"',
    "shows: finished": 'shows: "{}"',
    "name: Pebble\n  scientific": 'name: "{}"\n  scientific',
    "scientific: Lapis fictus (Nobody, 1900)": 'scientific: "{}"',
    "The side that is seen.": '"{}"',
    "[It is rounder than a stone.]": '["{}"]',
    "says: Stones are hard.": 'says: "{}"',
    '["A book of stones."]': '["{}"]',
    'note: "Clearer words for {sc} around."': 'note: "{}"',
}


def with_words(words: str, field: str) -> str:
    assert PEBBLE.count(field) >= 1, field
    in_rounds = field.startswith(("Note:", "Fasten", "R2:"))
    text = words.replace('\\"', '"') if in_rounds else words
    return PEBBLE.replace(field, FIELDS[field].replace("{}", text), 1)


def is_ours(tag: str, attributes: dict[str, str | None]) -> bool:
    """A script of the theme, or data for one."""
    ours = re.fullmatch(r"(\.\./)*js/[a-z]+\.js", attributes.get("src") or "")
    data = re.fullmatch(r"application/(ld\+)?json", attributes.get("type") or "")
    return tag == "script" and bool(ours or data)


def assert_harmless(html: str) -> None:
    for tag, attributes in elements(html):
        assert tag not in REAL or tag in ("link", "meta") or is_ours(tag, attributes), tag
        if tag == "link":
            assert re.fullmatch(r"(\.\./\.\./)?(css/)?[a-z_]+\.(css|svg)", attributes["href"] or "")
        for name, value in attributes.items():
            assert not name.startswith("on") and name != "style", (tag, name)
            address = (value or "").strip().lower()
            if name in ("href", "src", "action"):
                assert not address.startswith(("javascript:", "data:", "vbscript:")), value


@pytest.mark.parametrize("field", FIELDS)
def test_no_field_can_put_an_element_into_the_page(field: str) -> None:
    for words in (EVIL, LINK):
        text = with_words(words, field)
        assert_harmless(page_of(text))
        assert_harmless(copy_for_testers(text))


def test_words_that_look_like_html_are_printed_as_they_stand() -> None:
    html = page_of(with_words("<b>a</b> <18> & <script>", "care: Hand wash cool."))
    assert "<b>a</b> <18> & <script>" in text_of_page(html)


def test_the_words_of_a_photo_stay_words() -> None:
    text = with_words(EVIL, 'alt: "A grey stone"')
    pictures = {"finished.png": Picture("photos/f.png", 4, 3)}
    (photo,) = pattern_page(proof_of(text), pictures).photos
    assert photo.alt.startswith("<script>")  # plain text; the template escapes it


def test_markdown_works_and_its_unsafe_links_do_not() -> None:
    words = f"**Bold**, [web](https://example.org/a?b=1&c=2). {LINK}"
    html = page_of(with_words(words, "care: Hand wash cool."))
    assert "<strong>Bold</strong>" in html
    links = [a["href"] for tag, a in elements(html) if tag == "a" and "href" in a]
    assert "https://example.org/a?b=1&c=2" in links


def test_notation_inside_a_link_s_address_cannot_break_out_of_it() -> None:
    words = '[x](https://example.org/{sc}\\" onclick=\\"alert(1))'
    assert_harmless(page_of(with_words(words, "care: Hand wash cool.")))
