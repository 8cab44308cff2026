"""Whole parts of quartets, a sample: read and solved, and every stop sounds as music21 reads it."""

from pathlib import Path

import music21
import pytest
from kit.fingered import COSTS, sounding

from bookgen.passage.event import events_of
from bookgen.passage.solve import solve
from bookgen.readers.instrument import read_instrument
from bookgen.readers.score.kinds import read_passage

CORPUS = Path(music21.__file__).parent / "corpus"
SAMPLE = [
    ("haydn/opus74no1/movement2.mxl", "1", "violin"),
    ("mozart/k155/movement1.mxl", "2", "violin"),
    ("mozart/k458/movement3.mxl", "3", "viola"),
    ("beethoven/opus18no4.mxl", "2", "violin"),
    ("schumann_robert/opus41no1/movement2.mxl", "1", "violin"),
]


@pytest.mark.published("music21 10.5, its corpus of quartets; the whole table: tests/benchmarks")
@pytest.mark.parametrize(("name", "number", "key"), SAMPLE)
def test_a_whole_part_is_read_and_solved(name: str, number: str, key: str) -> None:
    instrument = read_instrument(key)
    phrase = read_passage(CORPUS / name, instrument, part=number).phrase
    best = solve(phrase, instrument, COSTS).best
    score = music21.corpus.parse(name.removesuffix(".mxl"))
    part = score.parts[int(number) - 1]
    heights = {pitch.midi for note in part.recurse().notes for pitch in note.pitches}
    events = events_of(phrase)
    shifts = [at for at, one in enumerate(best.placed) if one.cost.get("shift", 0.0) > 0]

    assert len(phrase.bars) == len(part.getElementsByClass("Measure"))
    assert best.unplayable == ()
    for one in best.placed:
        notes = phrase.bars[one.bar].sounds[one.sound].notes
        for stop, note in zip(one.stops, notes, strict=True):
            assert stop is not None
            assert sounding(instrument, stop) == note.pitch.midi
            assert note.pitch.midi in heights
    slurred = sum(event.slurred for event in events)
    assert sum(events[at].slurred for at in shifts) <= slurred // 50
