"""What a care text tells to do, and what materials bear of it.

The temperatures are those of ISO 3758:2023; which fibre or thing bears what is common practice, no
source. Only what is told and does harm is looked for: a text that says less is never wrong here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from roundproof.expressions import expression
from roundproof.frozen import dataclass
from roundproof.proof import Proof


@dataclass(frozen=True, slots=True)
class Claim:
    """One thing told: `kind` "machine", "hand", "wash", "tumble", "iron" or "bleach"; `degrees` of
    the water, None where no temperature is told; the words and where they stand in their line."""

    kind: str
    degrees: int | None
    words: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Material:
    """A fibre of a yarn, or a thing inside: `kind` is a row of the table below."""

    name: str
    kind: str
    is_yarn: bool = False


_WARM, _HOT = 40, 60
_WORDS = {"cool": 20, "cold": 20, "lukewarm": 30, "warm": _WARM, "hot": _HOT, "boil": 95}
_GENTLE = expression(r"(?i)\b(?:wool|silk|gentle|delicates?|hand[- ]?wash)\b[\w -]{0,12}"
                     r"(?:cycle|program|programme|setting)|\bdelicates?\b|\bgentle\b")  # fmt: skip
_FIBRES = {
    "wool": ("wool", "merino", "alpaca", "mohair", "cashmere", "angora", "camel", "llama", "yak"),
    "silk": ("silk",),
    "paper": ("paper", "raffia", "jute"),
    "synthetic": ("acrylic", "polyacryl"),
}
_THINGS = {
    "wire": ("wire", "pipe cleaner", "chenille stem"),
    "magnet": ("magnet",),
    "battery": ("battery", "batteries", "button cell", "coin cell", "led light", "music box"),
    "card": ("cardboard", "card stock", "thin card", "stiff card", "papier"),
    "metal": ("steel weight", "lead weight", "steel shot", "lead shot", "iron weight"),
    "seed": ("rice", "lentil", "bean", "cherry stone", "sand", "seed", "lavender"),
}
_HARM = {
    "wire": "rusts, and its ends work through the fabric",
    "magnet": "does not belong in water",
    "battery": "does not belong in water",
    "card": "turns to pulp in water",
    "metal": "rusts in water",
    "seed": "swells and rots in water",
}


def claims(text: str) -> Iterator[Claim]:
    """What a line of care tells to do, in its order; what it tells not to do is left out."""
    for match in _said().finditer(text):
        clause = re.split(r"[.;!?]", text[: match.start()])[-1]
        if re.search(r"(?i)\b(?:not?|never|don't|nor|without|avoid)\b[\w ,/-]*$", clause):
            continue
        kind = next(kind for kind, words in match.groupdict().items() if words)
        rest = re.split(r"[.;!?]", text[match.end() :])[0]
        if re.match(r"(?i)[ -]*(?:bag|soap|powder|instructions?|board)\b", rest):
            continue
        yield Claim(kind, _degrees(match.group() + rest), match.group(), *match.span())


def _degrees(clause: str) -> int | None:
    number = re.search(r"(\d{2}) ?(?:°|º|degrees?|deg\b|C\b)", clause)
    if number:
        return int(number[1])
    words = re.findall(r"[a-z]+", clause.lower())
    return next((_WORDS[word] for word in words if word in _WORDS), None)


@cache
def _said() -> re.Pattern[str]:
    return re.compile(
        r"(?i)(?P<tumble>\btumble[- ]?dr(?:y|ied|ying)\b|\bin the dryer\b)"
        r"|(?P<machine>\bmachine[- ]?wash(?:able|ed|ing)?\b|\bmachine at\b"
        r"|\b(?:wash(?:able)? )?in the (?:washing )?machine\b)"
        r"|(?P<hand>\bhand[- ]?wash(?:able|ed|ing)?\b|\bwash(?:ed)? by hand\b)"
        r"|(?P<iron>\biron(?:ed|ing)?\b|\bpress with\b)"
        r"|(?P<bleach>\bbleach(?:ed|ing)?\b)"
        r"|(?P<wash>\b(?:wash|soak|rinse)(?:ed|able|ing)?\b)"
    )


def materials(proof: Proof, care: str) -> Iterator[Material]:
    """The delicate things and fibres of an object, in the order of the file; not what the care
    text speaks of itself."""
    low = care.lower()
    for notion in proof.pattern.notions:
        name = f" {notion.item.value.lower().replace('-', ' ')} "
        for kind, words in _THINGS.items():
            named = any(w in name and re.search(rf"\b{w}(?:s|es)?\b", name) for w in words)
            if named and not any(word in low for word in words) and not _is_tool(name):
                yield Material(notion.item.value, kind)
    for yarn in proof.pattern.yarns:
        need = proof.measures.yarns.get(yarn.key)
        if need is not None and yarn.fibre:
            yield from (
                Material(yarn.name, kind, is_yarn=True) for kind in _kinds(yarn.fibre.value)
            )


def _is_tool(name: str) -> bool:
    return any(word in name for word in ("cutter", "needle", "plier", "holder", "pattern", "bag"))


def _kinds(fibre: str) -> Iterator[str]:
    """The delicate fibres; wool that is treated, or spun for socks, is as hardy as others."""
    low = fibre.lower()
    hardy = re.search(r"superwash|machine[- ]washable|polyamide|nylon", low)
    for kind, words in _FIBRES.items():
        if any(w in low and re.search(rf"\b{w}", low) for w in words) and not (
            kind == "wool" and hardy
        ):
            yield kind


def refuses(material: Material, claim: Claim, care: str) -> str:
    """Why a material does not bear what is told, in words; empty where it does."""
    wet = claim.kind in ("machine", "hand", "wash")
    if not material.is_yarn:
        return _HARM[material.kind] if wet or claim.kind == "tumble" else ""
    degrees = claim.degrees or 0
    if material.kind == "synthetic":
        if wet and degrees >= _HOT:
            return f"bears {_WARM} degrees"
        low = (
            r"(?i)\b(?:cool|low|lukewarm) iron|\biron(?:ed|ing)?(?: it| on| at)? (?:cool|low|luke)"
        )
        hot = claim.kind == "iron" and not re.search(low, care)
        return "melts under an iron" if hot else ""
    if material.kind == "paper":
        return "falls apart in water" if wet or claim.kind == "tumble" else ""
    if claim.kind == "bleach":
        return "is eaten by bleach"
    if claim.kind == "tumble":
        return "felts and shrinks in a dryer" if material.kind == "wool" else "wears out in a dryer"
    if wet and degrees > _WARM:
        return f"bears {_WARM} degrees at the most"
    if claim.kind == "machine" and not _GENTLE.search(care):
        return "felts in a machine" if material.kind == "wool" else "is too fine for a machine"
    return ""
