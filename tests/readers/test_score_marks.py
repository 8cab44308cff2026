"""Fingers and strings of a note, and what this hand cannot use of them."""

from xml.etree.ElementTree import Element, tostring

import pytest
from scores import element

from bookgen.model.units import StringNumber
from bookgen.readers.score_marks import Marks


def of(inside: str) -> tuple[Marks, list[str]]:
    note = element(f"<note><notations><technical>{inside}</technical></notations></note>")
    marks, unused = Marks.of(note, strings=4)
    return marks, [problem for problem, _ in unused]


def test_what_is_fixed() -> None:
    assert of("<fingering>3</fingering><string>2</string>") == (
        Marks(finger=3, string=StringNumber(2)),
        [],
    )
    assert of("<open-string/>") == (Marks(finger=0), [])
    assert of("<harmonic/>") == (Marks(harmonic=True), [])
    assert of("<harmonic><natural/><touching-pitch/></harmonic>") == (Marks(harmonic=True), [])
    assert of("<up-bow/>") == (Marks(), [])


@pytest.mark.parametrize(
    ("pitch", "touched"),
    [("base-pitch", False), ("touching-pitch", True), ("sounding-pitch", True)],
)
def test_an_artificial_harmonic(pitch: str, touched: bool) -> None:  # noqa: FBT001
    marks, _ = of(f"<harmonic><artificial/><{pitch}/></harmonic>")

    assert (marks.artificial, marks.touched, marks.harmonic) == (True, touched, False)


@pytest.mark.parametrize("word", ["5", "T", "p", "", "1-2", "2" * 99])
def test_a_finger_that_there_is_not(word: str) -> None:
    marks, problems = of(f"<fingering>{word}</fingering>")

    assert marks == Marks()
    assert len(problems) == 1
    assert len(problems[0]) < 100


@pytest.mark.parametrize("word", ["0", "5", "IV", ""])
def test_a_string_that_there_is_not(word: str) -> None:
    assert of(f"<string>{word}</string>") == (
        Marks(),
        [f"there is no string {word!r}; it is left out"],
    )


def test_the_first_ordinary_finger_counts() -> None:
    many = "<fingering substitution='yes'>1</fingering><fingering>2</fingering>"
    assert of(f"{many}<fingering>3</fingering>")[0].finger == 2


def test_marks_are_handed_on_with_the_place_of_their_note() -> None:
    note = Element("note")
    Marks(finger=2, string=StringNumber(3), harmonic=True).write(note, 1)

    assert tostring(note) == (
        b'<note><notations><technical><fingering id="1">2</fingering><string id="1">3</string>'
        b'<fingering id="1">o</fingering></technical></notations></note>'
    )


def test_a_note_without_marks_stays_as_it_is() -> None:
    note = Element("note")
    Marks().write(note, 0)

    assert len(note) == 0
