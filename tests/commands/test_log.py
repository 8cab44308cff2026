"""Results from the page into the practice log, and back out again."""

from datetime import timedelta
from pathlib import Path

import pytest
from kit.printed import DRILLS, EVENING, kept
from kit.shell import bookgen, refused

from bookgen.commands import arguments
from bookgen.commands import log as command
from bookgen.plan.record import Result
from bookgen.studio.practice_log import open_log

LOG = Path("practice-log.sqlite")
ROSTER = 'name = "Harbour Lane Strings"\n[players.Ines]\n[players.Jo]\n'
SECURE, NOT_YET = Result.SECURE, Result.NOT_YET


@pytest.fixture(autouse=True)
def evening(monkeypatch: pytest.MonkeyPatch) -> None:
    """The evening of the second day."""
    monkeypatch.setattr(command, "now", lambda: EVENING + timedelta(1))


@pytest.fixture
def alone() -> None:
    """A studio with one player, for whom eight drills were printed."""
    Path("studio.toml").write_text("[players.Ines]", encoding="utf-8")
    with open_log(LOG) as log:
        kept(log, DRILLS[:4], DRILLS[4:8])


@pytest.fixture
def roster() -> None:
    """A studio with two players, and four drills for each."""
    Path("studio.toml").write_text(ROSTER, encoding="utf-8")
    with open_log(LOG) as log:
        kept(log, DRILLS[:4])
        kept(log, DRILLS[:4], player="Jo")


def results(player: str = "Ines") -> dict[int, Result]:
    with open_log(LOG) as log:
        return {
            drill.number: drill.results[-1].result for drill in log.drills(player) if drill.results
        }


@pytest.mark.usefixtures("alone")
@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("3 5-7 --secure", {3: SECURE, 5: SECURE, 6: SECURE, 7: SECURE}),
        ("--player Ines 3 --not-yet", {3: NOT_YET}),
        ("--secure 3 5-6 --not-yet 4", {3: SECURE, 5: SECURE, 6: SECURE, 4: NOT_YET}),
        ("--not-yet 4 --secure 3,5", {4: NOT_YET, 3: SECURE, 5: SECURE}),
        ("3 5 --secure --not-yet 4", {3: SECURE, 5: SECURE, 4: NOT_YET}),
        ("--date 2026-12-02 1 2 --secure", {1: SECURE, 2: SECURE}),
        ("1 --secure 2", {1: SECURE, 2: SECURE}),
        ("Ines --secure 1-2 --not-yet 3", {1: SECURE, 2: SECURE, 3: NOT_YET}),
        ("--secure 1 2 ines", {1: SECURE, 2: SECURE}),
        ("INES 4 --not-yet", {4: NOT_YET}),
        ("Ines --date 2026-12-02 1 2 --secure", {1: SECURE, 2: SECURE}),
    ],
)
def test_numbers_are_entered_in_every_order_of_words(
    words: str, expected: dict[int, Result]
) -> None:
    assert bookgen("log", *words.split()).code == 0
    assert results() == expected


@pytest.mark.usefixtures("alone")
def test_it_says_what_it_has_entered_and_where() -> None:
    first = bookgen("log", "1-3", "5", "--secure", "--not-yet", "4")
    assert first.out == f"Ines: Nos. 1-3, 5 secure\nInes: No. 4 not yet\n{LOG}\n"

    again = bookgen("log", "1", "6", "--secure")
    assert again.out == f"Ines: No. 1 secure already, nothing changed\nInes: No. 6 secure\n{LOG}\n"
    assert bookgen("log", "7", "--secure", "--quiet").out == ""


@pytest.mark.usefixtures("alone")
def test_without_a_date_it_is_the_day_on_the_page() -> None:
    bookgen("log", "4-5", "--secure")
    with open_log(LOG) as log:
        marked = [str(one.date) for record in log.records("Ines") for one in record.results]
    assert marked == ["2026-12-01", "2026-12-02"]


