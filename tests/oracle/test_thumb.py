"""The thumb on the string: what is heard, and its sign in files, read back by music21 and by us."""

from fractions import Fraction

import pytest
from kit.bench import STYLE
from kit.drills import VIOLIN, drill_of
from kit.fingered import solved, stops
from kit.recitals import recital
from kit.refusing import refused
from music21 import articulations, converter

from bookgen.model.drill import Drill
from bookgen.model.finger import THUMB, fingers_in, signs_of
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.place import place_label
from bookgen.notation.drill_score import DrillScore, Written
from bookgen.notation.drill_staff import drill_music
from bookgen.notation.musicxml_drills import drills_musicxml
from bookgen.readers.instrument import read_instrument
from bookgen.readers.score.text_sound import read_sound, sound_text

CELLO = read_instrument("cello")
BASS = read_instrument("double_bass")


HANDS = {
    CELLO: ["whole.whole.half", "whole.half.whole", "half.whole.whole"],
    BASS: ["half.half.half", "whole.half.half", "whole.whole.half", "whole.half.whole"],
}
"""Thumb and fingers 1 to 3: on the cello from memory, on the bass by an Italian bass teacher, after
Petracchi, his steps from memory."""


@pytest.mark.published("thumb hands of cello and bass: a bass teacher after Petracchi, from memory")
@pytest.mark.parametrize(
    ("instrument", "steps"),
    [(instrument, steps) for instrument, hands in HANDS.items() for steps in hands],
    ids=str,
)
def test_the_usual_hands_lie_on_the_octave_harmonic_under_thumb_position(
    instrument: Instrument, steps: str
) -> None:
    drill = drill_of(f"t123-{steps}-place12-strings4321-stage1-low-mirror", instrument)

    assert drill.refusal(instrument) is None
    assert place_label(drill, instrument) == "thumb"
    assert Drill.parse_key(drill.key) == drill
    assert drill.frame.fingers == fingers_in("t123") == (THUMB, 1, 2, 3)


@pytest.mark.parametrize("steps", ["whole.whole.whole", "half.whole.whole"])
def test_a_major_third_from_1_to_3_is_a_hand_of_the_cello_and_none_of_the_bass(steps: str) -> None:
    key = f"t123-{steps}-place12-strings4321-stage1-low-mirror"

    assert drill_of(key, CELLO).refusal(CELLO) is None
    assert drill_of(key, BASS).refusal(BASS) is not None


@pytest.mark.published("thumb to 3 a fourth: an octave over two strings; computed")
@pytest.mark.parametrize(
    ("instrument", "key", "heard"),
    [
        (CELLO, "t3-fourth", "P8"),
        (CELLO, "t1-whole", "M6"),
        (CELLO, "13-minor-third", "m7"),
        (BASS, "t1-whole", "P5"),
        (BASS, "t3-fourth", "m7"),
    ],
)
def test_double_stops_over_two_strings(instrument: Instrument, key: str, heard: str) -> None:
    place = 14 if key.startswith("13") else 12
    drill = drill_of(f"{key}-place{place}-strings21-stage5-low-same", instrument)

    assert play(drill, instrument)[0].within == heard


@pytest.mark.parametrize("place", [1, 7, 11])
def test_below_the_octave_the_thumb_stays_behind_the_neck(place: int) -> None:
    drill = drill_of(f"t1-whole-place{place}-strings21-stage1-low-same", CELLO)

    assert drill.refusal(CELLO) is not None


def test_an_instrument_without_the_thumb_says_so() -> None:
    drill = drill_of("t1-whole-place12-strings21-stage1-low-same", VIOLIN)

    with refused("the violin hand has no thumb on the string at 12 semitones"):
        play(drill, VIOLIN)


@pytest.mark.published("MusicXML 4.0 (W3C), as music21 10.5 reads it")
@pytest.mark.parametrize("stage", [1, 4, 5])
def test_music21_reads_the_sign_where_the_thumb_plays(stage: int) -> None:
    drill = drill_of(f"t3-fourth-place12-strings4321-stage{stage}-low-same", CELLO)
    text = drills_musicxml(recital(drill, on=CELLO), CELLO).decode()
    score = converter.parseData(text, format="musicxml")
    marks = [mark for sound in score.recurse().notes for mark in sound.articulations]
    struck = [note for event in play(drill, CELLO) for note in event.notes if not note.held]
    thumbs = [mark for mark in marks if isinstance(mark, articulations.StringThumbPosition)]
    fingers = [mark for mark in marks if isinstance(mark, articulations.Fingering)]

    assert text.count("<thumb-position") >= sum(note.stop.finger == THUMB for note in struck) > 0
    assert len(thumbs) == text.count("<thumb-position")
    assert {mark.fingerNumber for mark in fingers} == {3}


def test_the_engraving_has_the_sign_for_the_thumb_and_figures_for_fingers() -> None:
    drill = drill_of("t3-fourth-place12-strings21-stage5-low-same", CELLO)
    text = drill_music(DrillScore(drill, 100.0, Written.BOTH), CELLO, STYLE, "treble")

    assert r"^\atFinger 0 \thumbSign" in text
    assert r"^\atFinger 1 3" in text
    assert "-1" not in text


@pytest.mark.parametrize("word", ["A4=It", "D4=t", "A4=IIt+D5=I3:2"])
def test_a_typed_passage_writes_t(word: str) -> None:
    sound = read_sound(word, Fraction(0), Fraction(1, 4))

    assert THUMB in {note.finger for note in sound.notes}
    assert sound_text(sound, Fraction(1, 4)) == word


def test_signs_of_fingers_read_back() -> None:
    assert signs_of(fingers_in("t1234")) == "t1234"


# --- passages: thumb position only where it is asked for, or nothing else goes --------------------


def test_a_passage_stays_on_the_neck_as_long_as_it_can() -> None:
    best = solved("A3 B3 C4 D4 E4 F4 G4 A4", CELLO).best

    assert "t" not in stops(best)
    assert all(
        CELLO.position_rule.at(1, one.hand.place) != "thumb" for one in best.placed if one.hand
    )


def test_a_thumb_over_a_note_is_kept_and_its_neighbours_lie_over_it() -> None:
    best = solved("A4:t B4 C#5 D5", CELLO).best

    assert stops(best) == "It I1 I2 I3"
    assert {one.hand.place for one in best.placed if one.hand} == {14}


def test_an_octave_past_the_neck_takes_the_thumb() -> None:
    best = solved("D4+D5 E4+E5", CELLO).best

    assert stops(best) == "IIt+I3 IIt+I3"
