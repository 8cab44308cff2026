"""Days for which something is wished: what is secure of it first, then one new."""

from dataclasses import replace
from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st
from kit.planning import area_of, request_for
from kit.players import MONDAY, Player, Row, players
from kit.shorthand import VIOLIN

from bookgen.model.drill import Drill
from bookgen.model.finger import THUMB
from bookgen.model.spacing import Frame, Spacing
from bookgen.plan.document import Character, Role
from bookgen.plan.record import Result
from bookgen.plan.wished import Wished
from bookgen.planner.area import Area, string_sets
from bookgen.planner.leads import leads_of
from bookgen.planner.pool import pool
from bookgen.planner.request import Request
from bookgen.readers.instrument import read_instrument

CELLO = read_instrument("cello")
LAWS = settings(max_examples=15, deadline=None)
LOW = area_of(VIOLIN, frozenset({"1st", "2nd"}))
WISHES = (
    Wished(stage=5),
    Wished(position="2nd"),
    Wished(hands=((2, 3),)),
    Wished(interval="P4"),
    Wished(interval="P4", double_stops=True),
    Wished(stage=3, hands=((1, 2), (3, 4)), position="1st"),
)


def knowing(stage: int, *, minutes: int = 20) -> Request:
    """A player who knows 1st position on all strings up to a stage."""
    request = request_for(VIOLIN, LOW, minutes=minutes, practice_days=frozenset())
    first = replace(LOW, positions=frozenset({"1st"}), highest_stage=stage)
    secure = tuple(drill for drill in pool(VIOLIN, first) if len(drill.strings) == 4)
    return replace(request, secure=secure, start=secure[0])


def day_of(request: Request, wished: Wished, offset: int = 0) -> list[Row]:
    player = Player(replace(request, wished=wished))
    (rows,) = player.plan([MONDAY + timedelta(offset)])
    return rows


def held(rows: list[Row], wished: Wished) -> list[bool]:
    return [wished.holds(row.drill, VIOLIN) for row in rows]


def firsts(rows: list[Row]) -> list[Row]:
    return [row for row in rows if row.role.first_time]


def test_every_secure_one_comes_before_the_one_that_is_new() -> None:
    wished = Wished(interval="P4")
    rows = day_of(knowing(3), wished)

    assert all(held(rows, wished))
    assert [row.role for row in rows] == [Role.START, *[Role.AGAIN] * (len(rows) - 2), Role.NEW]
    assert len({row.drill.frame for row in rows[:-1]}) == 3, "each hand that has it comes by turns"


def test_of_double_stops_only_what_is_struck_together() -> None:
    wished = Wished(double_stops=True, interval="P4")
    rows = day_of(knowing(5), wished)

    assert {row.drill.stage for row in rows[:-1]} == {5}
    assert all(held(rows[:-1], wished))


def test_nothing_moves_on_before_it_is_secure() -> None:
    request, wished = knowing(2), Wished(stage=5)
    rows = day_of(request, wished)

    assert not any(held(rows, wished)), "stage 5 is three nights away"
    (new,) = firsts(rows)
    assert new.drill.stage == 3
    assert replace(new.drill, stage=2) in request.secure
    assert new is rows[-1]


def test_day_by_day_it_comes_nearer_while_what_is_played_is_secure() -> None:
    wished = Wished(stage=5)
    player = Player(replace(knowing(2), wished=wished))
    reached = [
        max(row.drill.stage for row in player.play(MONDAY + timedelta(offset), Result.SECURE))
        for offset in range(3)
    ]

    assert reached == [3, 4, 5]


def test_what_was_not_yet_secure_is_come_back_to_before_anything_new() -> None:
    player = Player(replace(knowing(3), wished=Wished(stage=4)))
    first = player.play(MONDAY, Result.SECURE)
    player.mark(first[-1].number, Result.NOT_YET, MONDAY)
    (later,) = player.plan([MONDAY + timedelta(1)])

    assert first[-1].drill.stage == 4
    assert later[-1].role is Role.STEP_BACK
    assert later[-1].item.towards is not None
    assert later[-1].item.towards.number == first[-1].number


