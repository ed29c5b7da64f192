"""What is kept comes back as it was or not at all, and never grows without bound."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from pathlib import Path

import pytest

from roundproof.store import LATE, Kept, Store, code_stamp, key, stamp


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / ".roundproof")


def entry(store: Store, name: str) -> Path:
    return Path(store._path(name))


def test_what_is_kept_comes_back(store: Store) -> None:
    one, two = key("page", b"1"), key("page", b"2")
    assert store.get(one) is None
    store.put(one, b"first")
    store.put(two, b"")
    assert (store.get(one), store.get(two)) == (b"first", b"")
    store.put(one, b"again")
    assert Store(store.folder.parent).get(one) == b"again"


def test_a_key_tells_its_parts_apart() -> None:
    made = [key("ab", "c"), key("a", "bc"), key("abc"), key("c", "ab"), key("ab", "c", ""), key()]
    assert len(set(made)) == len(made)
    assert key("ab") == key(b"ab")
    assert key("\udcff")  # a file's name that is no text


@pytest.mark.parametrize(
    "spoil",
    [
        lambda data: b"",
        lambda data: data[:-1],
        lambda data: data + b"x",
        lambda data: data[:40] + b"X" + data[41:],
        lambda data: data[:20],
        lambda data: b"roundproof 2\n" + data[13:],
    ],
    ids=["empty", "cut short", "longer", "changed", "head alone", "of another version"],
)
def test_an_entry_that_is_not_whole_is_not_there(store: Store, spoil) -> None:  # type: ignore[no-untyped-def]
    name = key("page")
    store.put(name, b"a page of some length")
    file = entry(store, name)
    file.write_bytes(spoil(file.read_bytes()))
    assert store.get(name) is None
    store.put(name, b"anew")
    assert store.get(name) == b"anew"


def test_an_entry_in_the_place_of_another_is_not_there(store: Store) -> None:
    one, two = key("one"), key("two")
    store.put(one, b"one")
    store.put(two, b"two")
    entry(store, one).write_bytes(entry(store, two).read_bytes())
    assert store.get(one) is None


def test_the_folder_may_go_at_any_time(store: Store) -> None:
    store.put(key("page"), b"page")
    for file in sorted(store.folder.parent.rglob("*"), reverse=True):
        file.rmdir() if file.is_dir() else file.unlink()
    assert store.get(key("page")) is None
    store.trim()
    store.put(key("page"), b"page")
    assert store.get(key("page")) == b"page"


@pytest.mark.parametrize("what", ["file", "folder"])
def test_a_place_that_cannot_be_used_costs_nothing(tmp_path: Path, what: str) -> None:
    """A file where the folder should be, and a folder where an entry should be."""
    store, name = Store(tmp_path / ".roundproof"), key("page")
    if what == "file":
        (tmp_path / ".roundproof").write_text("mine", "utf-8")
    else:
        entry(store, name).mkdir(parents=True)
    store.put(name, b"page")
    assert store.get(name) is None
    store.trim()
    if what == "file":
        assert (tmp_path / ".roundproof").read_text("utf-8") == "mine"
    else:
        assert [p.name for p in entry(store, name).parent.iterdir()] == [entry(store, name).name]


def test_it_keeps_itself_out_of_version_control(store: Store) -> None:
    store.put(key("page"), b"page")
    assert (store.folder.parent / ".gitignore").read_text("utf-8") == "*\n"


def test_what_is_longest_of_no_use_goes_first(tmp_path: Path) -> None:
    store = Store(tmp_path, most_bytes=4000)
    names = [key(str(number)) for number in range(6)]
    for name in names:
        Store(tmp_path).put(name, bytes(700))
    now = time.time()
    for age, name in enumerate(names):
        os.utime(entry(store, name), (now - LATE * (10 - age), now - LATE * (10 - age)))
    assert store.get(names[0]) is not None  # of use now, so it stays
    store.trim()
    assert [store.get(name) is not None for name in names] == [True, False, True, True, True, True]


def test_it_stays_small_though_nobody_tidies(tmp_path: Path) -> None:
    store = Store(tmp_path, most_bytes=20_000)
    for number in range(200):
        store.put(key(str(number)), bytes(1000))
    files = [file for file in tmp_path.rglob("*") if file.is_file()]
    assert sum(file.stat().st_size for file in files) < 20_000 * 1.3
    store.put(key("vast"), bytes(10_000))
    assert store.get(key("vast")) is None


def test_tidying_touches_nothing_but_entries(tmp_path: Path) -> None:
    store = Store(tmp_path, most_bytes=0)
    for name in ("mine.txt", "ab/mine.txt", "photos/a.jpg"):
        (store.folder / name).parent.mkdir(parents=True, exist_ok=True)
        (store.folder / name).write_bytes(b"mine")
    half = store.folder / "ab" / f"{'0' * 38}.17-1"
    fresh = store.folder / "ab" / f"{'1' * 38}.17-1"
    half.write_bytes(b"half")
    fresh.write_bytes(b"half")
    os.utime(half, (1, 1))
    store.trim()
    left = sorted(p.relative_to(store.folder).as_posix() for p in store.folder.rglob("*.*"))
    assert left == [f"ab/{fresh.name}", "ab/mine.txt", "mine.txt", "photos/a.jpg"]


def test_many_may_write_the_same_at_once(store: Store) -> None:
    name, data = key("page"), [bytes([number]) * 50_000 for number in range(8)]
    with ThreadPoolExecutor(8) as pool:
        list(pool.map(lambda each: [store.put(name, each) for _ in range(20)], data))
    assert store.get(name) in data
    assert len(list(entry(store, name).parent.iterdir())) == 1


def test_several_processes_share_it(tmp_path: Path) -> None:
    script = (
        "import sys; from pathlib import Path; from roundproof.store import Store, key\n"
        "store = Store(Path(sys.argv[1]))\n"
        "for n in range(100): store.put(key(str(n)), str(n).encode() * 1000)\n"
        "for n in range(100): assert store.get(key(str(n))) == str(n).encode() * 1000"
    )
    command = [sys.executable, "-c", script, str(tmp_path)]
    running = [subprocess.Popen(command) for _ in range(3)]
    assert [each.wait(60) for each in running] == [0, 0, 0]


def test_a_stamp_stands_for_content_and_names(tmp_path: Path) -> None:
    def made() -> str:
        return stamp([tmp_path], (".html",))

    (tmp_path / "a.html").write_text("a", "utf-8")
    first = made()
    (tmp_path / "b.txt").write_text("b", "utf-8")
    os.utime(tmp_path / "a.html", (1, 1))
    assert made() == first
    (tmp_path / "a.html").rename(tmp_path / "c.html")
    second = made()
    (tmp_path / "c.html").write_text("c", "utf-8")
    assert len({first, second, made()}) == 3
    assert code_stamp() == code_stamp()


# ---- files by their content ----
def test_a_file_is_kept_by_its_content_and_linked_to_another_place(
    store: Store, tmp_path: Path
) -> None:
    kept = store.keep(b"<svg/>")
    assert kept and (kept.digest, kept.size) == (sha256(b"<svg/>").hexdigest(), 6)
    assert store.has(kept)
    assert not store.has(Kept(sha256(b"").hexdigest(), 0, kept.changed))
    store.link(kept, f"{tmp_path}/drawing.svg")
    assert (tmp_path / "drawing.svg").read_bytes() == b"<svg/>"
    assert (tmp_path / "drawing.svg").samefile(entry(store, kept.digest))


def test_a_file_is_copied_where_it_cannot_be_linked(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise OSError(18, "another disk")

    monkeypatch.setattr(os, "link", refuse)
    kept = store.keep(b"<svg/>")
    assert kept
    store.link(kept, f"{tmp_path}/drawing.svg")
    assert (tmp_path / "drawing.svg").read_bytes() == b"<svg/>"
    assert not (tmp_path / "drawing.svg").samefile(entry(store, kept.digest))


@pytest.mark.parametrize("spoilt", [b"", b"<svg", b"<svg/> ", b"<SVG/>"])
def test_a_file_changed_in_its_other_place_is_not_there_and_can_be_kept_anew(
    store: Store, tmp_path: Path, spoilt: bytes
) -> None:
    other = tmp_path / "drawing.svg"
    kept = store.keep(b"<svg/>")
    assert kept
    store.link(kept, str(other))
    other.write_bytes(spoilt)
    os.utime(other, ns=(0, kept.changed + 1))  # or it could be the same moment to the disk
    assert not store.has(kept)
    again = store.keep(b"<svg/>")
    assert again and again.digest == kept.digest
    assert store.has(again) and store.has(kept)
    assert other.read_bytes() == spoilt


def test_a_file_of_another_time_is_read_and_its_time_left_as_it_is(store: Store) -> None:
    """As where the folder comes back from somewhere else."""
    kept = store.keep(b"<svg/>")
    assert kept
    os.utime(entry(store, kept.digest), (1, 2))
    assert store.has(kept)
    state = entry(store, kept.digest).stat()
    assert state.st_mtime == 2 and state.st_atime > 2


def test_a_file_that_the_disk_refuses_is_not_kept(tmp_path: Path) -> None:
    (tmp_path / "kept").write_text("in the way")
    assert Store(tmp_path).keep(b"<svg/>") is None
    assert Store(tmp_path / "new", most_bytes=100).keep(b"x" * 50) is None


def test_files_are_trimmed_with_the_rest(tmp_path: Path) -> None:
    store = Store(tmp_path, most_bytes=1000)
    first = store.keep(b"1" * 200)
    assert first
    os.utime(entry(store, first.digest), (1, 1))
    for number in range(10):
        store.keep(f"{number}".encode() * 200)
    store.trim()
    assert not store.has(first)
    assert store.keep(b"9" * 200)
