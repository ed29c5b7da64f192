"""What is installed is what stands in the tree: rooms, tables, templates, the look."""

import os
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "builder" / "roundproof"
THEME = ROOT / "theme"


def settings() -> dict[str, object]:
    tool: dict[str, object] = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]
    return tool["setuptools"]  # type: ignore[return-value]


def shipped() -> set[str]:
    """Every file of the package and the theme, named as in a wheel."""
    files = {p: f"roundproof/{p.relative_to(PACKAGE)}" for p in PACKAGE.rglob("*") if p.is_file()}
    files |= {
        p: f"roundproof/theme/{p.relative_to(THEME)}" for p in THEME.rglob("*") if p.is_file()
    }
    return {name for path, name in files.items() if "__pycache__" not in path.parts}


def test_every_room_is_listed_as_a_package() -> None:
    rooms = {p.parent for p in PACKAGE.rglob("*.py")}
    names = {".".join(("roundproof", *room.relative_to(PACKAGE).parts)) for room in rooms}
    assert set(settings()["packages"]) == names | {"roundproof.theme"}  # type: ignore[call-overload]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Built by way of a source archive, from a copy of the tree, which stays as it is."""
    tree = tmp_path_factory.mktemp("tree")
    for name in ("builder", "theme"):
        shutil.copytree(ROOT / name, tree / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, tree / name)
    archive = "from setuptools.build_meta import build_sdist; print(build_sdist('.'))"
    made = subprocess.run(
        [sys.executable, "-c", archive], cwd=tree, capture_output=True, text=True, check=True
    )
    source = made.stdout.split()[-1]
    pip = [sys.executable, "-m", "pip", "wheel", "--quiet", "--disable-pip-version-check"]
    command = [*pip, "--no-deps", "--no-build-isolation", source]
    subprocess.run(command, cwd=tree, check=True, capture_output=True)
    return next(tree.glob("*.whl"))


def test_a_wheel_holds_every_file(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = {n for n in archive.namelist() if not n.split("/")[0].endswith(".dist-info")}
    assert names == shipped()


def test_an_installed_wheel_builds_a_new_site(wheel: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(tmp_path / "installed")
    environment = {**os.environ, "PYTHONPATH": str(tmp_path / "installed")}

    def roundproof(*words: str) -> str:
        command = [sys.executable, "-m", "roundproof", *words]
        done = subprocess.run(
            command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=True
        )
        return done.stdout

    where = "import roundproof; print(roundproof.__file__)"
    ran = subprocess.run([sys.executable, "-c", where], env=environment, capture_output=True)
    assert str(tmp_path).encode() in ran.stdout
    roundproof("new", "site", "shore")
    roundproof("build", "shore")
    assert (tmp_path / "shore/site/patterns/net-float/index.html").exists()
    assert (tmp_path / "shore/site/fonts/andika-latin-400-normal.woff2").exists()
