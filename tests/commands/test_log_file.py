"""The whole log as a file to keep or to take in."""

from pathlib import Path

import pytest
from kit.printed import DRILLS, EVENING, kept
from kit.shell import bookgen, refused

from bookgen.plan.record import Result
from bookgen.studio.log_copy import LogCopy
from bookgen.studio.practice_log import open_log

LOG = Path("practice-log.sqlite")


@pytest.fixture
def log_here() -> None:
    """A log with four drills and a result that was corrected."""
    with open_log(LOG) as log:
        kept(log, DRILLS[:4])
        log.enter("Ines", [1, 2], Result.NOT_YET, None, EVENING)
        log.enter("Ines", [2], Result.SECURE, None, EVENING)


def everything() -> LogCopy:
    with open_log(LOG) as log:
        return log.export()


@pytest.mark.usefixtures("log_here")
@pytest.mark.parametrize("name", ["copy.csv", "copy.JSON", "folder/copy.json"])
def test_a_copy_brings_everything_back_once(name: str) -> None:
    before = everything()
    assert bookgen("log", "--export", name).out == f"{name}\n"
    LOG.unlink()

    first = bookgen("log", "--import", name)
    assert first.out == f"new in the log: printed days 1, drills 4, entries 3\n{LOG}\n"
    assert everything() == before
    again = bookgen("log", "--import", name)
    assert again.out.startswith("new in the log: printed days 0, drills 0, entries 0")
    assert everything() == before


@pytest.mark.usefixtures("log_here")
def test_the_same_log_makes_the_same_bytes() -> None:
    for ending in ("csv", "json"):
        for name in ("one", "two"):
            bookgen("log", "--export", f"{name}.{ending}")
        assert Path(f"one.{ending}").read_bytes() == Path(f"two.{ending}").read_bytes()


@pytest.mark.usefixtures("log_here")
def test_a_log_that_is_at_odds_is_refused_and_ours_stays() -> None:
    bookgen("log", "--export", "copy.json")
    text = Path("copy.json").read_text(encoding="utf-8").replace("stage4", "stage5")
    Path("copy.json").write_text(text, encoding="utf-8")
    before = everything()

    outcome = bookgen("log", "--import", "copy.json")
    assert outcome.code == 2
    assert "copy.json: Ines, No. 4 is another one in the log" in outcome.err
    assert everything() == before


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("--export copy.xlsx", "--export copy.xlsx: the name ends in '.xlsx'; let it end in .csv"),
        ("--export copy", "--export copy: the name has no ending; let it end in .csv or .json."),
        ("--export copy.csv", "practice-log.sqlite: there is no practice log in this folder; "),
        ("--import copy.xlsx", "--import copy.xlsx: the name ends in '.xlsx'; let it end in .csv"),
        ("--import copy.csv", "copy.csv: cannot be read (No such file or directory); give a table"),
        ("--import folder.csv", "folder.csv: cannot be read (Is a directory)"),
        ("--import empty.json", "empty.json: no JSON ("),
        ("--import empty.csv", "studio.toml: there is no studio in this folder; "),
    ],
)
def test_what_cannot_be_is_told_and_no_log_is_made(here: Path, words: str, told: str) -> None:
    (here / "folder.csv").mkdir()
    for name in ("empty.json", "empty.csv"):
        (here / name).write_text("", encoding="utf-8")

    assert refused("log", *words.split()).startswith(told)
    assert not LOG.exists()
    assert not (here / "copy.csv").exists()
