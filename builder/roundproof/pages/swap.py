"""A new site put in the place of the last one in one go.

The new site is built in a folder beside the old one. Only when it is whole are the two renamed, the
old one out of the way and the new one in. Until then the last good site stands untouched; if the
machine stops between the two renames, the next build puts it back.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path


class CannotReplace(Exception):
    """The new site cannot take its place; the message is for the designer."""


@contextmanager
def new_site(site: Path) -> Iterator[Path]:
    """An empty folder to build into. It becomes `site` when the block ends; if the block raises,
    it is thrown away and `site` stays as it was. Raises CannotReplace."""
    site = site.resolve()
    _refuse_what_is_no_site(site)
    site.parent.mkdir(parents=True, exist_ok=True)
    with _only_one(_beside(site, "lock")):
        recover(site)
        fresh = _beside(site, "new")
        fresh.mkdir()
        try:
            yield fresh
            _put_in_place(fresh, site)
        finally:
            shutil.rmtree(fresh, ignore_errors=True)


def recover(site: Path) -> None:
    """Clear up what a build that was cut short left behind, the last good site first."""
    old, fresh = _beside(site, "old"), _beside(site, "new")
    if old.exists() and not site.exists():
        old.rename(site)
    for left in (old, fresh):
        if left.exists():
            shutil.rmtree(left)


def _put_in_place(fresh: Path, site: Path) -> None:
    old = _beside(site, "old")
    try:
        if site.exists():
            site.rename(old)
        fresh.rename(site)
    except OSError as refusal:
        if old.exists() and not site.exists():
            old.rename(site)
        raise CannotReplace(
            f"{site} could not be replaced ({refusal.strerror}). It is as it was. Close whatever"
            " has files of it open, and build again."
        ) from refusal
    shutil.rmtree(old, ignore_errors=True)


def _beside(site: Path, ending: str) -> Path:
    return site.with_name(f"{site.name}.{ending}")


def _refuse_what_is_no_site(site: Path) -> None:
    if site.exists() and not site.is_dir():
        raise CannotReplace(f"{site} is a file. The site needs a folder of its own.")
    for precious in (".git", "mkdocs.yml"):
        if (site / precious).exists():
            raise CannotReplace(
                f"{site} holds {precious}, and a new site would take it away. Name a folder in"
                " mkdocs.yml (`site_dir`) that holds nothing but the site."
            )


@contextmanager
def _only_one(lock: Path) -> Iterator[None]:
    """Holds the lock file while the block runs. The system lets go of it if the process dies."""
    with lock.open("a+b") as held:
        try:
            _lock(held.fileno())
        except OSError:
            raise CannotReplace("This site is being built already: wait for that.") from None
        try:
            yield
        finally:
            with suppress(OSError):  # Windows keeps a file that is open
                lock.unlink()


if sys.platform == "win32":

    def _lock(descriptor: int) -> None:
        import msvcrt

        msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)

else:

    def _lock(descriptor: int) -> None:
        import fcntl

        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
