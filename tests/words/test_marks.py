"""How intervals and steps are marked."""

import pytest
from kit.refusing import refused

from bookgen.errors import RefusedError
from bookgen.model.pitch import Pitch
from bookgen.words.marks import ENGLISH_MARKS, Marks, marks_of
from bookgen.words.speech import ENGLISH


@pytest.mark.parametrize(
    ("label", "printed"),
    [
        ("A4", "aug4"),
        ("d5", "dim5"),
        ("A6", "aug6"),
        ("AA4", "2aug4"),
        ("dd5", "2dim5"),
        ("d12", "dim12"),
        ("M6", "M6"),
        ("m6", "m6"),
        ("P4", "P4"),
        ("P8", "P8"),
    ],
)
def test_no_printed_interval_can_be_read_as_a_note(label: str, printed: str) -> None:
    assert ENGLISH_MARKS.interval(label) == printed
    with refused("is no pitch name"):
        Pitch.parse(printed)


@pytest.mark.parametrize("text", ["", "P", "#(exit)", "P4 ", "X4", "P0", "A"])
def test_only_an_interval_is_marked(text: str) -> None:
    with refused("is no interval"):
        ENGLISH_MARKS.interval(text)


@pytest.mark.parametrize("mark", ["", '"', "H #(exit)", "a\nb", "\\markup", "x" * 13])
def test_a_mark_is_a_short_word_in_any_language(mark: str) -> None:
    with pytest.raises(RefusedError):
        Marks(half=mark)


def test_the_source_language_has_the_marks_of_the_catalogue() -> None:
    assert marks_of(ENGLISH) == ENGLISH_MARKS