def test_who_knows_nothing_begins_and_takes_a_step() -> None:
    request = request_for(VIOLIN, LOW, practice_days=frozenset())
    rows = day_of(request, Wished(position="2nd"))

    assert [row.drill for row in rows][:1] == [request.start]
    assert len(firsts(rows)) == 1


def test_a_stranger_goes_the_whole_way_that_the_day_has_room_for() -> None:
    request = request_for(VIOLIN, LOW, minutes=20, practice_days=frozenset())
    rows = day_of(replace(request, stranger=True), Wished(stage=5))

    assert [row.drill.stage for row in rows[:5]] == [1, 2, 3, 4, 5]
    assert [row.item.only_if for row in rows[:5]] == [None, *(row.number for row in rows[:4])]


def test_a_wished_day_is_an_ordinary_one_and_says_what_was_wished() -> None:
    wished = Wished(hands=((2, 3),))
    week = replace(knowing(3, minutes=10), practice_days=frozenset(range(7)))
    for offset in range(7):
        rows = day_of(week, wished, offset)
        day = rows[0].day
        assert (day.character, day.wish) == (Character.ORDINARY, wished)
        assert day.minutes == sum(row.minutes for row in rows) <= 10


def steps(request: Request, wished: Wished) -> list[tuple[int, ...]]:
    found = leads_of(replace(request, wished=wished), MONDAY)
    return [tuple(drill.stage for drill in lead.steps) for lead in found]


def test_what_is_not_open_is_told_with_the_way_there() -> None:
    request = knowing(2)

    assert steps(request, Wished(stage=3)) == [], "it is the one that is new today"
    assert steps(request, Wished(stage=5)) == [(3, 4, 5)]
    assert steps(request, Wished(stage=4, hands=((1, 2), (3, 4)))) == [(3, 4), (3, 4)]
    (lead,) = leads_of(replace(request, wished=Wished(stage=2, position="2nd")), MONDAY)
    assert [drill.stage for drill in lead.steps] == [1, 2]


def test_where_the_area_has_no_way_none_is_told() -> None:
    """From 3 and 4, a half step, to thumb and 3, a fourth: two things change at once."""
    frames = (Frame((3, 4), (Spacing.HALF,)), Frame((THUMB, 3), (Spacing.FOURTH,)))
    apart = Area(frames, frozenset({"1st", "thumb"}), string_sets(CELLO, 3), 5)
    request = request_for(CELLO, apart, practice_days=frozenset())

    (lead,) = leads_of(replace(request, wished=Wished(hands=((THUMB, 3),))), MONDAY)
    assert lead.steps == ()


@LAWS
@given(players(), st.sampled_from(WISHES))
def test_laws_of_a_wished_day(player: Player, wished: Wished) -> None:
    date = player.dates[0]
    instrument = player.request.instrument
    player.request = replace(player.request, wished=wished)
    (rows,) = player.plan([date])
    secure = player.secure_before(date)

    known = [row.drill for row in rows if not row.role.first_time]
    news = [row for row in rows if row.role.first_time or row.role is Role.STEP_BACK]
    assert len(news) <= 1, "one step at most"
    assert news == rows[len(rows) - len(news) :], "and it comes last"
    assert sum(row.minutes for row in rows) == rows[0].day.minutes <= player.request.minutes
    assert len({row.drill for row in rows}) == len(rows)

    def leads(drill: Drill) -> bool:
        near = (other for other in player.pool if len(drill.changes_to(other)) == 1)
        return any(wished.holds(other, instrument) for other in near)

    for drill in known[1:]:
        assert wished.holds(drill, instrument) or leads(drill) or drill == rows[-1].drill
    assert known[0] in secure or known[0] in player.beginnings()
