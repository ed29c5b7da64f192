"""What Lighthouse says of the gallery and of patterns' pages, on a telephone and on a desk.

    make lighthouse

Builds the demonstration site, serves it compressed below a sub-path, as a usual host would, and
writes results.md beside this file. Of several runs the middle one counts, category by category.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

HERE = Path(__file__).parent
ROOT = HERE.parents[2]
sys.path.insert(0, str(HERE.parent))

from host import hosted  # noqa: E402

CATEGORIES = ("performance", "accessibility", "best-practices", "seo")
PAGES = {
    "gallery": "patterns/index.html",
    "pattern": "patterns/shore-crab/index.html",
    "pattern in two yarns": "patterns/moon-jelly/index.html",
}
FLAGS = ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-background-networking")
RUNS = 3
LEAST = 95
BROWSERS = ("chromium", "chromium-browser", "google-chrome")


def main() -> int:
    rows, least = [], 100.0
    with TemporaryDirectory() as folder:
        site = Path(folder) / "site"
        build = [sys.executable, "-m", "roundproof", "build", str(ROOT), "--into", str(site)]
        subprocess.run(build, check=True, stdout=subprocess.DEVNULL)
        with hosted(site) as host:
            for name, address in PAGES.items():
                for device in ("telephone", "desk"):
                    runs = [scores(f"{host}/{address}", device) for _ in range(RUNS)]
                    middle = [median(run[kind] for run in runs) for kind in CATEGORIES]
                    least = min(least, *middle)
                    rows.append((name, device, *(f"{score:.0f}" for score in middle)))
    heads = ("page", "as on a", *CATEGORIES)
    table = [f"| {' | '.join(row)} |" for row in (heads, ["---"] * len(heads), *rows)]
    text = "\n".join([*HEAD, *table, "", f"Lighthouse {version()}, {browser_version()}."])
    (HERE / "results.md").write_text(text + "\n", "utf-8")
    print(text)
    return int(least < LEAST)


HEAD = [
    "# What Lighthouse says of the pages",
    "",
    f"Of the demonstration site, served compressed from this machine below a sub-path. The middle"
    f" of {RUNS} runs; at least {LEAST} is asked for. Written by `make lighthouse`.",
    "",
]


def scores(url: str, device: str) -> dict[str, float]:
    command = ["node", str(HERE / "node_modules/lighthouse/cli/index.js"), url, "--quiet"]
    command += ["--output=json", f"--only-categories={','.join(CATEGORIES)}"]
    command += [
        "--chrome-flags=--headless=new --no-sandbox --disable-gpu --disable-background-networking"
    ]
    command += ["--preset=desktop"] if device == "desk" else []
    made = subprocess.run(
        command,
        check=True,
        capture_output=True,
        text=True,
        env=os.environ | {"CHROME_PATH": browser()},
    )
    found = json.loads(made.stdout)
    return {kind: 100 * found["categories"][kind]["score"] for kind in CATEGORIES}


def browser() -> str:
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    if found is None:
        raise SystemExit("Lighthouse opens the pages in Chromium, which is not here.")
    return found


def browser_version() -> str:
    made = subprocess.run([browser(), "--version"], capture_output=True, text=True, check=True)
    return " ".join(made.stdout.split()[:2])


def version() -> str:
    package = HERE / "node_modules/lighthouse/package.json"
    return str(json.loads(package.read_text("utf-8"))["version"])


if __name__ == "__main__":
    sys.exit(main())
