"""History, references, names, licence and scale: what a pattern answers for when it goes out."""

from __future__ import annotations

import pytest

from checks.claimed import PATTERN, found, words
from proving import proved

# ---- history-order ----
HISTORY = (
    "changes:\n  - {{version: {}, date: {}, note: Two.}}\n  - {{version: {}, date: {}, note: One.}}"
)


@pytest.mark.parametrize(
    ("said", "versions", "marked"),
    [
        ("", ("1.1.0", "2026-05-04", "1.0.0", "2026-03-02"), []),
        ("", ("1.0.0", "2026-03-02", "1.1.0", "2026-05-04"), []),
        ("", ("1.10.0", "2026-05-04", "1.9.0", "2026-03-02"), []),
        ("", ("1.1.0", "2026-03-02", "1.0.0", "2026-05-04"), ["2026-03-02"]),
        ("", ("1.0.0", "2026-05-04", "1.0.0", "2026-03-02"), ["1.0.0"]),
        ("version: 1.0.0", ("1.1.0", "2026-05-04", "1.0.0", "2026-03-02"), ["1.0.0"]),
        ("version: 1.1.0", ("1.1.0", "2026-05-04", "1.0.0", "2026-03-02"), []),
        ("date: 2026-05-01", ("1.1.0", "2026-05-04", "1.0.0", "2026-03-02"), ["2026-05-01"]),
    ],
)
def test_versions_and_dates_go_forward(
    said: str, versions: tuple[str, ...], marked: list[str]
) -> None:
    assert words("history-order", f"{said}\n{HISTORY.format(*versions)}") == marked


# ---- references ----
def specimen(statements: str, references: str, more: str = "") -> str:
    return f"specimen:\n  statements: [{statements}]\n  references: [{references}]\n{more}"


def test_every_statement_and_the_real_size_name_a_reference_that_is_there() -> None:
    assert words("reference-missing", specimen("{says: It swims., source: 1}", "A book.")) == []
    assert words("reference-missing", specimen("{says: It swims.}", "A book.")) == ["It swims."]
    assert words("reference-missing", specimen("{says: It swims., source: 2}", "A book.")) == ["2"]
    size = "  real_size: {height: 6 cm}\n"
    assert len(found("reference-missing", specimen("", "A book.", size))) == 1


@pytest.mark.parametrize(
    ("status", "severity"), [("draft", "note"), ("testing", "warning"), ("published", "error")]
)
def test_a_reference_left_out_weighs_by_status(status: str, severity: str) -> None:
    more = f"status: {status}\n{specimen('{says: It swims.}', 'A book.')}"
    assert [f.severity for f in found("reference-missing", more)] == [severity]


def test_a_reference_that_nothing_rests_on_is_noted() -> None:
    one = "{says: It swims., source: 1}"
    assert words("reference-unused", specimen(one, "A book., Another.")) == ["Another."]
    assert words("reference-unused", specimen(one, "A book., Register of names.")) != []
    named = "  scientific: Patella vulgata\n"
    assert words("reference-unused", specimen(one, "A book., Register of names.", named)) == []
    cited = "{says: It swims, source: 1}, {says: 'It eats [2].', source: 1}"
    assert words("reference-unused", specimen(cited, "A book., Another.")) == []


def test_a_number_that_slipped_is_told_once() -> None:
    assert words("reference-unused", specimen("{says: It swims., source: 3}", "A, B")) == []


