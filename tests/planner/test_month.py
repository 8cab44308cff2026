"""Plans of days and months: their laws, over players, logs, dates and seeds."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from planner.knowing import shorts
from planner.players import Played, gate_of, players
from planner.reading import differing, reading
from planning import WIDEST, area_of, dates_from, request_for
from shorthand import VIOLA, VIOLIN

from bookgen.model.drill import Drill
from bookgen.model.move import moves_of
from bookgen.model.music import play
from bookgen.plan.document import Character, Day, Kind, PlannedDrill
from bookgen.plan.record import Result
from bookgen.planner.knowledge import Printed
from bookgen.planner.month import Planner, echoes_of, plan_days

LAWS = settings(max_examples=25, deadline=None)


def drills_of(days: tuple[Day, ...]) -> list[PlannedDrill]:
    return [drill for day in days for drill in day.drills]


@LAWS
@given(players())
def test_minutes_fit_the_day_and_four_fifths_are_used(played: Played) -> None:
    for day in played.days:
        used = sum(drill.minutes for drill in day.drills)

        assert used <= day.minutes
        assert used >= 0.8 * day.minutes or played.exhausted(day)


@LAWS
@given(players())
def test_links_are_true_by_the_notes(played: Played) -> None:
    at = {drill.number: (day, drill) for day in played.days for drill in day.drills}
    for day in played.days:
        assert day.drills[0].link.to is None
        for drill in day.drills[1:]:
            link = drill.link
            if isinstance(link.to, int):
                before_day, before = at[link.to]
                assert before.number < drill.number
                same_day = before_day is day
                assert same_day or f"No. {link.to} of {before_day.date.day} " in link.text
                assert not same_day or f"No. {link.to}:" in link.text
                heard = before.events
            else:
                assert link.to is not None
                known = Drill.parse_key(link.to)
                assert known in played.secure_before(played.days[0].date)
                heard = play(known, played.request.instrument)
            assert differing(reading(heard), reading(drill.events)) == {link.changes}


@LAWS
@given(players())
def test_a_stage_comes_after_the_one_before_it(played: Played) -> None:
    secure = played.secure_before(played.days[0].date)
    numbers = {drill.number: drill.drill for drill in drills_of(played.days)}
    earlier: set[Drill] = set()
    for drill in drills_of(played.days):
        if drill.drill.stage > 1:
            gate = gate_of(drill.drill)
            assert gate in secure or gate in earlier
            if gate not in secure and drill.kind in {Kind.NEW, Kind.VARIANT, Kind.LADDER}:
                assert drill.only_if is not None
                assert numbers[drill.only_if] == gate
                assert drill.only_if < drill.number
        earlier.add(drill.drill)


@LAWS
@given(players())
def test_nothing_stands_twice_on_a_day_and_numbers_run_on(played: Played) -> None:
    numbers = [drill.number for drill in drills_of(played.days)]
    first = played.request.first_number

    assert numbers == list(range(first, first + len(numbers)))
    for day in played.days:
        assert len({drill.drill for drill in day.drills}) == len(day.drills)


@LAWS
@given(players())
def test_every_drill_lies_in_the_hand_and_the_area(played: Played) -> None:
    request = played.request
    for drill in drills_of(played.days):
        assert drill.drill.refusal(request.instrument) is None
        assert request.area.holds(drill.drill, request.instrument)
        assert drill.position in (request.area.positions or {drill.position})


@LAWS
@given(players())
def test_new_drills_bring_moves_and_take_five_minutes_at_most(played: Played) -> None:
    met = {move for drill in played.met() for move in moves_of(drill)}
    for day in played.days:
        spent = 0.0
        for drill in day.drills:
            brings = moves_of(drill.drill) - met
            assert (drill.kind is Kind.NEW) <= bool(brings)
            assert (drill.kind is Kind.VARIANT) <= (not brings)
            spent += drill.minutes if brings and drill.kind is not Kind.OPENING else 0.0
            met |= brings
        assert spent <= 5.0
        assert day.character is not Character.LIGHT or spent == 0.0


@LAWS
@given(players())
def test_a_day_brings_one_new_hand_and_two_from_twenty_minutes_on(played: Played) -> None:
    met = {(drill.frame, drill.place) for drill in played.met()}
    for day in played.days:
        hands = {(entry.drill.frame, entry.drill.place) for entry in day.drills[1:]}
        met.add((day.drills[0].drill.frame, day.drills[0].drill.place))

        assert len(hands - met) <= (1 if played.request.minutes < 20 else 2)
        met |= hands


@LAWS
@given(players())
def test_no_day_ends_with_two_new_near_twins(played: Played) -> None:
    for day in played.days:
        last = day.drills[-2:]
        if len(last) == 2 and all(drill.kind in {Kind.NEW, Kind.VARIANT} for drill in last):
            assert len(differing(*(reading(drill.events) for drill in last))) > 1


@LAWS
@given(players())
def test_no_two_neighbouring_days_open_alike(played: Played) -> None:
    openings = [day.drills[0].drill for day in played.days]
    last = played.last_opening()

    assert all(one != other for one, other in pairwise(openings))
    assert last is None or last != openings[0]


@LAWS
@given(players())
def test_a_day_opens_with_something_secure(played: Played) -> None:
    known = played.secure_before(played.days[0].date)
    last = played.last_opening()
    for day in played.days:
        inside = {d for d in known if played.request.area.holds(d, played.request.instrument)}
        ready = {d for d in inside if d.stage == 1 or gate_of(d) in known}
        assert not ready - {last} or day.drills[0].drill in ready
        last = day.drills[0].drill
        known |= {drill.drill for drill in day.drills}


@LAWS
@given(players())
def test_the_same_request_gives_the_same_days(played: Played) -> None:
    assert plan_days(played.request, played.dates) == played.days


@LAWS
@given(players())
def test_every_new_drill_is_reached_from_the_start(played: Played) -> None:
    request = played.request
    known = played.secure_before(played.days[0].date) | set(request.secure) | {request.start}
    reached = {*known, *played.beginnings()}
    for day in played.days:
        for drill in day.drills:
            steps = (len(other.changes_to(drill.drill)) for other in reached)
            assert drill.drill in reached or 1 in steps
            reached.add(drill.drill)


@LAWS
@given(players())
def test_what_was_not_yet_secure_does_not_come_the_same_again(played: Played) -> None:
    day = played.days[0]
    for drill, since in played.failed_before(day.date).items():
        if drill in {entry.drill for entry in day.drills}:
            assert played.easier_secure_since(drill, since) or not played.has_easier(drill)


def test_what_was_not_yet_secure_comes_back_one_step_easier_then_itself() -> None:
    player = Played.beginner(VIOLIN, minutes=20)
    player.play(date(2026, 12, 1), result=Result.SECURE)
    player.play(date(2026, 12, 2), result=Result.SECURE)
    hard = player.play(date(2026, 12, 3), result=Result.SECURE)
    failed = next(entry for entry in hard.drills if entry.kind is Kind.NEW)
    player.mark(failed.number, Result.NOT_YET, date(2026, 12, 3))

    rungs = player.play(date(2026, 12, 4), result=Result.SECURE)
    ladder = [entry for entry in rungs.drills if entry.kind is Kind.LADDER]
    assert len(ladder) == 1
    assert len(ladder[0].drill.changes_to(failed.drill)) == 1
    assert failed.drill not in {entry.drill for entry in rungs.drills}

    back = player.plan([date(2026, 12, 5)])[0]
    again = [entry for entry in back.drills if entry.drill == failed.drill]
    assert [entry.kind for entry in again] == [Kind.LADDER]


def test_unmarked_days_were_not_played() -> None:
    player = Played.beginner(VIOLIN)
    first = player.play(date(2026, 12, 1), result=None)
    second = player.plan([date(2026, 12, 2)])[0]

    assert not {entry.kind for entry in second.drills} & {Kind.REVIEW, Kind.LADDER}
    assert second.drills[0].drill != first.drills[0].drill
    assert second.drills[0].number == first.drills[-1].number + 1


@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA], ids=["violin", "viola"])
@pytest.mark.parametrize("minutes", [10, 25])
def test_a_week_opens_in_three_dimensions_and_has_a_light_day_and_a_test(
    instrument: object, minutes: int
) -> None:
    request = request_for(instrument, minutes=minutes)  # type: ignore[arg-type]
    days = plan_days(request, dates_from(date(2026, 11, 30), 28))
    for start in range(0, len(days), 6):
        week = days[start : start + 6]
        shown = [reading(day.drills[0].events) for day in week]
        varied = {name for one in shown for other in shown for name in differing(one, other)}
        characters = [day.character for day in week]

        assert len(varied) >= 3
        assert characters.count(Character.LIGHT) == characters.count(Character.TEST) == 1
        assert week[2].minutes == 0.6 * minutes
    tests = [day for day in days if day.character is Character.TEST][1:]
    for day in tests:
        items = [drill for drill in day.drills if drill.kind is Kind.TEST]
        assert items == list(day.drills[:4])


def test_four_secure_weeks_in_a_small_area_meet_every_move() -> None:
    area = area_of(VIOLIN, frozenset({"1st"}), fewest=4)
    days = plan_days(request_for(VIOLIN, area, minutes=15), dates_from(date(2026, 12, 7), 28))
    met = {move for drill in drills_of(days) for move in moves_of(drill.drill)}
    hands = {(drill.drill.frame, drill.drill.place) for drill in drills_of(days)}

    assert len(met) == 20 * len(hands), "20 moves of two fingers over four strings"


@pytest.mark.parametrize(("minutes", "hands"), [(3, 1), (10, 2), (20, 5)])
def test_a_strangers_day_may_be_all_new_with_a_hand_for_every_four_minutes(
    minutes: int, hands: int
) -> None:
    request = replace(
        request_for(VIOLIN, minutes=minutes, practice_days=frozenset()), stranger=True
    )
    (day,) = plan_days(request, [date(2026, 12, 9)])
    opening = day.drills[0].drill
    laid = {(entry.drill.frame, entry.drill.place) for entry in day.drills}
    new = sum(entry.minutes for entry in day.drills if entry.kind is Kind.NEW)

    assert len(laid - {(opening.frame, opening.place)}) <= hands
    assert minutes < 20 or (len(laid) == hands + 1 and new > 5.0)
    assert sum(entry.minutes for entry in day.drills) == minutes


@pytest.mark.parametrize("minutes", [10, 60])
def test_only_a_very_first_day_may_bring_five_new_minutes_whatever_its_length(minutes: int) -> None:
    monday, request = date(2026, 12, 7), request_for(VIOLIN, minutes=minutes)
    first = Planner(request, monday)
    later = Planner(replace(request, secure=(request.start,)), monday)

    assert first.outline(monday).new_minutes == 5.0
    assert first.outline(date(2026, 12, 9)).new_minutes == 0.0
    assert later.outline(monday).new_minutes == min(0.4 * minutes, 5.0)


def test_a_first_day_that_is_light_brings_nothing_new() -> None:
    player = request_for(VIOLIN, practice_days=frozenset({0, 2, 4}))
    light, test = plan_days(player, [date(2026, 12, 9), date(2026, 12, 11)])

    assert light.character is Character.LIGHT
    assert {entry.kind for entry in light.drills} == {Kind.OPENING, Kind.VARIANT}
    assert Kind.NEW in {entry.kind for entry in test.drills}


def test_near_twins_at_the_end_of_a_day_are_left_out_where_no_choice_parts_them(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    area = area_of(VIOLIN, frozenset({"1st"}), fewest=3, highest_stage=1)
    small = replace(area, frames=area.frames[:1])
    requests = [request_for(VIOLIN, small, minutes=minutes) for minutes in (5, 8, 10, 12, 15, 20)]
    week = dates_from(date(2026, 12, 7), 6)
    chosen = [plan_days(request, week) for request in requests]
    monkeypatch.setattr("bookgen.planner.month.TRIES", 1)
    weeks = [plan_days(request, week) for request in requests]

    assert weeks != chosen, "some day ends in near-twins at the first try"
    for day in (day for days in weeks for day in days):
        one, other = day.drills[-2:] if len(day.drills) > 1 else (day.drills[0],) * 2
        twins = one.kind.first_time and other.kind.first_time
        assert not twins or len(one.drill.changes_to(other.drill)) > 1


def test_another_seed_or_player_has_other_days() -> None:
    request, week = request_for(VIOLIN), dates_from(date(2026, 12, 7), 6)
    seeds = {plan_days(replace(request, seed=seed), week) for seed in range(6)}
    players = {plan_days(replace(request, player=player), week) for player in "ABCDEF"}

    assert len(seeds) > 1
    assert len(players) > 1


def test_fewer_strings_that_only_fill_a_day_do_not_count_when_stages_take_turns() -> None:
    ways = shorts("12H2 4321 1 | 12H2 4321 1 mirror | 12H2 4321 1 high | 12H2 4321 1 high mirror")
    area = area_of(VIOLIN, frozenset({"1st"}), highest_stage=1)
    narrow = replace(area, frames=(ways[0].frame,))
    request = replace(request_for(VIOLIN, minutes=20), area=narrow, start=ways[0])
    planner = Planner(replace(request, secure=tuple(ways)), date(2026, 12, 7))
    kinds = [entry.kind for entry in planner.plan(date(2026, 12, 7)).drills]

    assert Kind.VARIANT in kinds
    assert planner.frontier.taken == {}


def test_stages_go_on_while_new_hands_come() -> None:
    days = plan_days(request_for(VIOLIN), dates_from(date(2026, 12, 1), 31))
    stages = {drill.drill.stage for drill in drills_of(days)}

    assert stages == {1, 2, 3, 4, 5}


def test_a_year_in_the_widest_area_repeats_no_number_and_leaves_no_day_empty() -> None:
    area = area_of(VIOLIN, WIDEST, fewest=2)
    dates = dates_from(date(2026, 1, 1), 365, frozenset(range(7)))
    days = plan_days(request_for(VIOLIN, area, practice_days=frozenset(range(7))), dates)

    assert [day.date for day in days] == dates
    assert len(dates) == 365
    assert dates[-1] - dates[0] == timedelta(364)
    assert all(len(day.drills) >= 2 for day in days)


def test_only_what_was_played_is_heard_again_and_the_last_of_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    first, last, unplayed, asked = (
        Drill.parse_key(f"violin-{hand}-strings4321-stage1-low-mirror")
        for hand in ("12-whole-place2", "23-whole-place4", "34-whole-place6", "34-whole-place5")
    )
    knowledge = Planner(request_for(VIOLIN), date(2026, 12, 7)).knowledge
    for number, drill in enumerate((first, last), start=1):
        knowledge.presume(drill, number, date(2026, 12, 1))
    knowledge.printed[unplayed] = Printed(3, date(2026, 12, 2), planned=False)

    def numbers() -> list[int]:
        echo = echoes_of(knowledge, VIOLIN).find(asked, play(asked, VIOLIN))
        return [] if echo is None else [echo.number]

    assert numbers() == [2]
    monkeypatch.setattr("bookgen.planner.month.REMEMBERED", 1)
    assert numbers() == [2]
    del knowledge.printed[last]
    assert numbers() == [1]


@pytest.mark.parametrize(
    "dates",
    [[], [date(2026, 12, 2), date(2026, 12, 1)], [date(2026, 12, 1), date(2026, 12, 1)]],
)
def test_dates_rise_and_are_not_missing(dates: list[date]) -> None:
    with pytest.raises(ValueError, match="dates to plan for rise"):
        plan_days(request_for(VIOLIN), dates)
