"""`roundproof measure`: sizes, fits, yarn and time."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from roundproof.checks.results import Results
from roundproof.cli.maker import Refused, at_pace, in_gauges
from roundproof.cli.shared import add_paths, put
from roundproof.pipeline import prove
from roundproof.telling import measure_text, measure_why, measures
from roundproof.telling.cells import clean
from roundproof.telling.paint import paint_for
from roundproof.words import count, say


def configure(parser: argparse.ArgumentParser) -> None:
    add_paths(parser)
    parser.add_argument(
        "--format", choices=["text", "json"], default="text", help=say("options.measure_format")
    )
    parser.add_argument("--working", action="store_true", help=say("options.working"))
    parser.add_argument("--why", metavar="FIGURE", help=say("options.why"))
    parser.add_argument("--pace", metavar="STITCHES", help=say("options.pace"))
    parser.add_argument(
        "--gauge", metavar="GAUGE", action="append", default=[], help=say("options.gauge")
    )
    parser.add_argument("--draw", metavar="DIR", type=Path, help=say("options.draw"))
    parser.add_argument("--left-handed", action="store_true", help=say("options.left_handed"))


def run(args: argparse.Namespace) -> int:
    """0, or 2 where a file cannot be used, an option not be followed, or there is no such figure.
    Errors in a pattern are told beside the figures."""
    results = _as_made(prove(*args.paths), args.pace, args.gauge)
    if isinstance(results, Refused):
        print(results.message, file=sys.stderr)
        return 2
    if args.draw is not None:
        return _draw(results, args.draw, mirrored=args.left_handed)
    if args.why is not None:
        return _why(results, args.why, args.format)
    if args.format == "json":
        put(measures.told(results, working=args.working))
    else:
        put(measure_text.told(results, paint_for(sys.stdout), working=args.working))
    _warn(results)
    return 2 if results.unusable else 0


def _as_made(results: Results, pace: str | None, gauges: Sequence[str]) -> Results | Refused:
    """The results at the maker's pace and in their gauges, where these are given."""
    made = at_pace(results, pace) if pace is not None else results
    return in_gauges(made, gauges) if gauges and isinstance(made, Results) else made


def _why(results: Results, name: str, kind: str) -> int:
    found = measure_why.named(results, name)
    if kind == "json":
        put(measure_why.told_json(found))
    elif found:
        put(measure_why.told(found, paint_for(sys.stdout)))
    _warn(results)
    if not found:
        print(measure_why.unknown(results, name), file=sys.stderr)
    return 2 if results.unusable or not found else 0


def _draw(results: Results, folder: Path, *, mirrored: bool) -> int:
    from roundproof.cli.drawing_files import write_drawings

    try:
        number = sum(1 for _ in write_drawings(results, folder, mirrored=mirrored))
    except OSError as fault:
        path = clean(str(fault.filename or folder))
        print(say("print.unwritten", path=path, why=fault.strerror), file=sys.stderr)
        return 2
    print(say("measure.drawn", files=count("file", number), folder=clean(folder.as_posix())))
    _warn(results)
    return 2 if results.unusable else 0


def _warn(results: Results) -> None:
    for result in results.files:
        name = clean(result.title or result.name)
        if result.proof is None:
            for finding in result.findings:
                print(f"{name}: {clean(finding.message)}", file=sys.stderr)
        elif errors := result.summary.errors:
            said = say("measure.errors", title=name, errors=count("error", errors))
            print(said, file=sys.stderr)
