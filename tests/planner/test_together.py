"""What a class plays together: strings that sound well, and each instrument's own fingers."""

from itertools import combinations, product

import pytest
from music21 import interval, pitch

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.units import Semitones
from bookgen.planner.members import Member, part_of
from bookgen.planner.together import together
from bookgen.readers.hands import positions_of
from bookgen.readers.instrument import instrument_keys, read_instrument


def notes(instrument: Instrument, run: tuple[int, ...]) -> list[pitch.Pitch]:
    """Open strings as they sound, by music21."""
    found = [pitch.Pitch(str(instrument.strings[string - 1])) for string in run]
    return [pitch.Pitch(midi=one.midi + instrument.sounding) for one in found]


def names(*keys: str, fewest: int = 3) -> list[list[str]]:
    """For each choice the names of the strings, instrument by instrument."""
    instruments = [read_instrument(key) for key in keys]
    return [
        [
            "".join(note.name for note in notes(one, run))
            for one, run in zip(instruments, found.runs, strict=True)
        ]
        for found in together(instruments, fewest)
    ]


@pytest.mark.published("common practice, no source")
def test_a_class_plays_on_the_strings_that_all_have() -> None:
    assert names("violin", "viola", "cello") == [["GDA"] * 3]
    assert names("viola", "cello")[0] == ["CGDA", "CGDA"]
    assert names("five_string_violin", "viola", fewest=4) == [["CGDA", "CGDA"]]


@pytest.mark.published("common practice, no source")
def test_fewer_strings_are_common_than_a_drill_crosses_at_least() -> None:
    assert names("violin", "cello", fewest=4) == [["GDA", "GDA"]]


@pytest.mark.published("common practice, no source")
def test_a_bass_plays_thirds_fourths_fifths_and_sixths_below_the_violins() -> None:
    assert names("violin", "double_bass") == [["GDAE", "EADG"]]
    assert names("violin", "viola", "cello", "double_bass") == [["GDA", "GDA", "GDA", "EAD"]]


@pytest.mark.parametrize("keys", [*combinations(instrument_keys(), 2)])
def test_any_two_sound_in_consonances_by_music21(keys: tuple[str, str]) -> None:
    instruments = [read_instrument(key) for key in keys]
    found = together(instruments, 3)
    assert found
    for one in found:
        here, there = (notes(i, run) for i, run in zip(instruments, one.runs, strict=True))
        for two in zip(here, there, strict=True):
            low, high = sorted(two, key=lambda note: note.midi)
            between = interval.Interval(low, high)
            perfect_fourth = between.semitones % 12 == 5
            assert perfect_fourth or between.isConsonant(), (keys, one)


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("pair", "spacing", "place", "key", "fingers"),
    [
        ("12", "whole", 2, "cello", (1, 3)),
        ("12", "half", 2, "cello", (1, 2)),
        ("23", "half", 4, "cello", (3, 4)),
        ("23", "whole", 3, "cello", (2, 4)),
        ("13", "minor-third", 2, "cello", (1, 4)),
        ("12", "whole", 2, "double_bass", (1, 4)),
        ("12", "half", 2, "double_bass", (1, 2)),
        ("12", "whole", 2, "double_bass_134", (1, 4)),
        ("12", "half", 2, "double_bass_134", (1, 3)),
        ("12", "whole", 2, "viola", (1, 2)),
    ],
)
def test_the_spacing_of_a_violin_has_the_fingers_of_another(
    pair: str, spacing: str, place: int, key: str, fingers: tuple[int, ...]
) -> None:
    instrument = read_instrument(key)
    drill = Drill.parse_key(f"violin-{pair}-{spacing}-place{place}-strings432-stage3-high-same")
    member = Member(instrument, ("1st",))
    part = part_of(drill, member, instrument.string_numbers()[:3], "1st")
    assert part is not None
    assert part.frame.fingers == fingers
    assert (part.stage, part.back, part.place) == (3, drill.back, place)
    assert part.lead is drill.lead


def test_a_part_never_stretches_and_stops_the_same_places() -> None:
    for key, (pair, spacing), place in product(
        instrument_keys(), [("12", "half"), ("34", "whole"), ("24", "major-third")], range(1, 13)
    ):
        drill = Drill.parse_key(f"violin-{pair}-{spacing}-place{place}-strings43-stage1-low-same")
        instrument = read_instrument(key)
        member = Member(instrument, positions_of(instrument))
        part = part_of(drill, member, instrument.string_numbers()[-2:], "1st")
        if part is not None:
            assert part.refusal(instrument) is None
            assert not instrument.stretches(part.frame, Semitones(place))
            assert part.frame.span == drill.frame.span
            assert part.place == place
