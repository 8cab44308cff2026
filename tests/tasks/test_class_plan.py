"""The day of a class, for every instrument of the package beside a violin and a double bass."""

from datetime import date

import pytest
from music21 import interval

from bookgen.model.music import play
from bookgen.model.place import place_label
from bookgen.plan.document import drill_of
from bookgen.plan.ensemble import shape
from bookgen.readers.instrument import instrument_keys, read_instrument
from bookgen.tasks.class_members import Seat
from bookgen.tasks.class_plan import class_of, planned_class
from bookgen.tasks.wishes import ForToday

PAIRS = [
    (first, other)
    for first in ("violin", "double_bass")
    for other in instrument_keys()
    if other != first
]


@pytest.mark.published("consonances as music21 10.5 names them; a fourth counts as one")
@pytest.mark.parametrize("keys", PAIRS)
def test_both_have_each_step_in_their_own_fingers_and_it_sounds_well(keys: tuple[str, str]) -> None:
    first, other = map(read_instrument, keys)
    seats = [Seat(one, one.sizes[0].name) for one in (first, other)]
    group = class_of(None, seats, ForToday())
    plan, (part,) = planned_class(group, 10, date(2026, 12, 1), 0)
    assert len(plan.drills) >= 3
    for entry, key in zip(plan.drills, part.keys, strict=True):
        drill = drill_of(key)
        assert shape(drill) == shape(entry.drill)
        assert not other.stretches(drill.frame, drill.place)
        assert place_label(drill, other) == entry.position
        for here, there in zip(play(entry.drill, first), play(drill, other), strict=True):
            for one, two in zip(here.notes, there.notes, strict=True):
                heights = (one.pitch.midi + first.sounding, two.pitch.midi + other.sounding)
                apart = abs(heights[0] - heights[1]) % 12
                assert apart == 5 or interval.Interval(apart).isConsonant(), (key, entry.key)
