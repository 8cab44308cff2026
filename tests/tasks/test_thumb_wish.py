"""Thumb position as a wish for a day: the thumb is in the hands, and is spared."""

from datetime import date, timedelta
from itertools import pairwise

import msgspec
import pytest
from kit.players import Player

from bookgen.model.drill import Drill
from bookgen.model.finger import THUMB
from bookgen.model.place import place_label
from bookgen.plan.document import Plan
from bookgen.plan.record import Result
from bookgen.plan.wished import Wished
from bookgen.planner.month import plan_days
from bookgen.readers.instrument import read_instrument
from bookgen.readers.studio.file import parse_studio
from bookgen.tasks.roster import NOBODY
from bookgen.tasks.wish import Wish, asked_of
from bookgen.tasks.wishes import ForToday

TUESDAY = date(2026, 12, 1)
THUMBED = ("cello", "five_string_cello", "double_bass", "double_bass_four_finger")
HARMONIC = 12
ROSTER = """
[players.Ines]
instrument = "cello"
positions = ["7th", "thumb"]
[[players.Ines.known]]
positions = ["thumb"]
pairs = ["12", "t1"]
stage = 2
"""


def sheet(instrument: str, today: ForToday, *, seed: int = 0, minutes: int = 10) -> Plan:
    """The first sheet of somebody of whom nothing is known."""
    asked = asked_of(NOBODY, Wish(instrument, minutes=str(minutes), seed=seed, today=today))
    return plan_days(asked.request(TUESDAY), [TUESDAY])


def drills_of(plan: Plan) -> list[Drill]:
    """In the order of play."""
    return [plan.by_number[item.number].drill for day in plan.days for item in day.items]


def thumbed(drills: list[Drill]) -> list[bool]:
    """Whether the thumb plays."""
    return [THUMB in drill.frame.fingers for drill in drills]


@pytest.mark.published("the thumb first on the octave harmonic, a minute, then rest; no source")
@pytest.mark.parametrize("minutes", [10, 30])
@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("instrument", THUMBED)
def test_thumb_position_begins_over_the_octave_harmonic_and_brings_the_thumb_next(
    instrument: str, seed: int, minutes: int
) -> None:
    plan = sheet(instrument, ForToday(position="thumb"), seed=seed, minutes=minutes)
    drills = drills_of(plan)
    thumbs = thumbed(drills)

    assert {place_label(drill, read_instrument(instrument)) for drill in drills} == {"thumb"}
    assert thumbs[:2] == [False, True]
    assert drills[1].place == HARMONIC
    assert 2 <= sum(thumbs) <= 3
    assert not any(one and other for one, other in pairwise(thumbs))
    assert all(
        item.minutes <= 1 for item, thumb in zip(plan.days[0].items, thumbs, strict=True) if thumb
    )


@pytest.mark.parametrize("pair", ["t1", "t2", "t3"])
@pytest.mark.parametrize("instrument", ["cello", "double_bass"])
def test_whatever_pair_has_the_thumb_it_is_there_or_on_the_way(instrument: str, pair: str) -> None:
    drills = drills_of(sheet(instrument, ForToday(pairs=(pair,)), minutes=20))

    assert any(thumbed(drills))


def test_a_plan_that_wishes_for_the_thumb_is_read_back() -> None:
    wished = Wished(position="thumb", hands=((THUMB, 1),))

    assert msgspec.json.decode(msgspec.json.encode(wished), type=Wished) == wished


def test_who_knows_the_thumb_has_it_each_day_and_one_new_with_rest_between() -> None:
    ines = parse_studio(ROSTER, "studio.toml").players["Ines"]
    asked = asked_of(ines, Wish(minutes="15", today=ForToday(position="thumb")))
    player = Player(asked.request(TUESDAY))
    for offset in range(5):
        rows = player.play(TUESDAY + timedelta(offset), Result.SECURE)
        thumbs = thumbed([row.drill for row in rows])

        assert not thumbs[0]
        assert sum(thumbs) >= 2, "one that is secure and the new one"
        assert thumbs[-1], "the new one, at the end"
        assert not any(one and other for one, other in pairwise(thumbs))
