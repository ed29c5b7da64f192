"""What pages have joined: their scripts and their style sheets.

Modules of the theme become one classic script for each kind of page. From disk, browsers refuse
modules; a joined script runs there as well as from a host.

What a module may hold is little, so that joining needs no parser: at its top lines of the form
`import { a, b } from "./other.js";`, and `export` only before a function, class or constant.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from importlib.resources import files
from pathlib import Path

_IMPORT = re.compile(r'^import \{ (?P<names>[\w, ]+) \} from "\./(?P<file>\w+\.js)";$')
_EXPORT = re.compile(r"^export (?=(?:async )?function|const|class)")
_NAMED = re.compile(r"^(?:async )?(?:function\*?|const|let|class) (?P<name>[A-Za-z_$][\w$]*)")

ENTRIES = ("early", "site", "pattern", "tester", "gallery", "search", "lost")
"""One script each: what is set before anything is seen; every page; a pattern's page; its tester
copy; the gallery; the search; the page for addresses that lead nowhere."""


class NotJoined(ValueError):
    """A module holds what cannot be joined; says which and why."""


def joined(entry: Path) -> str:
    """The script of an entry and of all that it imports, each module once and before whoever
    imports it. Raises NotJoined."""
    modules: dict[Path, list[str]] = {}
    _gather(entry, modules, ())
    _no_two_alike(modules)
    body = "\n\n".join("\n".join(lines).strip("\n") for lines in modules.values())
    return f'(() => {{\n"use strict";\n\n{body}\n}})();\n'


def _no_two_alike(modules: Mapping[Path, list[str]]) -> None:
    """Joined, the modules have one space for the names at their top. Raises NotJoined."""
    taken: dict[str, Path] = {}
    for path, lines in modules.items():
        for name in (found["name"] for found in map(_NAMED.match, lines) if found):
            if taken.setdefault(name, path) is not path:
                raise NotJoined(f"{name} is in {taken[name].name} and in {path.name}.")


def _gather(path: Path, modules: dict[Path, list[str]], on_the_way: tuple[Path, ...]) -> None:
    if path in on_the_way:
        raise NotJoined(f"{path.name} imports itself, by way of {on_the_way[-1].name}.")
    if path in modules:
        return
    lines, exports = [], dict[str, set[str]]()
    for number, line in enumerate(path.read_text("utf-8").splitlines(), 1):
        if found := _IMPORT.match(line):
            other = path.parent / found["file"]
            if not other.is_file():
                raise NotJoined(f"{path.name}:{number}: there is no {found['file']}.")
            _gather(other, modules, (*on_the_way, path))
            exports.setdefault(other.name, _exported(other))
            for name in found["names"].split(", "):
                if name not in exports[other.name]:
                    raise NotJoined(f"{path.name}:{number}: {other.name} has no {name}.")
        elif line.startswith("import"):
            raise NotJoined(f'{path.name}:{number}: only `import {{ a }} from "./b.js";`.')
        else:
            plain = _EXPORT.sub("", line)
            if plain.startswith("export"):
                raise NotJoined(f"{path.name}:{number}: only functions, classes and constants.")
            lines.append(plain)
    modules[path] = lines


def _exported(path: Path) -> set[str]:
    lines = (
        _EXPORT.sub("", line)
        for line in path.read_text("utf-8").splitlines()
        if _EXPORT.match(line)
    )
    return {found["name"] for line in lines if (found := _NAMED.match(line))}


SHEETS = {
    "pages": ("tokens", "page", "rounds", "drawings", "wide", "site"),
    "pattern": ("place", "in_your_yarn"),
}
"""Style sheets that stand in one file, since a page is not seen before it has them all: what every
page has, and what a pattern's page has besides."""


def sheets(themes: Iterable[str] = ()) -> dict[str, str]:
    """The joined style sheets by their addresses on the site. Those of a site's own `themes` go
    before the theme's, the first before the others."""
    folders = [*map(Path, themes), Path(str(files("roundproof.theme")))]

    def sheet(name: str) -> str:
        there = (folder / "css" / f"{name}.css" for folder in folders)
        return next(file for file in there if file.is_file()).read_text("utf-8")

    return {f"css/{name}.css": "\n".join(map(sheet, parts)) for name, parts in SHEETS.items()}


def scripts() -> dict[str, str]:
    """Every script of the theme by its address on the site."""
    folder = Path(str(files("roundproof.theme"))) / "js"
    return {f"js/{entry}.js": joined(folder / f"{entry}.js") for entry in ENTRIES}
