"""Designers' Markdown turned into HTML that cannot carry anything but words and links.

`{12 sc}` in it is notation and follows the reader's terms. HTML is printed as it stands there;
links lead to web and mail addresses only.
"""

from __future__ import annotations

import re
from functools import cache

import markdown
import nh3
from markupsafe import Markup, escape

from roundproof.drawing.yarns import yarn_marks
from roundproof.pages.hands import turned
from roundproof.pages.wording import fragment, typed_lengths, unbroken
from roundproof.pattern.model import Pattern
from roundproof.source import Text

TAGS = {"p", "br", "em", "strong", "code", "a", "ul", "ol", "li", "blockquote"}
SCHEMES = {"http", "https", "mailto"}

# Private characters stand for a piece of notation while the Markdown around it is worked.
_OPEN, _CLOSE = "\ue000", "\ue001"
_NOTATION = re.compile(r"\{([^{}\n]{1,200})\}")
_HELD = re.compile(f"{_OPEN}(\\d+){_CLOSE}")
_TAG = re.compile(r'(<[^>"]*(?:"[^"]*"[^>"]*)*>)')


def prose(text: Text | str | None, pattern: Pattern | None = None) -> Markup:
    """Paragraphs, lists, emphasis and links; empty for no text. Without a pattern, braces are
    characters like any others."""
    if text is None:
        return Markup("")
    words = (text.value if isinstance(text, Text) else text).replace(_OPEN, "").replace(_CLOSE, "")
    if pattern is None:
        return _html(words)
    held = _NOTATION.findall(words)
    numbers = iter(range(len(held)))
    html = _html(_NOTATION.sub(lambda _: f"{_OPEN}{next(numbers)}{_CLOSE}", words))
    return _filled(html, held, pattern)


def inline(text: Text | str | None, pattern: Pattern | None = None) -> Markup:
    """The same in one line: a single paragraph without its tags; longer texts as they are."""
    html = str(prose(text, pattern)).strip()
    single = re.fullmatch(r"<p>((?:(?!</p>).)*)</p>", html, re.DOTALL)
    return Markup(single[1] if single else html)


def plain_text(text: Text | str | None) -> str:
    """The words alone, for descriptions and titles."""
    html = re.sub(r"</p>|<br>|</li>", " ", str(prose(text)))
    bare = Markup(_TAG.sub("", html)).unescape()
    return " ".join(bare.replace("{", "").replace("}", "").split())


def _filled(html: Markup, held: list[str], pattern: Pattern) -> Markup:
    """Notation put back: as words in both terms between tags, as plain text inside a tag."""
    marks = yarn_marks(pattern)
    parts = _TAG.split(str(html))
    for place, part in enumerate(parts):
        if place % 2:
            parts[place] = _HELD.sub(lambda m: str(escape(held[int(m[1])])), part)
        else:
            parts[place] = _HELD.sub(
                lambda m: str(fragment(held[int(m[1])], pattern, marks)),
                str(turned(typed_lengths(unbroken(part)))),
            )
    return Markup("".join(parts))


def _html(text: str) -> Markup:
    writer = _writer()
    writer.reset()
    return Markup(
        nh3.clean(
            writer.convert(text),
            tags=TAGS,
            attributes={"a": {"href"}, "ol": {"start"}},
            url_schemes=SCHEMES,
            link_rel="noopener noreferrer",
        )
    )


@cache
def _writer() -> markdown.Markdown:
    writer = markdown.Markdown(extensions=["sane_lists"], output_format="html")
    # Without these two an angle bracket is a character: `<18>` is a count, not a tag.
    writer.preprocessors.deregister("html_block")
    writer.inlinePatterns.deregister("html")
    return writer
