"""Plain shapes, worked out before any of them is written as SVG.

Numbers are user units of the drawing they stand in; a Share is per cent of its width (or height).
`css` holds class names, separated by spaces. Nothing here is text that needs escaping except
`Text.words`, which the writer escapes.
"""

from __future__ import annotations

from roundproof.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Share:
    """Per cent of the width or height of the drawing."""

    value: float


Length = float | Share


@dataclass(frozen=True, slots=True)
class Rect:
    x: Length
    y: Length
    width: Length
    height: Length
    css: str = ""
    fill: str = ""


@dataclass(frozen=True, slots=True)
class Line:
    x1: Length
    y1: Length
    x2: Length
    y2: Length
    css: str = ""


@dataclass(frozen=True, slots=True)
class Circle:
    cx: float
    cy: float
    r: float
    css: str = ""


@dataclass(frozen=True, slots=True)
class Path:
    """Steps as in SVG: a letter and its numbers, ("M", 0, 0), ("L", 10, 0), ("Z",)."""

    steps: tuple[tuple[str | float, ...], ...]
    css: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    x: Length
    y: Length
    words: str
    css: str = ""
    anchor: str = ""
    dy: str = ""


@dataclass(frozen=True, slots=True)
class Letters:
    """Words on one line, each centred on its place."""

    xs: tuple[float, ...]
    y: float
    words: tuple[str, ...]
    css: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """Shapes moved to (x, y) and then turned by `turn` degrees about that point; `id` is what a
    link may name."""

    shapes: tuple[Shape, ...]
    css: str = ""
    x: float = 0.0
    y: float = 0.0
    turn: float = 0.0
    id: str = ""


@dataclass(frozen=True, slots=True)
class Spot:
    """Shapes in plain units about a point that is itself given as a Share."""

    x: Length
    y: Length
    shapes: tuple[Shape, ...]


@dataclass(frozen=True, slots=True)
class Use:
    """The shapes that the drawing defines as `name`, moved to (x, y) and turned there."""

    name: str
    x: float
    y: float
    turn: float = 0.0
    css: str = ""


Shape = Rect | Line | Circle | Path | Text | Letters | Group | Spot | Use


@dataclass(frozen=True, slots=True)
class Box:
    """What a drawing shows: the corner it begins at and its size, in user units."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Drawing:
    """Shapes in a box. A drawing with a `title` is a picture that is read out by it; one without
    is ornament beside words that say the same. `id` makes the title's id. `defined` are shapes by
    the names that `Use` goes by, `more` what a file tells beyond its title."""

    shapes: tuple[Shape, ...]
    css: str
    box: Box | None = None
    title: str = ""
    id: str = ""
    width: float | None = None
    height: float | None = None
    defined: tuple[tuple[str, tuple[Shape, ...]], ...] = ()
    more: str = ""


def polygon(points: list[tuple[float, float]], css: str = "") -> Path:
    """A closed path through points."""
    steps: list[tuple[str | float, ...]] = [
        ("M" if i == 0 else "L", x, y) for i, (x, y) in enumerate(points)
    ]
    return Path((*steps, ("Z",)), css)


def stadium(radius: float, straight: float, y: float = 0.0, css: str = "") -> Path:
    """A circle of `radius`, or two half circles with straight sides between them."""
    half = straight / 2
    return Path(
        (
            ("M", -half, y - radius),
            ("L", half, y - radius),
            ("A", radius, radius, 0, 0, 1, half, y + radius),
            ("L", -half, y + radius),
            ("A", radius, radius, 0, 0, 1, -half, y - radius),
            ("Z",),
        ),
        css,
    )


def compact(path: Path) -> Path:
    """The same path in few letters: to a tenth of a unit, each step from where the last ended.
    Knows M, L, H, V, Z, and l, h, v."""
    steps: list[tuple[str | float, ...]] = []
    at = begun = (0.0, 0.0)
    for letter, *numbers in path.steps:
        if letter == "Z":
            steps.append(("z",))
            at = begun
            continue
        here = _target(str(letter), [float(n) for n in numbers], at)
        across, down = round(here[0] - at[0], 1), round(here[1] - at[1], 1)
        if letter == "M":
            steps.append(("m", across, down) if steps else ("M", *here))
            begun = here
        elif not down:
            steps.append(("h", across))
        else:
            steps.append(("l", across, down) if across else ("v", down))
        at = here
    return Path(tuple(steps), path.css)


def _target(letter: str, numbers: list[float], at: tuple[float, float]) -> tuple[float, float]:
    """Where a step leads, to a tenth."""
    x, y = at
    match letter:
        case "H":
            x = numbers[0]
        case "V":
            y = numbers[0]
        case "h":
            x += numbers[0]
        case "v":
            y += numbers[0]
        case "l":
            x, y = x + numbers[0], y + numbers[1]
        case _:
            x, y = numbers
    return round(x, 1), round(y, 1)
