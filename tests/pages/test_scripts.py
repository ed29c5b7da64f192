"""Modules of the theme joined into the scripts of the pages."""

import re
from pathlib import Path

import pytest

from roundproof.pages.scripts import ENTRIES, SHEETS, NotJoined, joined, scripts, sheets


def write(folder: Path, **modules: str) -> None:
    for name, text in modules.items():
        (folder / f"{name}.js").write_text(text, "utf-8")


def test_each_module_stands_once_and_before_whoever_imports_it(tmp_path: Path) -> None:
    write(
        tmp_path,
        a='import { b } from "./b.js";\nimport { c } from "./c.js";\n\nb(c);\n',
        b='import { c } from "./c.js";\n\nexport function b() {\n  return c;\n}\n',
        c="export const c = 3;\n",
    )
    script = joined(tmp_path / "a.js")
    assert script == (
        '(() => {\n"use strict";\n\nconst c = 3;\n\n'
        "function b() {\n  return c;\n}\n\nb(c);\n})();\n"
    )


@pytest.mark.parametrize(
    ("modules", "why"),
    [
        ({"a": 'import { b } from "./b.js";\n'}, "no b.js"),
        ({"a": 'import { b } from "./b.js";\n', "b": "const b = 1;\n"}, "b.js has no b"),
        ({"a": 'import * as b from "./b.js";\n', "b": ""}, "a.js:1: only"),
        ({"a": "export default 3;\n"}, "only functions"),
        (
            {
                "a": 'import { b } from "./b.js";\nconst n = 1;\n',
                "b": "export const b = 1;\nconst n = 2;\n",
            },
            "n is in b.js and in a.js",
        ),
        (
            {
                "a": 'import { b } from "./b.js";\nexport const a = 1;\n',
                "b": 'import { a } from "./a.js";\nexport const b = 1;\n',
            },
            "imports itself",
        ),
    ],
)
def test_what_cannot_be_joined_is_refused(
    tmp_path: Path, modules: dict[str, str], why: str
) -> None:
    write(tmp_path, **modules)
    with pytest.raises(NotJoined, match=why):
        joined(tmp_path / "a.js")


def test_the_scripts_are_classic_and_whole() -> None:
    found = scripts()
    assert set(found) == {f"js/{entry}.js" for entry in ENTRIES}
    for script in found.values():
        assert not re.search(r"^\s*(?:import|export)\b", script, re.M)
        assert not re.search(r"\beval\(|\binnerHTML\b|new Function", script)


def test_style_sheets_are_joined_in_their_order_a_site_s_own_before_the_theme_s(
    tmp_path: Path,
) -> None:
    found = sheets()
    assert set(found) == {f"css/{name}.css" for name in SHEETS}
    assert found["css/pages.css"].index("@font-face") < found["css/pages.css"].index(".masthead")
    (tmp_path / "css").mkdir()
    (tmp_path / "css/rounds.css").write_text(".round { color: red }", "utf-8")
    own = sheets([str(tmp_path)])["css/pages.css"]
    assert "\n.round { color: red }\n" in own and ".copies {" not in own and ".masthead" in own