@pytest.mark.usefixtures("alone")
@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("", "command line: nothing to do is given; give one of --secure or --not-yet, --show"),
        ("3", "command line: nothing to do is given"),
        ("--secure", "--secure: no number is given; write e.g. 3 5-8."),
        ("3 --secure 1 --not-yet 2", "NUMBER: which result has 3?; write it behind --secure or"),
        ("3 --secure --not-yet", "NUMBER: which result has 3?"),
        ("3 --secure --show", "--secure or --not-yet and --show do not go together"),
        ("x --secure", "NUMBER: 'x' is no number"),
        ("3 --secure --player Jo", "studio.toml: no player 'Jo'; "),
        ("3 --secure --player bad\udcff", "--player: no text in UTF-8"),
        ("3 --secure --date today", "--date: 'today' is no date"),
        ("90-95 --secure", "Ines: Nos. 90-95 were never printed for Ines; the nearest printed are"),
        (
            "1 --secure --date 2026-12-03",
            "2026-12-03 is still to come; give a day up to 2026-12-02",
        ),
        ("1 --secure --date 2026-11-29", "2026-11-29 lies before its first page"),
        (
            "1 --secure --not-yet 1",
            "Ines, No. 1: its drill has two results for 2026-12-01; keep one",
        ),
        ("--undo", "--undo: there is no result; enter one first."),
        ("--undo 3", "Ines, No. 3: it has no result"),
        ("--import there-is-none.csv", "there-is-none.csv: cannot be read"),
        ("Ine 3 --secure", "NUMBER: 'Ine' is no number of a drill, and nobody here; perhaps Ines"),
        ("Ines 3 --secure --player Ines", "--player, 'Ines' do not go together"),
    ],
)
def test_what_cannot_be_entered_is_told_and_nothing_is(words: str, told: str) -> None:
    assert told in refused("log", *words.split())
    assert results() == {}


@pytest.mark.usefixtures("roster")
def test_of_several_players_one_is_named() -> None:
    expected = "--player: several play here; name one of Ines, Jo."
    assert refused("log", "1", "--secure") == expected
    assert refused("log", "1", "--undo") == expected

    bookgen("log", "1", "--secure", "--player", "Jo")
    assert (results("Ines"), results("Jo")) == ({}, {1: SECURE})


def test_without_a_studio_it_says_how_to_make_one(here: Path) -> None:
    mend = "write one with `bookgen new-studio`."
    expected = f"studio.toml: there is no studio in this folder; {mend}"
    assert refused("log", "1", "--secure") == expected
    assert refused("log", "--show") == expected

    Path("studio.toml").write_text("", encoding="utf-8")
    assert refused("log", "--show").startswith("studio.toml: nobody plays here; ")
    assert [path.name for path in here.iterdir()] == ["studio.toml"]


def test_before_the_first_print_there_is_nothing_to_mark(here: Path) -> None:
    Path("studio.toml").write_text("[players.Ines]", encoding="utf-8")

    assert "print a sheet first" in refused("log", "1", "--secure")
    assert bookgen("log", "--show").out == "Ines: nothing was printed\n"
    assert not (here / LOG).exists()


@pytest.mark.usefixtures("alone")
def test_a_player_who_has_left_the_roster_is_still_in_the_log() -> None:
    Path("studio.toml").write_text("[players.Mara]", encoding="utf-8")

    assert bookgen("log", "2", "--secure", "--player", "Ines").code == 0
    assert results("Ines") == {2: SECURE}
    Path("studio.toml").unlink()
    assert bookgen("log", "3", "--secure").code == 0


@pytest.mark.usefixtures("roster")
def test_undo_takes_back_a_call_a_player_or_some_numbers() -> None:
    bookgen("log", "1-3", "--secure", "--player", "Ines")
    bookgen("log", "1-3", "--not-yet", "--player", "Ines")
    bookgen("log", "4", "--secure", "--player", "Jo")

    last = bookgen("log", "--undo")
    assert last.out == f"Jo: No. 4 secure is taken back\n{LOG}\n"
    some = bookgen("log", "--undo", "1-2", "--player", "Ines")
    assert some.out.splitlines()[:2] == [
        "Ines: No. 1 not yet is taken back",
        "Ines: No. 2 not yet is taken back",
    ]
    assert results() == {1: SECURE, 2: SECURE, 3: NOT_YET}
    bookgen("log", "--undo", "--player", "Ines")
    assert results() == {1: SECURE, 2: SECURE, 3: SECURE}


@pytest.mark.usefixtures("roster")
def test_a_whole_roster_comes_from_a_csv_once() -> None:
    Path("r.csv").write_text(
        "player,number,result,date\nInes,1-2,secure,\nJo,4,not yet,2026-12-02\n", encoding="utf-8"
    )

    first = bookgen("log", "--import", "r.csv")
    assert first.out == f"Ines: Nos. 1-2 secure\nJo: No. 4 not yet\n{LOG}\n"
    assert (results("Ines"), results("Jo")) == ({1: SECURE, 2: SECURE}, {4: NOT_YET})
    again = bookgen("log", "--import", "r.csv")
    assert "Jo: No. 4 not yet already, nothing changed" in again.out
    with open_log(LOG) as log:
        assert log.counts().entries == 3


