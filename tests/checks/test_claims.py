"""What a pattern claims: safety, years, privacy, history, references and names."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from proving import proved
from roundproof.findings import Finding

PATTERN = """\
title: Pebble
terms: US
{more}
pieces:
  body: |
    R1: 6 sc in magic ring (6)
"""


def found(check: str, more: str, files: dict[str, bytes] | None = None) -> list[Finding]:
    _, findings = proved(PATTERN.format(more=more), files)
    return [f for f in findings if f.check == check]


def words(check: str, more: str) -> list[str]:
    return [f.span.text for f in found(check, more)]


# ---- word-safe: Directive 2009/48/EC, articles 16 and 17: the mark is the maker's declaration ----
@pytest.mark.parametrize(
    ("text", "claim"),
    [
        ("Safe for babies.", "Safe"),
        ("A child-safe stone.", "child-safe"),
        ("With toy safe eyes.", "toy safe"),
        ("All yarn is non-toxic.", "non-toxic"),
        ("It is certified.", "certified"),
        ("CE marked, of course.", "CE marked"),
        ("It has the UKCA mark.", "UKCA mark"),
        ("Conforms to EN 71.", "Conforms to EN 71"),
        ("A safety-tested friend.", "safety-tested"),
    ],
)
def test_a_promise_is_told_at_its_words(text: str, claim: str) -> None:
    assert words("word-safe", f"summary: {text}") == [claim]


@pytest.mark.parametrize(
    "text",
    [
        "Set the safety eyes, read the safety note, close the safety pin.",
        "Nothing here says that it is safe.",
        "Nobody can call it safe for children.",
        "It is not certified.",
        "Keep the pins in a safe place.",
        "Keep it safe from moths.",
        "To be safe, count twice.",
        "The wool is machine-safe.",
        "A pot of 300 CE, and the once-a-year fence.",
        "Sew it on safely.",
        "If you want it safe for a baby, embroider the eyes.",
        "The cotton is safe to machine wash.",
        "Both yarns are colour safe.",
        "It is unsafe to leave it there.",
    ],
)
def test_other_words_promise_nothing(text: str) -> None:
    assert words("word-safe", f'summary: "{text}"') == []


@pytest.mark.parametrize(
    "more",
    [
        "title: Safe pebble",
        "safety: {note: It is safe.}",
        "care: Safe in any water.",
        "credits: [It was certified by Io.]",
        "notions: [child-safe eyes]",
        "assembly:\n  - close: {edge: body, by: gather}\n    step: Now it is safe.",
        "specimen: {simplified: [It is safe.]}",
        "changes: [{version: 1.0.0, date: 2026-05-04, note: Now safe.}]",
    ],
)
def test_every_text_that_is_printed_is_read(more: str) -> None:
    _, findings = proved(PATTERN.format(more=more).replace("title: Pebble\n", "", "title:" in more))
    assert [f.check for f in findings if f.check == "word-safe"] == ["word-safe"]


def test_in_a_folded_text_the_words_are_marked_all_the_same() -> None:
    (finding,) = found("word-safe", "summary: >-\n  A stone that is non\n  toxic and small.")
    assert finding.span.text.split() == ["non", "toxic"]


# ---- age-line: US 16 CFR 1501, EN 71-1, Directive 2009/48/EC article 11 ----
EYES = "notions:\n  - {item: safety eyes, hazard: small part}\n"
STUFFED = "notions:\n  - fibrefill 3 g\n"


@pytest.mark.parametrize(
    "line",
    ["suitable from birth", "for babies", "0+", "for toddlers", "for all ages", "from 6 months",
     "ages 1+", "for children under 3"],
)  # fmt: skip
def test_a_line_for_the_youngest_speaks_against_small_parts(line: str) -> None:
    assert words("age-line", f"{EYES}summary: A stone, {line}, grey.") == [line]
    assert words("age-line", f"summary: A stone, {line}, grey.") == []


@pytest.mark.parametrize(
    "line",
    ["not for children under 3", "not suitable for children under 36 months", "for ages 3+",
     "not under three", "3+", "from 3 years", "ages 3 and up"],
)  # fmt: skip
def test_a_line_that_leaves_the_youngest_out_does_not_stand_on_what_is_stuffed(line: str) -> None:
    (finding,) = found("age-line", f"{STUFFED}summary: A stone, {line}, grey.")
    assert finding.span.text == line and "2009/48/EC" in finding.message
    assert words("age-line", f"{EYES}summary: A stone, {line}, grey.") == []


@pytest.mark.parametrize(
    "text",
    [
        "Nothing for babies.",
        "For toddlers, embroider the eyes instead.",
        "If it is made for a baby, the eyes are sewn.",
        "Leave the eyes out when it is for a newborn.",
        "Not for young children.",
        "R3 + R4 make 24, for 2+ hours.",
        "A species of the Ice Age, 3 months under water.",
        "Under 3 stitches it tears; for the next 3 years it holds.",
    ],
)
def test_other_numbers_are_no_line_about_years(text: str) -> None:
    assert words("age-line", f'{EYES}  - fibrefill 3 g\nsummary: "{text}"') == []


# ---- private-data ----
@pytest.mark.parametrize(
    ("more", "private"),
    [
        ("credits: [Tested by io@example.org]", "io@example.org"),
        ("credits: [Write to +44 20 7946 0018]", "+44 20 7946 0018"),
        ("summary: Call 0161 496 0000 for yarn.", "0161 496 0000"),
        ("photos: [{file: a.png, alt: A stone, by: io@example.org}]", "io@example.org"),
    ],
)
def test_what_is_private_is_told_where_it_stands(more: str, private: str) -> None:
    assert words("private-data", more) == [private]


def test_it_is_an_error_once_published_and_a_note_before() -> None:
    more = "credits: [Tested by io@example.org]"
    (draft,) = found("private-data", more)
    (published,) = found("private-data", f"status: published\n{more}")
    assert (draft.severity, published.severity) == ("note", "error")


@pytest.mark.parametrize(
    "more",
    [
        "contact: io@example.org\ncredits: [Write to io@example.org]",
        "specimen: {references: ['A. Reader, ISBN 978-3-16-148410-0, doi 10.1000/182.4-123456.']}",
        "summary: 12 + 34 567 stitches @ 3 mm",
    ],
)
def test_the_contact_and_other_numbers_are_not_private(more: str) -> None:
    assert words("private-data", more) == []


def photo(kind: str, *, place: bool = False, owner: str = "") -> bytes:
    exif = Image.Exif()
    exif[0x010F] = "Camera maker"
    if place:
        exif.get_ifd(0x8825).update({1: "N", 2: (54.0, 30.0, 0.0), 3: "W", 4: (3.0, 1.0, 0.0)})
    if owner:
        exif[0x013B] = owner
    out = io.BytesIO()
    Image.new("RGB", (8, 8), (90, 110, 130)).save(out, kind, exif=exif)
    return out.getvalue()


PHOTO = "photos: [{file: a.png, alt: A grey stone, by: Io Reader}]"


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_place_or_a_name_inside_a_photo_is_told(kind: str) -> None:
    def told(**how: object) -> list[str]:
        files = {"photos/a.png": photo(kind, **how)}  # type: ignore[arg-type]
        return [f.message for f in found("private-data", PHOTO, files)]

    assert told() == []
    assert "the place where it was taken" in told(place=True)[0]
    assert "a name, `Someone Else`" in told(owner="Someone Else")[0]
    assert told(owner="Io Reader") == []


@pytest.mark.parametrize("cut", [0, 3, 12, 30, 50, 80, 120])
def test_a_damaged_photo_tells_nothing_and_breaks_nothing(cut: int) -> None:
    data = photo("JPEG", place=True)
    at = data.find(b"Exif") + cut
    for bad in (data[:at], data[:at] + b"\xff" * 40):
        found("private-data", PHOTO, {"photos/a.png": bad})


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
