"""`roundproof new`: a working start for a site, or a draft of a pattern."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from roundproof.cli.shared import put
from roundproof.drawing.colour import read_shade
from roundproof.pattern.files import DEFAULTS_FILE
from roundproof.pattern.load import load_defaults
from roundproof.pattern.model import Terms
from roundproof.pattern.nodes import Scalar
from roundproof.words import say
from roundproof.writing.beginnings import InTheWay, write_pattern, write_site
from roundproof.writing.pasted import pasted
from roundproof.writing.pasted_text import Unreadable, checked, notes_of
from roundproof.writing.pasted_told import told
from roundproof.writing.slug import slug


def configure(parser: argparse.ArgumentParser) -> None:
    kinds = parser.add_subparsers(dest="kind", required=True, metavar="site|pattern")
    site = kinds.add_parser("site", help=say("new.site"))
    site.add_argument("folder", type=Path, metavar="DIR", help=say("new.site_folder"))
    site.add_argument("--title", metavar="TITLE", help=say("new.site_title"))
    site.add_argument("--designer", metavar="NAME", help=say("new.site_designer"))
    site.add_argument("--accent", metavar="SHADE", help=say("new.site_accent"))
    pattern = kinds.add_parser("pattern", help=say("new.pattern"))
    pattern.add_argument("name", metavar="NAME", help=say("new.pattern_name"))
    pattern.add_argument("--folder", metavar="FOLDER", help=say("new.pattern_folder"))
    pattern.add_argument("--from", dest="notes", metavar="FILE", help=say("new.pattern_from"))
    pattern.add_argument(
        "--in", dest="site", type=Path, default=Path(), metavar="DIR", help=say("new.pattern_site")
    )


def run(args: argparse.Namespace) -> int:
    """0, or 2 where nothing could be written."""
    try:
        put(_new_site(args) if args.kind == "site" else _new_pattern(args))
    except (InTheWay, Unreadable) as stop:
        print(stop, file=sys.stderr)
        return 2
    except OSError as stop:
        print(say("new.unwritable", file=stop.filename, why=stop.strerror), file=sys.stderr)
        return 2
    return 0


def _new_site(args: argparse.Namespace) -> str:
    folder: Path = args.folder
    title = _one_line(args.title or folder.resolve().name.replace("-", " ").replace("_", " "))
    accent = args.accent or ""
    if accent and read_shade(accent) is None:
        raise InTheWay(say("new.no_shade", shade=repr(accent)))
    title = title[:1].upper() + title[1:] or say("new.untitled")
    files = write_site(folder, title, _one_line(args.designer or ""), accent)
    nexts = [say(f"new.next_{step}", folder=folder) for step in ("cd", "build", "serve", "pattern")]
    lines = [*map(str, files), "", say("new.site_done", folder=folder), ""]
    return "\n".join([*lines, *(f"  {line}" for line in nexts)]) + "\n"


def _new_pattern(args: argparse.Namespace) -> str:
    title = _one_line(args.name)
    folder = slug(args.folder or title)
    if not folder:
        raise InTheWay(say("new.no_letters", name=repr(args.folder or args.name)))
    site: Path = args.site
    if not (site / "mkdocs.yml").is_file() and not (site / "patterns").is_dir():
        raise InTheWay(say("new.no_site", folder=site.resolve()))
    if args.notes is not None:
        return _from_notes(args.notes, site / "patterns", folder, title)
    file = write_pattern(site / "patterns", folder, title)
    return say("new.pattern_done", file=file, folder=file.parent) + "\n"


def _from_notes(notes: str, patterns: Path, folder: str, title: str) -> str:
    """A draft from a file of notes, or from standard input where that is named `-`."""
    called = say("new.standard_input") if notes == "-" else _one_line(Path(notes).name)
    data = checked(sys.stdin.buffer.read(), called) if notes == "-" else notes_of(Path(notes))
    made = pasted(data, called, title, _shared_terms(patterns / DEFAULTS_FILE))
    return told(made, write_pattern(patterns, folder, title, made.text), called)


def _shared_terms(file: Path) -> Terms | None:
    """The terms that the defaults of a site give its patterns."""
    defaults, _ = load_defaults(file, file.name)
    said = defaults.root.get("terms") if defaults else None
    known = {terms.value: terms for terms in Terms}
    return known.get(said.text) if isinstance(said, Scalar) else None


def _one_line(text: str) -> str:
    """The text without line ends and whatever else would not be seen."""
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())
