"""A label to stand beside the finished object: under 75 words, whatever the pattern says.

What it tells is what museums ask of a label at the least: name, scientific name, what it is made
of, who made it, scale, real size and its source; then as many statements as there is room for.
Length and print are those of Smithsonian guidance on access (75 words a label, sentences of at
most 25, 18 points and more).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from itertools import islice

from markupsafe import Markup

from roundproof.checks._materials import is_filling
from roundproof.frozen import dataclass
from roundproof.pages.figures import length, listed
from roundproof.pages.front import title_of
from roundproof.pages.materials import used_yarns
from roundproof.pages.prose import plain_text
from roundproof.pages.scale import CALLED, in_proportion, scale_words, scales
from roundproof.pages.specimen import SAID, scientific_name
from roundproof.proof import Proof

MOST_WORDS = 74
MOST_LETTERS = 380
"""What fits on a card of A5 in large print."""
MOST_STATEMENTS = 3
SENTENCE = 25
"""Words of a statement at most."""


@dataclass(frozen=True, slots=True)
class Label:
    """`facts` pairs a small word with what is told; `maker` is the word before the line that
    whoever made the object fills in."""

    name: str
    scientific: Markup
    facts: tuple[tuple[str, str], ...]
    maker: str
    statements: tuple[str, ...]


def label(proof: Proof, *, cited: bool = True) -> Label | None:
    """The label of a pattern that stands for something; None for others. `cited` names who says
    how large it is in life."""
    specimen = proof.pattern.specimen
    if specimen is None:
        return None
    name = cut(specimen.name.value if specimen.name else title_of(proof.pattern), 8, 40)
    binomial = cut(specimen.scientific.value, 8, 45) if specimen.scientific else ""
    facts, maker = tuple(_facts(proof, cited)), "Made by"
    said = [name, binomial, maker, *(word for fact in facts for word in fact)]
    fitting = _fitting(said, (plain_text(one.says) for one in specimen.statements))
    statements = tuple(islice(fitting, MOST_STATEMENTS))
    return Label(name, scientific_name(binomial), facts, maker, statements)


def _facts(proof: Proof, cited: bool) -> Iterator[tuple[str, str]]:
    pattern = proof.pattern
    yield "Made of", cut(_made_of(proof), 11, 60)
    if pattern.designer:
        yield "Pattern", cut(pattern.designer.value, 8, 40)
    real = pattern.specimen.real_size if pattern.specimen else None
    found = scales(pattern.size, real)
    if found:
        by = "" if in_proportion(found) else f", by the {CALLED[found[0].dimension]}"
        yield "Scale", cut(f"{scale_words(found[0].ratio)}{by}", 14, 60)
    if real is not None and (size := _real_size(real, found[0].dimension if found else "")):
        yield "In life", f"{size}{_source(proof, real.source) if cited else ''}"


def _made_of(proof: Proof) -> str:
    fibres = dict.fromkeys(
        re.sub(r"^100 ?%\s*", "", " ".join(yarn.fibre.value.split()))
        for yarn in used_yarns(proof)
        if yarn.fibre
    )
    stuffed = any(is_filling(notion) for notion in proof.pattern.notions)
    yarn = cut(listed(list(fibres)), 8, 40) if fibres else "yarn"
    return f"Crocheted {yarn}{', stuffed' if stuffed or proof.measures.stuffing_g else ''}"


def _real_size(real: object, dimension: str) -> str:
    names = (dimension,) if dimension else tuple(SAID)
    sizes = ((name, getattr(real, name)) for name in names)
    return next((f"{length(v.value)} {SAID[name]}" for name, v in sizes if v), "")


def _source(proof: Proof, source: object) -> str:
    """The reference, as far as there is room: its authors stand first."""
    number, specimen = getattr(source, "value", None), proof.pattern.specimen
    if not isinstance(number, int) or specimen is None:
        return ""
    if not 0 < number <= len(specimen.references):
        return ""
    return f" ({cut(plain_text(specimen.references[number - 1]), 9, 45)})"


def _fitting(said: list[str], statements: Iterable[str]) -> Iterator[str]:
    """Those for which there is room, in their order."""
    words, letters = sum(map(count_words, said)), sum(map(len, said))
    for one in statements:
        words += count_words(one)
        letters += len(one)
        short = all(count_words(part) <= SENTENCE for part in re.split(r"(?<=[.!?])\s", one))
        if short and words <= MOST_WORDS and letters <= MOST_LETTERS:
            yield one
        else:
            words, letters = words - count_words(one), letters - len(one)


def count_words(text: str) -> int:
    """Words between spaces, or runs of letters and digits, whichever are more: "3/4" are two."""
    return max(len(text.split()), len(re.findall(r"\w+", text)))


def cut(text: str, words: int, letters: int) -> str:
    """As much of the beginning as has so many words and letters, with a sign where that is not
    all."""
    whole = " ".join(text.split())
    if count_words(whole) <= words and len(whole) <= letters:
        return whole
    kept = whole[: letters - 1]
    while kept and count_words(kept) > words:
        kept = kept[: max(kept.rfind(" "), 0)] if " " in kept else kept[: len(kept) // 2]
    if len(kept) < len(whole) and kept and whole[len(kept)] != " " and " " in kept:
        kept = kept.rpartition(" ")[0]
    return kept.rstrip(" ,;:.-–") + "…"
