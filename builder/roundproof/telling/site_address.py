"""Where the site of a collection of patterns stands, as its `mkdocs.yml` says."""

from __future__ import annotations

import re
from pathlib import Path

from roundproof.pattern.files import read_file
from roundproof.pattern.nodes import Scalar, tree

SETTINGS = Path("mkdocs.yml")
_ADDRESS = re.compile(r"https?://[\w.-]+(:\d+)?(/[\w.~!$&'()*+,;=:@%/-]*)?", re.ASCII)


def site_address(settings: Path = SETTINGS) -> str:
    """The address with a slash at its end; empty where there is none, or none to be made out."""
    source, _ = read_file(settings, settings.as_posix())
    root, _ = tree(source) if source else (None, ())
    said = root.get("site_url") if root else None
    if not isinstance(said, Scalar) or not _ADDRESS.fullmatch(said.text):
        return ""
    return said.text.rstrip("/") + "/"
