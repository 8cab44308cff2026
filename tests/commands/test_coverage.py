"""What of the area a player knows."""

from pathlib import Path

import pypdfium2
import pytest
from kit.shell import bookgen, refused

ROSTER = """
[players.Ines]
minutes = 5
positions = ["1st"]
pairs = ["12"]
spacings = ["whole"]
"""


@pytest.fixture
def roster(here: Path) -> Path:
    (here / "studio.toml").write_text(ROSTER, encoding="utf-8")
    return here


def test_nothing_is_known_at_first_and_nothing_is_written(roster: Path) -> None:
    lines = bookgen("coverage", "--date", "2026-12-01").out.splitlines()

    assert lines[0] == "Ines · Violin 4/4 · Tuesday, 1 December 2026"
    assert lines[1].split() == [
        "position",
        "fingers",
        "secure",
        "practised",
        "new",
        "last",
        "played",
    ]
    assert lines[-1].split()[:3] == ["all", "0", "0"]
    assert "never" in lines[2]
    assert [path.name for path in roster.iterdir()] == ["studio.toml"]


@pytest.mark.usefixtures("roster")
def test_what_was_secure_is_counted_from_its_day_on() -> None:
    bookgen("sheet", "--date", "2026-11-02")
    bookgen("log", "--secure", "1", "--date", "2026-11-03")
    before, after = (
        bookgen("coverage", "--date", day).out.splitlines() for day in ("2026-11-02", "2026-11-03")
    )

    assert before[-1].split()[1] == "0"
    assert after[-1].split()[1] == "14"  # a pair on four strings, up and the way up backwards
    assert any(line.endswith("2026-11-03") for line in after)


@pytest.mark.usefixtures("roster")
def test_what_was_secure_on_another_instrument_does_not_count() -> None:
    bookgen("sheet", "--date", "2026-11-02", "--instrument", "viola")
    bookgen("log", "--secure", "1", "--date", "2026-11-03")

    lines = bookgen("coverage", "--date", "2026-11-03").out.splitlines()
    assert lines[-1].split()[:3] == ["all", "0", "0"]


@pytest.mark.usefixtures("roster")
def test_a_page_shows_the_map() -> None:
    outcome = bookgen("coverage", "--date", "2026-12-01", "--out", "map.pdf")

    assert outcome.out == "map.pdf\n"
    page = pypdfium2.PdfDocument("map.pdf")[0].get_textpage().get_text_bounded()
    assert "Ines" in page
    assert "1 Dec 2026" in page


@pytest.mark.usefixtures("roster")
def test_an_unknown_player_is_told() -> None:
    assert "no player 'Inez'; perhaps 'Ines'." in refused("coverage", "--player", "Inez")


def test_all_need_a_roster() -> None:
    told = refused("coverage", "--all")
    assert told == "studio.toml: no roster here; write one with `bookgen new-studio`."
