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

from roundproof.pages.paper.glyphs import Glyphs

if TYPE_CHECKING:
    from typst import Fonts

STANDARD: Final = "ua-1"
"""PDF/UA-1 (ISO 14289-1): every booklet can be read by programs that read out."""


Printed = tuple[bytes, tuple[str, ...]]
"""The PDF, and the letters that no font of it has."""


def typeset(
    template: str, values: object, day: int, photos: Mapping[str, bytes] | None = None
) -> Printed:
    """A template of theme/print with its values. `day` is the time told in it, in seconds since
    1970: the same values give the same bytes. `photos` are the files that the values name."""
    glyphs = Glyphs()
    text = json.dumps(glyphs.printable(values), ensure_ascii=False)
    if not photos:
        return _compiled(_folder(), template, text, day), tuple(glyphs.missing)
    with TemporaryDirectory() as name:  # Typst reads no file outside its folder
        folder = Path(name)
        for part in _folder().glob("*.typ"):
            shutil.copy(part, folder)
        for address, data in photos.items():
            (folder / address).parent.mkdir(parents=True, exist_ok=True)
            (folder / address).write_bytes(data)
        return _compiled(folder, template, text, day), tuple(glyphs.missing)


def _compiled(folder: Path, template: str, data: str, day: int) -> bytes:
    import typst

    compiler = typst.Compiler(
        input=folder / f"{template}.typ",
        root=folder,
        font_paths=_fonts(),
        ignore_system_fonts=True,
        sys_inputs={"data": data},
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
