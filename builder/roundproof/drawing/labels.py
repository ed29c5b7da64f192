"""Words in drawings that do not lie on one another.

How wide words are is told from above: no letter of the theme's font, nor of those that stand in
for it in a file, is wider than this takes it for.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from roundproof.drawing.shapes import Box, Group, Shape, Text
from roundproof.frozen import replace

SIZE = 12.0
"""Units that a letter is high, in every drawing that has its own words."""
LINE = 14.0
"""From one line of words to the next."""
RISE = 4.0
"""From the middle of a line of words down to its foot."""

_NARROW, _WIDE = frozenset("iljtfr.,:;'!|()[]-/"), frozenset("mwMWQO@%&—…+=<>¼½¾ÆæŒœ")
_SHARES = (0.46, 0.36, 1.02, 0.74, 0.64)

Spot = tuple[float, float, str]
"""Where words might go: x, the middle of the line, and which end of them is at x."""


def width_of(words: str, css: str = "words") -> float:
    """No less than the words are wide."""
    share = sum(_share(letter) for letter in words)
    return SIZE * share * (1.14 if "strong" in css.split() else 1.0)


def _share(letter: str) -> float:
    narrow, space, wide, capital, other = _SHARES
    if letter in _NARROW:
        return narrow
    if letter in " \u00a0":
        return space
    if letter in _WIDE or (ord(letter) > 0x24F and letter != "–"):
        return wide
    return capital if letter.isupper() else other


def box_of(text: Text) -> Box:
    """What a line of words covers."""
    assert isinstance(text.x, float | int) and isinstance(text.y, float | int)
    x, y, wide = text.x, text.y, width_of(text.words, text.css)
    left = {"end": x - wide, "middle": x - wide / 2}.get(text.anchor, x)
    return Box(left, y - 0.8 * SIZE, wide, SIZE)


def meet(one: Box, two: Box) -> bool:
    """Whether two boxes have more than an edge in common."""
    across = min(one.x + one.width, two.x + two.width) - max(one.x, two.x)
    down = min(one.y + one.height, two.y + two.height) - max(one.y, two.y)
    return across > 0.01 and down > 0.01


def texts(shapes: Iterable[Shape]) -> Iterator[Text]:
    """All words of a drawing that is not turned."""
    for shape in shapes:
        if isinstance(shape, Text):
            yield shape
        elif isinstance(shape, Group):
            for text in texts(shape.shapes):
                x, y = float(str(text.x)), float(str(text.y))
                yield replace(text, x=shape.x + x, y=shape.y + y)


def placed(
    words: str,
    spots: Iterable[Spot],
    taken: Sequence[Box],
    css: str = "words",
    room: Box | None = None,
) -> Text | None:
    """The words at the first of some spots where they lie on nothing, and between the left and the
    right of their room; None if there is none."""
    for x, y, anchor in spots:
        text = Text(x, y + RISE, words, css, anchor)
        box = box_of(text)
        if room is not None and not (room.x <= box.x and _end(box) <= _end(room)):
            continue
        if not any(meet(box, other) for other in taken):
            return text
    return None


def _end(box: Box) -> float:
    return box.x + box.width - 1e-9


def cut(words: str, room: float, css: str = "words") -> str:
    """As much of the words as there is room for, with a sign that there is more."""
    if width_of(words, css) <= room:
        return words
    while words and width_of(words + "…", css) > room:
        words = words[:-1]
    return words.rstrip() + "…"


def lines(words: str, room: float, css: str = "words", most: int = 3) -> list[str]:
    """Words broken into lines; what is too long for `most` of them is cut."""
    found: list[str] = []
    for word in words.split(" "):
        longer = f"{found[-1]} {word}" if found else word
        if found and width_of(longer, css) <= room:
            found[-1] = longer
        else:
            found.append(word)
    if len(found) > most:
        found = [*found[: most - 1], " ".join(found[most - 1 :])]
    return [cut(line, room, css) for line in found]


def spread_out(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Places near the wanted ones, which are in order, at least `gap` apart and, where there is
    room for all, between `low` and `high`: each run of crowded ones lies about its middle."""
    runs: list[list[float]] = []
    for place in wanted:
        runs.append([place])
        while len(runs) > 1 and _first(runs[-1], gap) < _last(runs[-2], gap) + gap:
            late = runs.pop()
            runs[-1] += late
    found = [_first(run, gap) + n * gap for run in runs for n in range(len(run))]
    for n in range(len(found)):
        found[n] = max(found[n], low + n * gap)
    for n in range(len(found)):
        back = len(found) - 1 - n
        found[back] = min(found[back], high - n * gap)
    return found


def _first(run: Sequence[float], gap: float) -> float:
    return sum(run) / len(run) - (len(run) - 1) * gap / 2


def _last(run: Sequence[float], gap: float) -> float:
    return sum(run) / len(run) + (len(run) - 1) * gap / 2
