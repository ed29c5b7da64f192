"""Hooks and eyes, all to one scale: the drawing is LENGTH mm long."""

from __future__ import annotations

from roundproof.drawing.shapes import Box, Circle, Drawing, Path

LENGTH = 60.0


def hook(millimetres: float) -> Drawing | None:
    """The head and a stretch of the shaft of a hook; None for a size that no hook has."""
    if not 0.3 <= millimetres <= 40:
        return None
    half, end = millimetres / 2, LENGTH / 2 - 2
    way = Path(
        (
            ("M", -end, -half),
            ("L", end - 7 * half, -half),
            ("L", end - 4.4 * half, 0.1 * half),  # the throat
            ("L", end - 3 * half, -half),
            ("Q", end, -half, end, 0),
            ("Q", end, half, end - 3 * half, half),
            ("L", -end, half),
        )
    )
    return Drawing((way,), "thing", _box(millimetres))


def eyes(millimetres: float, count: int) -> Drawing | None:
    """So many round eyes beside each other, as many as there is room for."""
    if not 0.5 <= millimetres <= 50 or count < 1:
        return None
    step = millimetres * 1.6
    shown = max(1, min(count, int(LENGTH / step)))
    left = -(shown - 1) * step / 2
    circles = tuple(Circle(left + i * step, 0, millimetres / 2, "eye") for i in range(shown))
    return Drawing(circles, "thing", _box(millimetres))


def _box(millimetres: float) -> Box:
    return Box(-LENGTH / 2, -millimetres / 2 - 1, LENGTH, millimetres + 2)
