"""How the pages do by Lighthouse: `make lighthouse`. Writes what it measured to pages.md.

The site is served from this machine, compressed, as a host would; Lighthouse (Apache-2.0) slows
network and processor down as it does by default. A busy machine makes pages slower and never
quicker, so of some runs the best counts.
"""

from __future__ import annotations

import json
import os
import platform
import shutil
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tests"))

from playwright.sync_api import sync_playwright  # noqa: E402

from conftest import BROWSERS  # noqa: E402
from quality.host import hosted  # noqa: E402
from quality.kinds import build_every_kind  # noqa: E402

HERE = Path(__file__).parent
RESULTS = HERE / "pages.md"
COMMAND = HERE / "lighthouse/node_modules/.bin/lighthouse"
PAGES = {
    "front": "index.html",
    "gallery": "patterns/index.html",
    "pattern": "patterns/shore-crab/index.html",
    "pattern of 100 rounds": "patterns/hundred-rounds/index.html",
    "search": "search.html",
    "glossary": "glossary.html",
}
SCREENS = {"phone": (), "desktop": ("--preset=desktop",)}
CATEGORIES = ("performance", "accessibility", "best-practices", "seo")
LEAST, RUNS = 95, 3

HEAD = """\
# How the pages do by Lighthouse

Each category of {most}, the best of {runs} runs, least wanted {least}. The patterns of this site
and of the tests together, {count} of them, from a local host that compresses with gzip. Written by
`make lighthouse` with Lighthouse {lighthouse}, {browser}, Python {python}.

| page | screen | performance | accessibility | best practices | search engines |
|---|---|---|---|---|---|
"""


def main() -> int:
    if not COMMAND.exists():
        print("Lighthouse is not here: run this as `make lighthouse`.", file=sys.stderr)
        return 2
    with TemporaryDirectory() as name:
        folder = Path(name) / "every-kind"
        build_every_kind(folder)
        count = sum(1 for _ in folder.glob("patterns/*/pattern.yaml"))
        with hosted(folder / "site") as host:
            rows = {
                (page, screen): best(f"{host}/{address}", screen)
                for page, address in PAGES.items()
                for screen in SCREENS
            }
    text = HEAD.format(
        most=100, runs=RUNS, least=LEAST, count=count, lighthouse=_version(), browser=_browser(),
        python=platform.python_version(),
    )  # fmt: skip
    for (page, screen), scores in rows.items():
        text += f"| {page} | {screen} | " + " | ".join(map(str, scores)) + " |\n"
    RESULTS.write_text(text, "utf-8")
    print(text)
    return 0 if min(map(min, rows.values())) >= LEAST else 1


def best(address: str, screen: str) -> tuple[int, ...]:
    """The scores by category, each the best of all runs."""
    runs = [scores(address, screen) for _ in range(RUNS)]
    return tuple(map(max, zip(*runs, strict=True)))


def scores(address: str, screen: str) -> tuple[int, ...]:
    told = run(address, *SCREENS[screen])
    if short := [a["id"] for a in told["audits"].values() if _counts(a, told) and a["score"] < 0.9]:
        print(address, screen, short, file=sys.stderr)
    return tuple(round(100 * told["categories"][name]["score"]) for name in CATEGORIES)


def _counts(audit: dict[str, Any], told: dict[str, Any]) -> bool:
    """Whether an audit weighs anything in its category."""
    weights = {
        ref["id"]: ref["weight"]
        for category in told["categories"].values()
        for ref in category["auditRefs"]
    }
    return audit["score"] is not None and weights.get(audit["id"], 0) > 0


def run(address: str, *more: str) -> dict[str, Any]:
    flags = "--headless=new --no-sandbox --disable-gpu --disable-background-networking"
    command = [str(COMMAND), address, "--output=json", "--output-path=stdout", "--quiet", *more]
    command += [f"--chrome-flags={flags}", "--no-enable-error-reporting"]
    command += [f"--only-categories={','.join(CATEGORIES)}"]
    done = subprocess.run(
        command, check=True, capture_output=True, env={**os.environ, "CHROME_PATH": _chromium()}
    )
    told: dict[str, Any] = json.loads(done.stdout)
    return told


def _chromium() -> str:
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    assert found, f"none of {BROWSERS} is here"
    return found


def _version() -> str:
    text = (HERE / "lighthouse/node_modules/lighthouse/package.json").read_text("utf-8")
    return str(json.loads(text)["version"])


def _browser() -> str:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=_chromium(), args=["--no-sandbox"])
        return f"Chromium {browser.version}"


if __name__ == "__main__":
    sys.exit(main())
