"""A teacher's minute before a lesson day: how everyone stands, and a page for one player."""

import json
from pathlib import Path

import pypdfium2
import pytest
from kit.shell import bookgen, refused

AREA = 'minutes = 5\npositions = ["1st"]\npairs = ["12"]\nspacings = ["whole"]\n'
ROSTER = f"""
[players.Ines]
{AREA}
lesson = "Fri"
[[players.Ines.also]]
instrument = "viola"
minutes = 5
[players.Jo]
{AREA}
lesson = "Tue"
away = ["2025-12-02/2025-12-07"]
[players.'Mara <b>von</b> "der" Marschlande {{0}} & Söhne']
{AREA}
lesson = "Thu"
"""
MARA = 'Mara <b>von</b> "der" Marschlande {0} & Söhne'
THURSDAY = ("--date", "2025-12-04")


@pytest.fixture(autouse=True)
def studio(here: Path) -> Path:
    (here / "studio.toml").write_text(ROSTER, encoding="utf-8")
    return here


def text(file: str) -> str:
    """What stands in a PDF."""
    document = pypdfium2.PdfDocument(file)
    return " ".join(" ".join(page.get_textpage().get_text_range().split()) for page in document)


def row(name: str, *words: str) -> list[str]:
    """A player's cells in the terminal."""
    lines = bookgen("coverage", "--all", *words).out.splitlines()
    (found,) = [line for line in lines if line.startswith(f"{name}  ")]
    return found.removeprefix(name).strip().split("  ")


def cells(name: str, *words: str) -> list[str]:
    return [cell.strip() for cell in row(name, *words) if cell.strip()]


def test_everyone_stands_in_a_table_under_the_next_lesson_and_nothing_is_written(
    studio: Path,
) -> None:
    lines = bookgen("coverage", "--all", *THURSDAY).out.splitlines()

    assert lines[0].split("  ")[0] == "player"
    named = [line.split("  ")[0] for line in lines[1:] if line]
    assert named == [
        "Lesson: Thu 4 Dec",
        MARA,
        "Lesson: Fri 5 Dec",
        "Ines",
        "Ines, viola",
        "Lesson: Tue 9 Dec",
        "Jo",
    ]
    assert [path.name for path in studio.iterdir()] == ["studio.toml"]


def test_who_printed_who_logged_and_what_is_secure() -> None:
    bookgen("sheet", "--player", "Ines", "--date", "2025-12-01")
    bookgen("sheet", "--player", "Ines", "--date", "2025-12-05", "--out", "friday.pdf")
    bookgen("log", "Ines", "1", "--secure", "--date", "2025-12-01")
    ines = cells("Ines", *THURSDAY)

    assert ines[:4] == ["14 of 20", "5 Dec", "1 Dec", "1"]
    assert cells("Ines, viola", *THURSDAY)[1:4] == ["never", "never", "0"]


def test_who_stands_still_is_told_with_the_day_of_the_last_gain() -> None:
    for day in range(10, 17):
        bookgen("sheet", "--player", "Ines", "--date", f"2025-11-{day}", "--out", f"{day}.pdf")
        result = "--secure" if day == 10 else "--not-yet"
        bookgen("log", "Ines", "1", result, "--date", f"2025-11-{day}")

    assert cells("Ines", "--date", "2025-11-14")[3] == "1"
    assert cells("Ines", "--date", "2025-11-16")[3] == "0 since 10 Nov"


def test_who_is_away_is_told_with_what_comes_then() -> None:
    assert cells("Jo", *THURSDAY)[-1].startswith("away to 7 Dec; 1\u20132 whole, 1st pos., ")
    assert not cells("Jo", "--date", "2025-12-08")[-1].startswith("away")


def test_the_page_says_what_the_terminal_says() -> None:
    assert bookgen("coverage", "--all", *THURSDAY, "--out", "all.pdf").out == "all.pdf\n"
    page = text("all.pdf")

    for name in ("Ines", "Ines, viola", "Jo"):
        assert " ".join((name, *cells(name, *THURSDAY))) in page
    assert "<b>von</b>" in page, "a name is no mark-up"
    assert page.index("Lesson: Thu 4 Dec") < page.index("Lesson: Fri 5 Dec")


def test_next_is_what_is_printed_today_or_what_the_sheet_would_be() -> None:
    before = bookgen("coverage", "--player", "Ines", "--lesson", *THURSDAY).out
    assert "Next: Thu 4 Dec, not printed yet" in before
    bookgen("sheet", "--player", "Ines", *THURSDAY, "--plan", "day.json")
    after = bookgen("coverage", "--player", "Ines", "--lesson", *THURSDAY).out

    planned = json.loads(Path("day.json").read_text(encoding="utf-8"))
    numbers = [str(item["number"]) for item in planned["days"][0]["items"]]
    following = after[after.index("Next: Thu 4 Dec\n") :].splitlines()[1:]
    assert [line.split()[0] for line in following] == numbers
    drills = [line.strip() for line in before[before.index("Next: ") :].splitlines()[1:]]
    assert [" ".join(line.split()[1:]) for line in following] == [
        " ".join(line.split()) for line in drills
    ]
    bookgen("log", "Ines", "1", "--secure", *THURSDAY)
    tomorrow = bookgen("coverage", "--player", "Ines", "--lesson", *THURSDAY).out
    assert "Next: Fri 5 Dec, not printed yet" in tomorrow


