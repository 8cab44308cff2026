"""Several voices as the sounds of one player."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookgen.model.phrase import Bar, Sound
from bookgen.readers.score.text_sound import read_sound, sound_text
from bookgen.readers.score.voices import MOST_TOGETHER, Merged, Timed, merged, only_true_ties

WHOLE = Fraction(1)


def voice(words: str) -> tuple[Timed, ...]:
    """One voice; `-` is silence without a rest."""
    at, length = Fraction(0), Fraction(1, 4)
    result = []
    for word in words.split():
        sound = read_sound(word.replace("-", "r"), at, length)
        length = length if sound.grace else sound.duration
        if not word.startswith("-"):
            result.append(Timed(at, sound.duration, sound.notes))
        at += sound.duration
    return tuple(result)


def words(found: Merged) -> str:
    """Every sound with its length."""
    return " ".join(sound_text(sound, Fraction(0)) for sound in found.sounds)


def together(*voices: str, length: Fraction = WHOLE) -> Merged:
    return merged([voice(one) for one in voices], length)


@pytest.mark.parametrize(
    ("voices", "sounds"),
    [
        (["D4:4 E4 r F4"], "D4:4 E4:4 r:4 F4:4"),
        (["B4:2 C5", "D4:2 E4"], "D4+B4:2 E4+C5:2"),
        (["B4:1", "D4:2 E4"], "D4+B4:2 E4+~B4:2"),
        (["B4:2 C5", "D4:1"], "D4+B4:2 ~D4+C5:2"),
        (["B4:4 r:2.", "r:2 D4"], "B4:4 r:4 D4:2"),
        (["r:4 r:2.", "r:2 r"], "r:4 r:4 r:2"),
        (["D4:4"], "D4:4 r:2."),
        (["-:2 D4:2"], "r:2 D4:2"),
        (["(C5) B4:1", "(E4) D4:1"], "(C5) (E4) D4+B4:1"),
        (["B4:1", "D4:2 (F4) E4"], "D4+B4:2 (F4) E4+~B4:2"),
        (["B4:1 (A4)"], "B4:1 (A4)"),
        (["A4=2:1", "A4=III:1"], "A4=III2:1"),
        (["A4=II+A4=III:1"], "A4=II+A4=III:1"),
        (["A4:1", "A4:2 A4"], "A4:2 A4:2"),
        (["~A4:1", "A4:1"], "A4:1"),
        (["A4:2. B4:4", "D4:4 E4 F4 G4"], "D4+A4:4 E4+~A4:4 F4+~A4:4 G4+B4:4"),
        (["B4:12 C5 D5 E5:2."], "B4:12 C5:12 D5:12 E5:2."),
        ([], "r:1"),
    ],
)
def test_voices(voices: list[str], sounds: str) -> None:
    assert words(together(*voices)) == sounds


def test_what_is_held_is_told() -> None:
    assert together("B4:1", "D4:2 E4").held
    assert not together("B4:2 C5", "D4:2 E4").held


def test_of_more_than_four_notes_the_highest_are_taken() -> None:
    crowd = together("C5+E5:1", "D4+F4+A4:1")

    assert words(crowd) == "F4+A4+C5+E5:1"
    assert crowd.crowded
    assert not together("C5+E5:1", "D4+F4:1").crowded


def test_a_crowd_that_no_music_has_comes_to_an_end() -> None:
    many = ["D4:1"] * (MOST_TOGETHER * 40)

    assert words(together(*many)) == "D4:1"


streams = st.lists(
    st.tuples(
        st.sampled_from(["D4", "E4", "G4", "B4", "r", "D4+G4", "(C5)"]),
        st.sampled_from(["8", "4", "12", "4.", "2"]),
    ),
    min_size=1,
    max_size=5,
)


@settings(max_examples=150, deadline=None)
@given(drawn=st.lists(streams, max_size=4))
def test_sounds_follow_without_gaps_and_every_note_lasts_as_long_as_it_did(
    drawn: list[list[tuple[str, str]]],
) -> None:
    voices = [voice(" ".join(w if w == "(C5)" else f"{w}:{n}" for w, n in one)) for one in drawn]
    length = max([WHOLE, *(timed.end for one in voices for timed in one)])
    found = merged(voices, length)

    now = Fraction(0)
    for sound in found.sounds:
        assert sound.at == now
        now += sound.duration
    assert now == length

    def lit(at: Fraction) -> set[int]:
        return {
            note.pitch.midi
            for one in voices
            for timed in one
            if timed.start <= at < timed.end
            for note in timed.notes
        }

    for sound in found.sounds:
        if not sound.grace:
            assert {note.pitch.midi for note in sound.notes} == lit(sound.at)
    struck = {
        (timed.start, note.pitch.midi)
        for one in voices
        for timed in one
        for note in timed.notes
        if timed.length
    }
    ours = {
        (sound.at, note.pitch.midi)
        for sound in found.sounds
        for note in sound.struck
        if not sound.grace
    }
    assert ours == struck


def test_only_ties_to_a_note_just_before_stay() -> None:
    def bar(text: str) -> Bar:
        sounds, at = [], Fraction(0)
        for word in text.split():
            sound = read_sound(word, at, Fraction(1, 4))
            at += sound.duration
            sounds.append(sound)
        return Bar("1", tuple(sounds), at)

    def tied(bars: tuple[Bar, ...]) -> str:
        return " | ".join(
            " ".join(sound_text(sound, Fraction(1, 4)) for sound in one.sounds) for one in bars
        )

    given = (bar("~D4 ~D4 E4 ~D4"), bar("~D4+~G4 r ~D4"), bar("A4 (~A4) ~A4 (C5) ~A4"))

    assert tied(only_true_ties(given)) == "D4 ~D4 E4 D4 | ~D4+G4 r D4 | A4 (~A4) ~A4 (C5) ~A4"
    assert only_true_ties(()) == ()
    assert isinstance(given[0].sounds[0], Sound)
