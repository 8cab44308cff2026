"""Which open string proves a stopped note."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.shorthand import VIOLA, VIOLIN, pitch, specimen

from bookgen.model.instrument import Instrument
from bookgen.model.interval import interval_label
from bookgen.model.ring import ear_check
from bookgen.model.stop import Note, Stop
from bookgen.model.units import Semitones, StringNumber

BASS = specimen("double_bass")


def stopped(instrument: Instrument, string: int, name: str) -> Note:
    semitones = Semitones(pitch(name).midi - instrument.open_pitch(StringNumber(string)).midi)
    return Note(Stop(StringNumber(string), 1, semitones), pitch(name))


@pytest.mark.published("sympathetic strings and tuning against open strings: common practice")
@pytest.mark.parametrize(
    ("instrument", "string", "name", "open_string", "interval", "rings"),
    [
        (VIOLIN, 4, "D4", 3, "P1", True),
        (VIOLIN, 4, "A3", 2, "P8", True),
        (VIOLIN, 3, "G4", 4, "P8", True),
        (VIOLIN, 3, "A4", 2, "P1", True),
        (VIOLIN, 3, "E4", 1, "P8", True),
        (VIOLIN, 2, "E5", 1, "P1", True),
        (VIOLIN, 1, "A5", 2, "P8", True),
        (VIOLIN, 1, "G5", 4, "P15", True),
        (VIOLIN, 2, "B4", 1, "P4", False),
        (VIOLIN, 3, "D5", 2, "P4", False),
        (VIOLIN, 2, "Bb4", 3, "m6", False),
        (VIOLIN, 2, "C#5", 1, "m3", False),
        (VIOLIN, 2, "F#5", 3, "M10", False),
        (VIOLIN, 1, "G6", 0, "", False),  # the eighth partial of open G rings for nobody
        (VIOLA, 3, "C4", 4, "P8", True),
        (VIOLA, 4, "G3", 3, "P1", True),
        (BASS, 2, "G3", 1, "P1", True),
        (BASS, 1, "A3", 3, "P8", True),
        (BASS, 2, "F3", 3, "m6", False),
    ],
)
def test_the_open_string_that_answers(
    instrument: Instrument, string: int, name: str, open_string: int, interval: str,
    rings: bool,  # noqa: FBT001
) -> None:  # fmt: skip
    check = ear_check(stopped(instrument, string, name), instrument)
    if open_string == 0:
        assert check is None
        return
    assert check is not None
    assert (check.open_string, check.interval, check.rings) == (open_string, interval, rings)


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(("string", "name"), [(2, "D#5"), (4, "G#3"), (4, "C#4"), (1, "A#5")])
def test_where_no_open_string_helps_there_is_no_check(string: int, name: str) -> None:
    assert ear_check(stopped(VIOLIN, string, name), VIOLIN) is None


@given(st.sampled_from([VIOLIN, VIOLA, BASS]), st.integers(1, 4), st.integers(1, 14))
def test_a_check_names_the_interval_there_is_and_a_stopped_string_never_rings(
    instrument: Instrument, string: int, degrees: int
) -> None:
    nut = instrument.open_pitch(StringNumber(string))
    here = nut.up(degrees, Semitones(round(degrees * 12 / 7)))
    check = ear_check(stopped(instrument, string, str(here)), instrument)
    if check is None:
        return
    assert check.interval == interval_label(here, instrument.open_pitch(check.open_string))
    assert check.open_string != string, "the stopped string itself is silent"
    if not check.rings:
        assert abs(check.open_string - string) <= 1
