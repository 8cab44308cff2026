"""Nothing of the user's is ever overwritten: the studio, the log, what a command reads."""

from pathlib import Path

import pytest
from kit.printed import DRILLS, kept
from kit.shell import bookgen, refused

from bookgen.studio.practice_log import open_log

DAY = ("--date", "2026-12-01")
STUDIO = '[players.Ines]\nminutes = 4\npositions = ["half", "1st"]\n'
AIR = "title: Harbour air\nbar: 5\nD4 E4 F#4 | G4 A4 B4 |\n"
LOG = "practice-log.sqlite"


@pytest.fixture
def studio(here: Path) -> Path:
    """A studio with a log, a passage and a plan."""
    (here / "studio.toml").write_text(STUDIO, encoding="utf-8")
    (here / "air.passage").write_text(AIR, encoding="utf-8")
    with open_log(here / LOG) as log:
        kept(log, DRILLS[:3])
    (here / "sub").mkdir()
    return here


def contents(folder: Path) -> dict[str, bytes]:
    """Every file with its bytes."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {str(path.relative_to(folder)): path.read_bytes() for path in files}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (f"sheet --plan {LOG}", "let it end in .json"),
        ("sheet --plan studio.toml", "let it end in .json"),
        ("sheet --plan log.json", "it is a practice log, which is never overwritten"),
        ("sheet --plan roster.json", "it is a studio file, which is never overwritten"),
        ("sheet --out log.pdf", "it is a practice log, which is never overwritten"),
        ("sheet --out sub/../log.pdf", "it is a practice log, which is never overwritten"),
        ("sheet --out twin.pdf", "it is a practice log, which is never overwritten"),
        ("booklet --from 2026-12-01 --to 2026-12-02 --out roster.pdf", "it is a studio file"),
        ("booklet --from 2026-12-01 --to 2026-12-02 --plan log.json", "it is a practice log"),
        ("coverage --out log.pdf", "it is a practice log"),
        ("log --export log.json", "it is a practice log"),
        (f"log --export {LOG}", "let it end in .csv or .json"),
        ("drill 1 --out log.pdf", "it is a practice log"),
        ("passage air.passage --plan air.passage", "let it end in .json"),
        ("passage air.passage --plan air.json", "it is read by this command, and stays as it is"),
        ("passage in.musicxml --out in.musicxml", "it is read by this command"),
        ("passage in.musicxml --out ./sub/../in.musicxml", "it is read by this command"),
        ("passage in.musicxml --out again.musicxml", "it is read by this command"),
        ("bind plan.pdf --out plan.pdf", "it is read by this command"),
        ("sheet --keep-ly ly", "it is a studio file, which is never overwritten"),
    ],
)
def test_a_file_that_must_stay_is_never_written_over(studio: Path, words: str, told: str) -> None:
    bookgen("passage", "air.passage", "--out", "in.musicxml")
    bookgen("sheet", *DAY, "--plan", "p.json", "--out", "p.pdf")
    (studio / "p.json").rename(studio / "plan.pdf")
    for name, target in {
        "log.json": LOG,
        "log.pdf": LOG,
        "roster.json": "studio.toml",
        "roster.pdf": "studio.toml",
        "air.json": "air.passage",
        "again.musicxml": "in.musicxml",
    }.items():
        (studio / name).symlink_to(target)
    (studio / "twin.pdf").hardlink_to(studio / LOG)
    (studio / "ly").mkdir()
    (studio / "ly" / "drills-1.ly").symlink_to("../studio.toml")
    before = contents(studio)
    words = words.replace("drill 1 ", "drill violin-12-whole-place2-strings4321-stage1-low-same ")

    assert told in refused(*words.split())
    assert contents(studio) == before


@pytest.mark.usefixtures("studio")
def test_the_same_name_in_other_letters_is_the_same_studio() -> None:
    Path("Studio.TOML.json").write_text("{}", encoding="utf-8")
    Path("plan.json").symlink_to("sub/STUDIO.toml")

    assert "it is a studio file" in refused("sheet", *DAY, "--plan", "plan.json")
    assert bookgen("sheet", *DAY, "--plan", "Studio.TOML.json").code == 0


def test_a_log_of_another_folder_is_a_log_too(studio: Path) -> None:
    (studio / "elsewhere").mkdir()
    (studio / LOG).rename(studio / "elsewhere" / "december.pdf")

    line = refused("sheet", *DAY, "--out", "elsewhere/december.pdf")
    assert "it is a practice log, which is never overwritten" in line


def test_a_passage_of_the_roster_is_an_input_of_every_sheet(studio: Path) -> None:
    (studio / "air.json").write_text(AIR, encoding="utf-8")
    piece = '[[players.Ines.passage]]\nfile = "air.json"\nready_by = 2026-12-20\n'
    (studio / "studio.toml").write_text(STUDIO + piece, encoding="utf-8")

    assert "it is read by this command" in refused("sheet", *DAY, "--plan", "air.json")


def test_links_in_a_circle_are_no_place(here: Path) -> None:
    (here / "a.pdf").symlink_to("b.pdf")
    (here / "b.pdf").symlink_to("a.pdf")

    assert "it is a link that leads back to itself" in refused("sheet", *DAY, "--out", "a.pdf")


@pytest.mark.parametrize("pair", [("Anna Maria", "Anna-Maria"), ("!!!", "???")])
def test_players_with_like_names_have_a_sheet_each(here: Path, pair: tuple[str, str]) -> None:
    tables = "\n".join(f'[players."{name}"]\nminutes = 4' for name in pair)
    (here / "studio.toml").write_text(tables, encoding="utf-8")
    for name in pair:
        assert bookgen("sheet", *DAY, "--player", name).code == 0

    assert len(list((here / "output").iterdir())) == len(pair)


@pytest.mark.parametrize("name", ["In\\u0007es", "\\u001b[31mInes", "Ines\\u202e", "a\\u2028b"])
def test_a_name_that_cannot_be_printed_is_refused_at_the_roster(here: Path, name: str) -> None:
    (here / "studio.toml").write_text(f'[players."{name}"]\n', encoding="utf-8")

    line = refused("sheet", *DAY)
    assert "it holds characters that cannot be printed; take them out." in line
    assert line.isprintable()
    assert [path.name for path in here.iterdir()] == ["studio.toml"]
