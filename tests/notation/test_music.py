"""A drill's staff: the text is kept exactly, and laws hold for what it says.

Look at the engraved page before you keep a new text in tests/golden.
"""

import re
from pathlib import Path

import pytest
from drills import VIOLA, VIOLIN, entry

from bookgen.model.pitch import Pitch
from bookgen.notation.music import lilypond_music, lilypond_sound

GOLDEN = Path(__file__).parents[1] / "golden"
KEYS = [
    "12-whole-place2-strings4321-stage1-low-same",
    "12-half-place2-strings4321-stage2-high-mirror",
    "12-whole-place2-strings4321-stage4-low-same",
    "12-whole-place2-strings4321-stage5-low-mirror",
    "1234-half.half.half-place1-strings4321-stage3-order1324-same",
    "34-half-place20-strings21-stage1-low-same",
]


@pytest.mark.parametrize("key", KEYS)
def test_the_staff_is_written_as_before(key: str) -> None:
    kept = (GOLDEN / f"violin-{key}.ly").read_text(encoding="utf-8")

    assert lilypond_music(entry(key), VIOLIN) == kept.rstrip("\n")


@pytest.mark.parametrize("key", KEYS)
def test_every_note_of_the_drill_is_on_the_staff(key: str) -> None:
    drill = entry(key)
    written = [note.pitch for event in drill.events for note in event.notes]

    assert sorted(map(str, pitches_in(lilypond_music(drill, VIOLIN)))) == sorted(map(str, written))


@pytest.mark.parametrize("key", KEYS)
def test_the_turn_is_one_double_bar_and_the_end_one_final_bar(key: str) -> None:
    text = lilypond_music(entry(key), VIOLIN)

    assert text.count(r'\bar "||"') == 1
    assert text.count(r'\bar "|."') == 1


def test_notes_are_tied_once_for_each_event_that_holds_them() -> None:
    drill = entry("12-whole-place2-strings4321-stage4-low-same")
    held = sum(note.held for event in drill.events for note in event.notes)

    assert len(re.findall(r"^\s*[_^] ~$", lilypond_music(drill, VIOLIN), re.MULTILINE)) == held


def test_intervals_can_be_left_out_for_the_ear_to_find() -> None:
    drill = entry("12-whole-place2-strings4321-stage1-low-same")
    words = {r"\crossing", r"\whole"}

    assert words <= set(lilypond_music(drill, VIOLIN).split())
    assert not words & set(lilypond_music(drill, VIOLIN, intervals=False).split())


def test_a_long_drill_turns_back_on_a_new_line() -> None:
    long = lilypond_music(entry("123-whole.half-place2-strings432-stage1-low-same"), VIOLIN)
    short = lilypond_music(entry(KEYS[0]), VIOLIN)

    assert long.count("\\break") == long.count("\\atLineEnd") == 1
    assert "\\atLineEnd \\wider" in long
    assert short.count("\\break") == short.count("\\atLineEnd") == 0


def test_a_viola_drill_stands_in_its_clef() -> None:
    drill = entry("12-whole-place2-strings4321-stage1-low-same", instrument=VIOLA)

    assert r'\clef "alto"' in lilypond_music(drill, VIOLA)


def test_what_is_heard_has_no_labels() -> None:
    drill = entry("12-whole-place2-strings4321-stage4-low-same")
    text = lilypond_sound(drill, VIOLIN)

    assert pitches_in(text) == pitches_in(lilypond_music(drill, VIOLIN))
    assert not {r"\atFinger", r"\markup", r"\together", r"\tweak"} & set(text.split())


def pitches_in(text: str) -> list[Pitch]:
    """Pitches of notes and chords, as LilyPond's English names tell them."""
    found = re.findall(
        r"^\s*<?([a-g])(ss|s|ff|f|)([',]*)!?(?:4|2|\b)?(?= |$)|(?<= )([a-g])(ss|s|ff|f|)([',]*)!?>",
        text,
        re.MULTILINE,
    )
    return [pitch(*(groups[:3] if groups[0] else groups[3:])) for groups in found]


def pitch(letter: str, signs: str, marks: str) -> Pitch:
    octave = 3 + marks.count("'") - marks.count(",")
    return Pitch(letter.upper(), signs.count("s") - signs.count("f"), octave)


def test_the_reader_of_these_tests_sees_a_missing_note() -> None:
    drill = entry(KEYS[0])
    text = lilypond_music(drill, VIOLIN)

    assert len(pitches_in(text.replace("fs'4", "s4", 1))) == len(drill.events) - 1
