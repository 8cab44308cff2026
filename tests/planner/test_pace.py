"""How a player gets through hands and stages: laws over simulated players."""

from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from itertools import pairwise

import pytest
from kit.courses import Course
from kit.learners import FIRST_DAY, PLAYERS, practise
from kit.planning import area_of, request_for
from kit.shorthand import VIOLA, VIOLIN

from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones
from bookgen.plan.document import Plan, encode
from bookgen.plan.record import Printed, Record, Result
from bookgen.planner.difficulty import hand_place
from bookgen.planner.frontier import pairs_in
from bookgen.planner.month import plan_days
from bookgen.planner.request import Request

EVERY_DAY = frozenset(range(7))
FIRST_POSITION = frozenset({"1st"})
THREE_WEEKS = [FIRST_DAY + timedelta(offset) for offset in range(21)]


def beginner(minutes: int = 10, instrument: Instrument = VIOLIN, highest_stage: int = 5) -> Request:
    area = area_of(instrument, FIRST_POSITION, highest_stage=highest_stage)
    return request_for(instrument, area, minutes=minutes, practice_days=EVERY_DAY)


@cache
def course(player: str, days: int = 40, minutes: int = 10, span: int = 1, seed: int = 0) -> Course:
    asked = beginner(minutes)
    return Course(asked, list(practise(asked, player, days, span=span, seed=seed)))


def printed(request: Request, plan: Plan) -> Request:
    """The request once a plan's days are printed and nobody has said a word."""
    records = {record.number: record for record in request.records}
    for day in plan.days:
        for order, item in enumerate(day.items):
            entry = plan.by_number[item.number]
            old = records.get(item.number, Record(item.number, entry.drill, (), (), entry.link))
            page = Printed(day.date, item.role, order)
            records[item.number] = replace(old, printed=(*old.printed, page))
    return replace(
        request,
        records=tuple(records[number] for number in sorted(records)),
        first_number=max(records) + 1,
    )


@pytest.mark.parametrize("minutes", [10, 20])
@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA], ids=["violin", "viola"])
def test_a_day_planned_by_itself_is_that_day_of_a_month(
    instrument: Instrument, minutes: int
) -> None:
    request = beginner(minutes, instrument)
    month = plan_days(request, THREE_WEEKS)
    for day in month.days:
        alone = plan_days(request, [day.date])

        assert alone.days == (day,)
        for entry in alone.drills:
            assert entry == month.by_number[entry.number]
        request = printed(request, alone)


def test_a_second_book_without_a_log_goes_on_from_the_first() -> None:
    request = beginner()
    whole = plan_days(request, THREE_WEEKS)
    first = plan_days(request, THREE_WEEKS[:10])
    second = plan_days(printed(request, first), THREE_WEEKS[10:])

    assert first.days + second.days == whole.days


def test_what_is_planned_hangs_on_the_log_the_date_and_the_seed() -> None:
    request, days = beginner(), THREE_WEEKS[:6]
    plan = encode(plan_days(request, days))

    assert encode(plan_days(request, days)) == plan
    assert encode(plan_days(replace(request, seed=1), days)) != plan
    assert encode(plan_days(replace(request, player="Jo"), days)) != plan


@pytest.mark.parametrize("minutes", [10, 20])
def test_who_is_always_secure_has_stage_3_by_day_10_and_double_stops_between_10_and_30(
    minutes: int,
) -> None:
    first = course("always", minutes=minutes).first

    assert first[3] <= 10
    assert 10 <= first[5] <= 30


def test_who_is_always_secure_has_every_pair_and_spacing_at_stage_5_by_day_40() -> None:
    assert course("always").all_at(5) is not None
    assert course("always").hands == course("always").hands_at(5) == 10


@pytest.mark.parametrize("seed", range(2))
@pytest.mark.parametrize("player", ["80 %", "50 %", "learns"])
def test_nobody_who_is_less_secure_is_faster(player: str, seed: int) -> None:
    best, other = course("always", seed=seed).first, course(player, seed=seed).first

    for stage in range(2, 6):
        assert best[stage] <= other.get(stage, 999)


@pytest.mark.parametrize("player", PLAYERS)
def test_no_ten_days_pass_without_something_novel(player: str) -> None:
    assert course(player).plateau <= 10


