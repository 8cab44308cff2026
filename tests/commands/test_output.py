"""Files appear whole or not at all."""

from pathlib import Path

import pytest

from bookgen.commands.output import file_stem, write_whole
from bookgen.errors import BookgenError


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


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("Ines", "ines"),
        ("Jörg & Zoë", "jörg-zoë"),
        ("../../etc/passwd", "etc-passwd"),
        ('"}{#(system "x")\\', "system-x"),
        ("🎻", "player"),
        ("ينس", "ينس"),
        ("x" * 500, "x" * 40),
        ("", "player"),
    ],
)
def test_a_file_name_holds_only_letters_digits_and_hyphens(name: str, stem: str) -> None:
    assert file_stem(name) == stem
