"""The photos of a pattern as files beside its page, each made once: what came of a photo is kept by
its content."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from pathlib import Path

from roundproof.checks._pictures import MOST_BYTES
from roundproof.frozen import dataclass
from roundproof.packing import packed, unpacked
from roundproof.pages.developing import RECIPE, Developed, Rendition, Unfit, developed
from roundproof.pages.plate import is_preview
from roundproof.proof import Proof
from roundproof.store import Store, key
from roundproof.writing.slug import slug

FOLDER = "photos"
"""Where a pattern keeps its photos, and where its page finds them."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A photo as files, of a name of its own; addresses are relative to the pattern's page."""

    name: str
    made: Developed

    @property
    def files(self) -> dict[str, bytes]:
        """What is to be written, by address."""
        return {self._at(each): each.data for each in (*self.made.sizes, self.made.fallback)}

    @property
    def src(self) -> str:
        return self._at(self.made.fallback)

    @property
    def srcset(self) -> str:
        return ", ".join(f"{self._at(each)} {each.width}w" for each in self.made.sizes)

    @property
    def width(self) -> int:
        return self.made.fallback.width

    @property
    def height(self) -> int:
        return self.made.fallback.height

    def _at(self, file: Rendition) -> str:
        return f"{FOLDER}/{self.name}-{file.width}.{file.ending}"


@dataclass(frozen=True, slots=True)
class Unusable:
    """Why a file gives no picture: a sentence that names it."""

    why: str


Find = Callable[[str], Path | None]
"""From a photo's name to where it lies; None for a name that leads elsewhere."""


def of_pattern(proof: Proof, store: Store | None = None) -> dict[str, Picture | Unusable]:
    """The photos of a pattern that are shown, by the names its file gives them. Where the rounds
    are sold elsewhere, those of single rounds are not."""
    sold = is_preview(proof)
    shots = [photo for photo in proof.pattern.photos if not (sold and photo.after)]
    return pictures([photo.file.value for photo in shots], proof.photo, store)


def pictures(
    files: Iterable[str], find: Find, store: Store | None = None
) -> dict[str, Picture | Unusable]:
    """Photos by the names that their pattern calls them."""
    made: dict[str, Picture | Unusable] = {}
    taken: set[str] = set()
    for file in dict.fromkeys(files):
        name = clean = slug(re.sub(r"\.[^./\\]*$", "", file)) or "photo"
        number = 1
        while name in taken:
            number += 1
            name = f"{clean}-{number}"
        taken.add(name)
        made[file] = _picture(find(file), file, name, store)
    return made


def _picture(path: Path | None, file: str, name: str, store: Store | None) -> Picture | Unusable:
    if path is None:
        return Unusable(f"The photo {file!r} lies outside the pattern's folder {FOLDER}/.")
    if not path.is_file():
        return Unusable(f"The photo {file} is not in the pattern's folder {FOLDER}/.")
    if path.stat().st_size > MOST_BYTES:
        return Unusable(f"The photo {file} is larger than {MOST_BYTES // 1_000_000} MB.")
    try:
        return Picture(name, _kept(path, store) if store else developed(path))
    except Unfit as why:
        return Unusable(f"The photo {file} {why}.")
    except OSError:
        return Unusable(f"The photo {file} cannot be read.")


def _kept(path: Path, store: Store) -> Developed:
    """What came of the same bytes before, or comes of them now. Raises Unfit, OSError."""
    sign = key("photo", RECIPE, _library(), path.read_bytes())
    data = store.get(sign)
    found = unpacked(data, Developed) if data is not None else None
    if found is None:
        found = developed(path)
        store.put(sign, packed(found))
    return found


def _library() -> str:
    """The library that decodes and encodes, with what is in it."""
    from PIL import __version__, features

    return f"{__version__} {features.version('webp')} {features.version('jpg')}"
