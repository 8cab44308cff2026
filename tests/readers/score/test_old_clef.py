"""Treble clef straight after bass clef in cello parts, as older ones have it."""

import warnings

import pytest
from kit.low_parts import CORPUS, LOW_PART
from kit.scores import attributes, bar, music, score, shown
from kit.shorthand import VIOLIN
from music21 import corpus, stream

from bookgen.model.instrument import Instrument
from bookgen.readers.instrument import read_instrument
from bookgen.readers.score.kinds import read_passage
from bookgen.readers.score.musicxml import musicxml_passage
from bookgen.readers.score.passage import PassageFile, Wanted

CELLO = read_instrument("cello")
OLD = "treble clef of older cello parts: common practice, no source"
BASS_CLEF, TENOR, TREBLE = ("F", 4), ("C", 4), ("G", 2)


def clef(sign: str, line: int, more: str = "") -> str:
    return f"<clef><sign>{sign}</sign><line>{line}</line>{more}</clef>"


def read(
    *bars: tuple[str, str],
    instrument: Instrument = CELLO,
    chosen: tuple[str, str] | None = None,
    own: bool = False,
) -> PassageFile:
    """Bars of a clef, where one stands there, and of their notes."""
    made = [
        bar(
            (f"<attributes>{sign}</attributes>" if at else attributes(sign)) + music(notes),
            str(at + 1),
        )
        for at, (sign, notes) in enumerate(bars)
    ]
    asked = Wanted("song.musicxml", "song", instrument, bars=chosen, own=own)
    return musicxml_passage(score(*made), asked)


LOW, HIGH = (clef(*BASS_CLEF), "C3:1"), (clef(*TREBLE), "C6:1")


@pytest.mark.published(OLD)
def test_straight_after_bass_clef_it_is_read_an_octave_lower_and_that_is_told() -> None:
    found = read(LOW, HIGH, ("", "D5:1"), LOW, (clef(*TREBLE), "E5:1"))

    assert shown(found) == ["C3:1 |", "C5 |", "D4 |", "C3 |", "E4 |"]
    (told,) = found.findings
    assert str(told.place) == "song.musicxml, bars 2, 3, 5"


@pytest.mark.published(OLD)
@pytest.mark.parametrize(
    "bars",
    [
        [LOW, (clef(*TENOR), "A4:1"), HIGH],
        [HIGH],
        [LOW, (clef(*TREBLE), "A5:1")],
        [LOW, (clef(*TREBLE, "<clef-octave-change>-1</clef-octave-change>"), "C6:1")],
    ],
    ids=["after tenor clef", "from the beginning", "within the last stop", "says so itself"],
)
def test_elsewhere_it_is_read_as_written(bars: list[tuple[str, str]]) -> None:
    found = read(*bars)

    assert shown(found)[-1].split()[0].split(":")[0] == bars[-1][1].split(":")[0]
    assert found.findings == ()


def test_other_instruments_and_our_own_files_have_it_as_written() -> None:
    for found in (read((LOW[0], "G3:1"), HIGH, instrument=VIOLIN), read(LOW, HIGH, own=True)):
        assert shown(found)[-1] == "C6 |"


def test_the_whole_part_tells_how_its_clefs_are_meant() -> None:
    found = read(LOW, HIGH, LOW, (clef(*TREBLE), "E5:1"), chosen=("4", "4"))

    assert shown(found) == ["E4:1 |"]
    assert [str(told.place) for told in found.findings] == ["song.musicxml, bar 4"]


@pytest.mark.published("music21 10.5: the first violin of a quartet by Beethoven, as it reads it")
def test_a_cello_of_beethovens_lies_below_the_violin_then() -> None:
    name = "beethoven/opus59no1/movement2"
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        score_of = corpus.parse(name)
    assert isinstance(score_of, stream.Score)
    violin = score_of.parts[0]
    assert isinstance(violin, stream.Part)
    bars = {str(one.number): one for one in violin.getElementsByClass(stream.Measure)}
    file = CORPUS / f"{name}.mxl"
    for one in read_passage(file, CELLO, part=LOW_PART, bars=("376", "383")).phrase.bars:
        cello = [note.pitch.midi for sound in one.sounds for note in sound.notes]
        assert max(cello) < max(pitch.midi for pitch in bars[one.number].pitches)
