"""Shapes → SVG text. The only place that writes SVG; everything is escaped here.

In a page, styles come by class names from the theme; in a file, every class is written out as
attributes. Nothing here writes a style attribute.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import partial, singledispatch
from html import escape
from math import isfinite

from roundproof.drawing.looks import Looks
from roundproof.drawing.shapes import (
    Circle,
    Drawing,
    Group,
    Length,
    Letters,
    Line,
    Path,
    Rect,
    Shape,
    Share,
    Spot,
    Text,
    Use,
)

FARTHEST = 1e7
"""No number is written larger than this, whatever a pattern says."""


Dress = Callable[[str], str]
"""Class names, separated by spaces → the attributes that they are written as."""


def write_svg(drawing: Drawing) -> str:
    """The whole `<svg>` element, for a page whose style sheets know its classes."""
    title, named = "", ' aria-hidden="true"'
    if drawing.title:
        name = escape(drawing.id + "-title")
        title = f'<title id="{name}">{escape(drawing.title)}</title>'
        named = f' role="img" aria-labelledby="{name}"'
    return f"<svg{_frame(drawing)}{named}>{title}{_inside(drawing, _classes)}</svg>"


def write_file(drawing: Drawing, looks: Looks) -> str:
    """The whole of a file: it needs no style sheet, and is read out by what it tells. A round that
    the address names (`#r7`) is marked in it, and a dark ground is answered, where style may be."""
    assert drawing.title and drawing.box
    more = f"<desc>{escape(drawing.more)}</desc>" if drawing.more else ""
    box, dress = drawing.box, partial(_looks, looks)
    size = f' width="{number(box.width)}" height="{number(box.height)}"'
    # What shows a file is white, or not, as it likes: the ground goes with the ink.
    ground = _shape(Rect(box.x, box.y, box.width, box.height, "paper"), dress)
    body = ground + _inside(drawing, dress)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg"{size}{_frame(drawing)} role="img"'
        f' aria-labelledby="title"><title id="title">{escape(drawing.title)}</title>{more}'
        f"<style>{_style(looks, body)}</style>{body}</svg>\n"
    )


def _inside(drawing: Drawing, dress: Dress) -> str:
    defined = "".join(
        f'<g id="{escape(name)}">{_all(shapes, dress)}</g>' for name, shapes in drawing.defined
    )
    body = _all(drawing.shapes, dress)
    return f"<defs>{defined}</defs>{body}" if defined else body


def _all(shapes: Iterable[Shape], dress: Dress) -> str:
    return "".join(_shape(shape, dress) for shape in shapes)


def _classes(css: str) -> str:
    return _attribute("class", css)


def _looks(looks: Looks, css: str) -> str:
    """Classes as attributes; those that look otherwise on a dark ground, or when they are named,
    stay classes as well."""
    look: dict[str, str] = {}
    for name in css.split():
        look |= looks.light.get(name, {})
    kept = " ".join(name for name in css.split() if name in looks.dark or name == HERE)
    return _attribute("class", kept) + "".join(_attribute(n, value) for n, value in look.items())


HERE = "here"
"""The class of what is seen only where the address names the group that it stands in."""


_CLASSES = re.compile(r' class="([^"]*)"')


def _style(looks: Looks, body: str) -> str:
    """For the classes that there are."""
    used = {name for found in _CLASSES.findall(body) for name in found.split()}
    dark = "".join(
        f".{css}{{{';'.join(f'{name}:{value}' for name, value in look.items())}}}"
        for css, look in looks.dark.items()
        if css in used
    )
    return f":target>.{HERE}{{visibility:visible}}@media(prefers-color-scheme:dark){{{dark}}}"


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
def _shape(shape: Shape, dress: Dress) -> str:
    raise TypeError(f"no shape: {shape!r}")


@_shape.register
def _(shape: Rect, dress: Dress) -> str:
    fill = _attribute("fill", shape.fill)
    places = _places(x=shape.x, y=shape.y, width=shape.width, height=shape.height)
    return f"<rect{dress(shape.css)}{places}{fill}/>"


@_shape.register
def _(shape: Line, dress: Dress) -> str:
    places = _places(x1=shape.x1, x2=shape.x2, y1=shape.y1, y2=shape.y2)
    return f"<line{dress(shape.css)}{places}/>"


@_shape.register
def _(shape: Circle, dress: Dress) -> str:
    places = _places(cx=shape.cx, cy=shape.cy, r=shape.r)
    return f"<circle{dress(shape.css)}{places}/>"


@_shape.register
def _(shape: Path, dress: Dress) -> str:
    return f'<path{dress(shape.css)} d="{_way(shape)}"/>'


def _way(path: Path) -> str:
    return "".join(
        str(step[0]) + " ".join(number(float(n)) for n in step[1:]) for step in path.steps
    )


@_shape.register
def _(shape: Text, dress: Dress) -> str:
    dy, places = _attribute("dy", shape.dy), _places(x=shape.x, y=shape.y)
    anchor = _attribute("text-anchor", shape.anchor)
    return f"<text{dress(shape.css)}{places}{dy}{anchor}>{escape(shape.words)}</text>"


@_shape.register
def _(shape: Letters, dress: Dress) -> str:
    """One element for all of them: each letter has its own place, where it is centred."""
    xs = [x for x, words in zip(shape.xs, shape.words, strict=True) for _ in words]
    places = _attribute("x", " ".join(map(number, xs))) + _places(y=shape.y)
    words = escape("".join(shape.words))
    return f'<text{dress(shape.css)}{places} text-anchor="middle">{words}</text>'


@_shape.register
def _(shape: Group, dress: Dress) -> str:
    named = _attribute("id", shape.id) + dress(shape.css)
    return f"<g{named}{_moved(shape.x, shape.y, shape.turn)}>{_all(shape.shapes, dress)}</g>"


@_shape.register
def _(shape: Use, dress: Dress) -> str:
    moved = _moved(shape.x, shape.y, shape.turn)
    return f'<use href="#{escape(shape.name)}"{dress(shape.css)}{moved}/>'


def _moved(x: float, y: float, turn: float) -> str:
    text = f"translate({number(x)} {number(y)})" if x or y else ""
    if turn:
        text += f"rotate({number(turn)})"
    return _attribute("transform", text)


@_shape.register
def _(shape: Spot, dress: Dress) -> str:
    return f"<svg{_places(x=shape.x, y=shape.y)}>{_all(shape.shapes, dress)}</svg>"
