"""What the licences let a maker do, held against the legal code of each.

The lines of section 2(a)(1) of version 4.0 are quoted from the texts of the SPDX licence list, as
the npm package spdx-license-list 6.12.0 carries them; section 3(b), ShareAlike, stands in those of
BY-SA and BY-NC-SA alone.
"""

from __future__ import annotations

import pytest

from rendering import proof_of
from roundproof.pages.credits import credited, credits
from roundproof.pages.licences import answers, licence_of
from roundproof.pages.wording import plain
from whole_patterns import PEBBLE

GRANTS = {
    "CC-BY-4.0": (
        "reproduce and Share the Licensed Material, in whole or in part; and",
        "produce, reproduce, and Share Adapted Material.",
        False,
    ),
    "CC-BY-SA-4.0": (
        "reproduce and Share the Licensed Material, in whole or in part; and",
        "produce, reproduce, and Share Adapted Material.",
        True,
    ),
    "CC-BY-NC-4.0": (
        "reproduce and Share the Licensed Material, in whole or in part, for NonCommercial purposes"
        " only; and",
        "produce, reproduce, and Share Adapted Material for NonCommercial purposes only.",
        False,
    ),
    "CC-BY-NC-SA-4.0": (
        "reproduce and Share the Licensed Material, in whole or in part, for NonCommercial purposes"
        " only; and",
        "produce, reproduce, and Share Adapted Material for NonCommercial purposes only.",
        True,
    ),
    "CC-BY-ND-4.0": (
        "reproduce and Share the Licensed Material, in whole or in part; and",
        "produce and reproduce, but not Share, Adapted Material.",
        False,
    ),
    "CC-BY-NC-ND-4.0": (
        "reproduce and Share the Licensed Material, in whole or in part, for NonCommercial purposes"
        " only; and",
        "produce and reproduce, but not Share, Adapted Material for NonCommercial purposes only.",
        False,
    ),
}
"""By name: what may be done with the material and with what is made of it, and is there 3(b)?"""


@pytest.mark.parametrize("name", GRANTS)
def test_the_answers_grant_what_the_legal_code_grants(name: str) -> None:
    share, adapt, alike = GRANTS[name]
    licence = licence_of(name)
    assert licence is not None
    told = dict(answers(licence))
    assert told["Print it"].startswith("Yes")
    # Section 3(a)(1): creator, licence and changes stay with every copy that is shared.
    assert "the designer's name" in told["Print it"] and "the licence" in told["Print it"]
    paid = "NonCommercial" not in share
    assert ("make money" not in told["Print it"]) is paid
    assert told["Sell what you make"].startswith("Yes") is paid
    for question in ("Change it", "Translate it"):
        assert ("may not be handed on" in told[question]) is ("but not Share" in adapt), question
        assert ("under the same licence" in told[question]) is alike, question
    if "but not Share" not in adapt:
        assert ("make money" not in told["Change it"]) is ("NonCommercial" not in adapt)
    # Section 1(a): material that is translated is Adapted Material.
    assert told["Translate it"].endswith(told["Change it"])


def test_what_is_given_away_asks_for_nothing() -> None:
    # CC0 1.0 (2009), section 2: waived "for any purpose whatsoever, including without limitation
    # commercial, advertising or promotional purposes".
    licence = licence_of("CC0-1.0")
    assert licence is not None
    for question, answer in answers(licence):
        assert "yes" in answer.casefold() and "make money" not in answer, question
        assert "may not" not in answer


@pytest.mark.parametrize(
    ("text", "words", "address"),
    # The licences' own addresses, as the legal code names them.
    [
        ("CC-BY-4.0", "CC BY 4.0", "https://creativecommons.org/licenses/by/4.0/"),
        (
            "cc by-nc-sa 4.0",
            "CC BY-NC-SA 4.0",
            "https://creativecommons.org/licenses/by-nc-sa/4.0/",
        ),
        ("CC-BY-ND-3.0", "CC BY-ND 3.0", "https://creativecommons.org/licenses/by-nd/3.0/"),
        ("CC0", "CC0 1.0", "https://creativecommons.org/publicdomain/zero/1.0/"),
    ],
)
def test_a_licence_is_known_by_its_name(text: str, words: str, address: str) -> None:
    licence = licence_of(text)
    assert licence is not None
    assert (licence.words, licence.address) == (words, address)


@pytest.mark.parametrize("text", ["", "all rights reserved", "CC", "CC-BY-4.0 but not for sale"])
def test_other_words_are_no_licence(text: str) -> None:
    assert licence_of(text) is None


def test_the_credits_count_what_is_under_each_licence() -> None:
    own = PEBBLE.replace("licence: CC-BY-4.0", "licence: Ask me first.")
    photo = PEBBLE.replace("shows: finished, by", "shows: finished, licence: CC-BY-SA-3.0, by")
    found = credits(credited(proof_of(text).pattern) for text in (PEBBLE, own, photo))
    assert [(row.words, row.patterns, row.photos) for row in found.licences] == [
        ("CC BY 4.0", 2, 0),
        ("CC BY-SA 3.0", 0, 1),
    ]
    assert found.licences[0].note == ""
    assert "Version 3.0" in found.licences[1].note
    assert found.own_words == 1
    assert found.designers == found.photographers == ("Roundproof examples",)
    assert plain(found.licences[0].address)
