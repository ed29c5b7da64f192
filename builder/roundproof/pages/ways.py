"""The pages that every site has, by their sources, and what the ways to them are called.

A site's own pages stand between those for makers and the search; what is for designers, and whose
all this is, stands at the foot alone.
"""

from __future__ import annotations

FOR_MAKERS = {
    "patterns/index.md": "Patterns",
    "how-to-read.md": "How to read",
    "glossary.md": "Glossary",
}
SEARCH = {"search.md": "Search"}
AT_THE_FOOT = {
    "for-designers.md": "For designers",
    "how-to-write.md": "How to write",
    "checks/index.md": "Checks",
    "credits.md": "Credits and licences",
}
