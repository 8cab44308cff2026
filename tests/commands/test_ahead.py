"""What lies ahead stands on the pages: bars with their day, and what comes after the area."""

import json
from pathlib import Path

import pypdfium2
import pytest
from kit.shell import bookgen

AIR = """
title: Harbour <b>air
key: D major
bar: 9
D5:4 E5 F#5 G5 | A5:2 D5 |
"""
ROSTER = """
[players.Ines]
minutes = 5
start = { secure_to_stage = 2 }

[[players.Ines.passage]]
file = "air.passage"
bars = "9-10"
ready_by = 2026-11-12

[players.Jo]
pairs = ["12"]
spacings = ["whole"]
highest_stage = 1
minutes = 12
"""
DAYS = ("--from", "2026-11-10", "--to", "2026-11-13")


@pytest.fixture(autouse=True)
def roster(here: Path) -> None:
    (here / "studio.toml").write_text(ROSTER, encoding="utf-8")
    (here / "air.passage").write_text(AIR, encoding="utf-8")


def text_of(path: str) -> str:
    pages = pypdfium2.PdfDocument(path)
    text = " ".join(page.get_textpage().get_text_bounded() for page in pages)
    return " ".join(text.replace("\u2009", " ").split())


def test_a_booklet_tells_what_it_reaches_and_when_the_bars_are_played() -> None:
    told = bookgen("booklet", "--player", "Ines", *DAYS, "--out", "a.pdf", "--plan", "a.json").err
    text = text_of("a.pdf")

    assert "drills have room by 2026-11-12" in told
    assert "drills have room by Thursday, 12 November 2026" in text
    assert text.count("Now the bars themselves: Harbour <b>air") == 3, "the 10th to the 12th"
    assert text.count("Ready by Thursday, 12 November 2026.") == 1, "the bars, once for all days"
    bookgen("bind", "a.json", "--out", "b.pdf")
    assert Path("a.pdf").read_bytes() == Path("b.pdf").read_bytes()


def test_a_sheet_of_the_last_days_says_to_play_the_bars_too() -> None:
    bookgen("sheet", "--player", "Ines", "--date", "2026-11-12", "--out", "a.pdf")
    bookgen("sheet", "--player", "Ines", "--date", "2026-11-09", "--out", "early.pdf")

    assert "the bars themselves" in text_of("a.pdf")
    *_, last = pypdfium2.PdfDocument("a.pdf")
    assert "Ready by Thursday, 12 November 2026." in last.get_textpage().get_text_bounded()
    assert "the bars themselves" not in text_of("early.pdf")


def test_where_all_is_secure_the_sheet_says_so_and_what_could_come_next() -> None:
    for day in range(20, 25):
        date = f"2026-11-{day}"
        bookgen("sheet", "--player", "Jo", "--date", date, "--out", "a.pdf", "--plan", "a.json")
        (planned,) = json.loads(Path("a.json").read_text(encoding="utf-8"))["days"]
        if all(item["role"] in {"start", "again", "cold"} for item in planned["items"]):
            break
        assert "All of your area" not in text_of("a.pdf")
        numbers = ",".join(str(item["number"]) for item in planned["items"])
        bookgen("log", "--player", "Jo", "--secure", numbers, "--date", date)

    assert "All of your area is secure. Next could come: cross on 2nd note." in text_of("a.pdf")
