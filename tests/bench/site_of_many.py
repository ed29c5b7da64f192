"""How long a site of 300 patterns takes to build, and a saved pattern to be there in the preview,
beside the plain host (MkDocs, its default theme) with 300 pages of the same tables."""

from __future__ import annotations

import os
import re
import shutil
import socket
import statistics
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from urllib.error import URLError

from roundproof.fabric.model import WorkedPiece
from roundproof.notation.writer import written
from roundproof.pages.front import title_of
from roundproof.pages.pattern import pattern_page
from roundproof.pages.values import PatternPage
from roundproof.pipeline import prove
from roundproof.proof import Proof

ROOT = Path(__file__).parents[2]
PATTERNS, TIMES, SAVES, PLAIN_SAVES = 300, 3, 20, 5
SAVED_LIMIT = 0.7
"""Seconds from a save to the refreshed page."""

OURS = """\
site_name: Shore
site_url: https://example.org/
docs_dir: site_src
theme: {name: roundproof}
plugins: [roundproof]
"""
PLAIN = "site_name: Shore\nsite_url: https://example.org/\n"
BUILD = """\
import sys
from roundproof.cli import build, main
build._follow_links = lambda *_: None
sys.exit(main.main(["build", sys.argv[1]]))
"""
"""The command but for following links, which the plain host does not do."""


@dataclass(frozen=True, slots=True)
class Site:
    """The same patterns as our site and as pages of the plain host."""

    ours: Path
    plain: Path

    @property
    def patterns(self) -> list[Path]:
        return sorted(self.ours.glob("patterns/*/pattern.yaml"))

    @property
    def pages(self) -> list[Path]:
        return sorted(self.plain.glob("docs/*-*.md"))


def main(patterns: int = PATTERNS) -> list[str]:
    with TemporaryDirectory() as name:
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        site = made(Path(name), patterns)
        return [*BUILDS, *builds(site), "", *SAVING, *saving(site)]


BUILDS = [
    "| build | seconds | of the processor | ratio of these | at most |",
    "|---|---|---|---|---|",
]
SAVING = [
    "| from a save to the page | least | median | most | at most |",
    "|---|---|---|---|---|",
]


# ---- the sites ----
def made(folder: Path, count: int) -> Site:
    """So many patterns, each one of the clean ones with a number."""
    site = Site(folder / "ours", folder / "plain")
    (site.ours / "site_src").mkdir(parents=True)
    (site.plain / "docs").mkdir(parents=True)
    (site.ours / "mkdocs.yml").write_text(OURS, "utf-8")
    (site.plain / "mkdocs.yml").write_text(PLAIN, "utf-8")
    for docs in (site.ours / "site_src", site.plain / "docs"):
        (docs / "index.md").write_text("# Shore\n\nFound on the shore.\n", "utf-8")
    (site.ours / "patterns").mkdir()
    shutil.copy(ROOT / "tests/clean/defaults.yaml", site.ours / "patterns")
    sources = sorted(ROOT.glob("tests/clean/*/pattern.yaml"))
    for number in range(count):
        source = sources[number % len(sources)]
        file = site.ours / "patterns" / f"{source.parent.name}-{number:03}" / "pattern.yaml"
        file.parent.mkdir()
        file.write_text(varied(source.read_text("utf-8"), number), "utf-8")
    for proof in prove(site.ours / "patterns").proofs:
        page = site.plain / "docs" / f"{proof.folder.name}.md"
        page.write_text(as_markdown(proof), "utf-8")
    return site


def varied(text: str, number: int) -> str:
    """Another title, and no photos, which the plain host would only copy."""
    text = re.sub(r"(?m)^title: (.*)$", lambda m: f"title: {m[1]} {number}", text, count=1)
    return re.sub(r"(?ms)^photos:.*?(?=^\w|\Z)", "", text)


def as_markdown(proof: Proof) -> str:
    """A page of the same tables, as one would write it by hand."""
    page = pattern_page(proof)
    blocks = [f"# {title_of(proof.pattern)}", page.lead.striptags(), _table(_facts(page))]
    blocks += ["## Materials", *(f"* {thing.name.striptags()}" for thing in page.materials.things)]
    for piece in proof.fabric.pieces.values():
        blocks += [f"## {piece.piece.name}", _table(_rounds(proof, piece))]
    blocks += ["## Assembly", *(f"1. {step.text.striptags()}" for step in page.steps)]
    words = [[word.us, word.uk, word.means.striptags()] for word in page.words]
    blocks += ["## Words used", _table([["US", "UK", "What to do"], *words])]
    return "\n\n".join(block for block in blocks if block) + "\n"


def _facts(page: PatternPage) -> list[list[str]]:
    return [["Fact", "Value"], *([f.label, f.value.striptags()] for f in page.facts)]


def _rounds(proof: Proof, piece: WorkedPiece) -> list[list[str]]:
    rows = [["Round", "Work", "Sts"]]
    for worked in piece.rounds:
        tree = worked.instruction
        work = written(tree, proof.pattern.written_in, proof.letter) if tree else ""
        rows.append([worked.label, work, str(worked.made or "")])
    return rows


