"""The documents stay true: what they name exists, what they show runs and prints just that."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from roundproof.checks import all_checks
from roundproof.cli.main import COMMANDS, Parser, main
from roundproof.pattern.json_schema import pattern_schema
from roundproof.pipeline import prove

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "builder" / "roundproof"
README, DEVELOPERS = ROOT / "README.md", ROOT / "DEVELOPERS.md"
HOW_TO_WRITE = ROOT / "theme" / "pages" / "how-to-write.md"
DOCUMENTS = (
    README, DEVELOPERS, *sorted((ROOT / "theme/pages").glob("*.md")),
    *sorted((ROOT / "site_src").glob("*.md")),
)  # fmt: skip

APPEARS = {
    "site/", ".roundproof/", "tester.html", "patterns/<name>/pattern.yaml",
    "patterns/<name>/testers/", "testers/decisions.yaml", ".venv", "photos/",
    "glossary.md", "checks/index.md", "checks/editor.md", "patterns/index.md",
    "schema/pattern.schema.json", "schema/defaults.schema.json", "label.html",
}  # fmt: skip
"""What a document may name though it is not in the tree: commands make it, or a designer does."""
_FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.M | re.S)
_CODE = re.compile(r"`([^`\n]+)`")
_LINK = re.compile(r"\]\(([^)\s]+)\)")
_PATH = re.compile(r"[\w.<>-]+(?:/[\w.<>-]*)+|[\w-]+\.(?:py|md|toml|yml|yaml|html|png|txt)")


def text_of(document: Path) -> str:
    return document.read_text(encoding="utf-8")


def fenced(text: str) -> Iterator[tuple[str, str]]:
    return ((m[1], m[2]) for m in _FENCE.finditer(text))


def inline(text: str) -> list[str]:
    return _CODE.findall(_FENCE.sub("", text))


def commands(text: str) -> Iterator[list[str]]:
    """Every call of the tool or of make in a text, in words."""
    lines = [line for lang, body in fenced(text) if not lang for line in body.splitlines()]
    for code in (*lines, *inline(text)):
        words = code.removeprefix("$ ").removeprefix(".venv/bin/").strip()
        if words.startswith(("roundproof ", "make ")):
            yield shlex.split(words)


# ---- paths ----
@pytest.mark.parametrize("document", [*DOCUMENTS, ROOT / "CHANGELOG.md"], ids=lambda d: d.name)
def test_no_document_has_marks_of_a_merge(document: Path) -> None:
    """Those that git leaves where two changes of one line meet."""
    assert not re.search(r"^(?:<{7}|={7}|>{7})(?: |$)", text_of(document), re.M)


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda d: d.name)
def test_every_path_named_is_there(document: Path) -> None:
    text = text_of(document)
    named = {code for code in inline(text) if _PATH.fullmatch(code)} | {
        link.partition("#")[0] for link in _LINK.findall(text) if "://" not in link
    }
    roots = (ROOT, PACKAGE, document.parent, ROOT / "patterns", ROOT / "theme" / "pages")
    missing = [n for n in named - APPEARS if n and not any((r / n).exists() for r in roots)]
    assert missing == []


def test_the_table_of_rooms_is_whole() -> None:
    rooms = re.findall(r"^\| `([\w.]+/?)` \|", text_of(DEVELOPERS), re.M)
    there = {
        path.name + ("/" if path.is_dir() else "")
        for path in PACKAGE.iterdir()
        if not path.name.startswith(("_", ".")) and path.suffix in ("", ".py")
    }
    assert set(rooms) == there


# ---- commands ----
@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda d: d.name)
def test_every_command_named_is_understood(document: Path) -> None:
    targets = set(re.findall(r"^([\w-]+):", text_of(ROOT / "Makefile"), re.M))
    for name, *words in commands(text_of(document)):
        if name == "make":
            assert words[0] in targets, words
        else:
            assert words[0] in COMMANDS, words
            parser = Parser(prog="roundproof")
            import_module(f"roundproof.cli.{words[0]}").configure(parser)
            parser.parse_args(words[1:])


def test_every_command_there_is_stands_in_the_readme() -> None:
    told = {words[1] for words in commands(text_of(README)) if words[0] == "roundproof"}
    assert told == set(COMMANDS)


# ---- what is shown ----
def shown() -> Iterator[tuple[str, str]]:
    """Every command whose output a document shows, with that output."""
    for document in DOCUMENTS:
        for lang, body in fenced(text_of(document)):
            if not lang and body.startswith("$ "):
                first, _, rest = body.partition("\n")
                yield first.removeprefix("$ "), rest


def test_the_readme_shows_findings() -> None:
    assert len(list(shown())) >= 2


@pytest.mark.parametrize(("command", "output"), list(shown()))
def test_output_is_shown_as_it_is_printed(
    command: str, output: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", "80")
    main(shlex.split(command)[1:])
    assert capsys.readouterr().out.strip() == output.strip()


def examples() -> Iterator[Any]:
    for document in DOCUMENTS:
        for number, (lang, body) in enumerate(fenced(text_of(document))):
            if lang == "yaml" and "pieces:" in body:
                yield pytest.param(body, id=f"{document.name}-{number}")


@pytest.mark.parametrize("example", list(examples()))
def test_every_whole_example_passes_the_check(example: str, tmp_path: Path) -> None:
    file = tmp_path / "example" / "pattern.yaml"
    file.parent.mkdir()
    file.write_text(example, encoding="utf-8")
    results = prove(file)
    assert results.exit_code() == 0
    if "status: published" in example:
        assert results.findings == ()


# ---- how to write a pattern ----
def schema_keys(part: Any) -> Iterator[str]:
    if isinstance(part, dict):
        yield from part.get("properties", {})
        for inner in part.values():
            yield from schema_keys(inner)
    elif isinstance(part, list):
        for inner in part:
            yield from schema_keys(inner)


def test_every_key_of_the_pattern_file_is_told_of_and_no_other() -> None:
    section = text_of(HOW_TO_WRITE).partition("## Every key")[2].partition("## Ways to word")[0]
    keys = set(schema_keys(pattern_schema()))
    words = set(re.findall(r"\w+", " ".join(_CODE.findall(section))))
    assert keys - words == set()
    rows = re.findall(r"^\| ((?:`\w+`(?:, )?)+) \|", section, re.M)
    assert set(re.findall(r"\w+", " ".join(rows))) - keys == set()


def wordings() -> list[str]:
    """The rounds of the table of wordings that can stand by themselves."""
    section = text_of(HOW_TO_WRITE).partition("## Ways to word")[2].partition("Lines without")[0]
    cells = re.findall(r"^\| (`.*?) \|", section, re.M)
    return [code for cell in cells for code in _CODE.findall(cell)]


@pytest.mark.parametrize("words", wordings())
def test_every_wording_told_of_is_read(words: str, tmp_path: Path) -> None:
    whole = words if not words.endswith(":") else f"{words} sc around"
    whole = whole if re.search("[a-z]", whole) else f"24 sc {whole}"
    pattern = tmp_path / "words" / "pattern.yaml"
    pattern.parent.mkdir()
    pattern.write_text(
        "terms: US\nyarns:\n  slate: {}\n  chalk: {}\n"
        f"pieces:\n  body:\n    yarn: slate\n    rounds: |\n      {whole}\n",
        encoding="utf-8",
    )
    unread = {"round-unread", "abbreviation-unknown", "text-form", "value-kind"}
    assert [f.message for f in prove(pattern).findings if f.check in unread] == []


def test_the_readme_explains_only_checks_that_are() -> None:
    told = [
        words[2] for words in commands(text_of(README)) if words[:2] == ["roundproof", "explain"]
    ]
    assert told and set(told) <= set(all_checks())
