"""The table of what an editor looks at is made from the checks and says of each what settles it."""

from __future__ import annotations

from rendering import rendered
from roundproof.checks import all_checks
from roundproof.pages.editor_page import WHO, editor_rows


def test_every_item_says_what_settles_it() -> None:
    rows = editor_rows()
    assert [row.number for row in rows] == list(range(1, 107))
    for row in rows:
        assert row.checks or row.made_so or row.asks, row.number
        assert row.who in WHO.values()
        assert row.who == WHO["P"] or row.checks or row.made_so, row.number


def test_every_check_it_names_has_its_page() -> None:
    addresses = {f"checks/{id}.html" for id in all_checks()}
    assert {check.address for row in editor_rows() for check in row.checks} <= addresses


def test_the_page_prints_them_all() -> None:
    html = rendered("editor.html", rows=editor_rows())
    assert all(f'<tr id="item-{number}">' in html for number in range(1, 107))
    assert html.count("<tr") == 107
