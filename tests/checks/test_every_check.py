"""Every check keeps its promises: its examples run, its id stands, its file says why."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path
from types import ModuleType

import pytest

from proving import proved
from roundproof.checks import FORMER, IDS, BadCheck, all_checks, gathered, listed_ids
from roundproof.checks.base import Check
from roundproof.findings import Finding, Severity

ROOT = Path(__file__).parents[2]
CHECKS = pytest.mark.parametrize("check", all_checks().values(), ids=lambda check: check.id)


def found(check: Check, text: str) -> list[Finding]:
    """What an example yields; examples are drafts, and may leave open what is not their point."""
    _, findings = proved(text, check.files)
    return [f for f in findings if f.check == check.id or f.check != "value-missing"]


@CHECKS
def test_the_bad_example_gives_exactly_this_finding(check: Check) -> None:
    findings = [finding for finding in found(check, check.bad) if not finding.accepted]
    assert findings
    assert {finding.check for finding in findings} == {check.id}


@CHECKS
def test_without_its_condition_a_check_finds_nothing_in_its_bad_example(check: Check) -> None:
    """So the test above can fail: nothing else reports under this id."""
    proof, findings = proved(check.bad, check.files)
    if check.run is None or proof is None:  # found while the file is read
        assert any(finding.check == check.id for finding in findings)
        return
    others = (other.run for other in all_checks().values() if other is not check and other.run)
    rest = [*proof.reading, *(finding for run in others for finding in run(proof))]
    assert not any(finding.check == check.id for finding in rest)


@CHECKS
def test_the_good_example_gives_nothing(check: Check) -> None:
    assert [f.message for f in found(check, check.good) if not f.accepted] == []


@CHECKS
def test_a_finding_says_what_is_wrong_and_what_mends_it(check: Check) -> None:
    for finding in found(check, check.bad):
        assert finding.message[-1:] in ".?", finding.message
        assert finding.mend == "" or finding.mend[-1:] in ".?`", finding.mend
        assert not re.search(r"\b(None|token|parser?|scalar|node|NoneType)\b", finding.message)


@CHECKS
def test_no_finding_weighs_more_than_its_check_says(check: Check) -> None:
    order = list(Severity)
    for finding in found(check, check.bad):
        assert order.index(finding.severity) >= order.index(check.severity)


@CHECKS
def test_a_check_says_why_it_matters_and_where_it_is_from(check: Check) -> None:
    assert check.title and check.title[0].isupper() and not check.title.endswith(".")
    assert len(check.why.split()) >= 12
    assert check.source


@CHECKS
def test_nothing_promises_safety_or_names_an_age(check: Check) -> None:
    said = [check.title, check.why]
    said += [text for f in found(check, check.bad) for text in (f.message, f.mend)]
    for text in said:
        assert not re.search(r"(?<!`)\bsafe\b(?! to)|\bage[sd]?\b|\bmonths?\b", text), text


def test_the_list_of_ids_is_what_the_folder_holds() -> None:
    assert list(listed_ids()) == sorted(listed_ids())
    assert set(all_checks()) | FORMER == set(listed_ids())
    assert not set(all_checks()) & FORMER


def test_no_id_that_was_ever_listed_is_gone() -> None:
    """Ids stand in patterns, in answers and on printed pages: they are for good."""
    if not (ROOT / ".git").exists():
        pytest.skip("without the history there is nothing to compare with")
    command = ["git", "log", "--format=", "--patch", "--", str(IDS.relative_to(ROOT))]
    log = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    ever = {line[1:] for line in log.splitlines() if re.fullmatch(r"[+-][a-z][a-z-]*", line)}
    assert ever - set(listed_ids()) == set()


# ---- discovery fails loudly ----
def module(name: str, **holds: object) -> ModuleType:
    made = ModuleType(f"roundproof.checks.{name}")
    vars(made).update(holds)
    return made


def check(id: str) -> Check:
    return Check(id, "T", "why", Severity.NOTE, "", "", "common practice, no source")


def test_a_file_without_a_check_is_refused_by_name() -> None:
    with pytest.raises(BadCheck, match=r"new_one.*defines one CHECK"):
        gathered(iter([module("new_one")]))


def test_something_else_called_check_is_refused() -> None:
    with pytest.raises(BadCheck, match="defines one CHECK"):
        gathered(iter([module("new_one", CHECK="new-one")]))


def test_an_id_other_than_the_file_name_is_refused() -> None:
    with pytest.raises(BadCheck, match="its id is old-one"):
        gathered(iter([module("new_one", CHECK=check("old-one"))]))


def test_two_checks_of_one_id_are_refused() -> None:
    twice = module("new_one", CHECK=check("new-one"))
    with pytest.raises(BadCheck, match="taken by another check"):
        gathered(iter([twice, twice]))
