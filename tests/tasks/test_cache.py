"""The cache folder: whole entries or none, bounded, and never in the way."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from bookgen.errors import BookgenError
from bookgen.tasks.cache import Cache

ENTRIES = {f"{number:064x}": bytes([number]) * 1000 for number in range(8)}
KEYS = list(ENTRIES)


@pytest.fixture(name="cache")
def a_cache(tmp_path: Path) -> Cache:
    return Cache(tmp_path / "deep" / "cache")


def test_what_was_put_there_is_there(cache: Cache) -> None:
    assert cache.get(KEYS[0]) is None
    cache.put(ENTRIES)
    assert {key: cache.get(key) for key in KEYS} == ENTRIES
    assert Cache(cache.folder).get(KEYS[3]) == ENTRIES[KEYS[3]]
    assert cache.folder.stat().st_mode & 0o777 == 0o700


@pytest.mark.parametrize("damage", ["cut", "turned", "empty", "longer", "a folder"])
def test_a_damaged_entry_is_none_and_can_be_put_again(cache: Cache, damage: str) -> None:
    cache.put(ENTRIES)
    file = cache.folder / KEYS[0]
    whole = file.read_bytes()
    if damage == "a folder":
        file.unlink()
        file.mkdir()
        assert cache.get(KEYS[0]) is None
        cache.put(ENTRIES)
        return
    made = {"cut": whole[:-1], "turned": whole[::-1], "empty": b"", "longer": whole + b"x"}
    file.write_bytes(made[damage])
    assert cache.get(KEYS[0]) is None
    cache.put({KEYS[0]: ENTRIES[KEYS[0]]})
    assert cache.get(KEYS[0]) == ENTRIES[KEYS[0]]


def test_what_was_used_longest_ago_goes_first(tmp_path: Path) -> None:
    size = 1000 + 32
    cache = Cache(tmp_path / "cache", most=5 * size)
    for age, key in enumerate(KEYS[:5]):
        cache.put({key: ENTRIES[key]})
        os.utime(cache.folder / key, (1000 + age, 1000 + age))
    assert cache.get(KEYS[0]) is not None, "which makes it the newest"
    cache.put({key: ENTRIES[key] for key in KEYS[5:7]})

    assert [key for key in KEYS if (cache.folder / key).exists()] == [KEYS[0], *KEYS[3:7]]


def test_a_folder_that_cannot_be_written_keeps_nothing_and_says_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    cache = Cache(tmp_path / "file" / "cache")
    cache.put(ENTRIES)
    assert cache.get(KEYS[0]) is None
    assert cache.clear() == 0


def test_nothing_half_written_is_left(cache: Cache, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> Path:
        raise OSError(28, "No space left on device")

    cache.put({KEYS[0]: b"old"})
    with monkeypatch.context() as patch:
        patch.setattr(Path, "replace", full)
        cache.put(ENTRIES)
    assert [file.name for file in cache.folder.iterdir()] == [KEYS[0]]
    assert cache.get(KEYS[0]) == b"old"


def test_it_is_cleared(cache: Cache) -> None:
    assert cache.clear() == 0
    cache.put(ENTRIES)
    assert cache.clear() == len(ENTRIES) * 1032
    assert list(cache.folder.iterdir()) == []


def test_what_cannot_be_cleared_is_told(cache: Cache, monkeypatch: pytest.MonkeyPatch) -> None:
    def kept(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    cache.put(ENTRIES)
    monkeypatch.setattr(Path, "unlink", kept)
    with pytest.raises(BookgenError, match=r"cannot be cleared \(Permission denied\); "):
        cache.clear()


TURMOIL = """
import sys
from pathlib import Path
from bookgen.tasks.cache import Cache

cache = Cache(Path(sys.argv[1]), most=4 * 1032)
entries = {f"{number:064x}": bytes([number]) * 1000 for number in range(8)}
for _ in range(60):
    cache.put(entries)
    found = {key: cache.get(key) for key in entries}
    assert all(entry in {None, entries[key]} for key, entry in found.items())
"""
"""Puts and gets over and over in a folder that is too small."""


def test_several_processes_never_see_half_an_entry(cache: Cache) -> None:
    command = [sys.executable, "-c", TURMOIL, str(cache.folder)]
    running = [subprocess.Popen(command) for _ in range(3)]  # noqa: S603  the text is above
    assert [process.wait(60) for process in running] == [0, 0, 0]
    assert all(len(file.name) == 64 for file in cache.folder.iterdir()), "nothing temporary"
    assert sum(file.stat().st_size for file in cache.folder.iterdir()) <= 4 * 1032
