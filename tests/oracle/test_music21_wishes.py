"""Which drills a wish for an interval holds, by music21, over drills of violin and viola."""

from collections.abc import Iterator
from functools import cache
from itertools import combinations, pairwise
from random import Random

import pytest
from kit.shorthand import VIOLA, VIOLIN, hands
from music21 import interval as m21_interval
from music21 import pitch as m21_pitch

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.music import play, turn_of
from bookgen.model.pitch import Pitch
from bookgen.plan.wished import Wished
from bookgen.planner.area import Area, string_sets
from bookgen.planner.pool import pool

PAIRS = list(combinations((1, 2, 3, 4), 2))
STRUCK = 5
SHARE = 0.25
"""Of all drills, by a fixed seed."""


@cache
def their_label(one: Pitch, other: Pitch) -> str:
    notes = (m21_pitch.Pitch(str(pitch).replace("b", "-")) for pitch in (one, other))
    low, high = sorted(notes, key=lambda pitch: (pitch.diatonicNoteNum, pitch.ps))
    return str(m21_interval.Interval(low, high).name)


def every_drill(instrument: Instrument) -> Iterator[Drill]:
    frames = tuple(hand for fingers in PAIRS for hand in hands(instrument, fingers))
    return pool(instrument, Area(frames, None, string_sets(instrument, 2), 5, stretches=True))


def sounding(drill: Drill, instrument: Instrument) -> tuple[set[str], set[str]]:
    """What is heard from note to note on the way up and on the way back; and together."""
    events = play(drill, instrument)
    turn = turn_of(events)
    alone, together = set(), set()
    for half in (events[:turn], events[turn:]):
        for event in half:
            if len(event.notes) > 1:
                together.add(their_label(event.notes[0].pitch, event.notes[1].pitch))
        for before, after in pairwise(half):
            if not after.notes[-1].held:
                alone.add(their_label(before.notes[-1].pitch, after.notes[-1].pitch))
    return alone | together, together


@pytest.mark.published("music21 10.5, interval names")
@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA], ids=lambda one: one.key)
def test_a_wish_holds_the_drills_in_which_music21_hears_the_interval(
    instrument: Instrument,
) -> None:
    dice = Random(7)
    some = (drill for drill in every_drill(instrument) if dice.random() < SHARE)
    heard = {drill: sounding(drill, instrument) for drill in some}
    labels = {label for every, _ in heard.values() for label in every}
    wrong = []
    for drill, (every, together) in heard.items():
        for label in labels:
            own = Wished(interval=label).holds(drill, instrument)
            struck = Wished(interval=label, double_stops=True).holds(drill, instrument)
            right = label in every, drill.stage == STRUCK and label in together
            if (own, struck) != right:
                wrong.append((drill.key, label))

    assert len(heard) > 5_000 * SHARE
    assert {"P4", "M6", "m6", "m2", "M2"} <= labels
    assert wrong == []
