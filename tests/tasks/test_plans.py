"""Plans of days that were printed, and of those that were not."""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from kit.shorthand import VIOLIN
from msgspec.structs import replace as altered

from bookgen.errors import BookgenError
from bookgen.model.drill import Drill
from bookgen.plan.document import Plan, encode
from bookgen.plan.record import Result
from bookgen.readers.studio.file import parse_studio
from bookgen.studio.practice_log import PracticeLog, open_log
from bookgen.tasks.plans import Printing, keep, planned
from bookgen.tasks.wish import Asked, Wish, asked_of

DAYS = [date(2026, 12, 1) + timedelta(offset) for offset in range(4)]
EVENING = datetime(2026, 12, 4, 18, tzinfo=UTC)
PLAIN = Wish()
INES = '[players.Ines]\npositions = ["1st"]\nhighest_stage = 3\n'


def ines(wish: Wish = PLAIN, text: str = INES) -> Asked:
    return asked_of(parse_studio(text, "studio.toml").players["Ines"], wish)


@contextmanager
def new_log(here: Path) -> Iterator[PracticeLog]:
    with open_log(here / "practice-log.sqlite") as log:
        yield log


def printed(log: PracticeLog, dates: list[date], wish: Wish = PLAIN, text: str = INES) -> Printing:
    """Plan days and have them printed."""
    printing = planned(ines(wish, text), dates, log, wish)
    keep(log, printing, EVENING)
    return printing


def refusals(
    log: PracticeLog, dates: list[date], wish: Wish = PLAIN, text: str = INES
) -> list[str]:
    with pytest.raises(BookgenError) as stopped:
        planned(ines(wish, text), dates, log, wish)
    return str(stopped.value).splitlines()


def numbers(plan: Plan) -> dict[str, int]:
    return {entry.key: entry.number for entry in plan.drills}


def test_days_are_printed_again_as_they_were_each_alone_and_together(here: Path) -> None:
    with new_log(here) as log:
        first = printed(log, DAYS).plan

        again = planned(ines(), DAYS, log, PLAIN)
        assert encode(again.plan) == encode(first)
        assert again.kept == tuple(DAYS)
        for index, day in enumerate(DAYS):
            assert planned(ines(), [day], log, PLAIN).plan.days == (first.days[index],)


def test_a_day_of_which_no_page_was_written_is_planned_again(here: Path) -> None:
    with new_log(here) as log:
        planned(ines(), DAYS[:1], log, PLAIN)

        assert log.day("Ines", DAYS[0]) is None
        assert log.records("Ines") == ()
        assert planned(ines(), DAYS[:1], log, PLAIN).kept == ()


def test_a_number_is_the_same_drill_on_every_page(here: Path) -> None:
    with new_log(here) as log:
        pages = [printed(log, [day]).plan for day in DAYS]
        pages.append(printed(log, DAYS, Wish(anew=True)).plan)

        known: dict[str, int] = {}
        for page in pages:
            assert all(known.get(key, number) == number for key, number in numbers(page).items())
            known |= numbers(page)
        assert sorted(known.values()) == list(range(1, len(known) + 1))


def test_days_that_were_printed_are_kept_and_the_others_planned_around_them(here: Path) -> None:
    with new_log(here) as log:
        sheet = printed(log, DAYS[1:2]).plan
        booklet = printed(log, DAYS)

        assert booklet.kept == (DAYS[1],)
        assert booklet.plan.days[1] == sheet.days[0]
        assert [day.date for day in booklet.new_days] == [DAYS[0], *DAYS[2:]]
        assert printed(log, DAYS).kept == tuple(DAYS)


def test_what_was_printed_twice_at_once_is_kept_once(here: Path) -> None:
    with new_log(here) as log:
        printing = planned(ines(), DAYS, log, PLAIN)
        keep(log, printing, EVENING)
        keep(log, printing, EVENING + timedelta(seconds=1))

        assert log.counts().days == len(DAYS)


def test_options_that_are_not_those_of_the_page_are_told(here: Path) -> None:
    wish = Wish(minutes="20", seed=3)
    with new_log(here) as log:
        printed(log, DAYS)

        lines = refusals(log, DAYS, wish)
        assert [line.partition(":")[0] for line in lines] == ["--minutes 20", "--seed 3"]
        assert all("add --anew to plan them again" in line for line in lines)
        again = printed(log, DAYS[:1], replace(wish, anew=True)).plan
        assert again.days[0].minutes == 20.0
        assert planned(ines(), DAYS[:1], log, PLAIN).plan.days == again.days, "printed with options"


