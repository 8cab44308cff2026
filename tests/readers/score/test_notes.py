"""A chord as MusicXML has it: pitches from low to high, ties, fingers and strings."""

from xml.etree.ElementTree import Element

import pytest
from kit.scores import element, music

from bookgen.readers.score.notes import chord_of
from bookgen.readers.score.text_sound import note_text


def group(words: str) -> list[Element]:
    return list(element(f"<bar>{music(words)}</bar>"))


def read(group: list[Element], semitones: int = 0) -> tuple[str, list[str]]:
    """The chord as a word of a typed passage, and what could not be used."""
    notes, problems = chord_of(group, 4, semitones)
    return "+".join(map(note_text, notes)), [str(problem) for problem, _ in problems]


def marked(inside: str) -> tuple[str, list[str]]:
    """A D4 with marks, as it is read."""
    marks = f"<notations><technical>{inside}</technical></notations></note>"
    return read(list(element(f"<bar>{music('D4').replace('</note>', marks)}</bar>")))


def test_from_low_to_high() -> None:
    assert read(group("G3+E4+C5")[::-1]) == ("G3+E4+C5", [])


def test_a_unison_on_two_strings_stays_two_notes() -> None:
    assert read(group("A4=II+A4=III4")) == ("A4=II+A4=III4", [])


def test_a_rest_is_no_chord() -> None:
    assert read(group("r")) == ("", [])


@pytest.mark.parametrize(("semitones", "kept"), [(0, 1), (24, 0), (-130, 0)])
def test_a_note_that_would_sound_outside_of_all_octaves(semitones: int, kept: int) -> None:
    found, problems = read(group("G7"), semitones + 4)

    assert (found, len(problems)) == ("G7" if kept else "", 1 - kept)


@pytest.mark.parametrize(
    ("ties", "word"),
    [
        ("<tie type='stop'/>", "~D4"),
        ("<tie type='stop'/><tie type='start'/>", "~D4"),
        ("<tie type='start'/>", "D4"),
        ("<tie type='let-ring'/>", "D4"),
        ("<lyric><text>la</text></lyric>", "D4"),
    ],
)
def test_a_tie_that_ends_here_goes_on_from_the_note_before(ties: str, word: str) -> None:
    (note,) = group("D4")
    note.extend(element(f"<note>{ties}</note>"))

    assert read([note]) == (word, [])


def test_a_bent_name_is_written_otherwise() -> None:
    (note,) = group("D##4")
    for alter in note.iter("alter"):
        alter.text = "3"

    assert read([note]) == ("F4", [])


@pytest.mark.parametrize(
    ("inside", "word"),
    [
        ("<fingering>3</fingering><string>2</string>", "D4=II3"),
        ("<open-string/>", "D4=0"),
        ("<harmonic/>", "D4=o"),
        ("<harmonic><natural/><touching-pitch/></harmonic>", "D4=o"),
        ("<up-bow/>", "D4"),
        ("<fingering substitution='yes'>1</fingering><fingering>2</fingering>", "D4=2"),
        ("<fingering>2</fingering><fingering>3</fingering>", "D4=2"),
    ],
)
def test_what_is_fixed(inside: str, word: str) -> None:
    assert marked(inside) == (word, [])


@pytest.mark.parametrize(
    ("pitch", "word"), [("base-pitch", "D4"), ("touching-pitch", ""), ("sounding-pitch", "")]
)
def test_an_artificial_harmonic_is_its_stopped_note(pitch: str, word: str) -> None:
    assert marked(f"<harmonic><artificial/><{pitch}/></harmonic>") == (
        word,
        ["an artificial harmonic is read as its stopped note"],
    )


@pytest.mark.parametrize("word", ["5", "T", "p", "", "1-2", "2" * 99])
def test_a_finger_that_there_is_not(word: str) -> None:
    found, (problem,) = marked(f"<fingering>{word}</fingering>")

    assert found == "D4"
    assert len(problem) < 100


@pytest.mark.parametrize("word", ["0", "5", "IV", ""])
def test_a_string_that_there_is_not(word: str) -> None:
    assert marked(f"<string>{word}</string>") == (
        "D4",
        [f"there is no string {word!r}; it is left out"],
    )
