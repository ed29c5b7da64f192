"""The stylesheet of a pattern: its yarns' colours on three grounds, and the foot of its print.

Shades come from the pattern; what is made of them (the letter on a bar, the pale bar of a round
still to work, the accent) is computed so that words on it can be read.
"""

from __future__ import annotations

from roundproof.drawing.colour import (
    GROUNDS,
    RGB,
    Ground,
    accent,
    grey,
    on,
    pale,
    read_shade,
    write_shade,
)
from roundproof.drawing.yarns import shades_of
from roundproof.pattern.model import Pattern, Terms

LONGEST = 60
"""Characters of a name that fit at the foot of a page."""

Grounds = tuple[Ground, ...]
"""White, cream and dark, in this order."""
_CHOSEN = ':root:where([data-ground="{0}"], :has(#ground-{0}:checked))'
_BY_DEVICE = ":root:where(:not([data-ground], :has(#ground-white:checked, #ground-cream:checked)))"


def yarn_sheet(pattern: Pattern, grounds: Grounds = GROUNDS) -> str:
    """The whole file: colours, accent, and the line at the foot of each printed page."""
    return yarn_rules(pattern, "", grounds) + _accents(pattern, grounds) + _page_foot(pattern)


def yarn_rules(pattern: Pattern, scope: str = "", grounds: Grounds = GROUNDS) -> str:
    """The yarns' colours alone, under a selector where several patterns share a page."""
    white_ground, cream_ground, dark_ground = grounds
    shades = shades_of(pattern)
    if not shades:
        return ""
    lead = f"{scope} " if scope else ""
    rules = [
        f"{lead}.{css} {{ --y: {write_shade(shade)}; --y-on: {write_shade(on(shade))};"
        f" --y-pale: {write_shade(pale(shade, white_ground))} }}"
        for css, shade in shades.items()
    ]
    screen = _pales(shades, cream_ground, _CHOSEN.format("cream"), lead)
    dark = _pales(shades, dark_ground, _CHOSEN.format("dark"), lead)
    device = _pales(shades, dark_ground, _BY_DEVICE, lead)
    paper = [
        f"{lead}.{css} {{ --y: {write_shade(grey(shade))}; --y-on: #000; --y-pale: #FFF }}"
        for css, shade in shades.items()
    ]
    return _lines(
        *rules,
        *_inside("@media screen", [*screen, *dark]),
        *_inside("@media screen and (prefers-color-scheme: dark)", device),
        *_inside("@media print", paper),
    )


def _pales(shades: dict[str, RGB], ground: Ground, root: str, lead: str) -> list[str]:
    return [
        f"{root} {lead}.{css} {{ --y-pale: {write_shade(pale(shade, ground))} }}"
        for css, shade in shades.items()
    ]


def _accents(pattern: Pattern, grounds: Grounds) -> str:
    """The accent of the page is the first yarn's shade."""
    shade = next((s for y in pattern.yarns if y.shade and (s := read_shade(y.shade.value))), None)
    if shade is None:
        return ""
    return by_ground(*(f"--accent: {write_shade(accent(shade, ground))}" for ground in grounds))


def by_ground(white: str, cream: str, dark: str) -> str:
    """What holds on each ground, whether the reader or the device chooses it."""
    return _lines(
        f":root {{ {white} }}",
        f"{_CHOSEN.format('cream')} {{ {cream} }}",
        f"{_CHOSEN.format('dark')} {{ {dark} }}",
        *_inside("@media (prefers-color-scheme: dark)", [f"{_BY_DEVICE} {{ {dark} }}"]),
    )


def _page_foot(pattern: Pattern) -> str:
    """Name, version, terms and contact at the foot of each page, in the terms that are shown."""
    own = pattern.written_in
    other = Terms.UK if own is Terms.US else Terms.US
    # A page's margin cannot look at a choice; a named page can be chosen.
    chosen, plain = f":root:has(#terms-{other.lower()}:checked)", _foot_words
    return _lines(
        _page("", plain(pattern, own)),
        _page("other-terms", plain(pattern, other)),
        _page("test-copy", f"{_TEST}{plain(pattern, own)}"),
        _page("test-copy-other-terms", f"{_TEST}{plain(pattern, other)}"),
        "@media print {",
        f"  {chosen} body {{ page: other-terms }}",
        "  body.tester { page: test-copy }",
        f"  {chosen} body.tester {{ page: test-copy-other-terms }}",
        "}",
    )


_TEST = "Test copy, not for sharing. "
_FONT = "font: 9pt Andika, sans-serif"


def _page(name: str, foot: str) -> str:
    return (
        f"@page {name}{' ' if name else ''}{{"
        f" @bottom-left {{ content: {css_string(foot)}; {_FONT} }}"
        f' @bottom-right {{ content: "Page " counter(page) " of " counter(pages); {_FONT} }} }}'
    )


def _foot_words(pattern: Pattern, terms: Terms) -> str:
    title = pattern.title.value if pattern.title else pattern.slug
    version = f" {pattern.version.value}" if pattern.version else ""
    contact = f", {_cut(pattern.contact.value)}" if pattern.contact else ""
    date = f", {pattern.date.value.isoformat()}" if pattern.date else ""
    return f"{_cut(title)}{version}{date}, {terms} terms{contact}"


def _cut(text: str) -> str:
    text = " ".join(text.split())
    return text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"


def css_string(text: str) -> str:
    """A CSS string that says exactly the text, whatever is in it."""
    kept = "".join(
        c if c.isascii() and (c.isalnum() or c in " .,") else f"\\{ord(c):X} " for c in text
    )
    return f'"{kept}"'


def _inside(rule: str, rules: list[str]) -> list[str]:
    return [f"{rule} {{", *(f"  {line}" for line in rules), "}"] if rules else []


def _lines(*lines: str) -> str:
    return "".join(f"{line}\n" for line in lines)
