"""The site with every kind of page, built once, and the ways in which its pages are opened."""

from __future__ import annotations

import fcntl
import os
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from quality.host import hosted
from quality.kinds import build_every_kind, build_preview, kinds


@pytest.fixture(scope="session")
def every_kind(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a site with every kind of page: `site/` is built; once, whatever number of
    workers."""
    return _once(tmp_path_factory, "every-kind", build_every_kind)


def _once(factory: pytest.TempPathFactory, name: str, build: Callable[[Path], None]) -> Path:
    shared = factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        shared = shared.parent
    with (shared / f"{name}.building").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not (shared / name).exists():
            build(shared / f"{name}.new")
            (shared / f"{name}.new").rename(shared / name)
    return shared / name


@pytest.fixture(scope="session")
def looked_at(every_kind: Path) -> tuple[str, ...]:
    """The pages that together have all there is on any page."""
    return kinds(every_kind)


@pytest.fixture(scope="session")
def host(every_kind: Path) -> Iterator[str]:
    """The address of the site on a host, below a sub-path."""
    with hosted(every_kind / "site") as address:
        yield address


@pytest.fixture(scope="session")
def preview(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a site as its designer sees it while writing: `site/` has its pages."""
    return _once(tmp_path_factory, "preview", build_preview)
