"""The last good site stays until the new one is whole, whatever happens in between."""

import subprocess
import sys
from pathlib import Path

import pytest

from roundproof.pages.swap import CannotReplace, new_site


def built(site: Path, text: str) -> None:
    with new_site(site) as fresh:
        (fresh / "index.html").write_text(text)


def beside(site: Path) -> list[str]:
    return sorted(p.name for p in site.parent.iterdir())


def test_a_new_site_takes_the_place_of_the_old_whole(tmp_path: Path) -> None:
    site = tmp_path / "site"
    built(site, "first")
    (site / "stale.html").write_text("a page of a pattern that is gone")
    built(site, "second")
    assert (site / "index.html").read_text() == "second"
    assert not (site / "stale.html").exists()
    assert beside(site) == ["site"]


def test_what_goes_wrong_while_building_leaves_the_last_site(tmp_path: Path) -> None:
    site = tmp_path / "site"
    built(site, "good")
    with pytest.raises(ZeroDivisionError), new_site(site) as fresh:
        (fresh / "index.html").write_text("half")
        raise ZeroDivisionError
    assert (site / "index.html").read_text() == "good"
    assert beside(site) == ["site"]


CUT_SHORT = """
import os, sys
from pathlib import Path
from roundproof.pages import swap

site, renames = Path(sys.argv[1]), int(sys.argv[2])
rename = Path.rename

def dying(path, target):
    global renames
    if renames == 0:
        os._exit(9)  # as if the power failed
    renames -= 1
    return rename(path, target)

Path.rename = dying
with swap.new_site(site) as fresh:
    (fresh / "index.html").write_text("new")
"""


@pytest.mark.parametrize("renames", [0, 1])
def test_a_build_that_dies_between_the_renames_is_made_good(tmp_path: Path, renames: int) -> None:
    site = tmp_path / "site"
    built(site, "last good")
    died = subprocess.run([sys.executable, "-c", CUT_SHORT, str(site), str(renames)])
    assert died.returncode == 9
    assert site.exists() == (renames == 0)
    with pytest.raises(ZeroDivisionError), new_site(site):
        assert (site / "index.html").read_text() == "last good"
        raise ZeroDivisionError
    assert (site / "index.html").read_text() == "last good"
    assert beside(site) == ["site"]


def test_a_build_that_dies_while_clearing_up_keeps_the_new_site(tmp_path: Path) -> None:
    site = tmp_path / "site"
    built(site, "new")
    (tmp_path / "site.old").mkdir()
    (tmp_path / "site.old" / "index.html").write_text("old")
    with pytest.raises(ZeroDivisionError), new_site(site):
        raise ZeroDivisionError
    assert (site / "index.html").read_text() == "new"
    assert beside(site) == ["site"]


def test_two_builds_at_once_do_not_meet(tmp_path: Path) -> None:
    site = tmp_path / "site"
    with new_site(site) as fresh:
        (fresh / "index.html").write_text("first")
        with pytest.raises(CannotReplace, match="being built already"), new_site(site):
            pass
        assert beside(site) == ["site.lock", "site.new"]
    assert (site / "index.html").read_text() == "first"


@pytest.mark.parametrize("precious", [".git", "mkdocs.yml"])
def test_a_folder_that_holds_more_than_a_site_is_not_replaced(
    tmp_path: Path, precious: str
) -> None:
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / precious).write_text("")
    with pytest.raises(CannotReplace, match=precious), new_site(tmp_path / "home"):
        pass
    assert (tmp_path / "home" / precious).exists()


def test_a_file_in_the_place_of_the_site_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "site").write_text("mine")
    with pytest.raises(CannotReplace, match="is a file"), new_site(tmp_path / "site"):
        pass
    assert (tmp_path / "site").read_text() == "mine"