@pytest.mark.parametrize(
    ("text", "key", "before"),
    [
        (INES.replace("3", "4"), "highest_stage", "3"),
        (INES.replace('"1st"', '"1st", "2nd"'), "positions", "1st"),
        (INES + 'pairs = ["12"]', "pairs, spacings", "12-half, 12-whole, 23-half"),
        (INES + "start = { secure_to_stage = 2 }", "start.secure_to_stage", "0"),
        (INES + 'start = { fingers = "23" }', "start", "violin-12-whole-place2-strings4321-stage1"),
        (INES + "minutes = 12", "minutes", "10"),
    ],
)
def test_a_roster_that_changed_is_told_with_the_mend(
    here: Path, text: str, key: str, before: str
) -> None:
    with new_log(here) as log:
        printed(log, DAYS)

        line = refusals(log, DAYS, text=text)[0]
        place = f'studio.toml, player "Ines", {key}: the pages for 2026-12-01 were planned with '
        assert line.startswith(place + before)
        assert "add --anew to plan them again, or choose days that are not printed yet." in line
        assert printed(log, DAYS, Wish(anew=True), text).kept == ()
        assert planned(ines(text=text), DAYS, log, PLAIN).kept == tuple(DAYS)


def test_a_player_who_grows_keeps_numbers_and_results_and_has_other_millimetres(
    here: Path,
) -> None:
    half, full = INES + 'size = "1/2"', INES + 'size = "4/4"'
    with new_log(here) as log:
        small = printed(log, DAYS[:2], text=half).plan
        number = small.days[0].items[0].number
        log.enter("Ines", [number], Result.SECURE, None, EVENING)

        again = planned(ines(text=full), DAYS, log, PLAIN)
        assert again.kept == tuple(DAYS[:2])
        assert again.plan.days[:2] == small.days
        assert (small.size, again.plan.size) == ("1/2", "4/4")
        own = numbers(small)
        assert own.items() <= numbers(again.plan).items()
        (record,) = (record for record in log.records("Ines") if record.number == number)
        assert [one.result for one in record.results] == [Result.SECURE]
        assert refusals(log, DAYS[:1], Wish(size="1/4"), full)[0].startswith("--size 1/4: ")
    lengths = [VIOLIN.size(plan.size).string_length_mm for plan in (small, again.plan)]
    assert lengths[0] < lengths[1], "of the same spots: a chart is drawn by them"


def test_of_days_of_older_bookgens_the_drills_are_looked_at(here: Path) -> None:
    with new_log(here) as log:
        printing = planned(ines(), DAYS, log, PLAIN)
        keep(log, Printing(altered(printing.plan, scope=None)), EVENING)

        assert planned(ines(), DAYS, log, PLAIN).kept == tuple(DAYS)
        lines = refusals(log, DAYS, text=INES.replace('"1st"', '"3rd"'))
        assert "No. 1 on the pages for 2026-12-01 lies outside it (violin-12-whole-" in lines[0]


def test_results_do_not_change_what_was_printed(here: Path) -> None:
    with new_log(here) as log:
        first = printed(log, DAYS).plan
        log.enter("Ines", [first.days[0].items[0].number], Result.NOT_YET, None, EVENING)

        assert encode(planned(ines(), DAYS, log, PLAIN).plan) == encode(first)


def test_without_a_log_nothing_is_kept() -> None:
    printing = planned(ines(), DAYS, None, PLAIN)

    assert printing.kept == ()
    keep(None, printing, EVENING)


class Crowded(PracticeLog):
    """A log in which another command is always first, or is a number of times."""

    def __init__(self, log: PracticeLog, times: int) -> None:
        super().__init__(log.store)
        self.times = times

    def reserve(self, player: str, drills: Iterable[Drill]) -> dict[Drill, int]:
        """Be late a number of times."""
        wanted = tuple(drills)
        self.times -= 1
        if self.times >= 0:
            super().reserve(player, [replace(wanted[0], stage=5 - self.times % 2)])
        return super().reserve(player, wanted)


def test_numbers_that_another_command_took_are_left_to_it(here: Path) -> None:
    with new_log(here) as log:
        plan = printed(Crowded(log, 1), DAYS).plan
        assert planned(ines(), DAYS, log, PLAIN).plan == plan
        held = log.numbers("Ines")
        assert all(held[entry.drill] == entry.number for entry in plan.drills)
        assert len(set(held.values())) == len(held)
