"""Drawings of which no round can be told."""

from __future__ import annotations

import re

from rendering import proof_of
from roundproof.drawing.coarse import BETWEEN, GRID, PLACES, coarse
from roundproof.drawing.profile import Profile, profile
from roundproof.drawing.yarns import yarn_marks
from roundproof.pages.plate import plate
from whole_patterns import PEBBLE

BALL = """\
terms: US
show: preview
yarns:
  slate: {{colour: {{name: slate, shade: "#6d7680"}}, gauge: {gauge} = 10 cm}}
pieces:
  ball:
    yarn: slate
    rounds: |
{rounds}
"""


def ball(step: int, gauge: int) -> str:
    """A ball of about the same size, of `step` times as many stitches and rounds."""
    counts = (
        [6 * n * step for n in (1, 2, 3, 4)] + [24 * step] * 4 + [6 * n * step for n in (3, 2, 1)]
    )
    rounds, before = [], 0
    for count in counts:
        for part in range(step):
            now = before + (count - before) * (part + 1) // step
            more = now - before_of(rounds, before)
            rounds.append((now, more))
        before = count
    text, held = [], 0
    for number, (now, _) in enumerate(rounds, 1):
        text.append(f"      R{number}: {round_of(held, now)} ({now})")
        held = now
    return BALL.format(gauge=f"{gauge} sts x {gauge} rounds", rounds="\n".join(text))


def before_of(rounds: list[tuple[int, int]], before: int) -> int:
    return rounds[-1][0] if rounds else before


def round_of(held: int, now: int) -> str:
    if not held:
        return f"{now} sc in magic ring"
    change = now - held
    if change > 0:
        return f"inc x {change}, {held - change} sc" if held > change else f"inc x {change}"
    if change < 0:
        rest = held + 2 * change
        return f"dec x {-change}, {rest} sc" if rest else f"dec x {-change}"
    return "sc around"


def drawn(text: str) -> str:
    figure = plate(proof_of(text))
    assert figure is not None
    return str(figure.svg)


def test_one_shape_in_other_rounds_gives_one_drawing() -> None:
    """11 rounds in a gauge of 20, and 22 rounds in one of 40: about the same ball, and the drawing
    has as many points, in the same places but for the grid."""
    numbers = [
        [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", drawn(ball(step, gauge)))]
        for step, gauge in ((1, 20), (2, 40))
    ]
    assert len(numbers[0]) == len(numbers[1])
    widest = max(map(abs, numbers[0]))
    apart = [abs(a - b) for a, b in zip(*numbers, strict=True)]
    assert max(apart) <= widest / 4


def test_no_line_of_a_round_is_drawn() -> None:
    svg = drawn(PEBBLE.replace("status: published", "status: published\nshow: preview"))
    assert "seam" not in svg
    assert "seam" in drawn(PEBBLE)
    assert svg.count('class="yarn') > 0
    figure = plate(proof_of(PEBBLE.replace("status: published", "status: draft\nshow: preview")))
    assert figure is not None and "Each line" not in figure.caption
    assert "drawn from its rounds" not in figure.title


def profiles() -> dict[str, Profile]:
    proof = proof_of(PEBBLE)
    marks = yarn_marks(proof.pattern)
    made = {
        key: profile(piece, proof.measures.pieces.get(key), marks)
        for key, piece in proof.fabric.pieces.items()
    }
    return {key: one for key, one in made.items() if one}


def test_every_piece_has_as_many_points_and_lies_on_the_grid() -> None:
    plain = profiles()
    rough = coarse(plain)
    assert rough.keys() == plain.keys()
    unit = max(max(one.width, one.height) for one in plain.values()) / GRID
    for key, one in rough.items():
        assert len(one.rings) == (PLACES - 1) * BETWEEN
        at_places = [one.opening, *(ring.radius for ring in one.rings[BETWEEN - 1 :: BETWEEN])]
        for radius in at_places:
            assert abs(radius / unit * 2 - round(radius / unit * 2)) < 1e-6
        assert len({ring.mark for ring in one.rings}) == 1
        assert abs(one.width - plain[key].width) <= 2.5 * unit
        assert abs(one.height - plain[key].height) <= unit


def test_a_pattern_without_gauge_has_no_drawing_of_its_counts() -> None:
    bare = "terms: US\nshow: preview\npieces:\n  body: |\n    6 sc in magic ring\n    inc around\n"
    assert plate(proof_of(bare)) is None
    assert plate(proof_of(bare.replace("show: preview\n", ""))) is not None
