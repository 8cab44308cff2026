"""String parts of quartets, fingered; every stop is looked at again with other eyes."""

from collections import Counter
from functools import cache
from itertools import combinations, pairwise, product

import pytest
from kit.fingered import CELLO, COSTS, counted, in_one_hand
from kit.quartets import parts
from kit.shorthand import VIOLA, VIOLIN
from kit.sources import published
from music21 import pitch as m21_pitch

from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones
from bookgen.passage.groups import grouped
from bookgen.passage.solve import solve
from bookgen.plan.passage import Fingering

MUSIC21 = "music21 10.5, corpus and pitches"
SPACINGS = published("neighbouring_fingers", "spacing")
OCTAVES = published("neighbouring_fingers", "first_to_fourth")
MOVEMENTS = [
    "haydn/opus74no1/movement2",
    "mozart/k80/movement1",
    "mozart/k458/movement3",
    "beethoven/opus18no1/movement3.mxl",
]
PLAYERS = (VIOLIN, VIOLIN, VIOLA, CELLO)
PARTS = [(movement, index) for movement in MOVEMENTS for index in range(4)]


@cache
def fingered(movement: str, index: int) -> tuple[Phrase, Instrument, Fingering]:
    phrase, instrument = parts(movement)[index], PLAYERS[index]
    best = solve(phrase, instrument, COSTS).best
    return phrase, instrument, grouped(best, phrase, instrument)


def height(instrument: Instrument, stop: Stop) -> float:
    """What music21 makes of a stop: the open string, and up."""
    pitch = m21_pitch.Pitch(str(instrument.open_pitch(stop.string)).replace("b", "-"))
    pitch.transpose(int(stop.semitones), inPlace=True)
    return float(pitch.ps)


@pytest.mark.published(MUSIC21)
@pytest.mark.parametrize(("movement", "index"), PARTS)
def test_every_stop_gives_the_written_note(movement: str, index: int) -> None:
    phrase, instrument, fingering = fingered(movement, index)
    heights = {
        (string, semitones): height(instrument, Stop(string, int(semitones > 0), semitones))
        for string in instrument.string_numbers()
        for semitones in map(Semitones, range(instrument.highest_stop + 1))
    }
    missing = 0
    for one in fingering.placed:
        notes = phrase.bars[one.bar].sounds[one.sound].notes
        for stop, note in zip(one.stops, notes, strict=True):
            if stop is None:
                missing += 1
                continue
            written = m21_pitch.Pitch(str(note.pitch).replace("b", "-")).ps
            assert heights[stop.string, stop.semitones] == written

    assert len(fingering.placed) > 100
    assert missing == len(fingering.unplayable)
    assert missing == 0 or instrument is CELLO  # thumb position is not in its file


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(("movement", "index"), PARTS)
def test_no_double_stop_is_out_of_the_hand(movement: str, index: int) -> None:
    _, instrument, fingering = fingered(movement, index)
    for one in fingering.placed:
        stops = [stop for stop in one.stops if stop is not None]
        strings = sorted(stop.string for stop in stops)
        assert all(high - low == 1 for low, high in pairwise(strings))
        for low, high in combinations(sorted(stops, key=lambda stop: stop.finger), 2):
            if low.finger == high.finger > 0:
                assert low.semitones == high.semitones
                assert abs(low.string - high.string) == 1
            elif low.finger:
                assert held(instrument, low, high), one


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(("movement", "index"), PARTS)
def test_no_finger_is_out_of_order_in_a_placement(movement: str, index: int) -> None:
    _, instrument, fingering = fingered(movement, index)
    for before, after in in_one_hand(fingering):
        for one, other in product(before, after):
            if one.finger != other.finger:
                low, high = sorted((one, other), key=lambda stop: stop.finger)
                assert low.semitones < high.semitones
                assert held(instrument, low, high)


def held(instrument: Instrument, low: Stop, high: Stop) -> bool:
    """Whether the instrument takes a frame with these two fingers where they stand."""
    return takes(
        instrument,
        (low.finger, low.semitones),
        (high.finger, high.semitones),
    )


@cache
def takes(instrument: Instrument, low: tuple[int, int], high: tuple[int, int]) -> bool:
    between = range(low[0] + 1, high[0])
    return any(
        frame.span == high[1] - low[1]
        and instrument.refused_place(frame, Semitones(low[1])) is None
        for count in range(len(between) + 1)
        for some in combinations(between, count)
        for spacings in product(Spacing, repeat=count + 1)
        for frame in [Frame((low[0], *some, high[0]), spacings)]
    )


@pytest.mark.published(SPACINGS.title)
def test_neighbouring_fingers_stand_apart_as_violinists_have_them() -> None:
    spacings: Counter[int] = Counter()
    octaves: Counter[int] = Counter()
    for movement, index in PARTS:
        if index < 2:
            found, wide = counted(fingered(movement, index)[2])
            spacings += found
            octaves += wide
    share = {
        word: 100 * spacings[Spacing.parse(word).semitones] / spacings.total()
        for word in SPACINGS.values
    }

    assert spacings.total() > 500
    assert share["half"] == pytest.approx(SPACINGS.values["half"], abs=7), share
    assert share["whole"] == pytest.approx(SPACINGS.values["whole"], abs=8), share
    assert share["augmented"] <= SPACINGS.values["augmented"] + 1, share
    assert 100 * octaves[12] / octaves.total() >= OCTAVES.values["octave"] - 8, octaves
