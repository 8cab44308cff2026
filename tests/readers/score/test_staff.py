"""The bars of a staff: voices with their times at concert pitch, within limits."""

from contextlib import suppress
from fractions import Fraction
from random import Random
from xml.etree.ElementTree import tostring

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.scores import DIVISIONS, attributes, back, bar, element, music, part, score, wanted

from bookgen.errors import BookgenError
from bookgen.readers.score.catalog import Staff
from bookgen.readers.score.findings import Remarks
from bookgen.readers.score.musicxml import musicxml_passage
from bookgen.readers.score.parts import PartName
from bookgen.readers.score.passage import RawBar
from bookgen.readers.score.staff import groups, staff_bars
from bookgen.readers.score.text_sound import note_text
from bookgen.readers.score.voices import Timed

WORST = [
    "",
    "0",
    "-1",
    "7",
    "99",
    "0.5",
    "1e9",
    "9" * 30,
    "NaN",
    "½",
    "x" * 400,
    "H",
    "3+2",
    "\uff15",
]
SONG = score(
    bar(
        attributes("<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>")
        + music("A4=III2:4 (C5) B4+D5:2 r:4")
        + back("A4:1")
        + music("G3=IV:1", voice="2"),
        "0",
    ),
    bar(music("~B4:12 C5 D5 E5:2."), "1"),
).decode()


def read(*bars: str, remarks: Remarks | None = None) -> list[RawBar]:
    staff = Staff(PartName("Violin", None, 60, 60), element(part(*bars)), 1, octave_clef=False)
    names = [str(index) for index in range(len(bars))]
    return staff_bars(staff, range(len(bars)), names, 4, remarks or Remarks("song.xml"))[0]


def words(voice: tuple[Timed, ...]) -> str:
    return " ".join("+".join(map(note_text, timed.notes)) or "r" for timed in voice)


def problems(remarks: Remarks) -> list[str]:
    return [str(finding.problem) for finding in remarks.findings()]


def test_a_bar_is_as_long_as_its_notes_reach() -> None:
    upper, lower = "D4:4", "D4:2."
    found = read(
        bar(attributes() + music(upper) + back(upper) + music(lower, voice="2")),
        bar(music("r:1")),
        bar(""),
    )

    assert [one.length for one in found] == [Fraction(3, 4), 1, 1]


@pytest.mark.parametrize(
    ("meter", "rest", "length"),
    [("3/4", "r:1", "3/4"), ("3/4", "r:4", "1/4"), ("4/4", "r:2.", "3/4"), ("4/4", "(D4)", "1")],
)
def test_a_rest_alone_is_no_longer_than_its_meter(meter: str, rest: str, length: str) -> None:
    (found,) = read(bar(attributes(meter=meter) + music(rest)))

    assert str(found.length) == length


def test_voices_meter_and_key() -> None:
    upper = "D5:4 (E5) D5 r"
    one, two = read(
        bar(attributes(meter="3/4", fifths=2) + music(upper) + back(upper)
            + music("G4:2.", voice="2")),
        bar(music("A4:2.")),
    )  # fmt: skip

    assert [words(voice) for voice in one.voices] == ["D5 E5 D5 r", "G4"]
    assert [timed.start for timed in one.voices[0]] == [0, 0.25, 0.25, 0.5]
    assert [str(timed.length) for timed in one.voices[0]] == ["1/4", "0", "1/4", "1/4"]
    assert (one.meter, one.sharps) == ((3, 4), 2)
    assert (two.meter, two.sharps) == ((3, 4), 2)


@pytest.mark.published("common practice, no source")  # a clarinet in B flat, a tone below
def test_notes_and_key_are_at_concert_pitch() -> None:
    clarinet = "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>"
    (found,) = read(bar(attributes(clarinet, fifths=2) + music("F#5:4 D5 C#5 E5")))

    assert words(found.voices[0]) == "E5 C5 B4 D5"
    assert found.sharps == 0


def test_the_notes_of_a_chord_stay_together() -> None:
    bars = element(bar(attributes() + music("D4+F4 E4 r G4+B4")))

    assert [len(group) for group in groups(bars)] == [1, 2, 1, 1, 2]


@pytest.mark.parametrize("length", ["0", "-3", "1e3", "", "999999999"])
def test_a_length_that_cannot_be_is_told(length: str) -> None:
    remarks = Remarks("song.xml")
    note = music("D4:4").replace(f">{DIVISIONS}<", f">{length}<")
    found = read(bar(attributes() + note + music("E4:4")), remarks=remarks)

    assert [one.length for one in found] == [Fraction(1, 4)]
    assert problems(remarks) == ["a note whose length cannot be is left out"]


def test_steps_in_time_stay_within_the_bar() -> None:
    remarks = Remarks("song.xml")
    far = f"<forward><duration>{DIVISIONS * 300}</duration></forward>"
    before = f"<backup><duration>{DIVISIONS * 9}</duration></backup>"
    found = read(bar(attributes() + far + music("E4:4") + before + music("D4:2")), remarks=remarks)

    assert [one.length for one in found] == [Fraction(1, 2)]
    assert problems(remarks) == ["a step in time that cannot be is left out"]


def test_too_many_notes_for_a_passage() -> None:
    with pytest.raises(BookgenError, match="more than 10000 notes, or 1000 in a bar"):
        read(*[bar(attributes() + music("D4:64 " * 900))] * 12)
    with pytest.raises(BookgenError, match="more than 10000 notes, or 1000 in a bar"):
        read(bar(attributes() + music("D4:64 " * 1_001)))


@settings(max_examples=150, deadline=None)
@given(seed=st.integers(0, 2**32))
def test_any_value_in_any_place_is_read_or_refused(seed: int) -> None:
    """Every text and attribute of a song may hold anything; elements may be missing or twice."""
    chance = Random(seed)
    root = element(SONG)
    every = list(root.iter())
    for _ in range(chance.randint(1, 4)):
        one = chance.choice(every)
        if len(one):
            child = chance.choice(list(one))
            one.append(child) if chance.random() < 0.5 else one.remove(child)
        else:
            one.text = chance.choice(WORST)
        for key in one.attrib:
            one.set(key, chance.choice([one.get(key, ""), *WORST]))
    with suppress(BookgenError):
        found = musicxml_passage(tostring(root), wanted())
        assert all(
            sum(sound.duration for sound in one.sounds) == one.length for one in found.phrase.bars
        )


def test_divisions_may_change_within_a_bar() -> None:
    half = f"<attributes><divisions>{DIVISIONS // 2}</divisions></attributes>"
    found = read(bar(attributes() + music("D4:4") + half + music("E4:4")))

    assert [one.length for one in found] == [Fraction(3, 4)]
