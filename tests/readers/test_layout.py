"""Layout folders: ours, a user's of a few lines, and damaged ones."""

from pathlib import Path

import pytest

from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.fonts import Fonts
from bookgen.binder.page.paper import PAPERS
from bookgen.errors import BookgenError
from bookgen.readers.layout import layout_folder, layout_names, read_layout

STYLE = Style(Face.REGULAR, 12)


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    folder = tmp_path / "mine"
    folder.mkdir()
    return folder


def says(folder: Path, text: str) -> Path:
    (folder / "layout.toml").write_text(text, encoding="utf-8")
    return folder


def findings(name_or_dir: Path | str) -> list[str]:
    with pytest.raises(BookgenError) as caught:
        read_layout(str(name_or_dir))
    return [str(finding) for finding in caught.value.findings]


@pytest.mark.published("Major Orchestra Librarians' Association, Guidelines, 2017, p. 5")
def test_the_ordinary_layout_is_as_the_librarians_ask() -> None:
    layout = read_layout("ordinary")
    assert layout.music.staff_height_mm == 7.5
    assert layout.sheet("a4").column == pytest.approx(186.0)


@pytest.mark.parametrize("name", layout_names())
def test_every_layout_of_ours_is_whole_on_every_paper(name: str) -> None:
    layout = read_layout(name)
    assert layout.name == name
    assert min(layout.sheet(paper).column for paper in PAPERS) >= 120.0
    assert layout.fonts.family == "PT Serif"


def test_large_print_has_no_type_below_16_points() -> None:
    layout = read_layout("large-print")
    sizes = [getattr(layout.text, key) for key in layout.text.__struct_fields__]
    assert min(size for size in sizes if size > 2) >= 16.0
    assert min(layout.frame.running_pt, layout.frame.whose_pt, layout.frame.folio_pt) >= 16.0
    assert layout.music.staff_height_mm == 9.5


def test_a_layout_states_only_what_differs(mine: Path) -> None:
    font = Path(read_layout("ordinary").fonts.signs)
    (mine / "own.ttf").write_bytes(font.read_bytes())
    says(
        mine,
        """
        inherits = "large-print"
        [margins.a4]
        left = 26.0
        [fonts]
        regular = "./own.ttf"
        """,
    )
    layout, below = read_layout(str(mine)), read_layout("large-print")

    assert layout.name == "mine"
    assert layout.sheet("a4").column == pytest.approx(below.sheet("a4").column - 14.0)
    assert layout.sheet("a4").top == below.sheet("a4").top
    assert layout.music == below.music
    assert layout.fonts.family == "DejaVu Sans"
    assert layout.fonts.bold == below.fonts.bold


def test_a_layout_that_names_no_other_inherits_from_the_ordinary_one(mine: Path) -> None:
    assert read_layout(str(says(mine, "[text]\nbody_pt = 12"))).text.body_pt == 12.0
    assert read_layout(str(says(mine, ""))).text == read_layout("ordinary").text


def test_an_unknown_layout_names_those_there_are() -> None:
    (told,) = findings("nonesuch")

    assert "no layout 'nonesuch'" in told
    assert "choose chart-first, large-print, ordinary" in told


def test_everything_wrong_is_told_at_once_with_its_place(mine: Path) -> None:
    says(
        mine,
        """
        [margins.a4]
        tpo = 11.0
        left = 70.0
        right = 70.0
        [music]
        staff_height_mm = "big"
        finger_step = nan
        [text]
        body_pt = 99
        [txt]
        size = 3
        [fonts]
        bold = "no_such_package/x.ttf"
        """,
    )
    file = f"{mine / 'layout.toml'}, "
    told = findings(mine)
    by_place = {line.removeprefix(file).partition(":")[0]: line.removeprefix(file) for line in told}
    assert set(by_place) == {
        "margins.a4.tpo",
        "music.staff_height_mm",
        "music.finger_step",
        "text.body_pt",
        "txt",
        "fonts.bold",
        "margins.a4",
    }
    assert "means nothing here; write top." in by_place["margins.a4.tpo"]
    assert "write text" in by_place["txt"]
    assert "99 cannot be taken here; give a number from 6 to 72." in by_place["text.body_pt"]
    assert "nan cannot be taken here" in by_place["music.finger_step"]
    assert "no package 'no_such_package'" in by_place["fonts.bold"]
    assert "needs 90.0 mm of width; there are 70.0 mm" in by_place["margins.a4"]


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("[margins.a4", "mend the line"),
        ('inherits = "nonesuch"', "no layout 'nonesuch' to inherit from; choose chart-first"),
        ("inherits = 3", "3 cannot be taken here; give a text in quotes"),
        ("[fonts]\nregular = '../x.ttf'", "no package '..' is installed"),
        ("margins = 3", "3 cannot be taken here; give a table"),
        ('name = "other"', "this key means nothing here"),
    ],
)
def test_one_fault_gives_its_place_and_what_is_wrong(mine: Path, text: str, problem: str) -> None:
    told = findings(says(mine, text))
    assert all(line.startswith(str(mine / "layout.toml")) for line in told)
    assert problem in told[0]


def test_a_file_that_is_no_text_is_told(mine: Path) -> None:
    (mine / "layout.toml").write_bytes(b"\xff\xfe\x00")
    assert "no UTF-8 text; save it as UTF-8" in findings(mine)[0]


def test_a_copy_from_when_layouts_held_templates_gets_one_finding(mine: Path) -> None:
    says(mine, "[staff]\nheight_mm = 7.5\n[pencil]\npage_mm = 2.0\n[chart]\nshare = 0.48")
    (mine / "block.j2").write_text("{{ drill.number }}", encoding="utf-8")
    (told,) = findings(mine)
    assert "templates (*.j2), which layouts no longer have" in told
    assert "inherits = 'ordinary'" in told


def test_a_package_is_looked_for_and_never_run(mine: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    package = mine / "trap_package"
    package.mkdir()
    (package / "__init__.py").write_text("raise SystemExit('was run')\n", encoding="utf-8")
    monkeypatch.syspath_prepend(str(mine))
    told = findings(says(mine, '[fonts]\nregular = "trap_package/none.ttf"'))
    assert "there is no file trap_package/none.ttf" in told[0]


def test_outlines_that_cannot_be_embedded_are_told(mine: Path) -> None:
    (mine / "own.ttf").write_bytes(b"OTTO")
    told = findings(says(mine, '[fonts]\nregular = "./own.ttf"'))
    assert "font-outlines; choose a .ttf file" in told[0]


def test_two_layouts_with_fonts_of_one_name_measure_each_with_its_own(tmp_path: Path) -> None:
    ordinary = read_layout("ordinary").fonts
    widths = []
    for name, font in (("one", ordinary.regular), ("two", ordinary.signs)):
        folder = tmp_path / name
        folder.mkdir()
        (folder / "own.ttf").write_bytes(Path(font).read_bytes())
        says(folder, '[fonts]\nregular = "./own.ttf"')
        fonts = Fonts(read_layout(str(folder)).fonts)
        widths.append(fonts.width("Moor", STYLE))
    assert widths[0] != pytest.approx(widths[1], rel=0.01)


def test_every_value_of_the_ordinary_layout_says_where_it_comes_from() -> None:
    text = (layout_folder() / "ordinary" / "layout.toml").read_text(encoding="utf-8")
    for block in text.split("\n\n"):
        lines = block.splitlines()
        over = any(line.startswith("#") for line in lines)
        values = [line for line in lines if "=" in line and not line.startswith("#")]
        if "margins." not in block and not over:
            assert [line for line in values if "#" not in line and "_" in line] == []