def test_a_lesson_has_the_words_of_the_log() -> None:
    bookgen("sheet", "--player", "Ines", "--date", "2025-12-02")
    bookgen("log", "Ines", "--secure", "1", "--not-yet", "2", "--date", "2025-12-02")
    told = bookgen("coverage", "--player", "Ines", "--lesson", *THURSDAY).out
    bookgen("coverage", "--player", "Ines", "--lesson", *THURSDAY, "--out", "ines.pdf")
    page = text("ines.pdf")

    assert "Tue 2 Dec  secure: 1  not yet: 2" in told
    shown = bookgen("log", "--player", "Ines", "--show").out
    for number, result in (("1", "secure"), ("2", "not yet")):
        (line,) = [line for line in shown.splitlines() if line.split()[0] == number]
        assert f" {result} " in line
        assert f"{result}: {number}" in page
    assert "2 1 and 2, whole step, 1st position, string by string not yet 2 Dec" in page
    for line in told.splitlines()[2:]:
        assert " ".join(line.split()) in page
    assert len(pypdfium2.PdfDocument("ines.pdf")) == 1


def test_a_lesson_on_the_second_instrument_has_its_own_results() -> None:
    bookgen("sheet", "--player", "Ines", "--instrument", "viola", "--date", "2025-12-02")
    bookgen("log", "Ines, viola", "1", "--secure", "--date", "2025-12-02")
    viola = bookgen("coverage", "--player", "Ines", "--instrument", "Viola", "--lesson", *THURSDAY)
    violin = bookgen("coverage", "--player", "Ines", "--lesson", *THURSDAY)

    assert viola.out.startswith("Ines, viola \u00b7 Viola 4/4")
    assert "Tue 2 Dec  secure: 1" in viola.out
    assert "Nothing was entered yet." in violin.out


def test_a_name_of_any_kind_has_a_page() -> None:
    bookgen("coverage", "--player", MARA, "--lesson", *THURSDAY, "--out", "mara.pdf")
    assert f"{MARA} \u00b7 Violin 4/4" in text("mara.pdf")


def test_thirty_players_stand_on_one_page(studio: Path) -> None:
    roster = "".join(f"[players.No{at:02}]\n{AREA}lesson='Thu'\n" for at in range(30))
    (studio / "studio.toml").write_text(roster, encoding="utf-8")
    bookgen("coverage", "--all", *THURSDAY, "--out", "all.pdf")

    assert len(pypdfium2.PdfDocument("all.pdf")) == 1
    page = text("all.pdf")
    assert all(f"No{at:02} 0 of 20 never never 0 1\u20132 whole" in page for at in range(30))


@pytest.mark.parametrize(
    ("option", "words"),
    [
        ("--player", ["--player", "Jo"]),
        ("--lesson", ["--lesson"]),
        ("--instrument", ["--instrument", "viola"]),
    ],
)
def test_what_is_for_one_player_does_not_go_with_all(option: str, words: list[str]) -> None:
    assert refused("coverage", "--all", *words) == (
        f"command line: {option} and --all do not go together;"
        f" leave out --all to ask for one player, or {option}."
    )


def test_a_lesson_is_somebodys(studio: Path) -> None:
    assert "3 players are on the roster; name one of " in refused("coverage", "--lesson")
    (studio / "studio.toml").unlink()
    told = refused("coverage", "--lesson")
    assert told == "studio.toml: no roster here; write one with `bookgen new-studio`."


def test_who_has_all_of_the_area_is_told_what_could_be_added(studio: Path) -> None:
    small = '[players.Jo]\npositions = ["1st"]\npairs = ["12"]\nspacings = ["whole"]\n'
    known = f"{small}highest_stage = 3\n[[players.Jo.known]]\nstage = 3\n"
    (studio / "studio.toml").write_text(known, encoding="utf-8")
    told = bookgen("coverage", "--lesson", *THURSDAY).out
    assert "Secure: all of the area; next could come notes overlap" in told


def test_a_page_for_a_lesson_is_the_teachers_also_where_the_player_reads_large_print(
    studio: Path,
) -> None:
    with (studio / "studio.toml").open("a", encoding="utf-8") as file:
        file.write(f'[players.Theo]\n{AREA}layout = "large-print"\nlanguage = "de"\n')
    bookgen("coverage", "--player", "Theo", "--lesson", *THURSDAY, "--out", "theo.pdf")
    bookgen("coverage", "--player", "Ines", "--lesson", *THURSDAY, "--out", "ines.pdf")
    assert text("theo.pdf").replace("Theo", "Ines") == text("ines.pdf")
