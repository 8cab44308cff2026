"""Files appear whole or not at all."""

import os
from pathlib import Path

import pytest

from bookgen.errors import BookgenError
from bookgen.tasks.files import write_whole


def test_all_files_are_written_and_nothing_else(tmp_path: Path) -> None:
    files = [(tmp_path / "new" / "a.pdf", b"pages"), (tmp_path / "b.json", b"plan")]

    write_whole(files)

    found = sorted(path.relative_to(tmp_path) for path in tmp_path.rglob("*") if path.is_file())
    assert found == [Path("b.json"), Path("new/a.pdf")]
    assert (tmp_path / "b.json").read_bytes() == b"plan"


def test_where_one_cannot_be_written_none_is(tmp_path: Path) -> None:
    (tmp_path / "old.pdf").write_bytes(b"yesterday")
    (tmp_path / "file").write_bytes(b"")
    files = [(tmp_path / "old.pdf", b"today"), (tmp_path / "file" / "b.json", b"plan")]

    with pytest.raises(BookgenError, match=r"cannot be written .*; choose another place"):
        write_whole(files)

    assert (tmp_path / "old.pdf").read_bytes() == b"yesterday"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["file", "old.pdf"]


def test_a_folder_in_the_file_s_place_is_told(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").mkdir()

    with pytest.raises(BookgenError, match="Is a directory"):
        write_whole([(tmp_path / "a.pdf", b"")])

    assert list(tmp_path.iterdir()) == [tmp_path / "a.pdf"]


def test_a_link_is_followed_and_permissions_stay(tmp_path: Path) -> None:
    (tmp_path / "real.pdf").write_bytes(b"old")
    (tmp_path / "real.pdf").chmod(0o640)
    (tmp_path / "link.pdf").symlink_to("real.pdf")

    write_whole([(tmp_path / "link.pdf", b"new")])

    assert (tmp_path / "link.pdf").is_symlink()
    assert (tmp_path / "real.pdf").read_bytes() == b"new"
    assert (tmp_path / "real.pdf").stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_where_the_second_move_fails_the_first_is_taken_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: BaseException
) -> None:
    (tmp_path / "old.pdf").write_bytes(b"yesterday")
    (tmp_path / "old.pdf").chmod(0o640)
    files = [(tmp_path / name, b"today") for name in ("old.pdf", "new/a.pdf", "b.json")]
    move = Path.replace

    def failing(path: Path, target: Path) -> Path:
        if target.name == "b.json":
            raise error
        return move(path, target)

    monkeypatch.setattr(Path, "replace", failing)
    with pytest.raises((BookgenError, KeyboardInterrupt)):
        write_whole(files)

    assert [path.name for path in tmp_path.iterdir()] == ["old.pdf"]
    assert (tmp_path / "old.pdf").read_bytes() == b"yesterday"
    assert (tmp_path / "old.pdf").stat().st_mode & 0o777 == 0o640


def test_without_hard_links_what_stood_there_is_copied(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(path: Path, target: Path) -> None:
        raise PermissionError(path, target)

    monkeypatch.setattr(Path, "hardlink_to", no_links)
    test_where_the_second_move_fails_the_first_is_taken_back(
        tmp_path, monkeypatch, OSError(28, "No space left on device")
    )


def test_files_and_their_folders_are_on_the_disk_before_they_count(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    synced: list[Path] = []
    sync = os.fsync

    def noted(handle: int) -> None:
        synced.append(Path(f"/proc/self/fd/{handle}").readlink())
        sync(handle)

    monkeypatch.setattr(os, "fsync", noted)
    write_whole([(tmp_path / "a.pdf", b"pages"), (tmp_path / "in" / "b.json", b"plan")])

    assert [file.parent for file in synced[:2]] == [tmp_path, tmp_path / "in"]
    assert set(synced[2:]) == {tmp_path, tmp_path / "in"}
