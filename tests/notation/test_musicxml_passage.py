"""A passage as MusicXML, read back with music21."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from xml.etree.ElementTree import fromstring

import music21
import pytest
from hypothesis import given, settings
from kit.passages import any_passage, by_hand, passage
from kit.quartets import parts
from kit.shorthand import VIOLA, VIOLIN, specimen
from kit.signs import dynamics, our_signs, their_signs
from music21 import articulations, chord, converter, note, stream

from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.notation.fingered import stops_of
from bookgen.notation.musicxml import passage_musicxml, printable
from bookgen.notation.sounds import sound_at, timed
from bookgen.notation.tie import ties_of
from bookgen.plan.passage import Passage
from bookgen.readers.score.kinds import read_passage

Heard = tuple[str, Fraction, Fraction]
"""A pitch, when it begins and how long it sounds, in whole notes."""


def part_of(data: bytes) -> stream.Part:
    score = converter.parseData(data.decode(), format="musicxml")
    assert isinstance(score, stream.Score)
    [part] = score.parts
    return part


def meant(phrase: Phrase) -> Counter[Heard]:
    """What a phrase sounds like, tied notes joined; grace notes last no time."""
    found: list[Heard] = []
    ties = ties_of(phrase)
    for one in timed(phrase):
        for at, each in enumerate(one.sound.notes):
            back = one.place in ties and at in ties[one.place].back
            join(found, (str(each.pitch), one.start, one.sound.duration), back=back)
    begins = Fraction(0)
    for bar in phrase.bars:
        for sound in bar.sounds:
            if sound.grace:
                found += [(str(each.pitch), begins + sound.at, Fraction(0)) for each in sound.notes]
        begins += bar.length
    return Counter(found)


def join(found: list[Heard], heard: Heard, *, back: bool) -> None:
    """Add a note, or lengthen the one that it is tied to."""
    pitch, start, lasts = heard
    for index, (name, began, long) in enumerate(found):
        if back and name == pitch and began + long == start and long:
            found[index] = (name, began, long + lasts)
            return
    found.append(heard)


def read_back(part: stream.Part) -> Counter[Heard]:
    """What music21 hears in the file."""
    found: list[Heard] = []
    for element in part.recurse().notes:
        start = Fraction(element.getOffsetInHierarchy(part)).limit_denominator(10**6) / 4
        lasts = Fraction(element.quarterLength).limit_denominator(10**6) / 4
        for each in notes_in(element):
            name = each.nameWithOctave.replace("-", "b")
            back = each.tie is not None and each.tie.type in {"stop", "continue"}
            grace = element.duration.isGrace
            join(found, (name, start, Fraction(0) if grace else lasts), back=back)
    return Counter(found)


def notes_in(element: note.GeneralNote) -> list[note.Note]:
    if isinstance(element, chord.Chord):
        return list(element.notes)
    assert isinstance(element, note.Note)
    return [element]


def told(part: stream.Part) -> Iterator[tuple[list[int], list[int]]]:
    """Fingers and strings of every note and chord that has any, from the lowest note."""
    for element in part.recurse().notes:
        marks = element.articulations
        fingers = [
            int(mark.fingerNumber) for mark in marks if isinstance(mark, articulations.Fingering)
        ]
        strings = [
            int(str(mark.number))
            for mark in marks
            if isinstance(mark, articulations.StringIndication)
        ]
        if fingers or strings:
            yield fingers, strings


def fingered(one: Passage) -> list[tuple[list[int], list[int]]]:
    """The same of a passage."""
    stops = [found.values() for found in stops_of(one.phrase, one.best).values()]
    return [
        ([stop.finger for stop in found], [int(stop.string) for stop in found])
        for found in stops
        if found
    ]


@pytest.mark.published("MusicXML 4.0 (W3C), as music21 10.5 reads it")
@settings(max_examples=25, deadline=None)
@given(any_passage())
def test_any_passage_is_read_back_with_nothing_lost(one: Passage) -> None:
    part = part_of(passage_musicxml(one, VIOLIN))

    assert read_back(part) == meant(one.phrase)
    assert list(told(part)) == fingered(one)
    assert signs_back(part) == signs_meant(one.phrase)


SIGNED = (
    ("haydn/opus74no1/movement1.mxl", "1", ("1", "60"), VIOLIN),
    ("beethoven/opus18no1/movement1.mxl", "3", ("1", "60"), VIOLA),
    ("mozart/k156/movement1.mxl", "1", None, VIOLIN),
)
CORPUS = Path(music21.__file__).parent / "corpus"


@pytest.mark.published("MusicXML 4.0 (W3C), as music21 10.5 reads it")
@pytest.mark.parametrize(("name", "number", "bars", "instrument"), SIGNED)
def test_slurs_signs_dynamics_and_who_wrote_it_are_read_back(
    name: str, number: str, bars: tuple[str, str] | None, instrument: Instrument
) -> None:
    file = read_passage(CORPUS / name, instrument, part=number, bars=bars)
    one = replace(passage(file.phrase, instrument), composer="T. Harbour")
    data = passage_musicxml(one, instrument)
    part = part_of(data)
    meant_dynamics = [
        str(sound.marking.dynamic) for _, sound in file.phrase.sounds() if sound.marking.dynamic
    ]

    assert their_signs(part) == our_signs(file.phrase)
    assert dynamics(part) == meant_dynamics
    assert converter.parseData(data.decode(), format="musicxml").metadata.composer == "T. Harbour"


@pytest.mark.parametrize(("name", "number", "bars", "instrument"), SIGNED)
def test_our_own_reader_reads_back_all_that_stands_with_the_notes(
    name: str, number: str, bars: tuple[str, str] | None, instrument: Instrument, tmp_path: Path
) -> None:
    phrase = read_passage(CORPUS / name, instrument, part=number, bars=bars).phrase
    file = tmp_path / "passage.musicxml"
    file.write_bytes(passage_musicxml(passage(phrase, instrument), instrument))
    found = read_passage(file, instrument).phrase

    assert [bar.tempo for bar in found.bars] == [bar.tempo for bar in phrase.bars]
    for (_, back), (_, sound) in zip(found.sounds(), phrase.sounds(), strict=True):
        marking = replace(back.marking, hand_ends=False, hand_begins=False)
        assert marking == sound.marking


def test_our_own_reader_keeps_notes_fingers_and_strings(tmp_path: Path) -> None:
    one = passage()
    file = tmp_path / "passage.musicxml"
    file.write_bytes(passage_musicxml(one, VIOLIN))
    found = read_passage(file, VIOLIN).phrase
    stops = stops_of(one.phrase, one.best)

    for number, bar in enumerate(one.phrase.bars):
        for at, sound in enumerate(bar.sounds):
            told = stops.get((number, at), {})
            notes = [
                replace(note, finger=told[index].finger, string=told[index].string)
                if index in told
                else note
                for index, note in enumerate(sound.notes)
            ]
            back = found.bars[number].sounds[at]
            marking = replace(back.marking, hand_ends=False, hand_begins=False)
            assert replace(back, marking=marking) == replace(sound, notes=tuple(notes))


def signs_back(part: stream.Part) -> list[tuple[str, str | None, int | None]]:
    """Number, meter and sharps of each bar, where they are told."""
    found = []
    for measure in part.getElementsByClass(stream.Measure):
        sharps = measure.keySignature.sharps if measure.keySignature else None
        meter = measure.timeSignature.ratioString if measure.timeSignature else None
        found.append((measure.measureNumberWithSuffix(), meter, sharps))
    return found


def signs_meant(phrase: Phrase) -> list[tuple[str, str | None, int | None]]:
    found: list[tuple[str, str | None, int | None]] = []
    running: int | None = None
    for bar in phrase.bars:
        meter = f"{bar.meter[0]}/{bar.meter[1]}" if bar.meter else None
        changes = bar.sharps is not None and bar.sharps != running
        found.append((bar.number, meter, bar.sharps if changes else None))
        running = bar.sharps if changes else running
    return found


@pytest.mark.published("MusicXML 4.0 (W3C), as music21 10.5 reads it")
@pytest.mark.parametrize(("part", "instrument"), [(0, VIOLIN), (2, VIOLA)])
def test_a_part_of_a_quartet_is_read_back(part: int, instrument: Instrument) -> None:
    bars = parts("haydn/opus74no1/movement2")[part].bars[:40]
    one = passage(Phrase(bars), instrument)
    found = part_of(passage_musicxml(one, instrument))

    assert read_back(found) == meant(one.phrase)
    assert list(told(found)) == fingered(one)


def test_bars_keep_their_numbers_even_with_letters() -> None:
    one = by_hand("A4=1 | B4=1", "II0 II1")
    bars = (one.phrase.bars[0], replace(one.phrase.bars[1], number="33a"))
    part = part_of(passage_musicxml(replace(one, phrase=Phrase(bars)), VIOLIN))
    measures = part.getElementsByClass(stream.Measure)

    assert [measure.measureNumberWithSuffix() for measure in measures] == ["33", "33a"]


def test_a_bass_sounds_an_octave_lower_than_written() -> None:
    one = by_hand("A4=1", "II0")
    part = part_of(passage_musicxml(one, specimen("double_bass")))

    assert part.toSoundingPitch().recurse().notes[0].nameWithOctave == "A3"


def test_the_same_passage_gives_the_same_bytes_without_a_clock() -> None:
    data = passage_musicxml(passage(), VIOLIN)

    assert data == passage_musicxml(passage(), VIOLIN)
    assert b"encoding-date" not in data


@pytest.mark.parametrize(
    "title", ["a\x00b\ud800c", "<b>&\"'", "]]>", "\N{GREEK SMALL LETTER ALPHA}"]
)
def test_a_hostile_title_is_only_a_title(title: str) -> None:
    root = fromstring(passage_musicxml(replace(by_hand("A4=1"), title=title), VIOLIN))  # noqa: S314

    assert root.findtext("work/work-title") == printable(title)
    assert "\x00" not in printable(title)


def test_every_sound_of_the_phrase_is_there() -> None:
    one = passage()

    assert sum(meant(one.phrase).values()) == sum(
        len(sound_at(one.phrase, (bar, at)).struck)
        for bar, here in enumerate(one.phrase.bars)
        for at in range(len(here.sounds))
    )
