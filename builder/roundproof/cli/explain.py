"""`roundproof explain`: why a check matters, with a bad and a good example."""

from __future__ import annotations

import argparse
import sys

from roundproof.checks import all_checks
from roundproof.cli.shared import put
from roundproof.pattern.near import nearest
from roundproof.telling.explaining import listed, told
from roundproof.telling.paint import paint_for
from roundproof.words import say


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("check", metavar="CHECK", nargs="?", help=say("options.explain"))


def run(args: argparse.Namespace) -> int:
    """0, or 2 for a check there is not."""
    checks, paint = all_checks(), paint_for(sys.stdout)
    if args.check is None:
        put(listed(checks.values(), paint))
    elif args.check in checks:
        put(told(checks[args.check], paint))
    else:
        print(_unknown(args.check), file=sys.stderr)
        return 2
    return 0


def _unknown(name: str) -> str:
    near = nearest(name.replace("_", "-"), all_checks())
    said = say("explain.unknown", name=name)
    return f"{said} {say('explain.near', near=near)}" if near else said
