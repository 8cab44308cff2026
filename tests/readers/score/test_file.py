"""Bytes of a file and members of an archive, never more than a reader can take."""

from io import BytesIO
from pathlib import Path
from zipfile import ZIP_BZIP2, ZipFile

import pytest
from kit.scores import packed, typed

from bookgen.errors import BookgenError
from bookgen.readers.score.file import (
    CONTAINER,
    MOST_PACKED,
    directory_size,
    file_bytes,
    score_text,
    size,
)

SONG = typed("D4:1")


def test_a_whole_file_and_no_more(tmp_path: Path) -> None:
    file = tmp_path / "song.xml"
    file.write_bytes(b"x" * 10)

    assert file_bytes(file, 10) == b"x" * 10
    with pytest.raises(BookgenError, match=r"song.xml: the file has more than 0 KiB;"):
        file_bytes(file, 9)


def test_a_plain_score_is_what_it_is() -> None:
    assert score_text(SONG, "song.xml") is SONG


def test_the_first_score_that_the_container_names() -> None:
    assert score_text(packed({"score.xml": SONG, "other.xml": b"no"}), "song.mxl") == SONG


def test_an_archive_of_more_than_eight_million_bytes() -> None:
    with pytest.raises(BookgenError, match="the archive has more than 8 MiB"):
        score_text(b"PK" + b"\0" * MOST_PACKED, "song.mxl")


def test_another_way_of_packing_is_not_unpacked() -> None:
    stream = BytesIO()
    with ZipFile(stream, "w", ZIP_BZIP2) as archive:
        archive.writestr(CONTAINER, "<container/>")

    with pytest.raises(BookgenError, match="is locked or packed in an unknown way"):
        score_text(stream.getvalue(), "song.mxl")


def test_an_archive_in_an_archive_is_no_score() -> None:
    inner = packed({"score.xml": SONG})

    assert score_text(packed({"score.xml": inner}), "song.mxl") == inner


def test_the_size_of_the_list_of_members() -> None:
    few, many = packed({"a": b""}), packed({str(index): b"" for index in range(100)})

    assert 0 < directory_size(few) < directory_size(many)
    assert directory_size(b"PK") == 0
    assert directory_size(b"PK\x05\x06") == 0


@pytest.mark.parametrize(("count", "said"), [(2**25, "32 MiB"), (2**18, "256 KiB")])
def test_sizes(count: int, said: str) -> None:
    assert size(count) == said
