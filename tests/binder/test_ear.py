"""What the ear can prove, against outside arithmetic."""

from math import log2

import pytest
from paper import a_drill, violin

from bookgen.binder.ear import TONES, away, hear, tone_name
from bookgen.model.interval import Interval
from bookgen.model.pitch import Pitch
from bookgen.model.tuning import CONSONANT, just_deviation, just_ratio
from bookgen.model.units import Cents, Semitones


def test_first_fingers_in_first_position_ring_with_the_open_string_an_octave_above() -> None:
    ear = hear(a_drill().events, violin())

    told = [(p.spot.pitch, p.way, p.open_pitch, p.open_string, p.relation) for p in ear.proofs]
    assert told == [
        ("A3", "rings", "A", "II", "an octave above"),
        ("E4", "rings", "E", "I", "an octave above"),
    ]
    assert ear.pairs == ()


def test_double_stops_are_tuned_against_a_proven_note() -> None:
    ear = hear(a_drill("12-whole-place2-strings4321-stage5-low-mirror").events, violin())

    assert ear.anchor is not None
    assert ear.tuned is not None
    assert ear.anchor.spot == ear.tuned.stays
    assert (ear.tuned.stays.pitch, ear.tuned.joins.pitch) == ("A3", "F♯4")
    assert ear.pure_names == ("major sixth", "perfect fourth")
    assert ear.rough_names == ()


def test_augmented_fourths_are_no_pure_double_stops() -> None:
    ear = hear(a_drill("12-half-place2-strings4321-stage5-low-same").events, violin())

    assert ear.rough_names == ("augmented fourth",)
    assert ear.pure_names == ("minor sixth",)


@pytest.mark.published("Helmholtz, On the Sensations of Tone, chapter VII: f2 - f1")
@pytest.mark.parametrize("label", sorted(CONSONANT))
def test_the_difference_tone_is_named_as_it_sounds(label: str) -> None:
    low = Pitch.parse("A4")
    named = tone_name(low, label, Semitones(0))

    hz = low.hz * float(just_ratio(label)) - low.hz
    cents = 1200 * log2(hz / named.hz)
    assert abs(cents) < 20, "nearest pitch"
    assert low.midi - named.midi == Interval.parse(TONES[label]).semitones


def test_a_sixth_over_open_d_gives_open_g() -> None:
    assert str(tone_name(Pitch.parse("D4"), "M6", Semitones(0))) == "G3"


def test_pure_sixths_lie_16_cents_narrower_and_14_wider() -> None:
    assert away(just_deviation("M6")) == "16 cents narrower"
    assert away(just_deviation("m6")) == "14 cents wider"
    assert away(Cents(-2.0)) == "2 cents narrower"


def test_figures_are_told_once_for_each_kind() -> None:
    ear = hear(a_drill("12-whole-place2-strings4321-stage5-low-same").events, violin())

    assert [(f.pair.name, f.tone, f.tone_hz) for f in ear.figures] == [
        ("major sixth", "D3", "147"),
        ("perfect fourth", "B2", "123"),
    ]


@pytest.mark.parametrize(
    ("key", "told"),
    [
        ("12-half-place1-strings43-stage1-low-same", ("G", "IV", "a half step above")),
        ("23-half-place3-strings43-stage1-low-same", ("G", "IV", "a minor third above")),
        ("23-whole-place3-strings43-stage1-high-same", ("G", "IV", "a perfect fourth above")),
    ],
)
def test_a_first_note_is_sung_from_its_own_open_string(key: str, told: tuple[str, ...]) -> None:
    start = hear(a_drill(key).events, violin()).start

    assert (start.open_pitch, start.open_string, start.relation) == told
