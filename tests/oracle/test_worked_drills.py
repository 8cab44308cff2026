"""Drills of cello, double bass and five strings, note by note, beside what was worked out apart."""

from itertools import pairwise

import pytest
from kit.sources import published_words

from bookgen.model.drill import Drill
from bookgen.model.interval import interval_label
from bookgen.model.music import play
from bookgen.model.pitch import Pitch
from bookgen.readers.instrument import read_instrument

WORKED = published_words("worked_drills", "low_lead")


@pytest.mark.published(WORKED.title)
@pytest.mark.parametrize(("key", "worked"), WORKED.values.items())
def test_notes_and_intervals_of_the_way_up_and_back(key: str, worked: str) -> None:
    drill = Drill.parse_key(key)
    notes = [event.notes[0].pitch for event in play(drill, read_instrument(drill.instrument))]
    labels = [interval_label(one, other) for one, other in pairwise(notes)]
    up, back, up_labels, back_labels = (part.split() for part in worked.split(" | "))

    assert [one.midi for one in notes] == [Pitch.parse(name).midi for name in (*up, *back)]
    assert labels[: len(up) - 1] == up_labels
    assert labels[len(up) :] == back_labels
