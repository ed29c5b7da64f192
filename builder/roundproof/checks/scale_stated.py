"""A scale that is told in words and not what the sizes come to, or that no size tells."""

from __future__ import annotations

import re
from collections.abc import Iterator

from roundproof.checks._prose import Said, about, lines, specimen
from roundproof.checks.base import Check, Found, light, quoted
from roundproof.findings import Severity
from roundproof.frozen import dataclass
from roundproof.measure.figures import cm, number
from roundproof.pattern.model import Pattern
from roundproof.proof import Proof

_DIMENSIONS = ("height", "width", "length", "depth", "span_", "around")
_ROUGH = 0.12
"""How far a scale told in words may be off: 'half life size' is a round figure."""
_PARTS = {
    "half": 1 / 2, "a third": 1 / 3, "one third": 1 / 3, "two thirds": 2 / 3, "a quarter": 1 / 4,
    "one quarter": 1 / 4, "three quarters": 3 / 4, "a fifth": 1 / 5, "one fifth": 1 / 5,
    "a tenth": 1 / 10, "one tenth": 1 / 10, "twice": 2, "double": 2, "three times": 3,
    "four times": 4, "five times": 5, "ten times": 10,
}  # fmt: skip
_PART = "|".join(sorted(_PARTS, key=len, reverse=True))


@dataclass(frozen=True, slots=True)
class _Told:
    ratio: float
    start: int
    end: int


def _run(proof: Proof) -> Found:
    ratios = _ratios(proof.pattern)
    real = proof.pattern.specimen.real_size if proof.pattern.specimen else None
    if real is not None and proof.pattern.size is not None and not ratios:
        yield CHECK.finding(
            real.span,
            "The real size and the size of the object have no measure in common, so the scale"
            " cannot be told.",
            "Give both the same one, for instance `length`.",
            severity=light(proof.pattern.status),
        )
    if not ratios:
        return
    for line in _texts(proof.pattern):
        for told in _told(line.text):
            if not any(abs(told.ratio / ratio - 1) <= _ROUGH for ratio, _ in ratios.values()):
                yield CHECK.finding(
                    line.place(told.start, told.end),
                    f"{quoted(line.text[told.start : told.end])} is told, and {_worked(ratios)}.",
                    "Leave the scale to the page, which reckons it from the sizes, or correct one"
                    " of them.",
                )


def _ratios(pattern: Pattern) -> dict[str, tuple[float, str]]:
    """Object over specimen by every measure that both have, with its working."""
    real = pattern.specimen.real_size if pattern.specimen else None
    found: dict[str, tuple[float, str]] = {}
    for name in _DIMENSIONS:
        made, true = getattr(pattern.size, name, None), getattr(real, name, None)
        if made and true and made.value > 0 and true.value > 0:
            working = f"{cm(made.value)} of {cm(true.value)}"
            found[name.rstrip("_")] = made.value / true.value, working
    return found


def _worked(ratios: dict[str, tuple[float, str]]) -> str:
    return " and ".join(
        f"by the {name} it is {number(ratio)} times life size ({working})"
        for name, (ratio, working) in ratios.items()
    )


def _texts(pattern: Pattern) -> Iterator[Said]:
    yield from about(pattern)
    yield from specimen(pattern)
    for photo in pattern.photos:
        yield from lines(photo.alt, photo.shows)


def _told(text: str) -> Iterator[_Told]:
    low = text.lower()
    by_life = re.search(r"life[ -]size", low) is not None
    if by_life:
        yield from _by_life(low)
    if by_life or "scale" in low or "enlarged" in low:
        for match in re.finditer(r"(?<![\d:.])(\d{1,5}) ?: ?(\d{1,5})(?![\d:.]*\d)", low):
            if int(match[1]) and int(match[2]):
                yield _Told(int(match[1]) / int(match[2]), *match.span())
        for match in re.finditer(r"[x×] ?([\d,]{1,7}) enlarged", low):
            yield _Told(float(match[1].replace(",", "")), *match.span())


def _by_life(low: str) -> Iterator[_Told]:
    """'Half life size', '2.5 times life size', 'life-size'; not 'smaller than life size'."""
    size = r"life[ -]sized?"
    for match in re.finditer(rf"(?:({_PART}|[\d.,]+ times|1/\d+) (?:of |as )?)?{size}\b", low):
        if match[1] is None:
            if not re.search(r"(?:\bthan|\bnot|\bnear|\bof|\btimes|\d) $", low[: match.start()]):
                yield _Told(1.0, *match.span())
        elif match[1] in _PARTS:
            yield _Told(_PARTS[match[1]], *match.span())
        elif match[1].startswith("1/"):
            yield _Told(1 / max(1, int(match[1][2:])), *match.span())
        elif re.fullmatch(r"\d{1,5}(?:\.\d+)?", factor := match[1].split()[0].replace(",", "")):
            yield _Told(max(float(factor), 0.001), *match.span())


_PATTERN = """\
title: Limpet
terms: US
summary: A limpet, {}.
size: {{width: 6 cm}}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
specimen:
  real_size: {{width: 60 mm, source: 1}}
  references: ["A. Reader, *Shells of the Shore*, 2019."]
"""

CHECK = Check(
    id="scale-stated",
    title="Scale in words",
    why=(
        "A model is believed to be as big as it is said to be. The page reckons the scale from the"
        " two sizes; a scale typed into the text stays behind when the yarn, and with it the size,"
        " is another."
    ),
    severity=Severity.WARNING,
    bad=_PATTERN.format("half life size"),
    good=_PATTERN.format("life size"),
    source="common practice, no source: scale is the length of the model over the real length",
    run=_run,
)
