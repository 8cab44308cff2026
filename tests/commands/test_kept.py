"""Pages that the practice log keeps."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from bookgen.commands.asking import Asked, Wish, asked_of
from bookgen.commands.kept import fresh_plan, kept_plan, printed_plan
from bookgen.errors import BookgenError
from bookgen.plan.document import Plan
from bookgen.readers.studio import parse_studio
from bookgen.studio.entries import NumbersTakenError
from bookgen.studio.practice_log import PracticeLog, open_log

DAYS = [date(2026, 12, 1) + timedelta(offset) for offset in range(4)]
PLAIN = Wish()


def ines(wish: Wish = PLAIN) -> Asked:
    return asked_of(parse_studio("[players.Ines]", "studio.toml").players["Ines"], wish)


@contextmanager
def new_log(here: Path) -> Iterator[PracticeLog]:
    with open_log(here / "practice-log.sqlite") as log:
        yield log


def numbers(plan: Plan) -> list[int]:
    return [drill.number for day in plan.days for drill in day.drills]


def test_days_are_printed_again_as_they_were_each_alone_and_together(here: Path) -> None:
    with new_log(here) as log:
        first = printed_plan(ines(), DAYS, log, PLAIN)

        assert printed_plan(ines(), DAYS, log, PLAIN) == first
        for index, day in enumerate(DAYS):
            again = printed_plan(ines(), [day], log, PLAIN)
            assert again.days == (first.days[index],)


def test_numbers_run_on_from_page_to_page(here: Path) -> None:
    with new_log(here) as log:
        first = printed_plan(ines(), DAYS[:1], log, PLAIN)
        second = printed_plan(ines(), DAYS[1:2], log, PLAIN)
        anew = printed_plan(ines(), DAYS[:1], log, PLAIN, anew=True)

        found = numbers(first) + numbers(second) + numbers(anew)
        assert found == list(range(1, len(found) + 1))
        assert kept_plan(ines(), DAYS[:1], log) == anew
        assert {record.number for record in log.records("Ines")} == set(found)


def test_days_of_which_one_was_never_printed_are_planned(here: Path) -> None:
    with new_log(here) as log:
        printed_plan(ines(), DAYS[:1], log, PLAIN)

        assert kept_plan(ines(), DAYS, log) is None
        assert len(printed_plan(ines(), DAYS, log, PLAIN).days) == len(DAYS)


def test_a_printed_page_is_not_printed_otherwise(here: Path) -> None:
    wish = Wish(minutes="20", seed=3)
    with new_log(here) as log:
        printed_plan(ines(), DAYS[:1], log, PLAIN)
        with pytest.raises(BookgenError) as stopped:
            printed_plan(ines(wish), DAYS[:1], log, wish)

        lines = str(stopped.value).splitlines()
        assert [line.partition(":")[0] for line in lines] == ["--minutes 20", "--seed 3"]
        assert all("add --anew to plan them again" in line for line in lines)
        again = printed_plan(ines(wish), DAYS[:1], log, wish, anew=True)
        assert again.days[0].minutes == 20.0


def test_without_a_log_nothing_is_kept() -> None:
    assert printed_plan(ines(), DAYS[:1], None, PLAIN) == fresh_plan(ines(), DAYS[:1], None)


class Crowded(PracticeLog):
    """A log in which another command is always first, or is a number of times."""

    def __init__(self, log: PracticeLog, times: int) -> None:
        super().__init__(log.connection)
        self.times = times

    def keep(self, plan: Plan, instrument: object, printed: datetime) -> None:
        """Be late a number of times.

        Raises:
            NumbersTakenError: another command was first.
        """
        self.times -= 1
        if self.times >= 0:
            raise NumbersTakenError(plan.player or "", 99)
        super().keep(plan, instrument, printed)  # type: ignore[arg-type]


def test_numbers_that_another_command_took_are_left_to_it(here: Path) -> None:
    with new_log(here) as log:
        printed_plan(ines(), DAYS[:1], Crowded(log, 2), PLAIN)

        assert kept_plan(ines(), DAYS[:1], log) is not None
        with pytest.raises(BookgenError, match="try again in a moment"):
            printed_plan(ines(), DAYS[1:], Crowded(log, 99), PLAIN)
