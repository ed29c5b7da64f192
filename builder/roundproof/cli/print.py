"""`roundproof print`: a pattern as one file, for whoever it is meant for."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from roundproof.checks.results import Result
from roundproof.cli.one import one_pattern
from roundproof.frozen import dataclass
from roundproof.letters import number
from roundproof.pages.paper.how import MOST_PUPILS, PAPERS, STYLES
from roundproof.pages.standing import Standing, standing
from roundproof.telling.cells import clean
from roundproof.telling.site_address import SETTINGS, site_address
from roundproof.words import count, say
from roundproof.writing.slug import slug

OUT = Path("out")
READERS = ("maker", "tester", "editor", "class")
FORMATS = ("pdf", "html")
ONLY_FOR = {"tester": "tester", "testers": "tester", "deadline": "tester", "pupils": "class"}
"""Options that only one reader's print has: without them a copy would be another than was meant."""
NOT_FOR_EDITORS = ("style", "terms", "units", "written_out", "left_handed", "no_photos")
"""The review copy is in the pattern's own terms and has both units."""
AT_ONCE = 2
"""Booklets made at a time: by threads, as Typst must not be forked."""
MOST_TESTERS = 1000


@dataclass(frozen=True, slots=True)
class Made:
    """A file to be written, and the letters that no font of it has."""

    path: Path
    data: bytes
    missing: tuple[str, ...] = ()


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("pattern", metavar="PATTERN", help=say("options.one_pattern"))
    add = parser.add_argument
    add("--for", dest="reader", choices=READERS, help=say("options.for"))
    add("--format", choices=FORMATS, help=say("options.print_format"))
    add("--paper", choices=PAPERS, default="a4", help=say("options.paper"))
    add("--style", choices=STYLES, help=say("options.style"))
    add("--terms", choices=("US", "UK"), help=say("options.print_terms"))
    add("--units", choices=("cm", "inch", "both"), help=say("options.units"))
    add("--written-out", action="store_true", help=say("options.written_out"))
    add("--left-handed", action="store_true", help=say("options.left_handed_print"))
    add("--no-photos", action="store_true", help=say("options.no_photos"))
    add("--tester", metavar="WHO", action="append", default=[], help=say("options.tester"))
    add("--testers", metavar="FILE", type=Path, help=say("options.testers_file"))
    add("--deadline", metavar="DATE", default="", help=say("options.deadline"))
    add("--pupils", metavar="N", type=int, default=0, help=say("options.pupils"))
    add("--out", metavar="FILE", type=Path, help=say("options.out"))


def run(args: argparse.Namespace) -> int:
    """0, or 2 where the pattern cannot be used, an option not be followed or a file not be
    written."""
    args.reader = args.reader or _meant(args)
    found = one_pattern(args.pattern)
    wrong = found if isinstance(found, str) else _wrong(args)
    if isinstance(found, str) or wrong:
        print(wrong, file=sys.stderr)
        return 2
    try:
        made = list(_made(found, args))
        for each in made:
            each.path.parent.mkdir(parents=True, exist_ok=True)
            each.path.write_bytes(each.data)
    except OSError as fault:
        path = clean(str(fault.filename or args.out or OUT))
        print(say("print.unwritten", path=path, why=fault.strerror), file=sys.stderr)
        return 2
    if len(made) == 1:
        print(say("print.written", path=clean(made[0].path.as_posix())))
    else:
        folder = clean(made[0].path.parent.as_posix())
        print(say("print.several", files=count("file", len(made)), folder=folder))
    _tell_missing(made)
    return 0


def _meant(args: argparse.Namespace) -> str:
    """Whom it is for where that is not said: what only one reader has says it."""
    return next((ONLY_FOR[name] for name in ONLY_FOR if getattr(args, name)), "maker")


