"""Bars written anew: within limits, and with nothing that music21 could stumble over."""

from fractions import Fraction
from random import Random
from xml.etree.ElementTree import tostring

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scores import DIVISIONS, attributes, back, bar, element, music, part, score, wanted

from bookgen.errors import BookgenError
from bookgen.readers.score_catalog import Staff
from bookgen.readers.score_clean import Clean, clean_bars, groups
from bookgen.readers.score_findings import Told
from bookgen.readers.score_musicxml import musicxml_passage
from bookgen.readers.score_parts import PartName

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


def clean(*bars: str, told: Told | None = None) -> Clean:
    staff = Staff(PartName("Violin", None, 60, 60), element(part(*bars)), 1, octave_clef=False)
    names = [str(index) for index in range(len(bars))]
    return clean_bars(staff, range(len(bars)), names, 4, told or Told("song.xml"))


def test_a_bar_is_as_long_as_its_notes_reach() -> None:
    upper, lower = "D4:4", "D4:2."
    found = clean(
        bar(attributes() + music(upper) + back(upper) + music(lower, voice="2")),
        bar(music("r:1")),
        bar(""),
    )

    assert found.lengths == [3, 0, 0]


def test_the_notes_of_a_chord_stay_together() -> None:
    bars = element(bar(attributes() + music("D4+F4 E4 r G4+B4")))

    assert [len(group) for group in groups(bars)] == [1, 2, 1, 1, 2]


@pytest.mark.parametrize("length", ["0", "-3", "1e3", "", "999999999"])
def test_a_length_that_cannot_be_is_told(length: str) -> None:
    told = Told("song.xml")
    note = music("D4:4").replace(f">{DIVISIONS}<", f">{length}<")
    found = clean(bar(attributes() + note + music("E4:4")), told=told)

    assert found.lengths == [1]
    assert [finding.problem for finding in told.findings()] == [
        "a note whose length cannot be is left out"
    ]


def test_steps_in_time_stay_within_the_bar() -> None:
    told = Told("song.xml")
    far = f"<forward><duration>{DIVISIONS * 300}</duration></forward>"
    before = f"<backup><duration>{DIVISIONS * 9}</duration></backup>"
    found = clean(bar(attributes() + far + music("E4:4") + before + music("D4:2")), told=told)

    assert found.lengths == [Fraction(2)]
    assert [finding.problem for finding in told.findings()] == [
        "a step in time that cannot be is left out"
    ]


def test_too_many_notes_for_a_passage() -> None:
    with pytest.raises(BookgenError, match="more than 10,000 notes, or 1,000 in a bar"):
        clean(*[bar(attributes() + music("D4:64 " * 900))] * 12)
    with pytest.raises(BookgenError, match="more than 10,000 notes, or 1,000 in a bar"):
        clean(bar(attributes() + music("D4:64 " * 1_001)))


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
    try:
        found = musicxml_passage(tostring(root), wanted())
    except BookgenError as error:
        complaints, bars = str(error), []
    else:
        complaints, bars = "", list(found.phrase.bars)
    assert "music21" not in complaints
    for one_bar in bars:
        assert sum(sound.duration for sound in one_bar.sounds) == one_bar.length


def test_divisions_may_change_within_a_bar() -> None:
    half = f"<attributes><divisions>{DIVISIONS // 2}</divisions></attributes>"
    found = clean(bar(attributes() + music("D4:4") + half + music("E4:4")))

    assert found.lengths == [3]
