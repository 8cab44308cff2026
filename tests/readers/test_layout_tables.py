"""Fonts looked up, and tables turned into a layout."""

from pathlib import Path

import msgspec
import pytest

from bookgen.binder.layout import FontFiles
from bookgen.readers.layout import layout_folder
from bookgen.readers.layout_tables import FontsTable, LayoutTable, font_files, package_folder

ORDINARY = layout_folder() / "ordinary"


@pytest.fixture
def table() -> FontsTable:
    text = (ORDINARY / "layout.toml").read_text(encoding="utf-8")
    return msgspec.toml.decode(text, type=LayoutTable).fonts


def test_the_ordinary_fonts_are_found_with_their_family(table: FontsTable) -> None:
    found = font_files(table, ORDINARY)

    assert isinstance(found, FontFiles)
    assert found.family == "PT Serif"
    assert found.signs.name == "DejaVuSans.ttf"


def test_everything_that_is_missing_is_told_at_once(table: FontsTable, tmp_path: Path) -> None:
    (tmp_path / "own.ttf").write_bytes(b"OTTO")
    table.regular, table.bold, table.signs_package = "./own.ttf", "files/None.ttf", "no_such"
    found = font_files(table, tmp_path)

    assert isinstance(found, list)
    assert {key: problem for key, (problem, _) in found} == {
        "regular": "./own.ttf: no TrueType outlines",
        "bold": "there is no file files/None.ttf",
        "signs": "no package 'no_such' is installed",
        "signs_bold": "no package 'no_such' is installed",
    }


def test_a_package_is_looked_for_and_never_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "trap_package"
    folder.mkdir()
    (folder / "__init__.py").write_text("raise SystemExit('was run')\n", encoding="utf-8")
    monkeypatch.syspath_prepend(str(tmp_path))

    assert package_folder("trap_package") == folder
    assert package_folder("../etc") is None
    assert package_folder("os.path") is None
