"""The right name for a wrong one: known near words first, then what is spelled much the same."""

from __future__ import annotations

from collections.abc import Iterable

# A word that designers use, and the names it may stand for here. The first that fits the place is
# offered. US spellings and the everyday words of the trade; common practice, no source.
NEAR_WORDS: dict[str, tuple[str, ...]] = {
    "color": ("colour",),
    "colors": ("colours",),
    "fiber": ("fibre",),
    "content": ("fibre",),
    "license": ("licence",),
    "copyright": ("licence",),
    "name": ("title", "item"),
    "author": ("designer", "by"),
    "creator": ("by", "designer"),
    "email": ("contact",),
    "mail": ("contact",),
    "website": ("contact",),
    "description": ("summary", "how", "alt"),
    "intro": ("summary",),
    "difficulty": ("level",),
    "skill": ("level",),
    "terminology": ("terms",),
    "language": ("terms",),
    "dimensions": ("size",),
    "finished_size": ("size",),
    "materials": ("notions",),
    "supplies": ("notions",),
    "tools": ("notions",),
    "yarn": ("yarns", "with"),
    "wool": ("yarns", "yarn"),
    "parts": ("pieces",),
    "rows": ("rounds",),
    "pattern": ("rounds", "pieces"),
    "instructions": ("rounds", "pieces"),
    "finishing": ("assembly",),
    "making_up": ("assembly",),
    "steps": ("assembly",),
    "pictures": ("photos",),
    "images": ("photos",),
    "image": ("file",),
    "picture": ("file",),
    "text": ("alt", "note"),
    "caption": ("alt",),
    "credit": ("by", "credits"),
    "history": ("changes",),
    "changelog": ("changes",),
    "errata": ("changes",),
    "warning": ("note", "safety"),
    "washing": ("care",),
    "questions": ("open",),
    "todo": ("open",),
    "tension": ("gauge",),
    "needle": ("hook",),
    "hook_size": ("hook",),
    "metres": ("length",),
    "meters": ("length",),
    "yards": ("length",),
    "brand": ("colour",),
    "quantity": ("count", "make"),
    "amount": ("amount", "count"),
    "number": ("count", "make"),
    "abbreviations": ("stitches",),
    "special_stitches": ("stitches",),
    "sew": ("join",),
    "attach": ("join",),
    "position": ("place",),
    "embroidery": ("embroider",),
    "fill": ("stuff",),
    "gather": ("close",),
    "method": ("by",),
    "onto": ("to",),
    "sides": ("front",),
    "simple": ("easy",),
    "medium": ("intermediate",),
    "hard": ("complex",),
    "difficult": ("complex",),
    "beginner": ("basic",),
    "novice": ("basic",),
    "advanced": ("complex",),
    "experienced": ("complex",),
    "release": ("published",),
    "released": ("published",),
    "public": ("published",),
    "american": ("US",),
    "british": ("UK",),
    "usa": ("US",),
    "gb": ("UK",),
    "round": ("joined",),
    "flat": ("rows",),
    "whip stitch": ("whipstitch",),
    "crocheted": ("crochet",),
    "glued": ("glue",),
}


def nearest(word: str, names: Iterable[str]) -> str | None:
    """The one of `names` that was most likely meant, or None."""
    known = {name.lower(): name for name in names}
    low = word.strip().lower()
    for form in (low, low.replace("-", "_").replace(" ", "_"), low.replace("_", " ")):
        if form in known:
            return known[form]
        for near in NEAR_WORDS.get(form, ()):
            if near.lower() in known:
                return known[near.lower()]
    if len(low) > 40:
        return None
    from difflib import get_close_matches

    close = get_close_matches(low, known, n=1, cutoff=0.72)
    return known[close[0]] if close else None
