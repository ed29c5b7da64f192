"""What several commands share: the PATH argument and output that any console can take."""

from __future__ import annotations

import argparse
import sys

from roundproof.words import say

COLLECT = (50_000, 20, 100)
"""How rarely Python looks for values that refer to each other in circles. A command makes many
small values that stay to its end and hardly a circle; looking took a third of a long one's time."""

OUR_FAULT = 70
"""The customary exit code for a fault of the program itself; never that of a pattern."""


def add_paths(parser: argparse.ArgumentParser) -> None:
    """The patterns a command works on."""
    parser.add_argument("paths", metavar="PATH", nargs="*", help=say("options.path"))


def put(text: str) -> None:
    """Writes to standard output."""
    sys.stdout.write(text)
