"""What the ear can prove, against outside arithmetic."""

from math import log2

import pytest
from kit.shorthand import VIOLIN, pitch

from bookgen.model.drill import Drill
from bookgen.model.ear import TONES, easiest, pure_stops, sung, tone_name
from bookgen.model.interval import Interval
from bookgen.model.music import play
from bookgen.model.pitch import Pitch
from bookgen.model.tuning import CONSONANT, just_ratio
from bookgen.model.units import Semitones


def of(key: str) -> list[tuple[str, str, int]]:
    """The pure double stops of a drill: interval, difference tone, hertz."""
    events = play(Drill.parse_key(f"violin-{key}"), VIOLIN)
    stops = pure_stops(events, VIOLIN)
    return [(stop.label, str(stop.tone), round(stop.tone_hz)) for stop in stops]


def test_first_fingers_in_first_position_ring_with_the_open_string_an_octave_above() -> None:
    events = play(Drill.parse_key("violin-12-whole-place2-strings43-stage1-low-same"), VIOLIN)
    check = easiest((note for event in events for note in event.notes), VIOLIN)

    assert check is not None
    assert (str(check.note.pitch), check.open_string, check.interval) == ("A3", 2, "P8")


def test_augmented_fourths_are_no_pure_double_stops() -> None:
    assert [label for label, *_ in of("12-half-place2-strings4321-stage5-low-same")] == ["m6"]


def test_figures_are_told_once_for_each_kind() -> None:
    told = of("12-whole-place2-strings4321-stage5-low-same")

    assert told == [("P4", "B2", 123), ("M6", "E4", 329)], "A3 to F sharp 4 is wider, for B4's sake"


@pytest.mark.published("Helmholtz, On the Sensations of Tone, chapter VII: f2 - f1")
@pytest.mark.parametrize("label", sorted(CONSONANT))
def test_the_difference_tone_is_named_as_it_sounds(label: str) -> None:
    low = Pitch.parse("A4")
    named = tone_name(low, label, Semitones(0))

    hz = low.hz * float(just_ratio(label)) - low.hz
    assert abs(1200 * log2(hz / named.hz)) < 20, "nearest pitch"
    assert low.midi - named.midi == Interval.parse(TONES[label]).semitones


def test_a_sixth_over_open_d_gives_open_g() -> None:
    assert str(tone_name(pitch("D4"), "M6", Semitones(0))) == "G3"


@pytest.mark.parametrize(
    ("key", "label"),
    [
        ("12-half-place1-strings43-stage1-low-same", "m2"),
        ("23-half-place3-strings43-stage1-low-same", "m3"),
        ("23-whole-place3-strings43-stage1-high-same", "P4"),
    ],
)
def test_a_first_note_is_sung_from_its_own_open_string(key: str, label: str) -> None:
    first = play(Drill.parse_key(f"violin-{key}"), VIOLIN)[0].notes[0]

    assert sung(first) == label
