"""Families read from font files, against fontTools."""

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from bookgen.binder.page.truetype import family_name
from bookgen.errors import RefusedError
from bookgen.readers.layout import read_layout

FONTS = read_layout("ordinary").fonts


@pytest.mark.parametrize("file", [FONTS.regular, FONTS.bold, FONTS.italic, FONTS.signs])
def test_the_family_is_the_one_fonttools_reads(file: str) -> None:
    with TTFont(file) as font:
        assert family_name(Path(file)) == font["name"].getDebugName(1)


@pytest.mark.parametrize(
    ("data", "problem"),
    [
        (b"OTTO" + bytes(40), "font-outlines"),
        (b"", "font-outlines"),
        (b"\x00\x01\x00\x00\x00\x09", "font-names"),
        (b"\x00\x01\x00\x00\x00\x00" + bytes(6), "font-family"),
    ],
)
def test_what_is_no_usable_font_is_refused(tmp_path: Path, data: bytes, problem: str) -> None:
    file = tmp_path / "x.ttf"
    file.write_bytes(data)
    with pytest.raises(RefusedError, match=problem):
        family_name(file)
