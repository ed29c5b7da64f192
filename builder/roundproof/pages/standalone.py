"""A page as one file that needs no other: its template filled, style sheets and fonts within."""

from __future__ import annotations

import re
from base64 import b64encode
from importlib.resources import files
from pathlib import Path

import jinja2
from markupsafe import Markup

_FONT = re.compile(r'url\("\.\./fonts/([\w.-]+\.woff2)"\)')


def filled(template: str, sheets: tuple[str, ...], **values: object) -> str:
    """The page. `sheets` are names of the theme's style sheets, without `.css`."""
    theme = Path(str(files("roundproof.theme")))
    env = jinja2.Environment(
        loader=jinja2.FileSystemLoader(theme), autoescape=True, undefined=jinja2.StrictUndefined
    )
    style = "\n".join(_sheet(theme, name) for name in sheets)
    text: str = env.get_template(template).render(style=Markup(style), **values)
    return text


def _sheet(theme: Path, name: str) -> str:
    text = (theme / "css" / f"{name}.css").read_text("utf-8")
    return _FONT.sub(lambda found: f'url("{_data(theme / "fonts" / found[1])}")', text)


def _data(font: Path) -> str:
    return f"data:font/woff2;base64,{b64encode(font.read_bytes()).decode()}"
