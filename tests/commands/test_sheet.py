"""Today's sheet."""

import json
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pypdfium2
import pytest
from kit.shell import bookgen, refused

from bookgen.notation import lilypond

DAY = "2026-12-01"

HARBOUR_LANE = """
name = "Harbour Lane Strings"
paper = "letter"

[players.Ines]
instrument = "viola"
size = "short"
minutes = 6
"""


def words_of(pdf: Path) -> str:
    document = pypdfium2.PdfDocument(pdf)
    return "\n".join(page.get_textpage().get_text_bounded() for page in document)


def test_with_no_studio_it_makes_a_first_sheet_and_says_where(here: Path) -> None:
    outcome = bookgen("sheet")

    path = Path(outcome.out.strip())
    day = date.fromisoformat(path.stem.removeprefix("sheet-"))
    assert (outcome.code, path.parent) == (0, Path("output"))
    written = datetime.fromtimestamp(path.stat().st_mtime, UTC).date()
    assert abs(day - written) <= timedelta(1)
    assert str(day.year) in words_of(path)
    assert sorted(file.name for file in here.rglob("*") if file.is_file()) == [path.name]


@pytest.mark.parametrize(
    ("instrument", "paper", "day"),
    [
        ("violin", "a4", "2026-11-27"),  # sixteen notes on each of five lines
        ("violin", "letter", "2026-12-01"),
        ("viola", "a4", "2026-12-01"),
        ("viola", "letter", "2026-12-02"),  # six drills
    ],
)
def test_ten_minutes_are_one_page(instrument: str, paper: str, day: str) -> None:
    said = ("--instrument", instrument, "--paper", paper, "--date", day)
    assert bookgen("sheet", *said, "--minutes", "10", "--out", "one.pdf").code == 0
    assert len(pypdfium2.PdfDocument(Path("one.pdf"))) == 1


def test_the_same_date_and_seed_give_the_same_bytes() -> None:
    bookgen("sheet", "--date", DAY, "--out", "one.pdf")
    bookgen("sheet", "--date", DAY, "--out", "two.pdf")
    bookgen("sheet", "--date", DAY, "--seed", "7", "--out", "three.pdf")

    assert Path("one.pdf").read_bytes() == Path("two.pdf").read_bytes()
    assert words_of(Path("one.pdf")) != words_of(Path("three.pdf"))


def test_a_name_is_printed_and_names_the_file() -> None:
    Path("studio.toml").write_text('[players."Ines Ólafs"]', encoding="utf-8")
    outcome = bookgen("sheet", "--date", DAY, "--player", "Ines Ólafs", "--quiet")

    assert (outcome.code, outcome.out) == (0, "")
    assert "Ines Ólafs" in words_of(Path(f"output/ines-ólafs-{DAY}.pdf"))


def test_a_studio_tells_instrument_size_minutes_and_paper() -> None:
    Path("studio.toml").write_text(HARBOUR_LANE, encoding="utf-8")

    assert bookgen("sheet", "--date", DAY, "--player", "Ines", "--plan", "plan.json").code == 0
    path = Path(f"output/ines-{DAY}.pdf")
    plan = json.loads(Path("plan.json").read_text(encoding="utf-8"))
    assert (plan["instrument"], plan["size"], plan["player"]) == ("viola", "short", "Ines")
    assert plan["days"][0]["minutes"] == 6
    assert "Harbour Lane Strings" in words_of(path)
    assert pypdfium2.PdfDocument(path)[0].get_size() == (612, 792)


def test_another_instrument_than_the_players_comes_in_its_own_size() -> None:
    Path("studio.toml").write_text("\ufeff" + HARBOUR_LANE, encoding="utf-8")
    words = ("--player", "Ines", "--instrument", "violin", "--plan", "plan.json")

    assert bookgen("sheet", "--date", DAY, *words).code == 0
    assert json.loads(Path("plan.json").read_text(encoding="utf-8"))["size"] == "4/4"


def test_a_stranger_is_not_taken_for_a_player(here: Path) -> None:
    told = refused("sheet", "--date", DAY, "--player", "Ins")

    assert told.startswith("--player: there is no studio here that knows 'Ins'; go to the folder")
    assert list(here.iterdir()) == []


