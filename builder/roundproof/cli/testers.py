"""`roundproof testers`: what testers sent back, summed up beside the estimates."""

from __future__ import annotations

import argparse
import sys

from roundproof.cli.one import one_pattern
from roundproof.cli.shared import put
from roundproof.findings import Severity
from roundproof.telling import testers_json, testers_text
from roundproof.telling.paint import paint_for
from roundproof.testers.summary import summed_up
from roundproof.words import say


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("pattern", metavar="PATTERN", help=say("options.one_pattern"))
    parser.add_argument(
        "--format", choices=["text", "json"], default="text", help=say("options.measure_format")
    )


def run(args: argparse.Namespace) -> int:
    """0, 1 where a report or the decisions have an error, 2 where the pattern cannot be used."""
    found = one_pattern(args.pattern)
    if isinstance(found, str):
        print(found, file=sys.stderr)
        return 2
    proof = found.proof
    assert proof is not None
    summary = summed_up(proof.pattern, proof.fabric, proof.measures, proof.reports)
    if args.format == "json":
        put(testers_json.told(found, summary))
    else:
        put(testers_text.told(found, summary, paint_for(sys.stdout)))
    return int(any(f.severity is Severity.ERROR for f in proof.reports.findings))
