import re

import pytest

from rendering import proof_of
from roundproof.drawing.colour import GROUNDS, contrast, read_shade
from roundproof.pages.yarns import css_string, yarn_rules, yarn_sheet
from roundproof.pattern.model import Pattern
from whole_patterns import PEBBLE


def pattern_of(text: str) -> Pattern:
    return proof_of(text).pattern


def shades(sheet: str, name: str) -> list[str]:
    return re.findall(rf"{name}: (#[0-9A-F]{{6}})", sheet)


def test_each_yarn_has_its_shade_and_what_is_made_of_it() -> None:
    sheet = yarn_sheet(pattern_of(PEBBLE))
    assert sheet.startswith(".y1 { --y: #6D7680; --y-on: #FFFFFF; --y-pale: #")
    assert ".y2 { --y: #ECEAE4; --y-on: #000000; " in sheet
    white, cream, dark = GROUNDS
    accents = [read_shade(shade) for shade in shades(sheet, "--accent")]
    for shade, ground in zip(accents, (white, cream, dark, dark), strict=True):
        assert shade is not None
        assert contrast(shade, ground.paper) >= 7


def test_a_scope_holds_every_rule_of_a_yarn() -> None:
    rules = yarn_rules(pattern_of(PEBBLE), ".of-3")
    for line in rules.splitlines():
        if ".y" in line:
            assert ".of-3 .y" in line


def test_the_foot_of_the_print_says_name_version_terms_and_contact() -> None:
    sheet = yarn_sheet(pattern_of(PEBBLE))
    assert 'content: "Pebble 1.2.0, 2026\\2D 05\\2D 04, US terms, errata\\40 example.org"' in sheet
    assert (
        '@page other-terms { @bottom-left { content: "Pebble 1.2.0, 2026\\2D 05\\2D 04, UK terms'
        in sheet
    )
    assert '@page test-copy { @bottom-left { content: "Test copy, not for sharing. Pebble' in sheet
    assert sheet.count('"Page " counter(page) " of " counter(pages)') == 4


@pytest.mark.parametrize(
    "text", ['"; } * { display: none', "a\\", "line\nbreak", "</style>", "/* */", "Ω ✓ 'x'"]
)
def test_no_text_can_end_its_string(text: str) -> None:
    written = css_string(text)
    assert re.fullmatch(r'"(?:[A-Za-z0-9 .,]|\\[0-9A-F]+ )*"', written)
    read = re.sub(r"\\([0-9A-F]+) ", lambda m: chr(int(m[1], 16)), written[1:-1])
    assert read == text


def test_a_title_without_end_is_cut() -> None:
    sheet = yarn_sheet(pattern_of(PEBBLE.replace("title: Pebble", f"title: {'very ' * 100}long")))
    assert max(map(len, sheet.splitlines())) < 500


def test_a_shade_that_is_none_cannot_get_into_the_sheet() -> None:
    evil = PEBBLE.replace('"#6d7680"', '"red; } body { display: none"')
    sheet = yarn_sheet(pattern_of(evil))
    assert "display" not in sheet
    assert re.search(r"\.y1 \{ --y: #[0-9A-F]{6};", sheet)


def test_a_pattern_without_yarns_has_a_sheet_all_the_same() -> None:
    sheet = yarn_sheet(pattern_of("terms: US\npieces:\n  a: |\n    6 sc in magic ring\n"))
    assert "--accent" not in sheet
    assert '"example, US terms"' in sheet
