"""A site with every kind of page, and the few of its pages that show all there is to look at.

Nobody keeps a list of the kinds of page. The site is built of the demonstration patterns, of the
clean ones and of one in each other standing. Looked at are as few pages as have all that any page
has (elements by their classes, kinds of fields, roles), and at least one of every template.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

from conftest import ROOT
from sites import built_quickly, previewed

SITE = """\
site_name: The shore
site_url: https://example.org/shore/
docs_dir: site_src
theme: {name: roundproof}
plugins: [roundproof]
"""
OWN_PAGE = """\
# About the shore

Written by hand: **strong**, *stress*, `code`, and a [link](index.md).

> Said by somebody.

1. One
2. Two

| Tide | Height |
|---|---|
| high | 4 m |

```
a line too long for any telephone, which has to be pushed sideways in a box of its own, and so on
```

## More

Words.
"""
STANDINGS = {
    "sold-elsewhere": "status: published\nshow: preview",
    "in-testing": "status: testing",
}
"""Copies of a pattern by their folder, and what stands there in place of `status: published`."""


def write_every_kind(folder: Path) -> None:
    """The source of a site with every kind of page."""
    patterns = folder / "patterns"
    shutil.copytree(ROOT / "patterns", patterns)
    shutil.copytree(ROOT / "site_src", folder / "site_src")
    (folder / "site_src/about.md").write_text(OWN_PAGE, "utf-8")
    (folder / "mkdocs.yml").write_text(SITE, "utf-8")
    for file in sorted(ROOT.glob("tests/clean/*/pattern.yaml")):
        if "shell white" not in file.read_text("utf-8"):  # a yarn of the demonstration's defaults
            shutil.copytree(file.parent, patterns / file.parent.name)
    for name, line in STANDINGS.items():
        shutil.copytree(patterns / "shore-crab", patterns / name)
        file = patterns / name / "pattern.yaml"
        text = file.read_text("utf-8").replace("status: published", line, 1)
        file.write_text(text.replace("title: ", f"title: {name} ", 1), "utf-8")
    (patterns / "hundred-rounds").mkdir()
    (patterns / "hundred-rounds/pattern.yaml").write_text(hundred_rounds(), "utf-8")


def build_every_kind(folder: Path) -> None:
    """The site in `site/`, and in templates.json which pages were made of which template."""
    write_every_kind(folder)
    (folder / "templates.json").write_text(json.dumps(built_quickly(folder)), "utf-8")


def build_preview(folder: Path) -> None:
    """The preview, in `site/`, of a few patterns with all that the checks can say, and of one that
    cannot be read."""
    patterns = folder / "patterns"
    for file in sorted(ROOT.glob("tests/planted/*/pattern.yaml")):
        shutil.copytree(file.parent, patterns / file.parent.name)
    shutil.copytree(ROOT / "site_src", folder / "site_src")
    (folder / "mkdocs.yml").write_text(SITE, "utf-8")
    (patterns / "unreadable").mkdir()
    (patterns / "unreadable/pattern.yaml").write_text("title: [Odd\n", "utf-8")
    previewed(folder).rename(folder / "site")
    (folder / "templates.json").write_text("{}", "utf-8")


def hundred_rounds() -> str:
    """A pattern in words alone, of four pieces of 25 rounds, each written out."""
    up = [f"({n} sc, inc) x 6 ({6 * n + 12})" for n in range(1, 6)]
    down = [f"({n} sc, dec) x 6 ({6 * n + 6})" for n in range(5, 0, -1)]
    rounds = ["6 sc in magic ring (6)", "inc in each st around (12)", *up]
    rounds += ["sc around (42)"] * 12 + down + ["dec x 6 (6)"]
    pieces = "".join(
        f"  {name}:\n    name: {name.capitalize()}\n    yarn: slate\n    worked: spiral\n"
        "    rounds: |\n"
        + "".join(
            f"      R{n}: {words}\n" + ("      Stuff firmly.\n" if n == 19 else "")
            for n, words in enumerate(rounds, 1)
        )
        + "      Fasten off, leaving a 20 cm tail, and draw the last 6 stitches shut.\n"
        for name in ("north", "east", "south", "west")
    )
    return HUNDRED + pieces


HUNDRED = """\
format: 1
title: Four boulders
status: published
summary: Four boulders of one shape, each written out round by round.
terms: US
level: basic
size: {height: 6.4 cm, width: 5.2 cm}
yarns:
  slate:
    colour: {name: slate grey, shade: "#6d7680"}
    fibre: 100 % cotton
    weight: 3
    ball: 50 g / 125 m
    hook: 3 mm
    gauge: 23 sts x 25 rounds = 10 cm
notions: [fibrefill 60 g, tapestry needle]
safety: {note: Keep them from young children.}
care: Hand wash cool.
changes: [{version: 1.0.0, date: 2026-05-04, note: First edition.}]
pieces:
"""


# ---- which pages to look at ----
class _Signs(HTMLParser):
    """What there is on a page, without its words: each tag with each of its classes, kinds of
    fields, roles; names of headings, which tell sections apart. Numbers are all alike."""

    def __init__(self) -> None:
        super().__init__()
        self.found: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        for word in (given.get("class") or "-").split():
            self.found.add(re.sub(r"\d+", "0", f"{tag}.{word}"))
        for name in ("type", "role", "hidden", "aria-current", "rel", "http-equiv"):
            if name in given:
                self.found.add(f"{tag}[{name}={given[name]}]")


@cache
def signs(page: Path) -> frozenset[str]:
    parser = _Signs()
    parser.feed(page.read_text("utf-8"))
    return frozenset(parser.found)


def kinds(folder: Path) -> tuple[str, ...]:
    """Addresses of the pages to look at, of a site that `build_every_kind` has built."""
    pages = {address: signs(folder / "site" / address) for address in every_page(folder / "site")}
    templates = json.loads((folder / "templates.json").read_text("utf-8"))
    kind = {address: templates.get(address, _kind(address)) for address in pages}
    first = (f"patterns/{name}/index.html" for name in STANDINGS)
    chosen = [address for address in first if address in pages]
    seen = set[str]().union(*(pages[address] for address in chosen))
    # The page with the most that is new goes first; among equals the first by address.
    while new := {address: len(has - seen) for address, has in pages.items() if has - seen}:
        best = max(new, key=lambda address: (new[address], address))
        chosen.append(best)
        seen |= pages[best]
    for address in pages:
        if kind[address] not in {kind[one] for one in chosen}:
            chosen.append(address)
    return tuple(chosen)


def _kind(address: str) -> str:
    """A pattern's pages are told apart by their names; checks are alike; pages written by hand are
    like no other."""
    alike = re.sub("checks/(?!index|editor).+", "checks/*", address)
    return re.sub("patterns/[^/]+/", "patterns/*/", alike)


def every_page(site: Path) -> Iterator[str]:
    return (p.relative_to(site).as_posix() for p in sorted(site.rglob("*.html")))
