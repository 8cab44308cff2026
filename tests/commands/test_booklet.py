"""Booklets, for one player and for the whole roster."""

import json
from pathlib import Path

import pypdfium2
import pytest
from kit.shell import bookgen, refused

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
    summary = path.with_name("ines-2026-12-01-to-2026-12-03-summary.pdf")
    assert (outcome.code, outcome.out) == (0, f"{path}\n{summary}\n")
    plan = json.loads(Path("plan.json").read_text(encoding="utf-8"))
    assert [day["date"] for day in plan["days"]] == ["2026-12-01", "2026-12-03"]
    text = "\n".join(pages_of(path)).replace(" \u2013 ", "\u2013")  # white is a matter of the CLDR
    for words in ("Ines", "Harbour Lane Strings", "Listen first.", "1\u20133 Dec 2026"):
        assert words in text
    marked = bookgen("log", "--player", "Ines", "--show")
    assert marked.out.count("2026-12-0") == len(plan["drills"])
    numbers = {item["number"] for day in plan["days"] for item in day["items"]}
    assert numbers == {drill["number"] for drill in plan["drills"]}


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
    stems = [f"{name}-2026-12-01-to-2026-12-03" for name in ("ines", "jo")]
    assert names == sorted(f"{stem}{end}.pdf" for stem in stems for end in ("", "-summary"))


@pytest.mark.usefixtures("roster")
def test_a_folded_booklet_fills_sheets_of_four_pages() -> None:
    bookgen("booklet", "--player", "Jo", *TWO_DAYS, "--paper", "a5", "--out", "plain.pdf")
    bookgen("booklet", "--player", "Jo", *TWO_DAYS, "--fold")

    folded = pypdfium2.PdfDocument("output/jo-2026-12-01-to-2026-12-03-folded.pdf")
    plain = pypdfium2.PdfDocument("plain.pdf")
    assert len(folded) == 2 * -(-len(plain) // 4)
    assert [round(side) for side in folded[0].get_size()] == [842, 595]


@pytest.mark.usefixtures("roster")
def test_days_printed_as_sheets_stay_and_that_is_said() -> None:
    bookgen("sheet", "--player", "Ines", "--date", "2026-12-03", "--plan", "sheet.json")
    sheet = json.loads(Path("sheet.json").read_text(encoding="utf-8"))

    outcome = bookgen("booklet", "--player", "Ines", *TWO_DAYS, "--plan", "plan.json")
    plan = json.loads(Path("plan.json").read_text(encoding="utf-8"))
    assert plan["days"][1] == sheet["days"][0]
    said = "Ines: as printed before stay 2026-12-03; the others are planned around them"
    assert said in outcome.err
    again = bookgen("booklet", "--player", "Ines", *TWO_DAYS)
    assert "Ines: all days stay as they were printed before" in again.err


def test_a_day_printed_for_another_instrument_is_told_with_the_mend(roster: Path) -> None:
    viola = ("--instrument", "viola")
    bookgen("sheet", "--player", "Ines", "--date", "2026-12-01", *viola)
    log = (roster / "practice-log.sqlite").read_bytes()

    line = refused("booklet", "--player", "Ines", *TWO_DAYS)
    assert line == (
        "practice-log.sqlite, Ines: the pages of Ines for 2026-12-01 were printed for the viola;"
        " add --instrument viola to print that day as it was, or --anew to plan it again."
    )
    assert (roster / "practice-log.sqlite").read_bytes() == log
    assert bookgen("sheet", "--player", "Ines", "--date", "2026-12-01", *viola).code == 0
    assert bookgen("booklet", "--player", "Ines", *TWO_DAYS, "--anew").code == 0


def test_a_roster_that_changed_is_told_with_the_mend(roster: Path) -> None:
    bookgen("sheet", "--player", "Ines", "--date", "2026-12-01")
    text = ROSTER.replace("minutes = 5", 'minutes = 5\npositions = ["1st", "3rd"]')
    (roster / "studio.toml").write_text(text, encoding="utf-8")

    line = refused("booklet", "--player", "Ines", *TWO_DAYS)
    place = 'studio.toml, player "Ines", positions'
    assert line == (
        f"{place}: the pages for 2026-12-01 were planned with 1st; add --anew to plan them again,"
        " or choose days that are not printed yet."
    )
    assert bookgen("booklet", "--player", "Ines", *TWO_DAYS, "--anew").code == 0


def test_of_a_roster_all_booklets_appear_or_none(
    roster: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    move = Path.replace

    def failing(path: Path, target: Path) -> Path:
        if target.name.startswith("jo-"):
            raise OSError(28, "No space left on device")
        return move(path, target)

    monkeypatch.setattr(Path, "replace", failing)
    assert bookgen("booklet", "--all", *TWO_DAYS).code == 2
    assert sorted(path.name for path in roster.iterdir()) == ["practice-log.sqlite", "studio.toml"]
    assert "nothing was printed" in bookgen("log", "--show", "--player", "Ines").out
    monkeypatch.undo()


@pytest.mark.usefixtures("roster")
def test_a_layout_of_their_own_for_each_player() -> None:
    text = ROSTER.replace("[players.Jo]", '[players.Jo]\nlayout = "large-print"')
    Path("studio.toml").write_text(text, encoding="utf-8")
    assert bookgen("booklet", "--all", *TWO_DAYS, "--out", "mixed").code == 0
    Path("studio.toml").write_text(ROSTER, encoding="utf-8")
    assert bookgen("booklet", "--all", *TWO_DAYS, "--out", "plain").code == 0

    ines, jo = (f"{name}-2026-12-01-to-2026-12-03.pdf" for name in ("ines", "jo"))
    assert Path("mixed", ines).read_bytes() == Path("plain", ines).read_bytes()
    assert Path("mixed", jo).read_bytes() != Path("plain", jo).read_bytes()


@pytest.mark.usefixtures("roster")
def test_the_drills_come_day_by_day_where_that_is_wanted() -> None:
    bookgen("booklet", "--player", "Ines", *TWO_DAYS, "--out", "numbers.pdf")
    assert (
        bookgen("booklet", "--player", "Ines", *TWO_DAYS, "--by-day", "--out", "days.pdf").code == 0
    )

    assert pages_of(Path("numbers.pdf")) != pages_of(Path("days.pdf"))


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
            'player "Jo", practice_days: no day to practise in 2026-12-02-to-2026-12-07',
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


def test_a_month_of_twenty_minutes_folds_on_ten_sheets() -> None:
    bookgen("new-studio")
    month = ("--month", "2026-12", "--plan", "plan.json")
    bookgen("booklet", "--player", "Ines", *month, "--fold", "--quiet")

    folded = pypdfium2.PdfDocument("output/ines-2026-12-folded.pdf")
    plan = json.loads(Path("plan.json").read_text(encoding="utf-8"))
    assert 0 < len(folded) <= 2 * 10, "two sides of a sheet"
    assert len({drill["key"] for drill in plan["drills"]}) <= 115
    assert len(plan["days"]) == 27, "December without Sundays"
