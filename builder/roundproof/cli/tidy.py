"""`roundproof tidy`: rounds in house style, everything else as it was."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from difflib import unified_diff

from roundproof.checks.results import Result
from roundproof.cli.shared import add_paths, put
from roundproof.pipeline import prove
from roundproof.telling.cells import clean
from roundproof.words import count, say
from roundproof.writing.in_place import CannotWrite, put_in_place
from roundproof.writing.tidy import Tidied, tidied


def configure(parser: argparse.ArgumentParser) -> None:
    add_paths(parser)
    parser.add_argument("--check", action="store_true", help=say("tidy.option_check"))
    parser.add_argument("--diff", action="store_true", help=say("tidy.option_diff"))
    parser.add_argument("--counts", action="store_true", help=say("tidy.option_counts"))
    parser.add_argument("--renumber", action="store_true", help=say("tidy.option_renumber"))


def run(args: argparse.Namespace) -> int:
    """0; with `--check` 1 where something would change; 2 where a file cannot be used or written,
    which wins over 1."""
    results = prove(*args.paths)
    code = 2 if results.unusable else 0
    for result in results.files:
        if result.proof is None:
            _refuse(result)
            continue
        made = tidied(result.proof, counts=args.counts, renumber=args.renumber)
        code = max(code, _one(result, made, args))
    return code


def _one(result: Result, made: Tidied, args: argparse.Namespace) -> int:
    keep = args.check or args.diff
    try:
        if made.changed and not keep:
            put_in_place(result.path, made.source.text, made.text)
    except CannotWrite as stop:
        print(clean(str(stop)), file=sys.stderr)
        return 2
    if args.diff:
        put("".join(_diff(result.name, made)))
    told = "".join(f"{line}\n" for line in _told(result, made, keep))
    if args.diff:
        sys.stderr.write(told)
    else:
        put(told)
    return int(args.check and made.changed)


def _refuse(result: Result) -> None:
    for finding in result.findings:
        print(f"{clean(result.name)}: {clean(finding.message)}", file=sys.stderr)


def _told(result: Result, made: Tidied, keep: bool) -> Iterator[str]:
    """What was done to a file, what was left, and what is for the designer to look at."""
    name = clean(result.name)
    if not made.changed:
        yield say("tidy.nothing", file=name)
    else:
        key = "tidy.would_change" if keep else "tidy.done"
        yield say(key, file=name, rounds=count("round", made.rounds))
    for new in made.renumbered:
        piece = clean(new.piece)
        yield "  " + say("tidy.renumbered", piece=piece, old=new.old, new=new.new, line=new.line)
    for moved in made.moved:
        before, after = clean(moved.before), clean(moved.after)
        line = moved.span.begins[0]
        if after:
            said = say("tidy.moved", line=line, before=before, after=after)
            yield f"  {said}" + (f" {say(moved.why)}" if moved.why else "")
        else:
            yield "  " + say("tidy.not_moved", line=line, before=before, why=say(moved.why))
    for left in made.left:
        where = clean(f"{left.piece} {left.label}".strip())
        yield "  " + say("tidy.left", where=where, line=left.line, why=clean(left.why))


def _diff(name: str, made: Tidied) -> Iterator[str]:
    for line in unified_diff(_lines(made.source.text), _lines(made.text), name, name):
        yield line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n"


def _lines(text: str) -> list[str]:
    """The lines of a file as a diff counts them, each with its end."""
    return [line for line in text.replace("\n", "\n\0").split("\0") if line]
