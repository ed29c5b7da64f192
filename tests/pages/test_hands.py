"""Left and right for either hand. What counts as a side of the object: common practice, no source;
"right side" for the face of the fabric and "left" for what remains are the trade's words."""

import re

import pytest
from markupsafe import Markup

from roundproof.pages.hands import turned, turned_name

_PAIR = re.compile(r'<span class="rh">([^<]*)</span><span class="lh" hidden>([^<]*)</span>')


def for_either(html: Markup) -> str:
    return _PAIR.sub(r"[\1|\2]", str(html))


@pytest.mark.parametrize(
    ("words", "both"),
    [
        ("Sew the left claw on.", "Sew the [left|right] claw on."),
        ("Left eye, then the right one.", "[Left|Right] eye, then the [right|left] one."),
        ("Turn it to the right.", "Turn it to the [right|left]."),
        ("Begin at the crab's right side.", "Begin at the crab's [right|left] side."),
        ("Begin at the crab&#39;s right side.", "Begin at the crab&#39;s [right|left] side."),
        ("From its right side to its left.", "From its [right|left] side to its [left|right]."),
        ("the left side over the right side", "the [left|right] side over the [right|left] side"),
        ("Work clockwise.", "Work [clockwise|anticlockwise]."),
        ("Counter-clockwise round the eye", "[Counter-clockwise|Clockwise] round the eye"),
        ("the left-hand edge", "the [left|right]-hand edge"),
        ("on the <b>left</b> of", "on the <b>left</b> of"),
    ],
)  # fmt: skip
def test_sides_of_the_object_are_turned_round(words: str, both: str) -> None:
    assert for_either(turned(Markup(words))) == both.replace("<b>left</b>", "<b>[left|right]</b>")


@pytest.mark.parametrize(
    "words",
    [
        "The right side of the fabric faces out.",
        "with right sides together",
        "Keep the right side facing.",
        "Sew with the right side out.",
        "6 stitches are left over.",
        "Leave the left over yarn inside.",
        "the stitches left unworked",
        "Pull it tight right away.",
        "pictures show right-handed work",
        'see <a href="https://example.org/left">there</a>',
        "leftover yarn, upright, copyright",
    ],
)
def test_all_other_words_stay(words: str) -> None:
    assert turned(Markup(words)) == words


def test_the_name_of_a_piece_is_turned_and_escaped() -> None:
    assert for_either(turned_name("Left <claw>")) == "[Left|Right] &lt;claw&gt;"
    assert turned_name("Body") == "Body"
