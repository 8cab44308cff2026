"""A month spares the hand: what tires it is short, never first, never twice running, and led to."""

from datetime import date
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from kit.planning import dates_from, request_for

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.finger import THUMB
from bookgen.model.hand import Extension
from bookgen.model.place import place_label
from bookgen.plan.document import Plan
from bookgen.planner.area import Area, string_sets
from bookgen.planner.month import plan_days
from bookgen.readers.instrument import read_instrument
from bookgen.readers.studio.area import Cover, cover_of
from bookgen.readers.studio.tables import PlayerTable, StartTable

if TYPE_CHECKING:
    from bookgen.model.spacing import Frame

FIRST = date(2026, 12, 1)
NECK = 7
"""The last place of finger 1 in the extended hand of the cello (cello teachers)."""

CELLO = PlayerTable(
    positions=("1st", "2nd", "3rd", "4th"),
    pairs=("12", "13", "24", "14"),
    spacings=("half", "whole", "minor-third", "major-third"),
    extensions=True,
)
FRAMES = PlayerTable(
    positions=("1st", "2½", "4th"), hands=("12", "13", "24", "124"), extensions=True
)
FIFTH = PlayerTable(positions=("1st", "5th"), pairs=("12", "13", "23"), extensions=True)
THUMBS = PlayerTable(positions=("1st", "7th", "thumb"), hands=("12", "13", "t1", "t12"))
BASS = PlayerTable(positions=("half", "1st", "2nd"))
PLAYERS = {
    "cello pairs": ("cello", CELLO),
    "cello frames": ("cello", FRAMES),
    "cello 5th": ("cello", FIFTH),
    "cello thumb": ("cello", THUMBS),
    "bass": ("double_bass", BASS),
}
LOW = {"bass half": ("double_bass", PlayerTable(positions=("half",)))}


@cache
def months(name: str, seed: int = 0) -> Plan:
    """Two months of a player of whom the log says nothing but the plan itself."""
    key, table = (PLAYERS | LOW)[name]
    instrument = read_instrument(key)
    cover = cover_of(table, StartTable(), instrument, "here")
    assert isinstance(cover, Cover), cover
    area = Area(
        tuple(cover.frames(instrument)),
        frozenset(cover.positions),
        string_sets(instrument, 3),
        cover.highest_stage,
        stretches=cover.extensions,
    )
    request = request_for(instrument, area, minutes=15, seed=seed)
    return plan_days(request, dates_from(FIRST, 60))


def opened(drill: Drill) -> bool:
    """The extended hand: fingers 1 and 2, or 1 and what stands above 2, a half step too far.

    The oracle: closed 1-2 half, 1-3 whole, 1-4 a minor third (hands, worked tables).
    """
    frame = drill.frame
    if drill.instrument != "cello" or frame.fingers[0] != 1 or drill.place > NECK:
        return False
    closed = {2: 1, 3: 2, 4: 3}[frame.fingers[1]]
    return frame.spacings[0].semitones == closed + 1


def tires(drill: Drill) -> bool:
    """An extension of the cello, half position of the bass, or the thumb on the string."""
    if THUMB in drill.frame.fingers:
        return True
    if drill.instrument == "cello":
        return opened(drill)
    above = {1: 0, 2: 1, 3: 2, 4: 2}[drill.frame.fingers[0]]
    return drill.place - above <= 1


@pytest.mark.parametrize("seed", [0, 7])
@pytest.mark.parametrize("name", PLAYERS)
def test_what_tires_is_short_never_first_and_never_twice_running(name: str, seed: int) -> None:
    plan = months(name, seed)
    met = 0
    for day in plan.days:
        drills = [plan.by_number[item.number].drill for item in day.items]
        hard = [tires(drill) for drill in drills]

        assert not hard[0]
        assert not any(one and other for one, other in pairwise(hard))
        assert all(
            item.minutes <= 1 for item, is_hard in zip(day.items, hard, strict=True) if is_hard
        )
        met += sum(hard)
    assert met


@pytest.mark.parametrize("name", [name for name in PLAYERS if name.startswith("cello")])
def test_an_extension_comes_after_the_closed_hand_and_after_itself_higher_up(name: str) -> None:
    plan, instrument = months(name), read_instrument("cello")
    closed: set[str] = set()
    places: dict[Frame, list[int]] = {}
    for day in plan.days:
        for drill in (plan.by_number[item.number].drill for item in day.items):
            label, met = place_label(drill, instrument), places.setdefault(drill.frame, [])
            if not opened(drill):
                closed.add(label)
            elif drill.place not in met:
                assert label in closed
                assert drill.place == highest(drill, plan) or max(met) > drill.place
                met.append(drill.place)


def highest(drill: Drill, plan: Plan) -> int:
    """The highest place at which a player's months have this extension."""
    every = (entry.drill for entry in plan.drills)
    return max(one.place for one in every if one.frame == drill.frame and opened(one))


def test_back_and_forward_are_two_hands_of_one_position() -> None:
    instrument = read_instrument("cello")
    forward = Drill.parse_key("cello-12-whole-place2-strings4321-stage1-low-same")
    back = Drill.parse_key("cello-12-whole-back-place1-strings4321-stage1-low-same")

    assert Drill.parse_key(back.key) == back
    assert place_label(back, instrument) == place_label(forward, instrument) == "1st"
    assert instrument.extension(forward.frame, forward.place) is Extension.FORWARD
    assert instrument.extension(back.frame, back.place) is Extension.BACK
    assert back.changes_to(forward) == (Dimension.SPACING,)
    closed = Drill.parse_key("cello-12-half-place2-strings4321-stage1-low-same")
    assert closed.changes_to(back) == closed.changes_to(forward) == (Dimension.SPACING,)


def test_both_extensions_come_in_a_month_that_asks_for_them_and_none_in_another() -> None:
    found = [entry.drill for entry in months("cello pairs").drills if opened(entry.drill)]

    assert {drill.frame.back for drill in found} == {False, True}
    assert not any(opened(entry.drill) for entry in months("cello thumb").drills)


def test_the_thumb_has_a_minute_at_most() -> None:
    plan = months("cello thumb")
    thumbs = {one.number for one in plan.drills if THUMB in one.drill.frame.fingers}
    given = [item.minutes for day in plan.days for item in day.items if item.number in thumbs]

    assert given
    assert max(given) <= 1


def test_extended_back_needs_a_half_step_of_string_below_the_closed_hand() -> None:
    instrument = read_instrument("cello")
    places = [
        place
        for place in range(13)
        if Drill.parse_key(f"cello-12-whole-back-place{place}-strings21-stage1-low-same").refusal(
            instrument
        )
        is None
    ]

    assert places == [1, 2, 3, 4, 5, 6]


def test_where_all_of_an_area_tires_a_day_is_full_of_it_all_the_same() -> None:
    plan = months("bass half")

    assert all(len(day.items) > 2 for day in plan.days)
    assert all(item.minutes <= 1 for day in plan.days for item in day.items)
