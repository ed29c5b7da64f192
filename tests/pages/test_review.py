"""The review copy: counts beside each round, findings with reasons, measures with their working,
and questions whose answers stand until what they were about changes."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from proving import proved
from rendering import proof_of
from roundproof.checks._items import items
from roundproof.cli.main import main
from roundproof.findings import Severity
from roundproof.pages.drawn import drawings_within
from roundproof.pages.review import review_page
from roundproof.pages.review_values import ReviewPage
from roundproof.pages.standalone import filled
from roundproof.pattern.answers import mark_of, read_answers
from whole_patterns import PEBBLE

JUMP = """\
title: Bell
terms: US
pieces:
  bell:
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: {} ({})
      R3: sc around ({})
"""


def page(text: str, folder: Path = Path("/nowhere")) -> ReviewPage:
    proof, findings = proved(text)
    assert proof is not None
    answers, unread = read_answers(folder)
    return review_page(proof, findings, answers, unread, drawings_within(proof))


def bell(work: str = "(3 sc in next st) x 6", made: int = 18) -> str:
    return JUMP.format(work, made, made)


def odd(text: str, check: str = "count-jump") -> str:
    """The key of what a check asks of a pattern."""
    (found,) = [f for f in page(text).findings if f.check == check]
    assert found.room is not None
    return found.room.key


# ---- what it shows ----
def test_each_round_has_its_counts_beside_it() -> None:
    (piece,) = page(bell()).pieces
    rows = [(r.label, r.available, r.used, r.unworked, r.made, r.stated) for r in piece.rounds]
    assert rows == [
        ("R1", "0", "0", "0", "6", "6"),
        ("R2", "6", "6", "0", "18", "18"),
        ("R3", "18", "18", "0", "18", "18"),
    ]
    assert piece.rounds[1].typed == "(3 sc in next st) x 6"


def test_a_finding_stands_at_its_round_and_asks_unless_it_is_an_error() -> None:
    shown = page(bell())
    (found,) = [f for f in shown.findings if f.check == "count-jump"]
    assert found.where == "bell R2" and found.room is not None
    assert found in shown.pieces[0].rounds[1].found
    wrong = page(bell(made=17))
    (error,) = [f for f in wrong.findings if f.check == "count-stated"]
    assert error.severity == Severity.ERROR and error.room is None


def test_what_is_set_aside_comes_with_its_reason() -> None:
    text = (
        bell() + "accept:\n  - {check: count-jump, at: bell R2, because: The bell flares here.}\n"
    )
    shown = page(text)
    (found,) = [f for f in shown.findings if f.check == "count-jump"]
    assert found.accepted and found.reason == "The bell flares here." and found.room is None
    assert shown.accepted == 1


def test_every_measure_says_how_it_was_reached() -> None:
    figures = page(PEBBLE).figures
    assert {f.name for f in figures} >= {"height", "width", "last round", "volume", "yarn", "time"}
    assert all(figure.how for figure in figures)
    upper = next(f for f in figures if (f.of, f.name) == ("Upper", "width"))
    assert upper.value.endswith("cm") and "stitches of" in upper.how


def test_every_question_for_a_person_is_there_once() -> None:
    keys = [question.room.key for question in page(PEBBLE).questions]
    assert len(set(keys)) == len(keys)
    asked = {question.number for question in page(PEBBLE).questions}
    persons = {item.number for item in items() if item.mark == "P"}
    assert asked >= persons - {32, 38, 93, 101}  # nothing there to be asked about
    assert {"question-81", "question-91"} <= set(keys)


# ---- answers ----
def write(folder: Path, text: str) -> Path:
    (folder / "answers.yaml").write_text(text, encoding="utf-8")
    return folder


def answered(text: str, folder: Path, key: str) -> tuple[str, str, bool]:
    shown = page(text, folder)
    rooms = [*(f.room for f in shown.findings if f.room), *(q.room for q in shown.questions)]
    (room,) = [room for room in rooms if room.key == key]
    return room.said, room.by, room.stale


def test_what_the_copy_prints_is_read_back(tmp_path: Path) -> None:
    text = bell()
    key = odd(text)
    assert key == "count-jump/bell/R2"
    lines = page(text).answers
    assert lines.count(": {of: ") == page(text).open
    folder = write(tmp_path, lines)  # nothing is filled in yet
    assert page(text, folder).unread == () and page(text, folder).open == page(text).open
    filled_in = re.sub(rf"(?m)^({key}: .*says: )(, by: )", r'\1"Meant: it flares."\2M.', lines)
    folder = write(tmp_path, filled_in)
    assert answered(text, folder, key) == ("Meant: it flares.", "M.", False)
    assert page(text, folder).open == page(text).open - 1
    assert page(text, folder).answers == filled_in.replace("by: M.", 'by: "M."')


def test_an_answer_holds_until_its_round_changes(tmp_path: Path) -> None:
    text = bell()
    key = odd(text)
    line = next(line for line in page(text).answers.splitlines() if line.startswith(key))
    folder = write(tmp_path, line.replace("says: ", "says: yes"))
    same = text.replace("(3 sc in next st) x 6", "[3 sc in next st] 6 times")
    assert not answered(same, folder, key)[2]
    elsewhere = text.replace("R3: sc around", "R3: 18 sc")
    assert not answered(elsewhere, folder, key)[2]
    other = bell("(2 sc in next st) x 2, (3 sc in next st) x 4", 16)
    assert answered(other, folder, key) == ("yes", "", True)


def test_an_answer_to_the_whole_holds_until_a_line_changes(tmp_path: Path) -> None:
    text = bell()
    line = next(x for x in page(text).answers.splitlines() if x.startswith("question-81:"))
    folder = write(tmp_path, line.replace("says: ", "says: read twice"))
    assert answered(f"# a private line\n{text}", folder, "question-81") == ("read twice", "", False)
    assert answered(text.replace("Bell", "Bells"), folder, "question-81")[2]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("question-81: yes\n", "The answer to `question-81` cannot be read."),
        ("question-81: {says: yes}\n", "cannot be read"),
        ("question-81: {of: zzzzzzzz, says: yes}\n", "cannot be read"),
        ("question-81: {of: [1], says: {a: b}}\n", "cannot be read"),
        ("question-81: {of: 'x'\n", ""),
        ("- a\n- b\n", ""),
        ("\x00\x01", ""),
    ],
)
def test_answers_that_cannot_be_read_are_named_and_nothing_is_lost(
    text: str, says: str, tmp_path: Path
) -> None:
    shown = page(bell(), write(tmp_path, text))
    assert shown.unread and says in shown.unread[0]
    assert shown.open == page(bell()).open


def test_a_file_of_answers_that_is_no_text_is_named(tmp_path: Path) -> None:
    (tmp_path / "answers.yaml").write_bytes(b"\xff\xfe\x00")
    assert "cannot be read" in page(bell(), tmp_path).unread[0]
    (tmp_path / "answers.yaml").write_bytes(b"a" * 2_000_001)
    assert "bigger than 2 MB" in page(bell(), tmp_path).unread[0]


def test_a_mark_goes_by_words_and_not_by_spaces() -> None:
    assert mark_of("a  b", "c") == mark_of("a b ", "c") != mark_of("a b c")
    assert re.fullmatch(r"[0-9a-f]{8}", mark_of(""))


# ---- the file ----
def copy(text: str) -> str:
    return filled("review.html", ("tokens", "page", "drawings", "review"), page=page(text))


def test_it_is_one_file_that_asks_for_no_other() -> None:
    html = copy(PEBBLE)
    assert not re.findall(r'(?:src|href)="(?!#|data:image/svg|https://example\.org)[^"]*"', html)
    assert not re.findall(r"url\((?!\"data:)", html) and "<script" not in html
    assert html == copy(PEBBLE)


def test_ids_are_there_once_and_every_link_leads_to_one() -> None:
    html = copy(PEBBLE)
    ids = re.findall(r'\bid="([^"]+)"', html)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r'href="#([^"]+)"', html)) <= set(ids)
    labelled = re.findall(r'<label for="([^"]+)"', html)
    assert len(labelled) == html.count("<textarea") and set(labelled) <= set(ids)


@pytest.mark.parametrize(
    "words", ["<script>alert(1)</script>", '"><img src=x>', "{{ 7*7 }}", "مرحبا"]
)
def test_words_are_printed_as_they_were_typed(words: str) -> None:
    html = copy(PEBBLE.replace("title: Pebble", f"title: '{words}'"))
    assert "<script>alert" not in html and "<img src=x" not in html and ">49<" not in html
    assert proof_of(PEBBLE).pattern.title is not None


def test_the_command_writes_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "patterns" / "bell"
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(bell(), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert main(["print", "bell", "--for", "editor", "--format", "html"]) == 0
    assert capsys.readouterr().out == "out/bell-editor.html is written.\n"
    assert "Bell: review copy" in (tmp_path / "out" / "bell-editor.html").read_text("utf-8")
    assert main(["print", "nothing"]) == 2
    assert main(["print", "bell", "--out", str(folder)]) == 2
    assert "cannot be written" in capsys.readouterr().err
