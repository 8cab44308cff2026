"""What can sound at one moment."""

from fractions import Fraction

import pytest
from kit.refusing import refused
from kit.shorthand import pitch

from bookgen.model.event import Event
from bookgen.model.stop import Note, Stop
from bookgen.model.units import Semitones, StringNumber


def note(string: int) -> Note:
    return Note(Stop(StringNumber(string), 1, Semitones(2)), pitch("A4"))


@pytest.mark.parametrize("count", [0, 3])
def test_one_note_or_two(count: int) -> None:
    with refused(f"{count} notes cannot sound together"):
        Event((note(1), note(2), note(3))[:count], Fraction(1, 4), None, crosses=False)


@pytest.mark.parametrize(("one", "other"), [(1, 1), (4, 2), (1, 3)])
def test_only_neighbouring_strings_sound_together(one: int, other: int) -> None:
    with refused(f"strings {one} and {other} are no neighbours"):
        Event((note(one), note(other)), Fraction(1, 2), None, crosses=False)
