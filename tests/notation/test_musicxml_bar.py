"""Notes of a passage as elements of MusicXML."""

from dataclasses import replace
from fractions import Fraction
from xml.etree.ElementTree import Element

import pytest
from kit.passages import by_hand

from bookgen.model.phrase import Phrase
from bookgen.notation.accidental import Accidentals
from bookgen.notation.bars import usual_lengths
from bookgen.notation.fingered import fingered
from bookgen.notation.marking import slurs_of
from bookgen.notation.musicxml_bar import divisions_of, passage_bar
from bookgen.plan.passage import Passage

ORDER = (
    *("grace", "chord", "pitch", "rest", "duration", "tie", "voice", "type", "dot", "accidental"),
    *("time-modification", "notehead", "notations"),
)
"""The order of a note's elements in the schema of MusicXML 4.0."""


def elements(one: Passage, bar: int = 0) -> list[Element]:
    state = Accidentals()
    state.open_bar(one.phrase.bars[bar].sharps)
    usual = list(usual_lengths(one.phrase))[bar]
    whole = one.phrase.bars[bar].length == usual
    score, divisions = fingered(one.phrase, one.best), divisions_of(one.phrase)
    return list(passage_bar(score, slurs_of(one.phrase), bar, state, divisions, whole=whole))


def texts(found: list[Element], path: str) -> list[str | None]:
    """The texts of all elements of that path."""
    return [each.text for one in found for each in one.findall(path)]


@pytest.mark.published("MusicXML 4.0 (W3C), element note")
def test_a_note_holds_its_elements_in_the_order_of_the_schema() -> None:
    one = by_hand("gC#5 F#3+B4=1/12 r=1/12 ~B4=1/12 C#5=3/4", "II2 -+II1 II2")

    for note in elements(one):
        places = [ORDER.index(child.tag) for child in note]
        assert places == sorted(places)


@pytest.mark.published("MusicXML 4.0 (W3C), element technical")
def test_a_note_is_told_with_finger_string_and_how_it_sounds() -> None:
    one = by_hand("A4 A5 B4+D5 F#3", "II0 II4 III4+II3 -")
    best = one.best
    touched = replace(best.placed[1], touched=(0,))
    one = replace(one, best=replace(best, placed=(best.placed[0], touched, *best.placed[2:])))
    notes = elements(one)

    assert texts(notes, "notations/technical/fingering") == ["0", "4", "4", "3"]
    assert texts(notes, "notations/technical/string") == ["2", "2", "3", "2"]
    assert [note.find("notations/technical/open-string") is not None for note in notes] == [
        *(True, False, False, False, False)
    ]
    assert notes[1].find("notations/technical/harmonic/natural") is not None
    assert [note.findtext("notehead") for note in notes] == [None, None, None, None, "x"]


def test_a_split_sound_is_tied_and_told_once() -> None:
    notes = elements(by_hand("A4=5/8", "II0"))

    assert texts(notes, "type") == ["half", "eighth"]
    assert [[tie.get("type") for tie in note.findall("tie")] for note in notes] == [
        ["start"],
        ["stop"],
    ]
    assert texts(notes, "notations/technical/fingering") == ["0"]


def test_a_tuplet_is_told_by_its_notes_and_ends() -> None:
    notes = elements(by_hand("A4=1/12 B4+D5=1/12 r=1/12 A4=1/4", "II0 III4+II3 II0"))

    assert texts(notes, "time-modification/actual-notes") == ["3"] * 4
    assert [
        [tuplet.get("type") for tuplet in note.findall("notations/tuplet")] for note in notes
    ] == [["start"], [], [], ["stop"], []]


def test_a_group_is_a_bracket_with_its_letter() -> None:
    one = by_hand("A4 B4 C5", "II0 II1 II2", [(0, 1), (2, 2)])
    found = elements(one)

    assert [each.tag for each in found] == [
        *("direction", "direction", "note", "note", "direction"),
        *("direction", "direction", "note", "direction"),
    ]
    assert texts(found, "direction-type/words") == ["A", "B"]
    assert [
        each.get("type") for one in found for each in one.findall("direction-type/bracket")
    ] == [*("start", "stop", "start", "stop")]


def test_a_silent_bar_is_one_rest_and_a_gap_no_note() -> None:
    (rest,) = elements(by_hand("r=1/2 r=1/2"))
    (upbeat,) = elements(by_hand("r=1/4 | A4=1"))
    short = by_hand("A4", "II0")
    longer = replace(short.phrase.bars[0], length=Fraction(1))
    note, *gaps = elements(replace(short, phrase=Phrase((longer,))))

    assert rest.find("rest[@measure='yes']") is not None
    assert (upbeat.find("rest[@measure='yes']"), upbeat.findtext("type")) == (None, "quarter")
    assert (note.tag, {gap.tag for gap in gaps}) == ("note", {"forward"})
