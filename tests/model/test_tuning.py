"""Just and Pythagorean tuning against the handbooks."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.refusing import refused
from kit.sources import published, published_words

from bookgen.model.geometry import nut_distance_mm
from bookgen.model.interval import Interval
from bookgen.model.pitch import Pitch
from bookgen.model.tuning import (
    CONSONANT,
    cents,
    difference_tone,
    just_deviation,
    just_ratio,
    pythagorean_ratio,
)
from bookgen.model.units import Hertz

JUST_RATIO = published_words("just_intervals", "ratio")
JUST_CENTS = published("just_intervals", "cents")
OTHER_RATIO = published_words("just_intervals", "other_ratio")
OTHER_CENTS = published("just_intervals", "other_cents")
PYTHAGOREAN_RATIO = published_words("pythagorean_intervals", "ratio")
PYTHAGOREAN_CENTS = published("pythagorean_intervals", "cents")
COMMA_RATIO = published_words("commas", "ratio")
COMMA_CENTS = published("commas", "cents")
TONES = published("tuned_double_stops", "difference")
SPOT = published("tuned_double_stops", "spot")
TEMPERED = published("tuned_double_stops", "tempered")


@pytest.mark.published(JUST_RATIO.title)
@pytest.mark.parametrize("label", JUST_RATIO.values)
def test_just_ratio_and_its_cents(label: str) -> None:
    assert just_ratio(label) == Fraction(JUST_RATIO.values[label])
    assert cents(just_ratio(label)) == pytest.approx(JUST_CENTS.values[label], abs=0.0006)


@pytest.mark.published(OTHER_RATIO.title)
@pytest.mark.parametrize("name", OTHER_RATIO.values)
def test_cents_of_the_other_tones_and_sevenths(name: str) -> None:
    ratio = Fraction(OTHER_RATIO.values[name])

    assert cents(ratio) == pytest.approx(OTHER_CENTS.values[name], abs=0.0006)


@pytest.mark.published(PYTHAGOREAN_RATIO.title)
@pytest.mark.parametrize("label", PYTHAGOREAN_RATIO.values)
def test_pythagorean_ratio_and_its_cents(label: str) -> None:
    ratio = pythagorean_ratio(label)

    assert ratio == Fraction(PYTHAGOREAN_RATIO.values[label])
    assert cents(ratio) == pytest.approx(PYTHAGOREAN_CENTS.values[label], abs=0.0006)


@pytest.mark.published(COMMA_RATIO.title)
@pytest.mark.parametrize(
    ("name", "ratio"),
    [
        ("syntonic", pythagorean_ratio("M3") / just_ratio("M3")),
        ("syntonic", pythagorean_ratio("M6") / just_ratio("M6")),
        ("syntonic", just_ratio("m3") / pythagorean_ratio("m3")),
        ("syntonic", just_ratio("m6") / pythagorean_ratio("m6")),
        ("pythagorean", pythagorean_ratio("P5") ** 12 / just_ratio("P8") ** 7),
        ("pythagorean", pythagorean_ratio("A1") / pythagorean_ratio("m2")),
        ("schisma", just_ratio("M3") * pythagorean_ratio("P5") ** 8 / just_ratio("P8") ** 5),
        ("diesis", just_ratio("P8") / just_ratio("M3") ** 3),
    ],
)
def test_a_comma_is_what_two_tunings_leave_between_them(name: str, ratio: Fraction) -> None:
    assert ratio == Fraction(COMMA_RATIO.values[name])
    assert cents(ratio) == pytest.approx(COMMA_CENTS.values[name], abs=0.0006)


@given(st.sampled_from(sorted(JUST_RATIO.values)), st.integers(1, 3))
def test_an_octave_doubles_the_ratio(label: str, octaves: int) -> None:
    interval = Interval.parse(label)
    quality = label.rstrip("0123456789")
    wider = f"{quality}{interval.degrees + 1 + 7 * octaves}"

    assert just_ratio(wider) == just_ratio(label) * 2**octaves
    assert pythagorean_ratio(wider) == pythagorean_ratio(label) * 2**octaves
    assert just_deviation(wider) == pytest.approx(just_deviation(label))


@pytest.mark.parametrize("label", ["A1", "d4", "d7", "A6", "d8", "A8", "AA2", "dd8", "d15"])
def test_what_is_only_spelling_is_not_tuned(label: str) -> None:
    with refused(f"{label} is a matter of spelling"):
        just_ratio(label)


def test_what_is_no_interval_has_no_ratio() -> None:
    with refused("'M5' is no interval"):
        just_ratio("M5")
    with refused("'M5' is no interval"):
        pythagorean_ratio("M5")


def test_consonances_are_all_tuned() -> None:
    assert all(just_ratio(label).denominator <= 5 for label in CONSONANT)


@pytest.mark.published(TONES.title)
@pytest.mark.parametrize(("two", "tone"), TONES.values.items())
def test_difference_tone(two: str, tone: float) -> None:
    low, high = (Hertz(float(hz)) for hz in two.split())

    assert difference_tone(low, high) == tone == difference_tone(high, low)


@pytest.mark.published(TONES.title)
def test_a_pure_sixth_over_open_d_sounds_open_g_below() -> None:
    d4 = Pitch.parse("D4").hz
    pure_b4 = Hertz(d4 * float(just_ratio("M6")))
    pure_g3 = d4 / float(just_ratio("P5"))

    assert difference_tone(d4, pure_b4) == pytest.approx(pure_g3)
    assert difference_tone(d4, pure_b4) == pytest.approx(Pitch.parse("G3").hz, abs=0.3)


@pytest.mark.published(TEMPERED.title)
@pytest.mark.parametrize("label", ["M3", "m3"])
def test_a_tempered_third_puts_the_difference_tone_far_off(label: str) -> None:
    low = Pitch.parse("A4")
    interval = Interval.parse(label)
    high = low.up(interval.degrees, interval.semitones)
    pure = low.hz * float(just_ratio(label) - 1)
    tempered = difference_tone(low.hz, high.hz)
    apart = cents(Fraction(tempered) / Fraction(pure))

    assert abs(apart) == pytest.approx(TEMPERED.values[label], abs=0.05)


@pytest.mark.published(SPOT.title)
def test_one_finger_has_two_places_for_two_open_strings() -> None:
    a4 = 440.0
    d4 = a4 / float(just_ratio("P5"))
    g3 = d4 / float(just_ratio("P5"))
    under_a = a4 / float(just_ratio("P4"))
    over_g = g3 * float(just_ratio("M6"))
    length = SPOT.values["string_length_mm"]
    places = [length * (1.0 - d4 / hz) for hz in (over_g, under_a)]
    height = cents(Fraction(under_a) / Fraction(d4)) / 100.0

    assert under_a == pytest.approx(SPOT.values["under_a_hz"], abs=0.005)
    assert over_g == pytest.approx(SPOT.values["over_g_hz"], abs=0.005)
    assert places[1] - places[0] == pytest.approx(SPOT.values["apart_mm"], abs=0.005)
    assert nut_distance_mm(length, height) == pytest.approx(places[1])
    assert cents(Fraction(under_a) / Fraction(over_g)) == pytest.approx(21.506, abs=0.0006)