@pytest.mark.usefixtures("roster")
def test_of_a_bad_csv_every_line_is_told_and_none_is_entered() -> None:
    lines = ["player,number,result,date", "Ines,1,secure,", "Jo,9,secure,", "Jo,1,perhaps,"]
    Path("r.csv").write_text("\n".join([*lines, "Jo,1,secure,2027-01-01"]), encoding="utf-8")

    outcome = bookgen("log", "--import", "r.csv")
    assert outcome.code == 2
    assert [line.partition(":")[0] for line in outcome.err.splitlines()] == [
        "r.csv, line 3",
        "r.csv, line 4",
        "r.csv, line 5",
    ]
    assert results("Ines") == {}


@pytest.mark.usefixtures("roster")
def test_a_file_without_names_is_for_the_player_who_is_named() -> None:
    Path("r.csv").write_text("number,result\n2,secure\n", encoding="utf-8")

    assert "it names no player" in refused("log", "--import", "r.csv")
    assert bookgen("log", "--import", "r.csv", "--player", "Jo").code == 0
    assert results("Jo") == {2: SECURE}
    assert "no player 'Joe'; perhaps 'Jo'" in refused("log", "--import", "r.csv", "--player", "Joe")
    Path("empty.csv").write_text("number,result\n", encoding="utf-8")
    assert "nothing to enter" in bookgen("log", "--import", "empty.csv", "--player", "Jo").out


@pytest.mark.usefixtures("roster")
def test_names_go_without_an_option() -> None:
    bookgen("log", "jo", "--secure", "1", "2")
    assert (results("Ines"), results("Jo")) == ({}, {1: SECURE, 2: SECURE})
    assert bookgen("log", "--show", "Jo").out.startswith("Jo\n")
    assert bookgen("log", "--undo", "Jo", "2").out.startswith("Jo: No. 2 secure is taken back\n")
    assert "'Ines', 'Jo' do not go together" in refused("log", "Ines", "Jo", "1", "--secure")


@pytest.mark.usefixtures("roster")
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16", "utf-16-be"])
def test_spreadsheets_are_taken_in_as_they_are(
    encoding: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As office programs save it in Germany: semicolons, a title, a column of remarks."""
    monkeypatch.setenv("LC_ALL", "de_DE.UTF-8")
    Path("studio.toml").write_text('[players."Jürgen"]\n[players.Jo]', encoding="utf-8")
    with open_log(LOG) as log:
        kept(log, DRILLS[:4], player="Jürgen")
    table = (
        "Stunden im Dezember;;;;\r\n\r\nName;No.;Result;Date;Remarks\r\n"
        "Jürgen;1-2;x;1.12.2026;gut gehört\r\njo;3;OK;01. Dez 26;\r\nJo;4;no;;schön…\r\n"
        "Jürgen;3;;;fehlt\r\n"
    )
    Path("r.csv").write_bytes(table.encode(encoding))

    told = bookgen("log", "--import", "r.csv")
    assert told.err == ""
    assert told.out.splitlines() == [
        "Jürgen: Nos. 1-2 secure",
        "Jo: No. 3 secure",
        "Jo: No. 4 not yet",
        "1 line has no result and is left out",
        str(LOG),
    ]
    assert results("Jürgen") == {1: SECURE, 2: SECURE}


@pytest.mark.usefixtures("roster")
def test_a_workbook_is_told_what_it_is() -> None:
    Path("r.csv").write_bytes(b"PK\x03\x04\x14\x00")
    assert refused("log", "--import", "r.csv") == (
        "r.csv: a workbook, no CSV; save the sheet as CSV."
    )


@pytest.mark.usefixtures("roster")
def test_show_tells_everyone_or_one_or_some_numbers() -> None:
    bookgen("log", "2", "--secure", "--player", "Ines")

    everyone = bookgen("log", "--show").out
    assert everyone.count("cross on 2nd note") == 2
    one = bookgen("log", "--show", "--player", "Ines").out
    assert one.count("\n") == 6
    assert "  2  1     2026-12-01  secure  2026-12-01  1 and 2, whole step" in one
    assert bookgen("log", "2-3", "--show", "--player", "Ines").out.count("\n") == 4


@pytest.mark.usefixtures("alone")
def test_the_whole_history_is_shown() -> None:
    for words in ("1 --not-yet", "1 --secure", "2 --secure", "--undo"):
        bookgen("log", *words.split())

    told = bookgen("log", "--show", "--all-history").out.split("every entry\n")[1]
    assert [line.split("  ", 1)[1] for line in told.splitlines()] == [
        "No. 1  not yet on 2026-12-01, corrected later",
        "No. 1  secure on 2026-12-01",
        "No. 2  secure on 2026-12-01, taken back",
        "No. 2  took back the result of 2026-12-02 18:00",
    ]


def test_now_knows_its_time_zone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.undo()
    assert arguments.now().tzinfo is not None
