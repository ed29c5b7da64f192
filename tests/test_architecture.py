"""The house keeps its shape: who imports whom, what stays frozen, what `check` may load."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import roundproof
from roundproof.cli.main import COMMANDS

PACKAGE = Path(roundproof.__file__).parent
BUILDER = PACKAGE.parent
ROOT = BUILDER.parent

ROOMS = (
    "frozen",
    "expressions",
    "source",
    "findings",
    "tables",
    "store",
    "packing",
    "reference",
    "words",
    "letters",
    "processes",
    "pattern",
    "notation",
    "fabric",
    "measure",
    "testers",
    "proof",
    "checks",
    "drawing",
    "writing",
    "pages",
    "telling",
    "pipeline",
    "making",
    "mkdocs_plugin",
    "preview",
    "cli",
)
"""In the order in which data flows: a room imports only from rooms named before it."""

FILES = sorted(PACKAGE.rglob("*.py"))
NAMES = {
    path: ".".join(("roundproof", *path.relative_to(PACKAGE).with_suffix("").parts))
    for path in FILES
}
MODULES = {name.removesuffix(".__init__") for name in NAMES.values()}
GROW = {
    "drawing/plate.py": {"_Sheet"},
    "fabric/outcome.py": {"Outcome"},
    "checks/_step_words.py": {"_Entry"},
    "measure/yarn.py": {"_Used"},
}
"""What grows while one text is read or one piece worked, and is not given on."""


def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text("utf-8"), str(path))


def imports(path: Path) -> Iterator[tuple[int, str]]:
    """Every module a file imports, wherever in it: for types alone and inside functions too."""
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno}: imports are written out"
            for alias in node.names:
                inner = f"{node.module}.{alias.name}"
                yield node.lineno, inner if inner in MODULES else str(node.module)


def room(module: str) -> str:
    return module.split(".")[1] if "." in module else ""


def relative(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


def test_the_builder_holds_one_package() -> None:
    packages = [p.name for p in BUILDER.iterdir() if p.is_dir() and p.name != "__pycache__"]
    assert [name for name in packages if not name.endswith(".egg-info")] == ["roundproof"]


def test_every_room_has_its_place_in_the_list() -> None:
    there = {room(name) for name in NAMES.values()} - {"__init__", "__main__"}
    assert there == set(ROOMS)


@pytest.mark.parametrize("path", FILES, ids=relative)
def test_imports_run_one_way(path: Path) -> None:
    own = room(NAMES[path])
    if own in ("__init__", "__main__"):
        return
    for line, module in imports(path):
        if module.partition(".")[0] == "roundproof" and room(module):
            assert ROOMS.index(room(module)) <= ROOMS.index(own), f"line {line}: {module}"


@pytest.mark.parametrize("name", ROOMS)
def test_no_room_imports_in_a_circle(name: str) -> None:
    """Inside a room too. A package's own file stands for what it imports itself."""
    inside = {
        NAMES[path].removesuffix(".__init__"): {
            module for _, module in imports(path) if room(module) == name
        }
        for path in FILES
        if room(NAMES[path]) == name
    }
    done: set[str] = set()
    while ready := {n for n, needs in inside.items() if n not in done and needs - {n} <= done}:
        done |= ready
    assert set(inside) == done, f"in a circle: {sorted(set(inside) - done)}"


@pytest.mark.parametrize("path", FILES, ids=relative)
def test_only_the_plugin_imports_the_host(path: Path) -> None:
    for line, module in imports(path):
        if module.partition(".")[0] in ("mkdocs", "properdocs"):
            assert relative(path) == "mkdocs_plugin.py", f"line {line}: {module}"


@pytest.mark.parametrize("path", FILES, ids=relative)
def test_values_are_frozen(path: Path) -> None:
    """Every dataclass is frozen, but for the few that grow while they are made."""
    for node in ast.walk(tree(path)):
        if not isinstance(node, ast.ClassDef):
            continue
        for decorator in node.decorator_list:
            call = decorator if isinstance(decorator, ast.Call) else None
            name = call.func if call else decorator
            if isinstance(name, ast.Name) and name.id == "dataclass":
                said = {k.arg: ast.literal_eval(k.value) for k in call.keywords} if call else {}
                grows = node.name in GROW.get(relative(path), ())
                assert said.get("frozen") or grows, f"{relative(path)}: {node.name}"


@pytest.mark.parametrize("path", FILES, ids=relative)
def test_no_file_needs_a_wall(path: Path) -> None:
    lines = path.read_text("utf-8").splitlines()
    assert len(lines) < 400
    if relative(path).startswith("checks/") and not path.name.startswith("_"):
        assert len(lines) < 150, "a check is a short file; move what it needs to a helper"


@pytest.mark.parametrize("path", FILES, ids=relative)
def test_every_file_says_what_it_is_for(path: Path) -> None:
    assert ast.get_docstring(tree(path))


# ---- what a command loads ----
HEAVY = {
    "PIL", "bs4", "jinja2", "linkcheck", "markdown", "mkdocs", "nh3", "numpy", "playwright",
    "requests", "scipy", "typst",
}  # fmt: skip


def loaded(*words: str) -> set[str]:
    """The modules in a process of its own after a command has run in it."""
    script = (
        "import sys; from roundproof.cli.main import main; "
        f"main({list(words)!r}); print('loaded', *sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, encoding="utf-8"
    )
    assert done.returncode == 0, done.stderr
    return set(done.stdout.splitlines()[-1].split()[1:])


@pytest.mark.parametrize(
    "words",
    [
        ("check", "patterns"),
        ("check", "patterns", "--format", "json"),
        ("measure", "patterns"),
        ("explain", "join-fit"),
    ],
    ids=" ".join,
)
def test_quick_commands_load_nothing_heavy(words: tuple[str, ...]) -> None:
    modules = loaded(*words)
    assert {module.partition(".")[0] for module in modules} & HEAVY == set()
    rooms = {room(module) for module in modules if module.startswith("roundproof.")}
    assert rooms.isdisjoint({"drawing", "pages", "writing", "mkdocs_plugin"})


def test_a_command_loads_no_other_command() -> None:
    for name in COMMANDS:
        others = {f"roundproof.cli.{other}" for other in COMMANDS if other != name}
        if name != "serve":  # which builds
            assert loaded(name, "--help").isdisjoint(others)
