"""A chord as MusicXML has it, written anew from low to high."""

from xml.etree.ElementTree import Element, tostring

import pytest
from scores import element, music

from bookgen.readers.score_chord import written_chord


def group(words: str) -> list[Element]:
    return list(element(f"<bar>{music(words)}</bar>"))


def pitches(notes: list[Element]) -> list[str]:
    return ["".join(inner.text or "" for inner in note.iterfind("pitch/*")) for note in notes]


def test_from_low_to_high_with_all_but_the_first_in_the_chord() -> None:
    upside_down = group("G3+E4+C5")[::-1]
    written, problems = written_chord(upside_down, 4)

    assert pitches(written) == ["G03", "E04", "C05"]
    assert [note.find("chord") is not None for note in written] == [False, True, True]
    assert problems == []


def test_a_unison_on_two_strings_stays_two_notes() -> None:
    assert pitches(written_chord(group("A4=II+A4=III4"), 4)[0]) == ["A04", "A04"]


def test_a_rest_is_no_chord() -> None:
    assert written_chord(group("r"), 4) == ([], [])


@pytest.mark.parametrize(("semitones", "kept"), [(0, 1), (24, 0), (-130, 0)])
def test_a_note_that_would_sound_outside_of_all_octaves(semitones: int, kept: int) -> None:
    written, problems = written_chord(group("G7"), 4, semitones + 4)

    assert (len(written), len(problems)) == (kept, 1 - kept)


def test_ties_are_kept_and_nothing_else() -> None:
    (note,) = group("~D4")
    note.append(element("<lyric><text>la</text></lyric>"))
    note.append(element("<tie type='let-ring'/>"))

    ((written,), _) = written_chord([note], 4)

    assert tostring(written) == (
        b"<note><pitch><step>D</step><alter>0</alter><octave>4</octave></pitch>"
        b'<tie type="stop" /></note>'
    )