def _wrong(args: argparse.Namespace) -> str:
    """What cannot be followed, in a sentence."""
    for name, reader in ONLY_FOR.items():
        if getattr(args, name) and args.reader != reader:
            return say("print.only_for", option=f"--{name}", reader=reader)
    if args.reader == "editor":
        for name in NOT_FOR_EDITORS:
            if getattr(args, name):
                return say("print.not_for_editors", option=f"--{name.replace('_', '-')}")
    if args.format == "html" and args.reader != "editor":
        return say("print.no_html", reader=args.reader)
    if args.reader == "class" and not 1 <= args.pupils <= MOST_PUPILS:
        return say("print.pupils", most=MOST_PUPILS)
    if args.testers is not None:
        try:
            args.tester += [line for line in _lines(args.testers) if line]
        except (OSError, UnicodeDecodeError):
            return say("print.no_testers", path=clean(str(args.testers)))
    if len(args.tester) > MOST_TESTERS:
        return say("print.many_testers", most=MOST_TESTERS)
    if len(args.tester) > 1 and args.out is not None:
        return say("print.one_out")
    return ""


def _lines(path: Path) -> Iterator[str]:
    """A tester a line; what begins with `#` is left out."""
    for line in path.read_text("utf-8-sig").splitlines():
        text = line.strip()
        if not text.startswith("#"):
            yield text


def _made(found: Result, args: argparse.Namespace) -> Iterator[Made]:
    assert found.proof is not None
    kind = args.format or "pdf"
    if args.reader == "editor":
        path = args.out or OUT / _name(found, f"editor.{kind}")
        if kind == "html":
            yield Made(path, _review(found).encode())
            return
        from roundproof.pages.paper.printing import review_copy

        data, missing = review_copy(found.proof, found.findings, args.paper)
        yield Made(path, data, missing)
        return
    yield from _booklets(found, args)


def _booklets(found: Result, args: argparse.Namespace) -> Iterator[Made]:
    from roundproof.pages.paper.how import Copy, Print
    from roundproof.pages.paper.nodes import Choice
    from roundproof.pages.paper.printing import Printer

    assert found.proof is not None
    style = args.style or ("large" if args.reader == "class" else "standard")
    choice = Choice(
        (args.terms or found.proof.pattern.written_in.value).lower(),
        args.units or "both",
        args.written_out or style == "aloud",
        args.left_handed,
    )
    printer = Printer(found.proof, page_address(found))

    def one(name: str, copy: Copy | None) -> Made:
        how = Print(
            choice,
            args.paper,
            style,
            not args.no_photos,
            copy,
            args.pupils if args.reader == "class" else 0,
        )
        return Made(args.out or OUT / _name(found, f"{name}.pdf"), *printer.booklet(how))

    if args.reader != "tester":
        yield one(args.reader + ("" if style == "standard" else f"-{style}"), None)
        return
    testers = args.tester or [say("print.anybody")]
    names = _names(testers)
    copies = [Copy(who, args.deadline) for who in testers]
    with ThreadPoolExecutor(AT_ONCE) as pool:
        yield from pool.map(one, names, copies)


def page_address(found: Result) -> str:
    """Where corrections are looked up: the pattern's page, where it is for everyone and its site
    has an address."""
    if standing(found) is not Standing.PUBLIC:
        return ""
    from roundproof.pages.pattern_folder import address_of

    base = site_address(found.path.parent.parent.parent / SETTINGS)
    return f"{base}{address_of(found)}/index.html" if base else ""


def _names(testers: Sequence[str]) -> list[str]:
    """A name of its own for each copy: 'tester-7'."""
    found: dict[str, None] = {}
    for place, who in enumerate(testers, 1):
        name = f"tester-{slug(who) or place}"
        found[name if name not in found else f"{name}-{place}"] = None
    return list(found)


def _name(result: Result, ending: str) -> str:
    assert result.proof is not None
    pattern = result.proof.pattern
    version = f"-{pattern.version.value}" if pattern.version else ""
    return f"{slug(pattern.slug) or 'pattern'}{version}-{ending}"


def _tell_missing(made: Sequence[Made]) -> None:
    letters = dict.fromkeys(letter for each in made for letter in each.missing)
    if letters:
        told = ", ".join(map(number, letters))
        print(say("print.glyphs", letters=told), file=sys.stderr)


def _review(result: Result) -> str:
    from roundproof.pages.drawn import drawings_within
    from roundproof.pages.review import review_page
    from roundproof.pages.standalone import filled
    from roundproof.pattern.answers import read_answers

    assert result.proof is not None
    answers, unread = read_answers(result.proof.folder)
    drawn = drawings_within(result.proof)
    page = review_page(result.proof, result.findings, answers, unread, drawn)
    sheets = ("tokens", "page", "drawings", "review")
    return filled("review.html", sheets, page=page)
