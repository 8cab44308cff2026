"""Plans of days and months: their laws, over players, logs, dates and seeds."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.planning import WIDEST, area_of, dates_from, request_for
from kit.players import Player, Row, by_day, gate_of, players
from kit.reading import Reading, differing, reading
from kit.shorthand import VIOLA, VIOLIN

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.model.move import moves_of
from bookgen.model.music import play
from bookgen.model.place import place_label
from bookgen.model.route import Return
from bookgen.plan.decoder import decode
from bookgen.plan.document import Character, Link, Plan, Role, Towards, encode
from bookgen.plan.record import Result
from bookgen.planner.month import Planner, echoes_of, plan_days
from bookgen.planner.request import Request

Law = Callable[[Player], None]
LAWS: list[Law] = []
"""What is true of every plan: all of it is asked of each player that chance draws."""


def law(check: Law) -> Law:
    LAWS.append(check)
    return check


def rows_of(plan: Plan) -> list[Row]:
    return [row for rows in by_day(plan) for row in rows]


def shown(drill: Drill) -> Reading:
    """What the notes of a drill show."""
    return reading(play(drill, VIOLIN if drill.instrument == "violin" else VIOLA))


@law
def minutes_fit_the_day_and_four_fifths_are_used(player: Player) -> None:
    for rows in player.days:
        used = sum(row.minutes for row in rows)

        assert used <= rows[0].day.minutes
        assert used >= 0.8 * rows[0].day.minutes or player.exhausted(rows)


@law
def links_are_true_by_the_notes(player: Player) -> None:
    plan = player.planned
    secure = player.secure_before(player.dates[0])
    first = {row.number: row.role for row in reversed(rows_of(plan))}
    for entry in plan.drills:
        before = plan.linked(entry)
        if before is None:
            opened = first[entry.number] in {Role.START, Role.COLD}
            assert opened or entry.drill in player.request.numbered
            assert entry.link.changes is None
        else:
            assert differing(shown(before), shown(entry.drill)) == {entry.link.changes}
        if isinstance(entry.link.to, str):
            assert before in secure | set(player.request.secure)
        elif entry.link.to is not None:
            assert entry.link.to < entry.number


@law
def an_echo_was_heard_before_with_other_fingers_or_in_another_place(player: Player) -> None:
    for entry in player.planned.drills:
        if entry.link.echo is None:
            continue
        other = player.planned.named[entry.link.echo.number]
        here, there = shown(entry.drill), shown(other)

        assert entry.link.echo.number < entry.number
        assert (here.pair, here.place) != (there.pair, there.place)
        for way in crossed(entry.drill), crossed(other):
            assert set(way[0]) == {entry.link.echo.interval}
        assert [set(way) for way in crossed(entry.drill)] == [set(way) for way in crossed(other)]


def crossed(drill: Drill) -> tuple[list[str | None], list[str | None]]:
    """The intervals at the crossings of the way up and of the way back."""
    events = play(drill, VIOLIN if drill.instrument == "violin" else VIOLA)
    turn = next(index for index, event in enumerate(events) if event.begins == "turn")
    halves = events[:turn], events[turn:]
    up, back = ([event.from_previous for event in half if event.crosses] for half in halves)
    return up, back


@law
def a_stage_waits_for_the_one_before_and_a_new_drill_for_what_its_link_names(
    player: Player,
) -> None:
    plan = player.planned
    secure, sure = (ask(player.dates[0]) for ask in (player.secure_before, player.sure_before))
    earlier: set[Drill] = set()
    for row in rows_of(plan):
        if row.drill.stage > 1:
            gate = gate_of(row.drill)
            assert gate in secure or gate in earlier
            if gate not in sure and row.role not in {Role.AGAIN, Role.START, Role.COLD}:
                assert row.item.only_if is not None
                assert plan.named[row.item.only_if] == gate
        if row.item.only_if is not None and row.drill not in player.request.numbered:
            assert row.item.only_if == row.entry.link.to
        earlier.add(row.drill)


@law
def numbers_name_drills_run_on_and_stay_and_so_do_links(player: Player) -> None:
    plan, request = player.planned, player.request
    links = {record.drill: record.link for record in request.records}
    new = [entry.number for entry in plan.drills if entry.drill not in request.numbered]

    assert len({entry.key for entry in plan.drills}) == len(plan.drills) == len(plan.by_number)
    assert new == list(range(request.first_number, request.first_number + len(new)))
    assert list(dict.fromkeys(r.number for r in rows_of(plan) if r.number in new)) == new
    for entry in plan.drills:
        assert request.numbered.get(entry.drill, entry.number) == entry.number
        assert links.get(entry.drill, entry.link) == entry.link
    for rows in player.days:
        assert len({row.number for row in rows}) == len(rows)


@law
def the_document_reads_back_as_it_is_and_names_all_its_drills(player: Player) -> None:
    plan = player.planned
    find = {"violin": VIOLIN, "viola": VIOLA}.get
    named = {one.number for one in plan.earlier}

    assert decode(encode(plan), "plan.json", find) == plan
    assert not named & plan.by_number.keys()
    assert named <= set(player.request.numbered.values())


@law
def every_drill_lies_in_the_hand_and_the_area(player: Player) -> None:
    request = player.request
    for entry in player.planned.drills:
        assert entry.drill.refusal(request.instrument) is None
        assert request.area.holds(entry.drill, request.instrument)
        assert entry.position in (request.area.positions or {entry.position})
        assert entry.position == place_label(entry.drill, request.instrument)


@law
def new_drills_bring_moves_and_take_five_minutes_at_most(player: Player) -> None:
    met = {move for drill in player.met() for move in moves_of(drill)}
    for rows in player.days:
        spent = 0.0
        for row in rows:
            brings = moves_of(row.drill) - met
            assert (row.role is Role.NEW) <= bool(brings)
            assert (row.role is Role.OTHER_WAY) <= (not brings)
            spent += row.minutes if brings and row.role is not Role.START else 0.0
            met |= brings
        assert spent <= 5.0
        assert rows[0].day.character is not Character.LIGHT or spent == 0.0


@law
def a_day_brings_one_new_hand_and_two_from_twenty_minutes_on(player: Player) -> None:
    met = {(drill.frame, drill.place) for drill in player.met()}
    for rows in player.days:
        hands = {(row.drill.frame, row.drill.place) for row in rows[1:]}
        met.add((rows[0].drill.frame, rows[0].drill.place))

        assert len(hands - met) <= (1 if player.request.minutes < 20 else 2)
        met |= hands


@law
def no_day_ends_with_two_new_near_twins(player: Player) -> None:
    for rows in player.days:
        last = rows[-2:]
        if len(last) == 2 and all(row.role.first_time for row in last):
            assert len(differing(*(shown(row.drill) for row in last))) > 1


@law
def no_two_neighbouring_days_open_alike(player: Player) -> None:
    openings = [rows[0].drill for rows in player.days]
    last = player.last_opening()

    assert all(one != other for one, other in pairwise(openings))
    assert last is None or last != openings[0]


@law
def a_day_opens_with_something_secure(player: Player) -> None:
    known = player.secure_before(player.dates[0])
    last = player.last_opening()
    for rows in player.days:
        inside = {d for d in known if player.request.area.holds(d, player.request.instrument)}
        ready = {d for d in inside if d.stage == 1 or gate_of(d) in known}
        assert not ready - {last} or rows[0].drill in ready
        last = rows[0].drill
        known |= {row.drill for row in rows}


@law
def the_same_request_gives_the_same_days(player: Player) -> None:
    assert encode(plan_days(player.request, player.dates)) == encode(player.planned)


@law
def every_new_drill_is_reached_from_the_start(player: Player) -> None:
    request = player.request
    known = player.secure_before(player.dates[0]) | set(request.secure) | {request.start}
    reached = {*known, *player.beginnings()}
    for row in rows_of(player.planned):
        steps = (len(other.changes_to(row.drill)) for other in reached)
        assert row.drill in reached or 1 in steps
        reached.add(row.drill)


@law
def what_was_not_yet_secure_does_not_come_the_same_again(player: Player) -> None:
    """But so that its opposite can follow it, and where nothing novel has come for some days."""
    first = player.days[0]
    known = Planner(player.request, player.dates[0]).knowledge
    stands_still = known.progress.idle >= known.graph.weights.pace.rest_days
    fresh = [row.drill for row in first if row.role.first_time]
    for drill, since in player.failed_before(player.dates[0]).items():
        if drill in {row.drill for row in first} and not stands_still:
            opposites = (replace(drill, order=drill.order[::-1]), replace(drill, back=other(drill)))
            answered = any(one in fresh for one in opposites)
            easier = player.easier_secure_since(drill, since) or not player.has_easier(drill)
            assert easier or answered


def other(drill: Drill) -> Return:
    """The other way back."""
    return Return.SAME if drill.back is Return.MIRROR else Return.MIRROR


@settings(max_examples=30, deadline=None)
@given(players())
def test_every_law_of_plans(player: Player) -> None:
    for check in LAWS:
        check(player)


def test_what_was_not_yet_secure_comes_back_one_step_easier_then_itself() -> None:
    player = Player.beginner(VIOLIN, minutes=20)
    player.play(date(2026, 12, 1), result=Result.SECURE)
    player.play(date(2026, 12, 2), result=Result.SECURE)
    hard = player.play(date(2026, 12, 3), result=Result.SECURE)
    failed = next(row for row in hard if row.role is Role.NEW)
    player.mark(failed.number, Result.NOT_YET, date(2026, 12, 3))

    rungs = player.play(date(2026, 12, 4), result=Result.SECURE)
    ladder = [row for row in rungs if row.role is Role.STEP_BACK]
    assert len(ladder) == 1
    assert len(ladder[0].drill.changes_to(failed.drill)) == 1
    assert ladder[0].item.towards == Towards(number=failed.number)
    assert failed.drill not in {row.drill for row in rungs}

    back = player.plan([date(2026, 12, 5)])[0]
    (again,) = [row for row in back if row.drill == failed.drill]
    assert (again.role, again.number) == (Role.STEP_BACK, failed.number)
    assert again.item.towards is None
    assert again.entry.link == failed.entry.link


def test_on_a_day_with_any_result_what_has_none_was_not_played() -> None:
    player = Player.beginner(VIOLIN)
    first = player.play(date(2026, 12, 1), result=None)
    unplayed = {row.drill for row in first[1:]}
    (hoped,) = player.plan([date(2026, 12, 2)])
    assert not unplayed & {row.drill for row in hoped if row.role.first_time}
    assert {row.role for row in hoped} >= {Role.AGAIN}

    player.mark(first[0].number, Result.SECURE, date(2026, 12, 1))
    (second,) = player.plan([date(2026, 12, 2)])
    assert unplayed & {row.drill for row in second if row.role.first_time}
    numbers = {row.drill: row.number for row in first}
    assert all(numbers.get(row.drill, row.number) == row.number for row in second)


@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA], ids=["violin", "viola"])
@pytest.mark.parametrize("minutes", [10, 25])
def test_a_week_opens_in_three_dimensions_and_has_a_light_day_and_a_test(
    instrument: object, minutes: int
) -> None:
    request = request_for(instrument, minutes=minutes)  # type: ignore[arg-type]
    days = by_day(plan_days(request, dates_from(date(2026, 11, 30), 28)))
    for start in range(0, len(days), 6):
        week = days[start : start + 6]
        opened = [shown(rows[0].drill) for rows in week]
        varied = {name for one in opened for other in opened for name in differing(one, other)}
        characters = [rows[0].day.character for rows in week]

        assert len(varied) >= 3
        assert characters.count(Character.LIGHT) == characters.count(Character.TEST) == 1
        assert week[2][0].day.minutes == 0.6 * minutes
    tests = [rows for rows in days if rows[0].day.character is Character.TEST][1:]
    for rows in tests:
        assert [row for row in rows if row.role is Role.COLD] == rows[:4]


def test_four_secure_weeks_in_a_small_area_meet_every_move() -> None:
    area = area_of(VIOLIN, frozenset({"1st"}), fewest=4)
    plan = plan_days(request_for(VIOLIN, area, minutes=15), dates_from(date(2026, 12, 7), 28))
    met = {move for entry in plan.drills for move in moves_of(entry.drill)}
    hands = {(entry.drill.frame, entry.drill.place) for entry in plan.drills}

    assert len(met) == 20 * len(hands), "20 moves of two fingers over four strings"


@pytest.mark.parametrize(("minutes", "hands"), [(3, 1), (10, 2), (20, 5)])
def test_a_strangers_day_may_be_all_new_with_a_hand_for_every_four_minutes(
    minutes: int, hands: int
) -> None:
    request = replace(
        request_for(VIOLIN, minutes=minutes, practice_days=frozenset()), stranger=True
    )
    rows = rows_of(plan_days(request, [date(2026, 12, 9)]))
    opening = rows[0].drill
    laid = {(row.drill.frame, row.drill.place) for row in rows}
    new = sum(row.minutes for row in rows if row.role is Role.NEW)

    assert len(laid - {(opening.frame, opening.place)}) <= hands
    assert minutes < 20 or (len(laid) == hands + 1 and new > 5.0)
    assert sum(row.minutes for row in rows) == minutes


@pytest.mark.parametrize("minutes", [8, 60])
def test_only_a_very_first_day_may_bring_five_new_minutes_whatever_its_length(minutes: int) -> None:
    monday, request = date(2026, 12, 7), request_for(VIOLIN, minutes=minutes)
    first = Planner(request, monday)
    later = Planner(replace(request, secure=(request.start,)), monday)

    assert first.outline(monday).new_minutes == 5.0
    assert first.outline(date(2026, 12, 9)).new_minutes == 0.0
    assert later.outline(monday).new_minutes == min(0.5 * minutes, 5.0)


def test_a_first_day_that_is_light_brings_nothing_new() -> None:
    player = request_for(VIOLIN, practice_days=frozenset({0, 2, 4}))
    light, test = plan_days(player, [date(2026, 12, 9), date(2026, 12, 11)]).days

    assert light.character is Character.LIGHT
    assert {item.role for item in light.items} == {Role.START, Role.OTHER_WAY}
    assert Role.NEW in {item.role for item in test.items}


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
    for rows in (rows for plan in weeks for rows in by_day(plan)):
        one, other = rows[-2:] if len(rows) > 1 else rows * 2
        twins = one.role.first_time and other.role.first_time
        assert not twins or len(one.drill.changes_to(other.drill)) > 1


def keys(request: Request, dates: list[date]) -> tuple[str, ...]:
    """The drills that are planned."""
    return tuple(entry.key for entry in plan_days(request, dates).drills)


def test_another_seed_or_player_has_other_days() -> None:
    request, week = request_for(VIOLIN), dates_from(date(2026, 12, 7), 6)
    seeds = {keys(replace(request, seed=seed), week) for seed in range(6)}
    players = {keys(replace(request, player=player), week) for player in "ABCDEF"}

    assert len(seeds) > 1
    assert len(players) > 1


def test_stages_go_on_while_new_hands_come() -> None:
    plan = plan_days(request_for(VIOLIN), dates_from(date(2026, 12, 1), 31))

    assert {entry.stage for entry in plan.drills} == {1, 2, 3, 4, 5}


def test_a_quarter_in_the_widest_area_leaves_no_day_empty() -> None:
    area = area_of(VIOLIN, WIDEST, fewest=2)
    dates = dates_from(date(2026, 1, 1), 91, frozenset(range(7)))
    plan = plan_days(request_for(VIOLIN, area, practice_days=frozenset(range(7))), dates)

    assert [day.date for day in plan.days] == dates
    assert len({entry.key for entry in plan.drills}) == len(plan.drills)
    assert dates[-1] - dates[0] == timedelta(90)
    assert all(len(day.items) >= 2 for day in plan.days)


def test_only_what_was_played_is_heard_again_and_the_last_of_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    first, last, unplayed, asked = (
        Drill.parse_key(f"violin-{hand}-strings4321-stage1-low-mirror")
        for hand in ("12-whole-place2", "23-whole-place4", "34-whole-place6", "34-whole-place5")
    )
    knowledge = Planner(request_for(VIOLIN), date(2026, 12, 7)).knowledge
    for drill in (first, last):
        knowledge.stand(drill)
        knowledge.presume(drill, date(2026, 12, 1))
    knowledge.stand(unplayed)

    def heard() -> Drill | None:
        return echoes_of(knowledge).find(asked, play(asked, VIOLIN))

    assert heard() == last
    monkeypatch.setattr("bookgen.planner.month.REMEMBERED", 1)
    assert heard() == last
    del knowledge.printed[last]
    assert heard() == first


@pytest.mark.parametrize(
    "dates",
    [[], [date(2026, 12, 2), date(2026, 12, 1)], [date(2026, 12, 1), date(2026, 12, 1)]],
)
def test_dates_rise_and_are_not_missing(dates: list[date]) -> None:
    with pytest.raises(RefusedError, match="plan-dates"):
        plan_days(request_for(VIOLIN), dates)


def test_a_drill_keeps_its_number_and_its_link_over_months() -> None:
    player = Player.beginner(VIOLIN, minutes=20)
    numbers: dict[int, str] = {}
    links: dict[int, Link] = {}
    named = set()
    for first in (date(2026, 12, 1), date(2027, 1, 1), date(2027, 2, 1)):
        plan = plan_days(player.request, dates_from(first, 28))
        for entry in plan.drills:
            assert numbers.setdefault(entry.number, entry.key) == entry.key
            assert links.setdefault(entry.number, entry.link) == entry.link
        for one in plan.earlier:
            assert numbers[one.number] == one.key
            named.add(one.number)
        assert decode(encode(plan), "plan.json", {"violin": VIOLIN}.get) == plan
        for rows in by_day(plan):
            player.keep(rows, Result.SECURE)

    assert len(set(numbers.values())) == len(numbers)
    assert sorted(numbers) == list(range(1, len(numbers) + 1))
    assert named, "links lead back to earlier months"


@settings(max_examples=12, deadline=None)
@given(players(), st.sets(st.integers(0, 7), min_size=1))
def test_days_that_are_printed_stay_and_the_others_go_around_them(
    player: Player, which: set[int]
) -> None:
    for rows in player.days:
        player.keep(rows, None)
    kept = {on: player.kept[on] for at, on in enumerate(player.dates) if at in which}
    plan = plan_days(player.request, player.dates, kept)

    assert {day.date: day for day in plan.days if day.date in kept} == kept
    links = {record.drill: record.link for record in player.request.records}
    assert all(links.get(entry.drill, entry.link) == entry.link for entry in plan.drills)
    firsts = [row.number for row in rows_of(plan) if row.role.first_time]
    assert len(set(firsts)) == len(firsts), "nothing is new twice"
    assert decode(encode(plan), "plan.json", {"violin": VIOLIN, "viola": VIOLA}.get) == plan


def test_what_was_played_on_a_printed_day_counts_as_it_went() -> None:
    days = [date(2026, 12, day) for day in (1, 2, 3, 4)]
    player = Player.beginner(VIOLIN, minutes=20)
    for on in days[:2]:
        player.play(on, Result.SECURE)
    (failed,) = [row for row in player.play(days[2], None) if row.role is Role.NEW][:1]
    kept = dict(player.kept)
    player.mark(failed.number, Result.NOT_YET, days[2])

    def roles() -> set[Role]:
        plan = plan_days(player.request, days, kept)
        return {item.role for item in plan.days[3].items}

    assert Role.STEP_BACK in roles()
    player.mark(failed.number, Result.SECURE, days[2])
    assert Role.STEP_BACK not in roles()


def test_a_printed_day_of_which_the_link_is_lost_is_bound_without_it() -> None:
    player = Player.beginner(VIOLIN)
    player.play(date(2026, 12, 1), None)
    lost = tuple(replace(record, link=None) for record in player.request.records)
    plan = plan_days(replace(player.request, records=lost), [date(2026, 12, 1)], player.kept)

    assert plan.days == (player.kept[date(2026, 12, 1)],)
    assert decode(encode(plan), "plan.json", {"violin": VIOLIN}.get) == plan


def test_a_printed_day_names_drills_of_the_instrument_that_have_numbers() -> None:
    player = Player.beginner(VIOLIN)
    player.play(date(2026, 12, 1), None)
    unknown, other = Player.beginner(VIOLIN).request, Player.beginner(VIOLA).request
    numbered = replace(other, numbers=player.request.numbered, first_number=99)

    for request, name in ((unknown, "plan-no-number"), (numbered, "plan-drill-instrument")):
        with pytest.raises(RefusedError, match=name):
            plan_days(request, [date(2026, 12, 1)], player.kept)
