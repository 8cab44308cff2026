"""A drill's staff: the text is kept exactly, and laws hold for what it says.

Look at the engraved page before you keep a new text in tests/golden.
"""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from kit.bench import STYLE
from kit.drills import VIOLA, VIOLIN, drill_of

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.pitch import Pitch
from bookgen.notation.clef import clef_of
from bookgen.notation.drill_score import DrillScore, Written
from bookgen.notation.drill_staff import drill_music
from bookgen.notation.style import Style
from bookgen.words.marks import Marks

GOLDEN = Path(__file__).parents[1] / "golden"
KEYS = [
    "12-whole-place2-strings4321-stage1-low-same",
    "12-half-place2-strings4321-stage2-high-mirror",
    "12-whole-place2-strings4321-stage4-low-same",
    "12-whole-place2-strings4321-stage5-low-mirror",
    "1234-half.half.half-place1-strings4321-stage3-order1324-same",
    "34-half-place20-strings21-stage1-low-same",
]


def staff(
    drill: Drill,
    written: Written = Written.BOTH,
    style: Style = STYLE,
    instrument: Instrument = VIOLIN,
) -> str:
    """The text of a drill's staff."""
    clef = clef_of(play(drill, instrument), instrument)
    return drill_music(DrillScore(drill, 178.0, written), instrument, style, clef)


@pytest.mark.parametrize("key", KEYS)
def test_the_staff_is_written_as_before(key: str) -> None:
    kept = (GOLDEN / f"violin-{key}.ly").read_text(encoding="utf-8")

    assert staff(drill_of(key)) == kept.rstrip("\n")


@pytest.mark.parametrize("key", KEYS)
def test_every_note_of_the_drill_is_on_the_staff(key: str) -> None:
    drill = drill_of(key)
    sounding = [note.pitch for event in play(drill, VIOLIN) for note in event.notes]

    assert sorted(map(str, pitches_in(staff(drill)))) == sorted(map(str, sounding))


@pytest.mark.parametrize("key", KEYS)
def test_the_turn_is_one_double_bar_and_the_end_one_final_bar(key: str) -> None:
    text = staff(drill_of(key))

    assert text.count(r'\bar "||"') == 1
    assert text.count(r'\bar "|."') == 1


@pytest.mark.parametrize("key", KEYS)
def test_the_way_up_alone_is_half_the_notes_and_ends_with_the_double_bar(key: str) -> None:
    drill = drill_of(key)
    text = staff(drill, Written.UP)

    assert len(pitches_in(text)) * 2 == len(pitches_in(staff(drill)))
    assert text.count(r'\bar "||"') == 1
    assert r'\bar "|."' not in text


@pytest.mark.parametrize("key", KEYS)
def test_the_way_back_begins_a_second_line_where_that_is_asked(key: str) -> None:
    two, one = staff(drill_of(key), Written.TWO_LINES).split(), staff(drill_of(key)).split()

    assert (two.count(r"\break"), one.count(r"\break")) == (1, 0)
    assert one.count(r"\atLineEnd") == 0
    assert two.count(r"\atLineEnd") == (0 if "stage5" in key or "mirror" in key else 1)


@pytest.mark.published("common practice, no source")
def test_one_bow_takes_a_note_to_where_the_next_one_joins_it() -> None:
    """Each pair on two strings is one slur; the note that is held in it is tied, and no other."""
    drill = drill_of("12-whole-place2-strings4321-stage4-low-same")
    text = staff(drill)
    pairs = sum(len(event.notes) > 1 for event in play(drill, VIOLIN))

    for sign in (r"[_^] ~", r"[_^] \(", r"\)"):
        assert len(re.findall(rf"^\s*{sign}$", text, re.MULTILINE)) == pairs


def test_intervals_and_rings_can_be_left_out_for_the_ear_to_find() -> None:
    drill = drill_of("12-whole-place2-strings4321-stage1-low-same")
    words = {r"\crossing", r"\whole"}
    silent, deaf = replace(STYLE, intervals=False), replace(STYLE, rings=False)

    assert {*words, r"\ringing"} <= set(staff(drill).split())
    assert not words & set(staff(drill, style=silent).split())
    assert r"\ringing" not in staff(drill, style=deaf)


def test_the_marks_are_words_of_a_language() -> None:
    drill = drill_of("13-minor-third-place2-strings43-stage1-low-mirror")
    german = Marks(qualities={"m": "k{number}", "M": "g{number}", "P": "r{number}"})
    other = replace(STYLE, marks=german)

    assert set(re.findall(r'\\(?:wider|crossing) "(\w+)"', staff(drill, style=other))) == {
        "k3",
        "g3",
    }


def test_a_viola_drill_stands_in_its_clef() -> None:
    drill = drill_of("12-whole-place2-strings4321-stage1-low-same", VIOLA)

    assert r'\clef "alto"' in staff(drill, instrument=VIOLA)


@pytest.mark.parametrize("written", [Written.BOTH, Written.TWO_LINES])
def test_an_octave_sign_begins_anew_on_each_line(written: Written) -> None:
    text = staff(drill_of("1234-whole.half.whole-place17-strings4321-stage1-low-same"), written)
    signs = re.findall(r"\\ottava (\d)", text)

    assert signs == ["1", "0"] * (2 if written is Written.TWO_LINES else 1)


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
    drill = drill_of(KEYS[0])
    text = staff(drill)

    assert len(pitches_in(text.replace("fs'4", "s4", 1))) == len(play(drill, VIOLIN)) - 1
