"""`roundproof print`: a pattern as one file, for whoever it is meant for."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from roundproof.checks.results import Result
from roundproof.cli.one import one_pattern
from roundproof.telling.cells import clean
from roundproof.words import say
from roundproof.writing.slug import slug

OUT = Path("out")
READERS = ("editor",)
FORMATS = ("html",)


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("pattern", metavar="PATTERN", help=say("options.one_pattern"))
    parser.add_argument(
        "--for", dest="reader", choices=READERS, default="editor", help=say("options.for")
    )
    parser.add_argument(
        "--format", choices=FORMATS, default="html", help=say("options.print_format")
    )
    parser.add_argument("--out", metavar="FILE", type=Path, help=say("options.out"))


def run(args: argparse.Namespace) -> int:
    """0, or 2 where the pattern cannot be used or the file not be written."""
    found = one_pattern(args.pattern)
    if isinstance(found, str):
        print(found, file=sys.stderr)
        return 2
    path = args.out or OUT / _name(found, args.reader)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(_review(found), encoding="utf-8")
    except OSError as fault:
        print(say("print.unwritten", path=clean(str(path)), why=fault.strerror), file=sys.stderr)
        return 2
    print(say("print.written", path=clean(path.as_posix())))
    return 0


def _name(result: Result, reader: str) -> str:
    assert result.proof is not None
    pattern = result.proof.pattern
    version = f"-{pattern.version.value}" if pattern.version else ""
    return f"{slug(pattern.slug)}{version}-{reader}.html"


def _review(result: Result) -> str:
    from roundproof.pages.review import review_page
    from roundproof.pages.standalone import filled
    from roundproof.pattern.answers import read_answers

    assert result.proof is not None
    answers, unread = read_answers(result.proof.folder)
    page = review_page(result.proof, result.findings, answers, unread)
    sheets = ("tokens", "page", "drawings", "review")
    return filled("review.html", sheets, page=page)
