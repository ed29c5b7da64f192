"""Names as folders and addresses: letters, digits and hyphens."""

from __future__ import annotations

import re
import unicodedata

LONGEST = 60


def slug(name: str) -> str:
    """`Moon jelly` as `moon-jelly`; empty where a name has no letter from a to z and no digit."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain.replace("'", ""))[:LONGEST].strip("-")
