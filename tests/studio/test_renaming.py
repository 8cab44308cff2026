"""A player of another name keeps all that the log holds."""

import sqlite3
from pathlib import Path

import pytest
from kit.printed import DRILLS, EVENING, kept

from bookgen.errors import BookgenError
from bookgen.plan.record import Result
from bookgen.readers.studio.file import parse_studio
from bookgen.studio.practice_log import PracticeLog, open_log
from bookgen.studio.renaming import rename
from bookgen.tasks.studio_folder import StudioFolder


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A log with pages and results of Ines."""
    path = tmp_path / "practice-log.sqlite"
    with open_log(path) as log:
        kept(log, DRILLS[:4], DRILLS[2:5])
        number = log.drills("Ines")[0].number
        log.enter("Ines", [number], Result.NOT_YET, None, EVENING)
        log.undo("Ines", [number], EVENING)
        log.enter("Ines", [number], Result.SECURE, None, EVENING)
    return path


def everything(log: PracticeLog, player: str) -> tuple[object, ...]:
    days = [log.day(player, item.date) for drill in log.drills(player) for item in drill.items]
    history = [(one.number, one.entered, one.result, one.undoes) for one in log.history(player)]
    return log.drills(player), log.records(player), log.numbers(player), days, history


def test_numbers_pages_and_results_go_on_under_the_new_name(file: Path) -> None:
    with open_log(file) as log:
        before, counts = everything(log, "Ines"), log.counts()
        rename(log.store, "Ines", "Inês", "the log")

        assert everything(log, "Inês") == before
        assert (log.players(), log.counts(), log.faults()) == (("Inês",), counts, [])
        rename(log.store, "Ines", "Inês", "the log")
        assert everything(log, "Inês") == before, "a second time changes nothing"


def test_two_players_who_have_pages_stay_two(file: Path) -> None:
    with open_log(file) as log:
        log.reserve("Jo", [log.records("Ines")[0].drill])
        before = everything(log, "Ines"), everything(log, "Jo")

        with pytest.raises(BookgenError, match="log-two-names"):
            rename(log.store, "Ines", "Jo", "the log")
        assert (everything(log, "Ines"), everything(log, "Jo")) == before


def test_no_row_changes_its_player_without_a_renaming(file: Path) -> None:
    with open_log(file) as log:
        for table in ("day", "drill", "item", "entry"):
            with pytest.raises(sqlite3.IntegrityError, match="forgets nothing"):
                log.store.rows(f"UPDATE {table} SET player = 'Jo'")  # noqa: S608
        rename(log.store, "Ines", "Jo", "the log")
        with pytest.raises(sqlite3.IntegrityError, match="forgets nothing"):
            log.store.rows("UPDATE entry SET player = 'Ines'")
        with pytest.raises(sqlite3.IntegrityError, match="forgets nothing"):
            log.store.rows("DELETE FROM renaming")


def test_a_copy_from_before_is_taken_in_under_the_new_name(file: Path) -> None:
    with open_log(file) as log:
        copied = log.export()
        rename(log.store, "Ines", "Jo", "the log")
        rename(log.store, "Jo", "Joanna", "the log")
        before = log.counts()

        new = log.restore(copied, "old.json")
        assert (new.days, new.drills, new.items, new.entries) == (0, 0, 0, 0)
        assert log.counts() == before
        assert log.players() == ("Joanna",)


def test_every_command_finds_the_log_under_the_name_of_studio_toml(file: Path) -> None:
    folder = StudioFolder(file.parent)
    folder.file.write_text('[players.Joanna]\nformerly = "Ines"\n', encoding="utf-8")

    with folder.log(make=False) as log:
        assert log.players() == ("Joanna",)
        assert log.records("Joanna")


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (
            '[players.Jo]\nformerly = "Ines"\n[players.Ines]\n',
            "player \"Jo\", formerly: 'Ines' is somebody else; give each player",
        ),
        (
            '[players.Jo]\nformerly = "A"\n[players.Mara]\nformerly = "A"\n',
            "player \"Mara\", formerly: 'A' is somebody else; give each player",
        ),
        ("[players.Jo]\nformerly = 3", 'player "Jo", formerly: 3 is no name; write'),
    ],
)
def test_a_former_name_is_nobody_elses(text: str, line: str) -> None:
    with pytest.raises(BookgenError) as stopped:
        parse_studio(text, "studio.toml")

    assert str(stopped.value).startswith(f"studio.toml, {line}")


def test_who_is_asked_for_by_the_former_name_is_told_the_new_one() -> None:
    studio = parse_studio('[players.Joanna]\nformerly = "Ines"\n[players.Inez]\n', "studio.toml")

    with pytest.raises(BookgenError, match="no player 'Ines'; perhaps 'Joanna'"):
        studio.player("Ines", "studio.toml")
