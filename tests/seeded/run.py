"""How many planted mistakes are caught, by kind, and at their own round.

Run by hand: `python tests/seeded/run.py`, with `-v` for every survivor, with a
number for so many mistakes picked by chance.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tests"))

from proving import proved  # noqa: E402
from roundproof.findings import Finding, Severity  # noqa: E402
from seeded.mistakes import (  # noqa: E402
    Clean,
    Mistake,
    adds_up,
    numbers,
    parted,
    planted,
    without_some_counts,
)

SEED = 7


@dataclass
class Score:
    """Mistakes by kind: planted, caught, caught at their own round; and what was not."""

    planted: Counter[str] = field(default_factory=Counter)
    caught: Counter[str] = field(default_factory=Counter)
    placed: Counter[str] = field(default_factory=Counter)
    equal: Counter[str] = field(default_factory=Counter)
    """Those with which the piece holds all the same."""
    survivors: list[Mistake] = field(default_factory=list)
    elsewhere: list[tuple[Mistake, str]] = field(default_factory=list)

    def share(self, of: Counter[str]) -> float:
        return sum(of.values()) / max(1, sum(self.planted.values()))


def pieces() -> list[Clean]:
    """The pieces kept for this, and those of the project's patterns that stand by themselves."""
    return [*_kept(), *_of_patterns()]


def _kept() -> Iterator[Clean]:
    blocks = Path(__file__).with_name("pieces.txt").read_text("utf-8").strip().split("\n\n")
    for block in blocks:
        head, *lines = block.splitlines()
        name, _, *said = (part.strip() for part in head.removeprefix("=").split("|"))
        body = "".join(f"    {key}\n" for key in said)
        yield Clean(name, tuple(lines), body=body)


def _of_patterns() -> Iterator[Clean]:
    """Pieces without yarns, words or edges of their own, every round with its count."""
    files = [*ROOT.glob("patterns/*/pattern.yaml"), *ROOT.glob("tests/clean/*/pattern.yaml")]
    for path in sorted(files):
        proof, _ = proved(path.read_text("utf-8"))
        assert proof is not None
        pattern = proof.pattern
        for piece in pattern.pieces:
            alone = piece.rounds is not None and not (piece.starts or piece.path or piece.mirror)
            if not alone or piece.rounds is None or pattern.stitches or pattern.letters:
                continue
            lines = [line.text for line in piece.rounds.lines or ()]
            rounds = tuple(line for line in lines if numbers(line))
            if len(rounds) < 4 or not all(parted(line)[2] for line in rounds):
                continue
            counts = piece.chain_counts
            said = f"    chain_counts: {'yes' if counts.value else 'no'}\n" if counts else ""
            clean = Clean(
                f"{path.parent.name}/{piece.key}", rounds, str(pattern.written_in), body=said
            )
            if not _findings(clean.draft()):
                yield clean


def _findings(text: str) -> list[Finding]:
    _, found = proved(text)
    return [f for f in found if f.severity is not Severity.NOTE]


def score(clean: Iterable[Clean], *, some_counts: bool, most: int | None = None) -> Score:
    """Plant mistakes in pieces and see what is said. With `some_counts` a quarter of the counts is
    taken out; with `most`, so many mistakes are picked."""
    pick = random.Random(SEED)
    mistakes = [m for piece in clean for m in planted(piece, pick)]
    if most is not None:
        mistakes = pick.sample(mistakes, min(most, len(mistakes)))
    found = Score()
    for mistake in mistakes:
        piece = mistake.piece
        lines = mistake.lines
        if adds_up(piece, lines):
            found.equal[mistake.kind] += 1
            continue
        if some_counts:
            keep = mistake.at if mistake.kind == "a wrong count" else -1
            lines = without_some_counts(lines, pick, keep)
        findings = _findings(piece.draft(lines))
        found.planted[mistake.kind] += 1
        if not findings:
            found.survivors.append(mistake)
            continue
        found.caught[mistake.kind] += 1
        if any(_at(f, mistake) for f in findings):
            found.placed[mistake.kind] += 1
        else:
            told = "; ".join(f"{f.check} {f.round}: {f.message}" for f in findings[:2])
            found.elsewhere.append((mistake, told))
    return found


def _at(finding: Finding, mistake: Mistake) -> bool:
    said = numbers(f"{finding.round}:") if finding.round else None
    if said is None:
        return False
    return any(said[0] <= label <= said[1] for label in mistake.labels)


def report(found: Score) -> str:
    rows = [
        "| mistake | planted | caught | at its round | adds up all the same |",
        "|---|---|---|---|---|",
    ]
    for kind in sorted({*found.planted, *found.equal}):
        rows.append(
            f"| {kind} | {found.planted[kind]} | {found.caught[kind]} | {found.placed[kind]} |"
            f" {found.equal[kind]} |"
        )
    total = sum(found.planted.values())
    rows.append(
        f"| all | {total} | {sum(found.caught.values())} ({found.share(found.caught):.1%}) |"
        f" {sum(found.placed.values())} ({found.share(found.placed):.1%}) |"
        f" {sum(found.equal.values())} |"
    )
    return "\n".join(rows)


def main(verbose: bool, most: int | None = None) -> None:
    clean = pieces()
    print(f"{len(clean)} clean pieces, {sum(len(p.lines) for p in clean)} lines\n")
    for some in (False, True):
        found = score(clean, some_counts=some, most=most)
        print("A quarter of the counts missing" if some else "Every round states its count")
        print(f"\n{report(found)}\n")
        for mistake in found.survivors if verbose else ():
            print(f"   not caught: {mistake.kind}: {mistake.piece.name}: {mistake.told}")
        for mistake, told in found.elsewhere if verbose else ():
            print(
                f"   elsewhere: {mistake.kind}: {mistake.piece.name}: {mistake.told}\n      {told}"
            )


if __name__ == "__main__":
    numbers_ = [int(word) for word in sys.argv[1:] if word.isdigit()]
    main("-v" in sys.argv, numbers_[0] if numbers_ else None)
