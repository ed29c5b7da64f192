"""`roundproof build`: check, build, follow every link, and only then replace the last site."""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING

from roundproof.checks.results import Results
from roundproof.cli.shared import OUR_FAULT, put
from roundproof.pages.links import LinksNotChecked, broken_links
from roundproof.pages.standing import Standing, standing
from roundproof.pages.swap import CannotReplace, new_site
from roundproof.processes import ToMend, WorkerLost
from roundproof.store import Store, code_stamp, key, stamp
from roundproof.telling.paint import paint_for
from roundproof.telling.text import told
from roundproof.words import count, listing, say

if TYPE_CHECKING:
    from roundproof.making import Everything, Making


class Stopped(Exception):
    """Nothing is built; the message says why."""


def configure(parser: argparse.ArgumentParser) -> None:
    add_site(parser)
    parser.add_argument("--into", type=Path, metavar="DIR", help=say("options.into"))


def add_site(parser: argparse.ArgumentParser) -> None:
    """The arguments by which a command finds its site."""
    parser.add_argument(
        "folder", nargs="?", type=Path, default=Path(), metavar="DIR", help=say("options.site")
    )
    parser.add_argument("--config", type=Path, metavar="FILE", help=say("options.config"))


def site_file(args: argparse.Namespace) -> Path:
    """The mkdocs.yml of the site that the arguments name. Raises Stopped."""
    file: Path = args.config or args.folder / "mkdocs.yml"
    if not file.is_file():
        key = "build.no_file" if args.config else "build.no_site"
        raise Stopped(say(key, file=file, folder=args.folder.resolve()))
    return file.resolve()


def run(args: argparse.Namespace) -> int:
    """0 for a site built, 1 for errors that stop it, 2 for input that cannot be used."""
    started = perf_counter()
    try:
        file = site_file(args)
    except Stopped as stop:
        return _say_stop(stop, 2)
    from roundproof.making import Making, make
    from roundproof.mkdocs_plugin import HostError, settings

    try:
        host = settings(file)
    except HostError as stop:
        return _say_stop(stop, 2)
    site: Path = (args.into or host.site).resolve()
    try:
        making = Making.of(host.frame, host.store)
        everything = make(making, host.patterns)
    except WorkerLost as lost:
        return _say_stop(lost, OUR_FAULT)
    except ToMend as stop:
        return _say_stop(stop, 2)
    results = everything.results
    _tell(results)
    try:
        pages = _built(file, site, everything, making)
    except Stopped as stop:
        still = say("build.still" if site.exists() else "build.none_yet", site=site)
        said = f"{stop}\n{say('build.stopped', last=still)}"
        return _say_stop(said, 2 if results.unusable else 1)
    _say_done(results, site, pages, perf_counter() - started)
    return 0


def _tell(results: Results) -> None:
    """Everything that was found, as `check` tells it; a site without a fault stays quiet."""
    if results.findings:
        put(told(results, paint_for(sys.stdout)) + "\n")
    for result in results.files:
        if standing(result) is Standing.WITHHELD:
            put(say("build.withheld", name=result.name) + "\n")


def _built(file: Path, site: Path, everything: Everything, making: Making) -> int:
    """Build the site into its place; how many pages it has. Raises Stopped."""
    from roundproof.making import given
    from roundproof.mkdocs_plugin import HostError, build_site

    stops = [r.name for r in everything.results.files if standing(r) is Standing.STOPS]
    if stops:
        raise Stopped(say("build.stops", names=listing(stops)))
    try:
        whole = given(everything, making)
    except ToMend as stop:
        raise Stopped(str(stop)) from stop
    if whole.site.troubles:
        raise Stopped("\n".join(whole.site.troubles))
    try:
        with new_site(site) as fresh:
            build_site(file, fresh, whole)
            _follow_links(fresh, Store(making.store))
            return sum(1 for _ in fresh.rglob("*.html"))
    except (HostError, CannotReplace) as stop:
        raise Stopped(str(stop)) from stop
    except OSError as stop:
        raise Stopped(say("build.unwritable", file=stop.filename, why=stop.strerror)) from stop


def _follow_links(site: Path, store: Store) -> None:
    """Of a site that is to the byte as one whose links were good, they need not be followed
    again. Raises Stopped."""
    names = sorted(path.relative_to(site).as_posix() for path in site.rglob("*"))
    sign = key("links", code_stamp(), stamp([site], (".html", ".css")), *names)
    if store.get(sign) is not None:
        return
    try:
        broken = broken_links(site)
    except LinksNotChecked as failure:
        raise Stopped(say("build.links_failed", why=failure)) from failure
    if broken:
        raise Stopped("\n  ".join([say("build.links"), *map(str, broken)]))
    store.put(sign, b"good")


def _say_stop(why: object, code: int) -> int:
    sys.stdout.flush()  # what was found stands above what follows from it
    print(why, file=sys.stderr)
    return code


def _say_done(results: Results, site: Path, pages: int, seconds: float) -> None:
    standings = Counter(standing(r) for r in results.files if r.status)
    said = [say(f"build.standing_{s}", number=standings[s]) for s in Standing if standings[s]]
    put(
        say(
            "build.done",
            pages=count("page", pages),
            patterns=count("pattern", standings.total()),
            standings=listing(said) or say("build.no_patterns"),
            seconds=f"{seconds:.1f}",
        )
    )
    put("\n" + say("build.open", file=site / "index.html") + "\n")