def _table(rows: Sequence[Sequence[str]]) -> str:
    lines = [f"| {' | '.join(cell.replace('|', '/') for cell in row)} |" for row in rows]
    return "\n".join([lines[0], "|" + "---|" * len(rows[0]), *lines[1:]])


# ---- builds ----
def builds(site: Site) -> Iterator[str]:
    """All in turn, again and again, so that a busy moment falls on each alike; the least counts."""
    plain = [sys.executable, "-m", "mkdocs", "build", "--quiet"]
    ours = [sys.executable, "-c", BUILD, str(site.ours)]
    first = timed(ours, site.ours)
    timed(plain, site.plain)  # compiles what it loads
    runs: dict[str, list[tuple[float, float]]] = {"plain": [], "one": [], "none": []}
    for turn in range(TIMES):
        runs["plain"].append(timed(plain, site.plain))
        renamed(site.patterns[turn], "title: ", f"built {turn}")
        runs["one"].append(timed(ours, site.ours))
        runs["none"].append(timed(ours, site.ours))
    least = {what: min(took, key=lambda one: one[1]) for what, took in runs.items()}
    base = least["plain"][1]
    yield _build_row("`mkdocs build`, 300 pages", least["plain"], base, "")
    yield _build_row("`roundproof build`, 300 patterns, one changed", least["one"], base, "1")
    yield _build_row("the same, none changed", least["none"], base, "0.5")
    yield _build_row("the same, all new (once)", first, base, "")


def timed(command: Sequence[str], folder: Path) -> tuple[float, float]:
    """Seconds by the clock and of the processor, those of processes that it started as well."""
    began = time.perf_counter()
    process = subprocess.Popen(command, cwd=folder, stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    clock = time.perf_counter() - began
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0, command
    return clock, usage.ru_utime + usage.ru_stime


def _build_row(what: str, took: tuple[float, float], base: float, most: str) -> str:
    ratio = f"{took[1] / base:.2f}"
    return f"| {what} | {took[0]:.1f} | {took[1]:.1f} | {ratio} | {most} |"


# ---- saves ----
def saving(site: Site) -> Iterator[str]:
    """One pattern or page saved after the other, and its own page asked for until it is new."""
    ours = [sys.executable, "-m", "roundproof", "serve", str(site.ours), "--address"]
    plain = [sys.executable, "-m", "mkdocs", "serve", "--quiet", "--dev-addr"]

    def ours_at(file: Path) -> str:
        return f"patterns/{file.parent.name}/index.html"

    def plain_at(page: Path) -> str:
        return f"{page.stem}/"

    took = list(saved(ours, site.ours, site.patterns[:SAVES], "title: ", ours_at))
    yield _save_row("`roundproof serve`, 300 patterns", took, str(SAVED_LIMIT))
    for more in ([], ["--dirty"]):
        command = [*plain[:-1], *more, plain[-1]]
        took = list(saved(command, site.plain, site.pages[:PLAIN_SAVES], "# ", plain_at))
        yield _save_row(f"`mkdocs serve{' ' * bool(more)}{''.join(more)}`, 300 pages", took, "")


def saved(
    command: Sequence[str],
    folder: Path,
    files: Sequence[Path],
    title: str,
    at: Callable[[Path], str],
) -> Iterator[float]:
    """Seconds from each save to the page."""
    with serving(command, folder) as root:
        for number, file in enumerate(files):
            address = f"{root}/{at(file)}"
            until_there(address, "")
            time.sleep(0.5)  # the work of the last save is done
            wanted = renamed(file, title, f"saved by {command[2]} {len(command)} {number}")
            began = time.perf_counter()
            until_there(address, wanted)
            yield time.perf_counter() - began


def renamed(file: Path, title: str, more: str) -> str:
    """Saves a file with more in its title."""
    text = file.read_text("utf-8")
    file.write_text(re.sub(rf"(?m)^{title}(.*)$", rf"{title}\1 {more}", text, count=1), "utf-8")
    return more


def until_there(address: str, words: str) -> None:
    until = time.monotonic() + 300
    while words not in opened(address):
        assert time.monotonic() < until, address
        time.sleep(0.005)


def opened(address: str) -> str:
    with urllib.request.urlopen(address, timeout=300) as answer:
        text: str = answer.read().decode()
        return text


@contextmanager
def serving(command: Sequence[str], folder: Path) -> Iterator[str]:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        address = f"127.0.0.1:{taken.getsockname()[1]}"
    process = subprocess.Popen(
        [*command, address], cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    try:
        until = time.monotonic() + 300
        while True:
            try:
                opened(f"http://{address}/")
                break
            except URLError:
                assert process.poll() is None and time.monotonic() < until
                time.sleep(0.1)
        yield f"http://{address}"
    finally:
        process.terminate()
        process.wait(30)


def _save_row(what: str, took: Sequence[float], most: str) -> str:
    cells = (min(took), statistics.median(took), max(took))
    return f"| {what} | {' | '.join(f'{each:.2f}' for each in cells)} | {most} |"


if __name__ == "__main__":
    print("\n".join(main(*map(int, sys.argv[1:]))))
