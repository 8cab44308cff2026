"""Whether all that bookgen needs is here."""

import contextlib
import sqlite3
from pathlib import Path

import pytest
from kit.printed import DRILLS, EVENING, kept
from kit.shell import bookgen

from bookgen.notation import lilypond
from bookgen.plan.record import Result
from bookgen.studio.practice_log import open_log


def test_all_is_in_order() -> None:
    outcome = bookgen("check")

    assert outcome.code == 0
    assert "LilyPond 2." in outcome.out
    assert "instruments: cello, double_bass, " in outcome.out
    assert "no studio.toml in this folder" in outcome.out


def test_the_studio_is_checked_with_all_its_players() -> None:
    text = '[players.Ines]\nsize = "9/9"\n[players.Jo]\ninstrument = "kazoo"\n'
    Path("studio.toml").write_text(text, encoding="utf-8")

    outcome = bookgen("check")
    assert outcome.code == 2
    assert len(outcome.err.splitlines()) == 2


def test_a_good_studio_is_counted() -> None:
    text = 'name = "Harbour Lane Strings"\n[players.Ines]\n[players.Jo]\n'
    Path("studio.toml").write_text(text, encoding="utf-8")

    assert "studio.toml: Harbour Lane Strings, 2 players" in bookgen("check").out


def test_the_log_is_opened_and_counted() -> None:
    assert "no practice-log.sqlite in this folder" in bookgen("check").out
    with open_log(Path("practice-log.sqlite")) as log:
        kept(log, DRILLS[:3])
        log.enter("Ines", [1], Result.SECURE, None, EVENING)
        log.store.rows("INSERT INTO drill (player, number, key) VALUES ('Ines', 9, 'theremin')")

    told = bookgen("check").out
    counted = "players 1, printed days 1, drills 4, entries 1"
    assert f"practice-log.sqlite: version 4, sound; {counted}" in told
    assert "Ines, No. 9: this bookgen does not know 'theremin'" in told


def test_a_damaged_log_is_told() -> None:
    path = Path("practice-log.sqlite")
    with open_log(path) as log:
        kept(log, *(DRILLS[start : start + 4] for start in range(0, 24, 4)))
    content = bytearray(path.read_bytes())
    content[8192:-8192] = bytes(len(content) - 16384)
    path.write_bytes(content)

    outcome = bookgen("check")
    assert outcome.code == 2
    assert all(line.startswith("practice-log.sqlite: ") for line in outcome.err.splitlines())
    path.write_text("shopping list", encoding="utf-8")
    assert "no sound practice log" in bookgen("check").err


@pytest.mark.parametrize(
    ("script", "told"),
    [
        ("echo GNU LilyPond 2.18.2", "LilyPond 2.18.2 is older than 2.24"),
        ("true", "it does not say which LilyPond it is"),
        ("exit 4", "LilyPond does not start"),
    ],
)
def test_a_lilypond_that_is_none_is_told(
    here: Path, monkeypatch: pytest.MonkeyPatch, script: str, told: str
) -> None:
    program = here / "lilypond"
    program.write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
    program.chmod(0o755)
    monkeypatch.setattr(lilypond, "from_wheel", lambda: program)

    outcome = bookgen("check")
    assert outcome.code == 2
    assert told in outcome.err


def test_a_studios_paper_is_checked() -> None:
    Path("studio.toml").write_text('paper = "a3"', encoding="utf-8")

    assert "studio.toml, paper: no paper 'a3'" in bookgen("check").err


def test_no_lilypond_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lilypond, "from_wheel", lambda: None)
    monkeypatch.setattr(lilypond, "from_path", lambda: None)

    outcome = bookgen("check")
    assert outcome.code == 2
    assert outcome.err.startswith("LilyPond: the music engraver is not installed; install it")


@pytest.mark.parametrize(
    "planted",
    [
        "CREATE TRIGGER mine AFTER INSERT ON entry BEGIN DELETE FROM drill; END",
        "CREATE VIEW mine AS WITH RECURSIVE n(i) AS (VALUES(1) UNION ALL SELECT i FROM n) SELECT 1",
        "CREATE TABLE mine (i)",
    ],
)
def test_a_schema_that_is_not_ours_is_a_damaged_file(here: Path, planted: str) -> None:
    with open_log(here / "practice-log.sqlite") as log:
        kept(log, DRILLS[:3])
    with contextlib.closing(sqlite3.connect(here / "practice-log.sqlite")) as connection:
        connection.execute(planted)
        connection.commit()
    (here / "studio.toml").write_text("[players.Ines]", encoding="utf-8")

    for words in (("check",), ("sheet",), ("log", "--show")):
        outcome = bookgen(*words)
        assert outcome.code == 2, outcome
        assert "practice-log.sqlite: no sound practice log" in outcome.err
        assert "mine" in outcome.err
        assert "put a copy of it in its place, or import an export" in outcome.err
