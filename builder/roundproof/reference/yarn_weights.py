"""The standard yarn weight categories, from yarn_weights.toml."""

from __future__ import annotations

from functools import cache
from typing import Any

from roundproof.frozen import dataclass
from roundproof.reference import load_table


@dataclass(frozen=True, slots=True)
class Bounds:
    """From least to most, both included; 0 where there is no such bound."""

    least: float
    most: float

    def holds(self, value: float) -> bool:
        return self.least <= value and (self.most == 0 or value <= self.most)

    @property
    def middle(self) -> float:
        return (self.least + self.most) / 2


@dataclass(frozen=True, slots=True)
class YarnWeight:
    """One category: `gauge` in stitches of `gauge_stitch` over 10 cm, `hook` in mm, `wraps` per
    inch, `metres` in 100 g."""

    category: int
    name: str
    yarns: str
    gauge: Bounds
    gauge_stitch: str
    hook: Bounds
    wraps: Bounds
    metres: Bounds
    sure: str
    source: str
    note: str = ""


@cache
def yarn_weights() -> tuple[YarnWeight, ...]:
    """The categories 0 to 7 in order."""
    table = load_table("yarn_weights")
    return tuple(_weight(row, table["source"]) for row in table["weight"])


def yarn_weight(category: int) -> YarnWeight | None:
    """A category by its number, or None."""
    return next((w for w in yarn_weights() if w.category == category), None)


def _weight(row: dict[str, Any], source: str) -> YarnWeight:
    bounds = {key: Bounds(*row[key]) for key in ("gauge", "hook", "wraps", "metres")}
    return YarnWeight(
        category=row["category"],
        name=row["name"],
        yarns=row["yarns"],
        gauge_stitch=row.get("gauge_stitch", "sc"),
        sure=row["sure"],
        source=source,
        note=row.get("note", ""),
        **bounds,
    )