# ---- name-form: zoological code, articles 5, 22, 28, 51 ----
@pytest.mark.parametrize(
    "name",
    [
        "Patella vulgata",
        "Patella vulgata Linnaeus, 1758",
        "Carcinus maenas (Linnaeus, 1758)",
        "Psammechinus miliaris (P.L.S. Müller, 1771)",
        "Carcinus Leach, 1814",
        "Laminaria digitata (Hudson) J.V.Lamouroux, 1813",
        "Fucus vesiculosus L.",
        "Aurelia sp.",
        "Larus fuscus graellsii A. E. Brehm, 1857",
        "Nucella (Nucella) lapillus",
        "Cancridae",
        "HIV",
        "Spartina × townsendii",
        "Patella cf. vulgata",
        "Pagurus d'Orbigny, 1842",
        "Buccinum undatum Milne Edwards & Haime, 1850",
    ],
)
def test_a_name_in_its_form_is_left_alone(name: str) -> None:
    assert words("name-form", f'specimen: {{scientific: "{name}"}}') == []


@pytest.mark.parametrize(
    ("name", "right"),
    [
        ("patella vulgata", "Patella vulgata"),
        ("PATELLA vulgata", "Patella vulgata"),
        ("Patella Vulgata", "Patella vulgata"),
        ("Patella VULGATA", "Patella vulgata"),
        ("Homo Sapiens (Linnaeus, 1758)", "Homo sapiens (Linnaeus, 1758)"),
        ("*Patella vulgata*", "Patella vulgata"),
        ("<i>Patella vulgata</i>", "Patella vulgata"),
        ("_Patella vulgata_ Linnaeus, 1758", "Patella vulgata Linnaeus, 1758"),
        ("Aurelia sp", "Aurelia sp."),
        ("Carcinus maenas (Linnaeus) 1758", "Carcinus maenas (Linnaeus, 1758)"),
        ("Carcinus maenas (Linnaeus), 1758", "Carcinus maenas (Linnaeus, 1758)"),
        ("Patella vulgata Linnaeus 1758", "Patella vulgata Linnaeus, 1758"),
        ("Carcinus maenas (Linnaeus, 1758", ""),
        ("P. vulgata Linnaeus, 1758", ""),
        ("Patella vulgata Linnaeus, 1658", ""),
    ],
)
def test_a_name_out_of_form_is_put_right(name: str, right: str) -> None:
    (finding,) = found("name-form", f'specimen: {{scientific: "{name}"}}')
    assert finding.severity == "warning"
    assert finding.mend == (f"Write `{right}`." if right else finding.mend)
    assert ("register" in finding.mend) is not bool(right)


# ---- licence-answered: Creative Commons licences 4.0, legal code, sections 2 and 6 ----
ANSWERS = (
    "permissions: {{print: Yes, sell: {sell}, change: {change}, translate: Yes, photos: Ask.}}"
)


def licence(name: str, sell: str = "", change: str = "Yes") -> list[str]:
    more = f"licence: {name}\n" + (ANSWERS.format(sell=sell, change=change) if sell else "")
    return [f"{f.severity} {f.span.text}" for f in found("licence-answered", more)]


@pytest.mark.parametrize(
    "name",
    ["CC-BY-4.0", "CC BY-SA 4.0", "CC0", "CC-BY-ND-4.0", "Creative Commons Attribution 4.0",
     "Public domain", "https://example.org/licence",
     "Print, sell, change and translate it freely; the photos are mine"],
)  # fmt: skip
def test_an_open_licence_or_a_full_sentence_answers_everything(name: str) -> None:
    assert licence(name) == []


def test_words_that_leave_questions_open_are_told_which() -> None:
    (finding,) = found("licence-answered", "licence: Personal use only")
    assert "print, sell, change, translate, photos" in finding.message
    (finding,) = found("licence-answered", "licence: You may sell what you make and change it")
    assert "print, translate, photos." in finding.message
    assert licence("All rights reserved", "Yes") == []


@pytest.mark.parametrize(
    ("status", "severity"), [("draft", "note"), ("testing", "warning"), ("published", "error")]
)
def test_what_is_left_open_weighs_by_status(status: str, severity: str) -> None:
    more = f"status: {status}\nlicence: Personal use only"
    assert [f.severity for f in found("licence-answered", more)] == [severity]


