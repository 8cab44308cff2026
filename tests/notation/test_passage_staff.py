"""A passage as LilyPond's notes."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from kit.passages import by_hand, passage, stop
from kit.phrases import note, phrase
from kit.shorthand import VIOLIN, pitch

from bookgen.model.marking import Tempo
from bookgen.model.phrase import Phrase
from bookgen.notation.fingered import Reading
from bookgen.notation.leaf import named
from bookgen.notation.passage_staff import passage_music
from bookgen.plan.passage import Fingering, Passage, Spot
from bookgen.plan.passage_facts import Change

UNFINGERED = Fingering((), (), 0.0, ())
LONG_BAR = "C5=1/4 " + "D5 E5 " * 3 + "F5=1/16 E5=1/16 D5=1/16 C5=1/16 " * 4


def music(one: Passage) -> str:
    return passage_music(one.phrase, one.best, VIOLIN)


def bars(text: str, stops: str = "", groups: list[tuple[int, int]] | None = None) -> list[str]:
    """The bars' notes, without what stands before the first one; white stands for all white."""
    words = " ".join(music(by_hand(text, stops, groups or [])).split())
    for sign in (r"\time 4/4 ", r'\clef "treble" ', r"\key c \major "):
        words = words.replace(sign, "")
    return words.partition(r"\graceFingers ")[2].split(" | ")[:-1]


def test_notes_carry_fingers_strings_and_groups() -> None:
    assert bars("A4=1/2 D5+F#5=1/2 | E5=1/2 r=1/2", "II0 II3+I1 I0", [(0, 1), (2, 2)]) == [
        (
            r"""a'2 ^ \markup "II" ^\atFinger 0 0 \group "A" """
            r"""<d'' fs''>2 ^ \markup "II+I" ^\atFinger 0 3 ^\atFinger 1 1 \endGroup"""
        ),
        r"""e''2 ^ \markup "I" ^\atFinger 0 0 \group "B" \endGroup r2""",
    ]


def test_ties_join_sounds_and_the_values_of_one() -> None:
    assert bars("D4+A4=5/8 ~D4+B4=3/8", "III0+II0 III0+II1") == [
        (
            r"""<d' a'>2 ^ \markup "III+II" ~ ^\atFinger 0 0 ^\atFinger 1 0 """
            r"""\tieHeads #'(0) <d' a'>8 <d' b'>4. ^ \markup "II" ^\atFinger 0 1"""
        )
    ]
    assert bars("~A4+E5=1", "II0+I0")[0].startswith(r"\tieHeadsOver #'(0) <a' e''>1 ^")


def test_tuplets_graces_and_rests_of_whole_bars() -> None:
    assert bars("A4=1/12 r=1/12 A4=1/12 gB4 A4=1/4 A4=1/2 | r=1", "II0 II0 II1 II0 II0") == [
        (
            r"""\tuplet 3/2 { a'8 ^ \markup "II" ^\atFinger 0 0 r8 a'8 ^\atFinger 0 0 } """
            r"""\grace { b'8 ^\atFinger 0 1 } a'4 ^\atFinger 0 0 a'2 ^\atFinger 0 0"""
        ),
        "R1",
    ]


def test_a_grace_note_at_the_end_of_a_bar_comes_after() -> None:
    assert bars("A4=1 gB4 | A4=1", "II0 II1 II0")[0] == (
        r"""\afterGrace a'1 ^ \markup "II" ^\atFinger 0 0 { b'8 ^\atFinger 0 1 }"""
    )


def test_what_cannot_be_played_has_a_cross() -> None:
    assert bars("F#3+A4=1", "-+II0") == [
        r"""< \tweak style #'cross fs a' >1 ^ \markup "II" ^\atFinger 0 0"""
    ]


def test_an_octave_sign_begins_and_ends() -> None:
    found = music(by_hand("A5=1/4 C7=1/4 B6=1/4 A5=1/4 | C7=1", "I3 I1 I1 I1 I1"))

    assert re.findall(r"\\ottava (\d)\s+(\S+?'+)", found) == [
        ("1", "c''''"),
        ("0", "a''"),
        ("1", "c''''"),
    ]
    assert " ".join(found.split()).endswith('\\ottava 0 | \\bar "|." }')


