"""Values → PDF, by Typst. Never forked after: where several are made at once, by threads."""

from __future__ import annotations

import json
import shutil
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Final

from roundproof.frozen import dataclass
from roundproof.pages.paper.glyphs import Glyphs

if TYPE_CHECKING:
    from typst import Fonts

STANDARD: Final = "ua-1"
"""PDF/UA-1 (ISO 14289-1): every booklet can be read by programs that read out."""
MAIN: Final = "main.typ"
VALUES: Final = "values.json"

Printed = tuple[bytes, tuple[str, ...]]
"""The PDF, and the letters that no font of it has."""


@dataclass(frozen=True, slots=True)
class Ready:
    """What is printed, made printable: values as JSON, the letters that no font has, and the files
    that the values name, by their names."""

    text: str
    missing: tuple[str, ...]
    files: Mapping[str, bytes]


def ready(values: object, files: Mapping[str, bytes] | None = None) -> Ready:
    glyphs = Glyphs()
    text = json.dumps(glyphs.printable(values), ensure_ascii=False)
    return Ready(text, tuple(glyphs.missing), files or {})


def typeset(template: str, given: Ready, day: int, paper: str, copy: object = None) -> Printed:
    """A template of theme/print with its values. `copy` is what it has of its own among many that
    are alike otherwise: Typst takes all the rest from what it remembers of the last. `day` is the
    time told in it, in seconds since 1970: the same values give the same bytes."""
    own = ready({"paper": paper, "copy": copy})
    with TemporaryDirectory() as name:  # Typst reads no file outside its folder
        folder = Path(name)
        for part in _folder().glob("*.typ"):
            shutil.copy(part, folder)
        for address, data in given.files.items():
            (folder / address).parent.mkdir(parents=True, exist_ok=True)
            (folder / address).write_bytes(data)
        (folder / VALUES).write_text(given.text, "utf-8")
        (folder / MAIN).write_bytes(_beginning(template, own.text))
        made = _compiled(folder, day)
    return made, (*dict.fromkeys([*given.missing, *own.missing]),)


def _beginning(template: str, own: str) -> bytes:
    """Where Typst begins. What is the copy's own stands in it as numbers, so that no text is read
    as markup."""
    numbers = ",".join(map(str, own.encode()))
    lines = (
        f'#import "{template}.typ": printed',
        f'#printed(json("{VALUES}"), json(bytes(({numbers}))))',
    )
    return "\n".join(lines).encode()


def _compiled(folder: Path, day: int) -> bytes:
    import typst

    compiler = typst.Compiler(
        input=folder / MAIN, root=folder, font_paths=_fonts(), ignore_system_fonts=True
    )
    made = compiler.compile(format="pdf", pdf_standards=[STANDARD], timestamp=day)
    assert isinstance(made, bytes)
    return made


def _folder() -> Path:
    return Path(str(files("roundproof.theme"))) / "print"


@cache
def _fonts() -> Fonts:
    """The fonts of the theme alone: what a machine happens to have alters nothing."""
    import typst

    return typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[str(_folder() / "fonts")],
    )
