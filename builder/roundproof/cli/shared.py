"""What several commands share: the PATH argument and output that any console can take."""

from __future__ import annotations

import argparse
import sys

from roundproof.words import say


def add_paths(parser: argparse.ArgumentParser) -> None:
    """The patterns a command works on."""
    parser.add_argument("paths", metavar="PATH", nargs="*", help=say("options.path"))


def put(text: str) -> None:
    """Writes to standard output."""
    sys.stdout.write(text)