def test_slurs_signs_and_dynamics_stand_where_the_file_has_them() -> None:
    text = "{{D5!p E5} {F5!staccato G5}} A5!trill-mark!fz!dolce r!fermata"
    words = [word for word in music(by_hand(text)).split() if not word.startswith("%")]
    slurs = [word for word in words if word in {"(", ")", r"\(", r"\)"}]

    assert slurs == [r"\(", "(", ")", "(", ")", r"\)"]
    assert {r"\p", r"\staccato", r"\trill", r"\xfz", r"_\bowWord", r"\fermata"} <= {*words}


def test_a_tempo_is_beats_a_minute_and_no_word_of_a_file() -> None:
    one = by_hand("D5=1/4 E5")
    words = r'Allegro" \evil'
    tempo = Tempo(words, Fraction(3, 8), Fraction(84))
    bars = tuple(replace(bar, tempo=tempo) for bar in one.phrase.bars)
    found = music(replace(one, phrase=Phrase(bars)))

    assert r"\tempo 4. = 84" in found
    assert "evil" not in found


@pytest.mark.parametrize(
    ("text", "slurs"),
    [("{D5 {E5} F5}", "( ) ( )"), ("{D5=1/4 ~D5 E5}", "( )"), ("{D5 E5 F5", ""), ("D5 E5}", "")],
)
def test_slurs_that_meet_and_slurs_that_are_none(text: str, slurs: str) -> None:
    words = music(by_hand(text)).split()

    assert " ".join(word for word in words if word in {"(", ")", r"\(", r"\)"}) == slurs


def test_a_long_bar_may_be_broken_at_its_beats() -> None:
    assert len(re.findall("mayBreak", bars(LONG_BAR)[0])) == 7
    assert "mayBreak" not in bars("C5 D5 E5 F5 G5 A5 B5 C6")[0]


def test_a_harmonic_is_told() -> None:
    touched = by_hand("A5=1", "II4")
    best = replace(touched.best, placed=(replace(touched.best.placed[0], touched=(0,)),))

    assert "\\flageolet" in music(replace(touched, best=best))
    assert "\\flageolet" not in music(touched)


@pytest.mark.parametrize(
    ("name", "written"),
    [
        ("C4", "c'"),
        ("F#5", "fs''"),
        ("Bb3", "bf"),
        ("C2", "c,"),
        ("G##3", "gss"),
        ("Ebb6", "eff'''"),
    ],
)
def test_pitches_in_english_names(name: str, written: str) -> None:
    assert named(pitch(name)).name() == written


def test_no_word_of_a_user_stands_in_it() -> None:
    evil = '1"} #(system "touch x") \\markup {"'
    given = passage()
    hostile = Phrase(tuple(replace(bar, number=evil) for bar in given.phrase.bars))
    text = passage_music(hostile, given.best, VIOLIN)

    assert "system" not in text
    assert set(re.findall(r'"([^"]*)"', text)) <= {
        *("", "treble", "|."),
        *(group.letter for group in given.best.groups),
        *("I", "II", "III", "IV", "II+I", "III+II", "IV+III", "IV\N{EN DASH}I"),
    }


def test_a_reading_copy_has_arrows_and_numbers_of_spots_and_fewer_fingers() -> None:
    given = by_hand("B4 C5 D5 C#5 B4 | E5 r", "II1 II2 II3 II2 II1 I0", [(0, 5)])
    high, low = stop("II2", note("C#5")), stop("II2", note("C5"))
    assert high is not None
    assert low is not None
    spots = (Spot(1, 1, 3, 3, {}, 1.0), Spot(2, 5, 5, 5, {}, 1.0))
    reading = Reading({3: (Change(high, low, 1),)}, spots, thin=True)
    text = passage_music(given.phrase, given.best, VIOLIN, reading)
    plain = passage_music(given.phrase, given.best, VIOLIN)

    assert re.findall(r"\\(at\w+) 0 (\d)", text) == [
        ("atFinger", "1"), ("atFinger", "2"), ("atHigh", "2"), ("atFinger", "0"),
    ]  # fmt: skip
    assert re.findall(r"\\(spot|loneSpot|endSpot)", text) == ["spot", "endSpot", "loneSpot"]
    assert plain.count("atFinger") == 6
    assert "pot" not in plain


def test_a_passage_without_bars_is_refused() -> None:
    with pytest.raises(ValueError, match="nothing to engrave"):
        passage_music(Phrase(()), UNFINGERED, VIOLIN)


def test_a_phrase_without_a_fingering_is_only_notes() -> None:
    text = passage_music(phrase("A4=1"), UNFINGERED, VIOLIN)

    assert "a'1 |" in " ".join(text.split())
    assert "atFinger" not in text
