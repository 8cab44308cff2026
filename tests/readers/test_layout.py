"""Layout folders: ours, copies of it, and damaged ones."""

from pathlib import Path
from shutil import copytree

import pytest
from paper import LADDER, a_plan, stand_in, violin

from bookgen.binder.sheet import Options, bind
from bookgen.errors import BookgenError
from bookgen.readers.layout import layout_folder, layout_names, parse_settings, read_layout


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    return Path(copytree(layout_folder() / "ordinary", tmp_path / "mine"))


def change(copy: Path, old: str, new: str, file: str = "layout.toml") -> None:
    text = (copy / file).read_text(encoding="utf-8")
    assert old in text
    (copy / file).write_text(text.replace(old, new, 1), encoding="utf-8")


def findings(name_or_dir: str) -> list[str]:
    with pytest.raises(BookgenError) as caught:
        read_layout(name_or_dir)
    return [str(finding) for finding in caught.value.findings]


def test_the_ordinary_layout_is_as_the_librarians_ask() -> None:
    assert "ordinary" in layout_names()
    layout = read_layout("ordinary")
    assert layout.staff_height_mm == 7.5
    assert layout.sheet("a4").column == pytest.approx(180.0)
    assert layout.text.body >= 9.5
    assert min(layout.text.title, layout.text.link) >= 12.0


def test_a_copy_with_other_margins_staff_and_font_works(copy: Path) -> None:
    font = read_layout("ordinary").fonts.signs
    (copy / "own.ttf").write_bytes(font.read_bytes())
    change(copy, "left = 16.0", "left = 26.0")
    change(copy, "height_mm = 7.5", "height_mm = 8.0")
    change(copy, '"files/PT_Serif-Web-Regular.ttf"', '"./own.ttf"')
    layout = read_layout(str(copy))

    assert layout.name == "mine"
    assert layout.sheet("a4").column == pytest.approx(170.0)
    assert layout.staff_height_mm == 8.0
    assert layout.fonts.family == "DejaVu Sans"
    pdf = bind(a_plan(LADDER[:2]), violin(), stand_in(2), layout, Options())
    assert pdf.startswith(b"%PDF")


def test_a_copy_with_other_words_prints_them(copy: Path) -> None:
    change(copy, "<pencil>Teacher</pencil>", "<pencil>Lehrer</pencil>", "block.j2")
    pdf = bind(a_plan(LADDER[:2]), violin(), stand_in(2), read_layout(str(copy)), Options())
    ordinary = bind(a_plan(LADDER[:2]), violin(), stand_in(2), read_layout("ordinary"), Options())
    assert pdf != ordinary


def test_an_unknown_layout_names_those_there_are() -> None:
    (told,) = findings("nonesuch")

    assert "no layout 'nonesuch'" in told
    assert "choose ordinary" in told


def test_every_unknown_key_and_wrong_value_is_told_at_once(copy: Path) -> None:
    change(copy, "top = 11.0", "tpo = 11.0")
    change(copy, "height_mm = 7.5", 'height_mm = "big"')
    change(copy, "plays = 5", "plays = 99")
    change(copy, "[pencil]", "[pencils]")
    told = findings(str(copy))

    file = str(copy / "layout.toml")
    assert told[0] == (f"{file}, margins.a4.tpo: this key means nothing here; write top.")
    assert any(t.startswith(f"{file}, pencils:") and "write pencil" in t for t in told)
    assert any(f"{file}, margins.a4: " in t and "`top`" in t for t in told)
    assert any(f"{file}, staff.height_mm: " in t for t in told)
    assert any(f"{file}, block.plays: " in t and "10" in t for t in told)
    assert any(f"{file}, pencil: this table is missing" in t for t in told)


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        ("height_mm = 7.5", "height_mm = 3.0", "a staff of 3.0 mm; give 6 to 10"),
        ("left = 16.0", "left = 80.0", "wait"),
        ("left = 12.0", "left = 60.0", "left and right leave 78.0 mm"),
        ("[margins.a4]", "[margins.a4", "layout.toml"),
        ('package = "fontpkg_pt_serif"', 'package = "none_such"', "no package"),
    ],
)
def test_one_fault_gives_its_place_and_what_is_wrong(
    copy: Path, old: str, new: str, problem: str
) -> None:
    change(copy, old, new)
    if problem == "wait":
        assert read_layout(str(copy)).sheet("a4").column == pytest.approx(116.0)
        return
    told = findings(str(copy))
    assert all(t.startswith(str(copy / "layout.toml")) for t in told)
    assert problem in told[0]


def test_missing_and_unreadable_files_are_told(copy: Path) -> None:
    (copy / "sheet.j2").unlink()
    (copy / "block.j2").write_bytes(b"\xff\xfe\x00")
    told = findings(str(copy))

    assert len(told) == 2
    assert "sheet.j2: the file cannot be read" in told[0]
    assert "block.j2: the file is no UTF-8 text" in told[1]


def test_every_value_of_the_ordinary_layout_has_a_comment() -> None:
    text = (layout_folder() / "ordinary" / "layout.toml").read_text(encoding="utf-8")
    assert parse_settings(text, "layout.toml").staff.height_mm == 7.5
    tables = text.split("\n[")
    assert all("#" in table for table in tables if not table.startswith("margins"))


def test_the_booklets_table_and_templates_are_read_and_checked(copy: Path) -> None:
    change(copy, 'abreast = ["a4", "letter"]', 'abreast = ["a3"]')
    change(copy, "[margins.half-letter]", "[margins.half-leter]")
    told = findings(str(copy))

    assert any("booklet.abreast" in t and "a3" in t for t in told)
    assert any("margins.half-leter" in t and "write half-letter" in t for t in told)
    (copy / "week.j2").unlink()
    assert any("week.j2: the file cannot be read" in t for t in findings(str(copy)))
