"""What the licences of Creative Commons let a maker do with a pattern, in plain words.

Told from the legal code of version 4.0 (2013): sections 1 (what NonCommercial, Share and Adapted
Material mean), 2(a)(1) (what is granted), 3(a) (naming the maker) and 3(b) (ShareAlike), and from
the legal code of CC0 1.0 (2009), sections 2 and 3. The legal code goes before these words. That an
object made from a pattern may or may not fall under its licence is common practice, no source.
"""

from __future__ import annotations

import re

from roundproof.frozen import dataclass

TOLD_FROM = "4.0"
_BY = re.compile(r"CC[- ]BY(?P<nc>-NC)?(?P<end>-SA|-ND)?(?:[- ](?P<version>\d\.\d))?", re.I)
_ZERO = re.compile(r"CC[- ]?(?:0|zero)(?:[- ]1\.0)?", re.I)


@dataclass(frozen=True, slots=True)
class Licence:
    """A licence of Creative Commons. `paid` uses are allowed; changed copies may be handed on, as
    one likes or `alike`: under the same licence. CC0 asks for no `name`."""

    words: str
    address: str
    version: str
    name: bool = True
    paid: bool = True
    shares: bool = True
    alike: bool = False


def licence_of(text: str) -> Licence | None:
    """The licence that goes by this name; None for any other words."""
    text = " ".join(text.split())
    if _ZERO.fullmatch(text):
        home = "https://creativecommons.org/publicdomain/zero/1.0/"
        return Licence("CC0 1.0", home, "1.0", name=False)
    found = _BY.fullmatch(text)
    if found is None:
        return None
    parts = ("BY", "NC" if found["nc"] else "", (found["end"] or "").upper().strip("-"))
    kind, version = "-".join(part for part in parts if part), found["version"] or ""
    return Licence(
        f"CC {kind} {version}".strip(),
        f"https://creativecommons.org/licenses/{kind.lower()}/{version or TOLD_FROM}/",
        version or TOLD_FROM,
        paid=not found["nc"],
        shares="ND" not in parts,
        alike="SA" in parts,
    )


def answers(licence: Licence) -> tuple[tuple[str, str], ...]:
    """The five questions that makers ask, and what the licence answers."""
    return (
        ("Print it", _print(licence)),
        ("Sell what you make", _sell(licence)),
        ("Change it", _change(licence)),
        ("Translate it", f"A translation is a change. {_change(licence)}"),
        ("Use the photos", _photos(licence)),
    )


_NAMED = (
    "Keep with each copy the designer's name, the pattern's address and the licence with its"
    " address, and say if you changed anything."
)


def _print(licence: Licence) -> str:
    yes = "Yes, for yourself and for others, for a class or a club too"
    if not licence.name:
        return f"{yes}. Nothing is asked for it."
    money = "" if licence.paid else ", as long as it is not mainly to make money"
    return f"{yes}{money}. {_NAMED}"


def _sell(licence: Licence) -> str:
    if not licence.paid:
        return (
            "The licence leaves this open: it is for uses that are not mainly meant to make money,"
            " and whether it reaches an object made from a pattern differs from country to country."
            " See what the pattern's own page says, or ask its designer first."
        )
    thanks = "Naming the designer is" + (" a kindness." if not licence.name else " welcome.")
    return f"Yes. The licence lets everybody use the pattern for money as well. {thanks}"


def _change(licence: Licence) -> str:
    if not licence.shares:
        return "For yourself, yes. A changed pattern may not be handed on to others."
    if not licence.name:
        return "Yes, and hand on what comes of it as you like."
    money = "" if licence.paid else ", not mainly to make money"
    alike = ", under the same licence or one that counts as its equal" if licence.alike else ""
    named = "Name the designer and say that you changed it."
    return f"Yes, and hand on what comes of it{money}{alike}. {named}"


def _photos(licence: Licence) -> str:
    own = "Each photo names its own licence. Where it is this one: yes"
    if not licence.name:
        return f"{own}."
    money = "" if licence.paid else ", not mainly to make money"
    whole = "" if licence.shares else ", unchanged"
    return f"{own}{money}{whole}, with the name of who made it, the licence and its address."