def test_an_unknown_player_is_told() -> None:
    Path("studio.toml").write_text(HARBOUR_LANE, encoding="utf-8")

    assert refused("sheet", "--player", "Inez") == "studio.toml: no player 'Inez'; perhaps 'Ines'."


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--date", "tomorrow"), "--date: 'tomorrow' is no date"),
        (("--paper", "a3"), "--paper: no paper 'a3'; choose a4, a5, half-letter"),
        (("--paper", ""), "--paper: no paper ''; choose a4, a5, half-letter, letter."),
        (("--paper", "../a4"), "--paper: no paper '../a4'"),
        (("--minutes", "2"), "--minutes: '2' is no practice time; give 3 to 120."),
        (("--minutes", "ten"), "--minutes: 'ten' is no practice time"),
        (("--minutes", "9" * 5000), "is no practice time"),
        (
            ("--instrument", "kazoo"),
            "--instrument: no instrument 'kazoo'; choose cello, double_bass,",
        ),
        (("--size", "3/5"), "--size: no violin size '3/5'"),
        (("--layout", "nowhere"), "--layout: no layout 'nowhere'"),
        (("--player", " "), "--player: the name is empty"),
        (("--player", "bad\udcff"), "--player: the name is empty or no text in UTF-8"),
        (("--date", "2026-W49-2"), "--date: '2026-W49-2' is no date"),
        (("--paper", "A44"), "--paper: no paper 'A44'; perhaps a4"),
        (("--instrument", ""), "--instrument: no instrument ''"),
        (("--inst", "violin"), "unrecognized arguments: --inst violin"),
        (("--seed", "x"), "command line: argument --seed: 'x' is no whole number"),
        (("--seed", "9" * 16), "command line: argument --seed: give at most 15 digits"),
    ],
)
def test_what_was_given_wrong_is_told_and_nothing_is_written(
    here: Path, words: tuple[str, ...], told: str
) -> None:
    assert told in refused("sheet", *words)
    assert list(here.iterdir()) == []


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('paper = "a3"', "studio.toml, paper: no paper 'a3'"),
        ('layout = "x"', "studio.toml, layout: no layout 'x'"),
        ("colour = 1", "studio.toml, colour: there is no such key"),
        ('[players.Ines]\nsize = "9/9"', "player \"Ines\", size: no violin size '9/9'"),
        (
            '[players.Ines]\ninstrument = "kazoo"',
            "player \"Ines\", instrument: no instrument 'kazoo'",
        ),
        ("\udcff", "cannot be read"),
    ],
)
def test_a_damaged_studio_is_told(text: str, told: str) -> None:
    Path("studio.toml").write_bytes(text.encode("utf-8", "surrogateescape"))
    words = ("--player", "Ines") if "players" in text else ()

    assert told in refused("sheet", *words)


def test_a_day_counts_as_printed_only_when_its_page_is_there(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    Path("studio.toml").write_text("[players.Ines]", encoding="utf-8")
    (here / "stand-in").write_text("#!/bin/sh\nexit 3\n", encoding="utf-8")
    (here / "stand-in").chmod(0o755)
    with monkeypatch.context() as broken:
        broken.setattr(lilypond, "from_wheel", lambda: here / "stand-in")
        assert bookgen("sheet", "--date", DAY).code == 1
    assert bookgen("log", "--show").out == "Ines: nothing was printed\n"
    assert "No. 1 was never printed for Ines" in refused("log", "1", "--secure")

    assert bookgen("sheet", "--date", DAY, "--plan", "plan.json").code == 0
    plan = json.loads(Path("plan.json").read_text(encoding="utf-8"))
    assert [drill["number"] for drill in plan["drills"]] == list(range(1, len(plan["drills"]) + 1))
    assert bookgen("log", "--show").out.count("2026-12-01") == len(plan["drills"])


def test_from_memory_the_notes_stand_overleaf() -> None:
    assert bookgen("sheet", "--date", DAY, "--from-memory", "--out", "memory.pdf").code == 0

    document = pypdfium2.PdfDocument("memory.pdf")
    first, last = (document[at].get_textpage().get_text_bounded() for at in (0, -1 % len(document)))
    assert "From memory" in first
    assert "M6" not in first, "the intervals are left to be named"
    assert "M6" in last


def test_a_damaged_log_is_told_as_one(here: Path) -> None:
    Path("studio.toml").write_text("[players.Ines]", encoding="utf-8")
    (here / "practice-log.sqlite").write_text("shopping list", encoding="utf-8")

    for words in (("sheet", "--date", DAY), ("log", "--show"), ("coverage",), ("check",)):
        line = refused(*words)
        assert line.startswith("practice-log.sqlite: no sound practice log"), words
        assert "put a copy of it in its place, or import an export" in line
