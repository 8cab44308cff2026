"""The log as a table to read."""

from pathlib import Path

from kit.printed import DRILLS, EVENING, empty_log, kept

from bookgen.commands.log_table import drill_words, history_table, lined_up, log_table
from bookgen.plan.record import Result
from bookgen.studio.entries import KeptDrill
from bookgen.tasks.instruments import finder
from bookgen.tasks.results import shown
from bookgen.tasks.studio_folder import StudioFolder

FIND = finder(StudioFolder(Path("nowhere")))


def printed(key: str) -> KeptDrill:
    return KeptDrill((1,), key)


def test_a_drill_is_told_in_words() -> None:
    assert drill_words(printed("viola-23-whole-place4-strings432-stage1-high-mirror"), FIND) == (
        "2 and 3, whole step, 1st position, strings IV, III and II, string by string;"
        " higher finger first, back the same way"
    )


def test_a_drill_that_this_bookgen_does_not_know_is_told_by_its_key() -> None:
    for key in ("theremin", "kazoo-12-whole-place2-strings4321-stage1-low-same"):
        assert drill_words(printed(key), FIND) == key


def test_columns_stand_one_below_the_other() -> None:
    assert lined_up([("No.", "a", "x"), ("1", "bcd", ""), ("12", "e", "y")]) == [
        "No.  a    x",
        "  1  bcd",
        " 12  e    y",
    ]


def test_what_was_not_played_has_no_result() -> None:
    with empty_log() as log:
        kept(log, DRILLS[:3])
        log.enter("Ines", [2], Result.NOT_YET, None, EVENING)

        name, head, *lines = log_table(shown(log, "Ines", None), FIND).splitlines()
        assert name == "Ines"
        assert head.split() == ["No.", "days", "last", "for", "result", "on", "drill"]
        assert [line.split()[3] for line in lines] == ["-", "not", "-"]
        assert len(log_table(shown(log, "Ines", frozenset({2})), FIND).splitlines()) == 3


def test_who_has_nothing_is_told_so() -> None:
    with empty_log() as log:
        assert log_table(shown(log, "Jo", None), FIND) == "Jo: nothing was printed"
        assert history_table(shown(log, "Jo", None)) == "Jo: nothing was entered"
