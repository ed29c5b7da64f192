"""The command line: picks a command, loads its file alone, and ends quietly whatever happens.

A command is a module of this folder with two functions: `configure(parser)` adds its arguments and
`run(args) -> int` does the work and gives the exit code. Modules are imported only once their
command is asked for, so that a quick command does not pay for a slow one.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from functools import partial
from importlib import import_module
from typing import Any, NoReturn, TextIO

from roundproof import __version__
from roundproof.cli.shared import COLLECT as COLLECT
from roundproof.cli.shared import OUR_FAULT as OUR_FAULT
from roundproof.words import say

COMMANDS = (
    "check", "explain", "work", "measure", "testers", "build", "serve", "new", "tidy", "print"
)  # fmt: skip


INTERRUPTED = 130
"""What shells expect of a command that Ctrl-C ended."""
PIPE_CLOSED = 141
"""What shells expect of a command whose reader went away."""


def main(argv: Sequence[str] | None = None) -> int:
    """Runs one command. The exit code is the command's, 2 where the command line is not
    understood. Never raises."""
    gc.set_threshold(*COLLECT)
    _spare_odd_consoles(sys.stdout, sys.stderr)
    try:
        code = _exit_code(list(sys.argv[1:] if argv is None else argv))
        sys.stdout.flush()
        if argv is None:
            gc.freeze()  # the process ends here: Python need not look through all its values again
        return code
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        # Whatever is still buffered would fail again when Python closes the stream.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return PIPE_CLOSED
    except Exception as fault:
        return _own_fault(fault)


def _exit_code(argv: list[str]) -> int:
    try:
        return _command(argv)
    except SystemExit as stop:  # argparse ends this way, with its message printed
        return stop.code if isinstance(stop.code, int) else 2


def _command(argv: list[str]) -> int:
    name = argv[0] if argv else "--help"
    if name in COMMANDS:
        module = import_module(f"roundproof.cli.{name}")
        parser = Parser(prog=f"roundproof {name}", description=_sentence(say(f"commands.{name}")))
        module.configure(parser)
        code: int = module.run(parser.parse_args(argv[1:]))
        return code
    overview = _overview()
    overview.parse_args([name])
    overview.error(_unknown(name))


class Parser(argparse.ArgumentParser):
    """The parser of one command: refuses what it does not know in one line. How wide the console
    is matters to help alone; argparse loads much to ask it, and would at every start."""

    def __init__(
        self, prog: str, helping: type[argparse.HelpFormatter] = argparse.HelpFormatter, **more: Any
    ) -> None:
        super().__init__(prog, formatter_class=partial(helping, width=80), **more)
        self.helping = helping

    def format_help(self) -> str:
        self.formatter_class = self.helping
        return super().format_help()

    def error(self, message: str) -> NoReturn:
        self.exit(2, say("commands.not_understood", prog=self.prog, message=message) + "\n")


def _overview() -> argparse.ArgumentParser:
    width = max(map(len, COMMANDS))
    rows = (f"  {name:<{width}}  {say(f'commands.{name}')}" for name in COMMANDS)
    parser = Parser(
        prog="roundproof",
        usage="roundproof COMMAND …",
        description=say("commands.overview"),
        epilog="\n".join([say("commands.heading"), *rows, "", say("commands.more")]),
        helping=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"roundproof {__version__}")
    parser.add_argument("rest", nargs="*", help=argparse.SUPPRESS)
    return parser


def _unknown(name: str) -> str:
    from difflib import get_close_matches

    near = get_close_matches(name, COMMANDS, n=1)
    said = say("commands.unknown", name=name)
    return f"{said}; {say('commands.near', near=near[0])}" if near else said


def _sentence(line: str) -> str:
    return line[0].upper() + line[1:] + "."


def _spare_odd_consoles(*streams: TextIO) -> None:
    """Lets a console that lacks a letter show a stand-in, where Python would stop."""
    for stream in streams:
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def _own_fault(fault: Exception) -> int:
    if os.environ.get("ROUNDPROOF_DEBUG"):
        from traceback import print_exception

        print_exception(fault)
    else:
        what = " ".join(f"{type(fault).__name__}: {fault}".split())[:200]
        print(say("commands.own_fault", what=what), file=sys.stderr)
    return OUR_FAULT
