"""One player, two instruments: one name, numbers and a log for each."""

import json
from pathlib import Path

import pytest
from kit.shell import bookgen, refused

from bookgen.errors import BookgenError
from bookgen.readers.studio.file import parse_studio

ROSTER = """
[players.Ines]
minutes = 5
practice_days = ["Mon", "Wed"]
away = ["2026-12-24/P2W"]
formerly = "Agnes"

[[players.Ines.also]]
instrument = "viola"
minutes = 4
positions = ["1st", "2nd"]
"""
DAY = ("--date", "2025-12-01")


@pytest.fixture(autouse=True)
def roster(here: Path) -> None:
    (here / "studio.toml").write_text(ROSTER, encoding="utf-8")


def test_the_second_instrument_has_its_own_area_and_shares_the_days() -> None:
    players = parse_studio(ROSTER, "studio.toml").players
    violin, viola = players["Ines"], players["Ines, viola"]

    assert (viola.instrument, viola.minutes, viola.cover.positions) == ("viola", 4, ("1st", "2nd"))
    assert (viola.practice_days, viola.calendar) == (violin.practice_days, violin.calendar)
    assert viola.formerly == "Agnes, viola"


def test_each_has_numbers_from_one_and_results_of_its_own() -> None:
    one = json.loads(planned("--player", "Ines"))
    other = json.loads(planned("--player", "Ines", "--instrument", "Viola"))

    assert (one["player"], other["player"]) == ("Ines", "Ines, viola")
    assert one["instrument"] != other["instrument"]
    assert [plan["drills"][0]["number"] for plan in (one, other)] == [1, 1]
    bookgen("log", "--player", "Ines, viola", "--secure", "1")
    assert "secure" not in bookgen("log", "--player", "Ines", "--show").out.split("drill")[1]
    assert json.loads(planned())["player"] == "Ines", "the only person on the roster"


def test_the_log_goes_by_the_instrument() -> None:
    for instrument in ("violin", "viola"):
        bookgen("sheet", "--instrument", instrument, *DAY, "--out", f"{instrument}.pdf")
    assert bookgen("log", "1", "--secure", "--instrument", "Viola").out.startswith("Ines, viola: ")
    assert bookgen("log", "Ines", "1", "--not-yet").out.startswith("Ines: No. 1 not yet\n")
    shown = bookgen("log", "--show", "--instrument", "viola").out
    assert shown.startswith("Ines, viola\n")
    assert "secure" in shown
    assert bookgen("log", "--show").out.count("Ines") == 2, "both, where none is named"
    undone = bookgen("log", "Ines", "--undo", "--instrument", "viola").out
    assert undone.startswith("Ines, viola: No. 1 secure is taken back")


def test_an_instrument_without_a_log_of_its_own_is_the_players() -> None:
    bookgen("sheet", *DAY)
    assert bookgen("log", "1", "--secure", "--instrument", "violin").out.startswith("Ines: ")
    assert refused("log", "1", "--secure", "--instrument", "violn").startswith("--instrument: ")
    assert refused("log", "--export", "log.csv", "--instrument", "viola") == (
        "command line: --instrument, --export do not go together;"
        " leave --instrument out; files have names such as 'Ines, viola'."
    )


def test_what_is_covered_and_the_drills_of_a_passage_go_by_the_instrument(here: Path) -> None:
    told = bookgen("coverage", "--instrument", "viola", *DAY).out
    assert told.startswith("Ines, viola \u00b7 Viola 4/4")
    assert "2nd" in told

    (here / "air.txt").write_text("D4:4 E4 F#4 G4 |\n", encoding="utf-8")
    outcome = bookgen("passage", "air.txt", "--instrument", "viola", "--plan", "air.json")
    assert outcome.out == "output/ines-viola-air-passage.pdf\n", outcome
    assert json.loads(Path("air.json").read_text(encoding="utf-8"))["instrument"] == "viola"


def planned(*words: str) -> str:
    bookgen("sheet", *words, *DAY, "--out", "a.pdf", "--plan", "a.json")
    return Path("a.json").read_text(encoding="utf-8")


def test_all_booklets_are_of_both() -> None:
    bookgen("booklet", "--all", "--from", "2026-12-07", "--to", "2026-12-08", "--out", "all")

    names = {path.name for path in Path("all").iterdir() if "summary" not in path.name}
    assert {name.partition("-2026")[0] for name in names} == {"ines", "ines-viola"}


@pytest.mark.parametrize(
    ("second", "line"),
    [
        ("minutes = 4", 'also 1, instrument: is missing; write instrument = "viola".'),
        ('instrument = "violin"', "also 1, instrument: 'violin' stands there already; name"),
    ],
)
def test_what_is_wrong_is_told(second: str, line: str) -> None:
    with pytest.raises(BookgenError) as stopped:
        parse_studio(f"[players.Ines]\n[[players.Ines.also]]\n{second}\n", "studio.toml")

    assert str(stopped.value).startswith(f'studio.toml, player "Ines", {line}')


def test_a_fault_of_the_second_is_told_under_its_name(here: Path) -> None:
    (here / "studio.toml").write_text(ROSTER + "minuts = 3\n", encoding="utf-8")

    assert refused("sheet").startswith('studio.toml, player "Ines, viola", minuts: there is no ')