@pytest.mark.parametrize(
    ("name", "sell", "change", "said"),
    [
        ("CC-BY-4.0", "No.", "Yes", ["error No."]),
        ("CC-BY-4.0", "Only at fairs.", "Yes", ["warning Only at fairs."]),
        ("CC-BY-4.0", "Yes", "Never.", ["error Never."]),
        ("CC-BY-ND-4.0", "Yes", "Yes", ["warning Yes", "warning Yes"]),
        ("CC-BY-NC-4.0", "No.", "Yes", []),
        ("CC-BY-NC-4.0", "Yes", "Yes", []),
        ("CC-BY-SA-4.0", "Yes", "Yes", []),
    ],
)
def test_answers_do_not_take_back_what_the_licence_gives(
    name: str, sell: str, change: str, said: list[str]
) -> None:
    assert licence(name, sell, change) == said


def test_a_licence_against_commercial_use_does_not_say_what_a_fair_is() -> None:
    assert licence("CC-BY-NC-4.0") == ["note CC-BY-NC-4.0"]


def test_answers_left_out_are_still_to_say() -> None:
    more = "status: published\npermissions: {print: Yes}"
    _, findings = proved(PATTERN.format(more=more))
    said = [f.message for f in findings if f.check == "value-missing"]
    assert sum(key in message for key in ("`sell`", "`translate`") for message in said) == 2


# ---- contact, version and date are asked for: they are still to say ----
def test_contact_history_and_date_are_asked_for() -> None:
    _, findings = proved(PATTERN.format(more="status: published"))
    said = " ".join(f.message for f in findings if f.check == "value-missing")
    assert "`contact`" in said and "`changes`" in said
    undated = "status: published\nchanges: [{version: 1.0.0, note: First.}]"
    _, findings = proved(PATTERN.format(more=undated))
    assert any("`date`" in f.message for f in findings if f.check == "value-missing")


# ---- scale-stated ----
def scale(words_: str, size: str = "width: 3 cm", real: str = "width: 60 mm") -> list[str]:
    more = f'size: {{{size}}}\nsummary: "A limpet, {words_}"\n'
    more += f"specimen: {{real_size: {{{real}, source: 1}}, references: [A book.]}}"
    return words("scale-stated", more)


@pytest.mark.parametrize(
    "told",
    ["half life size.", "half of life size.", "0.5 times life size.", "scale 1:2.", "on the shore.",
     "smaller than life size.", "1/2 life size.", "for life, 3:2 in the cup", "not life size."],
)  # fmt: skip
def test_a_scale_that_holds_is_left_alone(told: str) -> None:
    assert scale(told) == []


@pytest.mark.parametrize(
    ("told", "marked"),
    [
        ("life size.", "life size"),
        ("life-size.", "life-size"),
        ("twice life size.", "twice life size"),
        ("a third of life size.", "a third of life size"),
        ("at a scale of 1:4.", "1:4"),
        ("scale 2:1.", "2:1"),
        ("x 2,000 enlarged.", "x 2,000 enlarged"),
        ("3 times life size.", "3 times life size"),
    ],
)
def test_a_scale_that_the_sizes_speak_against_is_told(told: str, marked: str) -> None:
    assert scale(told) == [marked]


def test_any_measure_that_both_have_may_bear_it_out() -> None:
    both, real = "width: 3 cm, height: 5 cm", "width: 60 mm, height: 50 mm"
    assert scale("life size.", both, real) == []
    assert scale("half life size.", both, real) == []
    assert scale("twice life size.", both, real) == ["twice life size"]


def test_sizes_without_a_common_measure_tell_no_scale() -> None:
    (finding,) = found(
        "scale-stated",
        "size: {width: 3 cm}\nspecimen: {real_size: {length: 6 cm, source: 1}, references: [A.]}",
    )
    assert "no measure in common" in finding.message and finding.severity == "note"
    more = "specimen: {real_size: {length: 6 cm, source: 1}, references: [A.]}"
    assert words("scale-stated", more) == []
