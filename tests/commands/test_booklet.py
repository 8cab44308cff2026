"""Booklets, for one player and for the whole roster."""

import json
from pathlib import Path

import pypdfium2
import pytest
from shell import bookgen, refused

ROSTER = """
name = "Harbour Lane Strings"

[players.Ines]
minutes = 5
practice_days = ["Tue", "Thu"]
note = "Listen first."

[players.Jo]
instrument = "viola"
minutes = 4
practice_days = ["Tue"]
"""
TWO_DAYS = ("--from", "2026-12-01", "--to", "2026-12-03")


@pytest.fixture
def roster(here: Path) -> Path:
    (here / "studio.toml").write_text(ROSTER, encoding="utf-8")
    return here


def pages_of(pdf: Path) -> list[str]:
    document = pypdfium2.PdfDocument(pdf)
    return [page.get_textpage().get_text_bounded() for page in document]


@pytest.mark.usefixtures("roster")
def test_a_booklet_has_the_practice_days_and_numbers_that_the_log_knows() -> None:
    outcome = bookgen("booklet", "--player", "Ines", *TWO_DAYS, "--plan", "plan.json")

    path = Path("output/ines-2026-12-01-to-2026-12-03.pdf")
    assert (outcome.code, outcome.out) == (0, f"{path}\n")
    plan = json.loads(Path("plan.json").read_text(encoding="utf-8"))
    assert [day["date"] for day in plan["days"]] == ["2026-12-01", "2026-12-03"]
    text = "\n".join(pages_of(path))
    for words in ("Ines", "Harbour Lane Strings", "Listen first.", "1 to 3 December 2026"):
        assert words in text
    marked = bookgen("log", "--player", "Ines", "--show")
    assert marked.out.count("2026-12-0") == sum(len(day["drills"]) for day in plan["days"])


@pytest.mark.usefixtures("roster")
def test_the_same_booklet_twice_is_the_same_bytes_and_one_print() -> None:
    bookgen("booklet", "--player", "Jo", *TWO_DAYS, "--out", "one.pdf")
    bookgen("booklet", "--player", "Jo", *TWO_DAYS, "--out", "two.pdf")
    before = bookgen("log", "--player", "Jo", "--show").out
    bookgen("sheet", "--player", "Jo", "--date", "2026-12-01")

    assert Path("one.pdf").read_bytes() == Path("two.pdf").read_bytes()
    assert bookgen("log", "--player", "Jo", "--show").out == before


@pytest.mark.usefixtures("roster")
def test_the_whole_roster_goes_into_a_folder() -> None:
    outcome = bookgen("booklet", "--all", *TWO_DAYS, "--out", "december", "--quiet")

    assert (outcome.code, outcome.out) == (0, "")
    names = sorted(path.name for path in Path("december").iterdir())
    assert names == [f"{name}-2026-12-01-to-2026-12-03.pdf" for name in ("ines", "jo")]


@pytest.mark.usefixtures("roster")
def test_a_folded_booklet_fills_sheets_of_four_pages() -> None:
    bookgen("booklet", "--player", "Jo", *TWO_DAYS, "--paper", "a5", "--out", "plain.pdf")
    bookgen("booklet", "--player", "Jo", *TWO_DAYS, "--fold")

    folded = pypdfium2.PdfDocument("output/jo-2026-12-01-to-2026-12-03-folded.pdf")
    plain = pypdfium2.PdfDocument("plain.pdf")
    assert len(folded) == 2 * -(-len(plain) // 4)
    assert [round(side) for side in folded[0].get_size()] == [842, 595]


@pytest.mark.usefixtures("roster")
def test_from_memory_the_notes_stand_at_the_end() -> None:
    bookgen("booklet", "--player", "Jo", *TWO_DAYS, "--from-memory", "--out", "memory.pdf")

    assert any("nswer" in page for page in pages_of(Path("memory.pdf"))[-6:])


def test_with_no_studio_there_is_a_booklet_for_nobody_in_particular(here: Path) -> None:
    words = ("--from", "2026-12-01", "--to", "2026-12-02", "--minutes", "4")

    assert bookgen("booklet", *words).code == 0
    written = sorted(path.name for path in here.rglob("*") if path.is_file())
    assert written == ["booklet-2026-12-01-to-2026-12-02.pdf"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((), "command line: the days are not clear"),
        (("--month", "2026-12"), "--player: 2 players are on the roster; name one of Ines, Jo."),
        (("--month", "2026-12", "--player", "Joe"), "no player 'Joe'; perhaps 'Jo'."),
        (
            ("--player", "Jo", "--from", "2026-12-02", "--to", "2026-12-07"),
            'player "Jo": no day to practise in 2026-12-02-to-2026-12-07',
        ),
        (("--month", "2026-12", "--all", "--out", "studio.toml"), "--out studio.toml: no folder"),
        (("--month", "2026-12", "--all", "--plan", "p.json"), "--plan: that is for one player's"),
        (("--month", "2026-12", "--player", "Jo", "--out", "a.txt"), "let it end in .pdf"),
        (("--month", "2026-12", "--player", "Jo", "--paper", "a3"), "--paper: no paper 'a3'"),
    ],
)
def test_what_makes_no_booklet_is_told_and_nothing_is_written(
    roster: Path, words: tuple[str, ...], told: str
) -> None:
    assert told in refused("booklet", *words)
    assert [path.name for path in roster.iterdir()] == ["studio.toml"]


def test_a_roster_for_all_must_be_there() -> None:
    told = refused("booklet", "--all", "--month", "2026-12")

    assert told == "studio.toml: no roster here; write one with `bookgen new-studio`."