@pytest.mark.parametrize("player", PLAYERS)
def test_a_lead_and_a_way_back_are_followed_by_their_opposites_within_a_week(player: str) -> None:
    answered, asked = course(player).answered

    assert answered == asked > 3


@pytest.mark.parametrize("player", ["always", "80 %", "learns", "never logs", "skips weeks"])
def test_from_the_second_week_on_half_of_a_day_at_most_is_new(player: str) -> None:
    assert course(player).over_half == 0


@pytest.mark.parametrize("span", [1, 7, 31])
def test_hope_takes_a_hand_one_stage_further_a_week(span: int) -> None:
    assert course("never logs", span=span).most_stages_a_week <= 1
    assert course("never logs", span=span).first == {1: 1, 2: 8, 3: 15, 4: 22, 5: 29}


def test_who_never_logs_is_told_new_but_once() -> None:
    never = course("never logs")

    assert never.most_new == 1
    assert never.hands == 10


def test_a_step_on_hope_says_on_what_it_waits() -> None:
    waiting = [
        (item.only_if is None, drill.stage)
        for lesson in course("never logs").lessons
        for item, drill in lesson.items
        if item.role.first_time and drill.stage > 1
    ]

    assert len(waiting) > 10
    assert not any(sure for sure, _ in waiting)


def test_steps_of_most_days_rest_on_hope_where_nobody_logs_and_never_where_all_is_secure() -> None:
    def resting(player: str) -> list[int]:
        lessons = course(player).lessons
        return [one.number for one in lessons if any(item.only_if for item, _ in one.items)]

    later = [day for day in resting("never logs") if day > 7]

    assert max(after - day for day, after in pairwise(later)) <= 2
    assert len(later) > 20
    assert resting("always") == []


def test_half_to_third_position_is_met_in_breadth_and_depth() -> None:
    area = area_of(VIOLIN, frozenset({"half", "1st", "2nd", "3rd"}))
    asked = request_for(VIOLIN, area, minutes=10, practice_days=EVERY_DAY)
    met = Course(asked, list(practise(asked, "always", 90)))

    assert met.moves >= 0.85 * 760
    assert met.all_at(5) is not None


def test_frames_of_three_and_four_fingers_come_when_their_pairs_cross_on_every_note() -> None:
    whole, half = Spacing.WHOLE, Spacing.HALF
    frames = (Frame((1, 2, 3), (whole, half)), Frame((1, 2, 3, 4), (whole, half, whole)))
    asked = beginner(20)
    asked = replace(asked, area=replace(asked.area, frames=(*asked.area.frames, *frames)))
    found = Course(asked, list(practise(asked, "always", 40)))
    begun = {len(hand[0].fingers): day for (hand, stage), day in found.stages.items() if stage == 1}
    crossed = {
        hand[0].fingers: day
        for (hand, stage), day in found.stages.items()
        if stage == 3 and hand in pairs_in(frames[1], Semitones(2))
    }

    assert {stage for (hand, stage) in found.stages if hand[0] == frames[0]} == {1, 2, 3, 4, 5}
    assert begun[3] > max(crossed[1, 2], crossed[2, 3])
    assert begun[4] > max(crossed.values())
    assert found.answered[0] == found.answered[1]


@pytest.mark.parametrize("seed", range(5))
def test_a_first_day_has_no_low_first_finger(seed: int) -> None:
    for minutes in (10, 20, 45):
        request = replace(beginner(minutes), seed=seed)
        (day,) = plan_days(request, [date(2026, 12, 1)]).days
        drills = [entry.drill for entry in plan_days(request, [day.date]).drills]
        places = {hand_place(d.frame.fingers[0], d.place, VIOLIN.hand) for d in drills}

        assert min(places) >= 1.5, "a low first finger lies a half step above the nut"


def test_a_night_lies_between_two_stages_of_a_drill() -> None:
    for found in (course("always"), course("learns"), course("always", minutes=5)):
        first: dict[object, int] = {}
        for lesson, drill in found.played():
            gate = replace(drill, stage=1)
            first.setdefault(drill, lesson.number)
            if drill.stage == 2:
                assert first[gate] < first[drill]


def test_what_is_marked_at_once_after_a_month_counts_on_the_days_of_its_pages() -> None:
    asked = beginner()
    told = list(practise(asked, "always", 40, span=20))

    assert {result for lesson in told for result in lesson.results} == {Result.SECURE}
    assert Course(asked, told).first[3] <= 21
