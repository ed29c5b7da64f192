"""Tables in TOML, parsed once: kept beside their file the way Python keeps compiled modules.

Parsing the tables of this package took longer, at every start, than working a pattern. So what was
parsed lies in `__pycache__`, or wherever Python is told to keep modules, and counts as long as the
file has the size and the time it had. Whatever is wrong with it, the file is parsed.
"""

from __future__ import annotations

import marshal
import os
import sys
from contextlib import suppress
from importlib.util import cache_from_source
from pathlib import Path
from typing import Any


def load(path: Path) -> dict[str, Any]:
    """The table of a TOML file, as tomllib gives it."""
    state = path.stat()
    sign = (state.st_size, state.st_mtime_ns)
    table = _kept(path, sign)
    if table is None:
        table = _parsed(path)
        if not sys.dont_write_bytecode:
            _keep(path, sign, table)
    return table


def place(path: Path) -> Path:
    """Where the parsed table of a file lies. NotImplementedError if Python keeps no modules."""
    return Path(cache_from_source(f"{path}.py")).with_suffix(".table")


def _parsed(path: Path) -> dict[str, Any]:
    import tomllib

    return tomllib.loads(path.read_text("utf-8"))


def _kept(path: Path, sign: tuple[int, int]) -> dict[str, Any] | None:
    try:
        size, time, table = marshal.loads(place(path).read_bytes())
    except Exception:  # not there, cut short or not ours: bad data raises many things
        return None
    return table if (size, time) == sign and isinstance(table, dict) else None


def _keep(path: Path, sign: tuple[int, int], table: dict[str, Any]) -> None:
    """Writes it under another name first, so that nobody reads half of it."""
    with suppress(OSError, ValueError, NotImplementedError):  # no room, no right, a date in it
        kept = place(path)
        kept.parent.mkdir(parents=True, exist_ok=True)
        half = kept.with_suffix(f".{os.getpid()}")
        half.write_bytes(marshal.dumps((*sign, table)))
        half.replace(kept)
