"""Shapes → SVG text. The only place that writes SVG; everything is escaped here.

Styles come by class names from the theme: nothing here writes a style attribute.
"""

from __future__ import annotations

from functools import singledispatch
from html import escape
from math import isfinite

from roundproof.drawing.shapes import (
    Circle,
    Drawing,
    Group,
    Length,
    Line,
    Path,
    Rect,
    Shape,
    Share,
    Spot,
    Text,
)

FARTHEST = 1e7
"""No number is written larger than this, whatever a pattern says."""


def write_svg(drawing: Drawing) -> str:
    """The whole `<svg>` element."""
    body = "".join(_shape(shape) for shape in drawing.shapes)
    title, named = "", ' aria-hidden="true"'
    if drawing.title:
        name = escape(drawing.id + "-title")
        title = f'<title id="{name}">{escape(drawing.title)}</title>'
        named = f' role="img" aria-labelledby="{name}"'
    return f"<svg{_frame(drawing)}{named}>{title}{body}</svg>"


def _frame(drawing: Drawing) -> str:
    text = _attribute("class", drawing.css)
    if drawing.width is not None:
        text += _attribute("width", number(drawing.width))
    if drawing.height is not None:
        text += _attribute("height", number(drawing.height))
    if box := drawing.box:
        corners = (box.x, box.y, box.width, box.height)
        text += _attribute("viewBox", " ".join(number(n) for n in corners))
    return text


def number(value: float) -> str:
    """At most two decimals; never an exponent, never endless."""
    if not -FARTHEST <= value <= FARTHEST:  # this first: a page has thousands of numbers
        value = max(-FARTHEST, min(FARTHEST, value)) if isfinite(value) else 0.0
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _length(value: Length) -> str:
    return number(value.value) + "%" if isinstance(value, Share) else number(value)


def _attribute(name: str, value: str) -> str:
    return f' {name}="{escape(value)}"' if value else ""


def _places(**lengths: Length) -> str:
    return "".join(f' {name}="{_length(value)}"' for name, value in lengths.items())


@singledispatch
def _shape(shape: Shape) -> str:
    raise TypeError(f"no shape: {shape!r}")


@_shape.register
def _(shape: Rect) -> str:
    css, fill = _attribute("class", shape.css), _attribute("fill", shape.fill)
    places = _places(x=shape.x, y=shape.y, width=shape.width, height=shape.height)
    return f"<rect{css}{places}{fill}/>"


@_shape.register
def _(shape: Line) -> str:
    places = _places(x1=shape.x1, x2=shape.x2, y1=shape.y1, y2=shape.y2)
    return f"<line{_attribute('class', shape.css)}{places}/>"


@_shape.register
def _(shape: Circle) -> str:
    places = _places(cx=shape.cx, cy=shape.cy, r=shape.r)
    return f"<circle{_attribute('class', shape.css)}{places}/>"


@_shape.register
def _(shape: Path) -> str:
    return f'<path{_attribute("class", shape.css)} d="{_way(shape)}"/>'


def _way(path: Path) -> str:
    return "".join(
        str(step[0]) + " ".join(number(float(n)) for n in step[1:]) for step in path.steps
    )


@_shape.register
def _(shape: Text) -> str:
    css, dy = _attribute("class", shape.css), _attribute("dy", shape.dy)
    places = _places(x=shape.x, y=shape.y)
    anchor = _attribute("text-anchor", shape.anchor)
    return f"<text{css}{places}{dy}{anchor}>{escape(shape.words)}</text>"


@_shape.register
def _(shape: Group) -> str:
    body = "".join(_shape(inner) for inner in shape.shapes)
    return f"<g{_attribute('class', shape.css)}{_moved(shape)}>{body}</g>"


def _moved(group: Group) -> str:
    text = ""
    if group.x or group.y:
        text = f"translate({number(group.x)} {number(group.y)})"
    if group.turn:
        text += f"rotate({number(group.turn)})"
    return _attribute("transform", text)


@_shape.register
def _(shape: Spot) -> str:
    body = "".join(_shape(inner) for inner in shape.shapes)
    return f"<svg{_places(x=shape.x, y=shape.y)}>{body}</svg>"
