"""The strip of the fingerboard in the head."""

import pytest
from paper import Recorder, violin

from bookgen.binder.map import draw_strip, strip_of
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber


@pytest.mark.published("common practice, no source")
def test_the_octave_lies_at_two_thirds_of_two_octaves() -> None:
    strip = strip_of([], violin(), 60.8)

    assert strip.x(24) == pytest.approx(60.0)
    assert strip.x(12) == pytest.approx(40.0)
    assert strip.x(0) == 0


def test_every_stop_of_the_day_has_a_dot_on_its_string() -> None:
    paper = Recorder()
    stops = [
        Stop(StringNumber(1), 1, Semitones(2)),
        Stop(StringNumber(4), 1, Semitones(2)),
        Stop(StringNumber(4), 2, Semitones(4)),
    ]
    draw_strip(paper, strip_of(stops, violin(), 60.0), 100.0, 50.0, 9.0)

    assert len(paper.spots) == 3
    assert len({y for _, y in paper.spots}) == 2
    assert {"nut", "octave"} == set(paper.words)
    assert all(100 <= x <= 160 for x, _ in paper.spots)
