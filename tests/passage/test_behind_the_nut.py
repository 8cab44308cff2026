"""Notes of a string that runs on behind the nut: passages have them, no hand stops them."""

import pytest
from kit.fingered import solved, stops
from music21 import pitch

from bookgen.readers.instrument import read_instrument
from bookgen.words.speech import ENGLISH

LOW_C = read_instrument("double_bass_c_extension")
BASS = read_instrument("double_bass")


@pytest.mark.published("bass with C extension: IV down to C2 as written; open strings as the bass")
def test_the_lowest_string_goes_down_to_c_and_the_strings_stay() -> None:
    assert LOW_C.strings == BASS.strings
    assert str(LOW_C.lowest) == "C2"
    assert LOW_C.sounding_pitch(LOW_C.lowest).midi == pitch.Pitch("C1").midi
    assert [LOW_C.behind_nut(string) for string in LOW_C.string_numbers()] == [4, 0, 0, 0]


def test_a_passage_has_its_notes_on_the_lowest_string_without_a_finger() -> None:
    best = solved("E2 D2 C2 D2 E2 F2", LOW_C).best

    assert stops(best).startswith("IV0 IV0 IV0 IV0 IV0")
    assert [one.stops[0].semitones for one in best.placed if one.stops[0]][:5] == [0, -2, -4, -2, 0]
    assert not best.unplayable


def test_without_the_extension_they_lie_below_the_lowest_string() -> None:
    best = solved("E2 D2", BASS).best

    assert [ENGLISH.line(told) for _, told in best.unplayable] == [
        "D2 lies below the lowest string, E2"
    ]
