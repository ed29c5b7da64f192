"""`roundproof check`: what does not hold together."""

from __future__ import annotations

import argparse
import sys
from importlib import import_module

from roundproof.checks.results import Results
from roundproof.cli.shared import OUR_FAULT, add_paths, put
from roundproof.cli.workers import Job, checked
from roundproof.findings import Severity
from roundproof.pattern.model import Status
from roundproof.processes import WorkerLost
from roundproof.telling.cells import clean
from roundproof.words import say

PROGRAMS = {"json": "json_", "sarif": "sarif", "github": "github"}
"""Formats for programs, with the module of `telling` that writes each."""


def configure(parser: argparse.ArgumentParser) -> None:
    add_paths(parser)
    statuses = [status.value for status in Status]
    weights = [severity.value for severity in Severity]
    parser.add_argument(
        "--format", choices=["text", *PROGRAMS], default="text", help=say("options.check_format")
    )
    parser.add_argument("--status", choices=statuses, help=say("options.status"))
    parser.add_argument("--as", dest="judge_as", choices=statuses, help=say("options.judge_as"))
    parser.add_argument(
        "--fail-on", choices=weights, default=Severity.ERROR.value, help=say("options.fail_on")
    )
    parser.add_argument("--jobs", metavar="N", type=_jobs, help=say("options.jobs"))


def run(args: argparse.Namespace) -> int:
    job = Job(
        Status(args.status) if args.status else None,
        Status(args.judge_as) if args.judge_as else None,
        with_pieces=args.format == "json",
    )
    try:
        results = checked(args.paths, job, args.jobs)
    except WorkerLost as lost:
        print(clean(str(lost)), file=sys.stderr)
        return OUR_FAULT
    put(_told(results, args.format))
    return results.exit_code(fail_on=Severity(args.fail_on))


def _jobs(text: str) -> int:
    """How many processes are asked for. Raises ArgumentTypeError."""
    if not text.isascii() or not text.isdecimal() or not int(text[:9]):
        raise argparse.ArgumentTypeError(say("check.jobs_unknown", text=clean(text)))
    return int(text[:9])


def _told(results: Results, style: str) -> str:
    if style in PROGRAMS:
        module = import_module(f"roundproof.telling.{PROGRAMS[style]}")
        text: str = module.told(results, *_site(style))
        return text
    from roundproof.telling.paint import paint_for
    from roundproof.telling.text import told

    return told(results, paint_for(sys.stdout))


def _site(style: str) -> tuple[str, ...]:
    """The address of the site, for the format that leads to its pages."""
    if style != "sarif":
        return ()
    from roundproof.telling.site_address import site_address

    return (site_address(),)
