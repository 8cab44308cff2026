"""Positions as the trade names them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.refusing import refused
from kit.shorthand import VIOLA, VIOLIN, pitch
from kit.sources import published, published_rows

from bookgen.model.instrument import Instrument
from bookgen.model.position import LetterRule, TableRule, position_code
from bookgen.model.units import Semitones
from bookgen.readers.instrument import instrument_keys, read_instrument

VIOLIN_PLACES = published_rows("positions", "violin")
CELLO = published("positions", "cello_grove")
CELLO_SCHOOL = published("positions", "cello_school")
BASS = published("positions", "bass")
FINGERS = (1, 2, 3, 4)
G_STRING = {1: "Ab3 G#3", 2: "A3", 3: "Bb3", 4: "B3", 5: "C4", 6: "C#4 Db4", 7: "D4", 8: "Eb4"}
G_STRING |= {9: "E4", 10: "F4", 11: "F#4 Gb4", 12: "G4"}


@pytest.mark.published(VIOLIN_PLACES.title)
@pytest.mark.parametrize(
    ("position", "place"),
    [(name, int(place)) for name, row in VIOLIN_PLACES.values.items() for place in row],
)
def test_where_finger_1_stands_in_each_position_on_the_violins_g_string(
    position: str, place: int
) -> None:
    found = {
        LetterRule().label(1, Semitones(place), pitch(name), pitch("G3"))
        for name in G_STRING[place].split()
    }

    assert position in found
    assert found == {name for name, row in VIOLIN_PLACES.values.items() if place in row}


@pytest.mark.published(VIOLIN_PLACES.title)
@pytest.mark.parametrize(
    ("open_string", "finger", "name", "position"),
    [
        ("G3", 1, "A3", "1st"),
        ("G3", 1, "C4", "3rd"),
        ("G3", 2, "B3", "1st"),
        ("G3", 2, "Bb3", "1st"),
        ("G3", 3, "C4", "1st"),
        ("G3", 4, "D4", "1st"),
        ("G3", 4, "F4", "3rd"),
        ("G3", 1, "G#3", "half"),
        ("G3", 2, "A3", "half"),
        ("E5", 1, "F5", "1st"),
        ("E5", 1, "A5", "3rd"),
        ("E5", 1, "B5", "4th"),
        ("A4", 1, "E5", "4th"),
        ("A4", 1, "A5", "7th"),
        ("A4", 1, "B5", "8th"),
        ("C3", 1, "D3", "1st"),
        ("C3", 1, "F3", "3rd"),
    ],
)
def test_letters_from_the_open_string_less_the_finger(
    open_string: str, finger: int, name: str, position: str
) -> None:
    here, nut = pitch(name), pitch(open_string)
    place = Semitones(here.midi - nut.midi)

    assert LetterRule().label(finger, place, here, nut) == position


@given(st.sampled_from([VIOLIN, VIOLA]), st.integers(0, 3), st.integers(1, 14), st.integers(1, 4))
def test_the_next_finger_on_the_next_letter_is_in_the_same_position(
    instrument: Instrument, string: int, degrees: int, finger: int
) -> None:
    nut = instrument.strings[string]
    here = nut.up(degrees, Semitones(round(degrees * 12 / 7)))
    rule = LetterRule()

    label = rule.label(1, Semitones(2), here, nut)
    stopped = here.up(finger - 1, Semitones(round((finger - 1) * 12 / 7)))
    assert rule.label(finger, Semitones(2), stopped, nut) == label == position_code(degrees)


def label(rule: TableRule, finger: int, place: int) -> str:
    return rule.label(finger, Semitones(place), pitch("A3"), pitch("A3"))


@pytest.mark.published(BASS.title)
@pytest.mark.parametrize("key", [key for key in instrument_keys() if "bass" in key])
def test_double_basses_of_the_package_say_the_same_in_figures(key: str) -> None:
    rule = read_instrument(key).position_rule
    figures = {"I": "1st", "II": "2nd", "III": "3rd", "IV": "4th", "V": "5th"}
    figures |= {"VI": "6th", "VII": "7th"}

    assert isinstance(rule, TableRule)
    assert {label(rule, 1, int(place)): place for place in BASS.values.values()} == {
        "-".join(figures.get(part, part) for part in name.split("\N{EN DASH}")): place
        for name, place in BASS.values.items()
    }
    middle = 3 if key == "double_bass_134" else 2
    fourth = 5 if key == "double_bass_four_finger" else 4
    assert label(rule, middle, 3) == label(rule, 4, fourth) == "1st"


@pytest.mark.published(CELLO.title)
@pytest.mark.parametrize(("name", "place"), CELLO.values.items())
def test_cello_positions_by_finger_1_after_grove(name: str, place: float) -> None:
    rule = read_instrument("cello").position_rule

    assert isinstance(rule, TableRule)
    assert [label(rule, finger, int(place) + finger - 1) for finger in FINGERS] == [name] * 4
    assert read_instrument("five_string_cello").position_rule == rule


@pytest.mark.published(CELLO_SCHOOL.title)
@pytest.mark.parametrize(("name", "place"), CELLO_SCHOOL.values.items())
def test_another_school_is_another_table(name: str, place: float) -> None:
    rule = TableRule(tuple(CELLO_SCHOOL.values), (0, 1, 2, 3))

    assert label(rule, 1, int(place)) == name


def test_the_last_label_names_every_place_above() -> None:
    rule = TableRule(("half", "1st", "thumb"), (0, 1, 2, 3))

    assert [label(rule, 1, place) for place in (1, 2, 3, 9)] == ["half", "1st", "thumb", "thumb"]


@pytest.mark.parametrize(
    ("labels", "fingers", "reason"),
    [
        ((), (0, 1, 2, 3), "needs labels"),
        (("half",), (), "are not the semitones of four fingers"),
        (("half",), (0, 1, 2), "are not the semitones of four fingers"),
        (("half",), (1, 2, 3, 4), "are not the semitones of four fingers"),
        (("half",), (0, 2, 1, 3), "are not the semitones of four fingers"),
    ],
)
def test_a_table_that_leaves_out_names_is_refused(
    labels: tuple[str, ...], fingers: tuple[int, ...], reason: str
) -> None:
    with refused(reason):
        TableRule(labels, fingers)


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("number", "text"),
    [(1, "1st"), (2, "2nd"), (3, "3rd"), (4, "4th"), (11, "11th"), (112, "112th"), (22, "22nd")],
)
def test_codes(number: int, text: str) -> None:
    assert position_code(number) == text
