"""Notes are named so that a fourth that is played is called a fourth."""

from collections.abc import Iterator
from itertools import pairwise, permutations, product
from random import Random

import pytest
from kit.shorthand import VIOLA, VIOLIN, events, hands, names, string_sets
from music21 import interval as m21_interval
from music21 import pitch as m21_pitch

from bookgen.model.drill import Drill
from bookgen.model.event import Begins, Event
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.route import STAGES, Return
from bookgen.model.spacing import Spacing
from bookgen.model.units import Semitones

MUSIC21 = "music21 10.5, interval names"
HEARD = {0, 3, 4, 5, 7, 8, 9}
"""Half steps, without octaves, of unison, thirds, fourth, fifth and sixths."""


def chromatic(instrument: Instrument, seed: int, share: float) -> Iterator[Drill]:
    """A share of all drills on hands with two half steps running, without stretches."""
    dice = Random(seed)
    for fingers in [(1, 2, 3), (2, 3, 4), (1, 2, 3, 4)]:
        for hand, order, place, run, stage, back in product(
            hands(instrument, fingers),
            permutations(fingers),
            range(1, instrument.highest_stop + 1),
            string_sets(instrument),
            STAGES,
            Return,
        ):
            running = (Spacing.HALF, Spacing.HALF) in pairwise(hand.spacings)
            if not running or Spacing.AUGMENTED in hand.spacings or dice.random() > share:
                continue
            drill = Drill(instrument.key, hand, order, Semitones(place), run, stage, back)
            if drill.refusal(instrument) is None:
                yield drill


def moves(played: tuple[Event, ...]) -> Iterator[tuple[str, str]]:
    """Two notes of a move between strings, as their names in music21; none at the turn."""
    for before, event in pairwise((played[0], *played)):
        if event.within is not None:
            yield them(event.notes[0].pitch), them(event.notes[1].pitch)
        elif event.crosses and event.begins is not Begins.TURN:
            yield them(before.notes[-1].pitch), them(event.notes[-1].pitch)


def them(pitch: object) -> str:
    return str(pitch).replace("b", "-")


def false(one: str, other: str) -> bool:
    """A consonance that music21 calls augmented or diminished, or anything that is twice so."""
    low, high = sorted(map(m21_pitch.Pitch, (one, other)), key=lambda p: (p.diatonicNoteNum, p.ps))
    heard = abs(round(high.ps - low.ps)) % 12
    name = m21_interval.Interval(low, high).name
    return name[:2] in {"AA", "dd"} or (heard in HEARD and name[0] not in "PMm")


@pytest.mark.published(MUSIC21)
@pytest.mark.parametrize(
    ("key", "heard", "written"),
    [
        # B flat to F sharp would be an augmented fifth: a minor sixth is played
        ("123-half.half-place2-strings4321-stage3-low-same", "A3 F4 Db5 Gb5", "m6 m6 P4"),
        ("123-half.half-place2-strings43-stage1-high-same", "B3 Bb3 A3 F#4 F4 E4", "M6"),
        ("12-augmented-place1-strings43-stage1-low-mirror", "G#3 B3 D#4 F#4", "M3"),
    ],
)
def test_a_sixth_and_a_fourth_have_their_names(key: str, heard: str, written: str) -> None:
    played = events(VIOLIN, key)
    count = len(heard.split())
    crossed = [one.from_previous for one in played[:count] if one.crosses]

    assert names(played[:count]) == heard
    assert crossed == written.split()


@pytest.mark.published(MUSIC21)
@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA], ids=lambda one: one.key)
def test_hardly_a_consonance_of_a_chromatic_hand_has_a_false_name(instrument: Instrument) -> None:
    """In one drill of twenty at most a note has two neighbours that want two names for it."""
    drills = list(chromatic(instrument, 5, 0.005))
    found = [
        drill.key
        for drill in drills
        if any(false(one, other) for one, other in moves(play(drill, instrument)))
    ]

    assert len(drills) > 250
    assert len(found) <= len(drills) / 20, found


def fewest(drill: Drill, instrument: Instrument) -> int:
    """The slow twin: every naming with an accidental at most, one name for a note."""
    played = play(drill, instrument)
    spots = sorted({note.stop for event in played for note in event.notes})
    heights = {note.stop: note.pitch.midi for event in played for note in event.notes}
    pairs = set()
    for before, event in pairwise((played[0], *played)):
        if event.within is not None:
            pairs.add((event.notes[0].stop, event.notes[1].stop))
        elif event.crosses and event.begins is not Begins.TURN:
            pairs.add((before.notes[-1].stop, event.notes[-1].stop))
    ways = product(*(ONE_SIGN[heights[spot] % 12] for spot in spots))
    least = len(pairs)
    for way in ways:
        line = dict(zip(spots, way, strict=True))
        wrong = sum(
            abs(line[other] - line[one]) > 12
            or (
                (heights[other] - heights[one]) % 12 in HEARD
                and (line[other] - line[one]) not in range(-5, 6)
            )
            for one, other in pairs
        )
        least = min(least, wrong)
    return least


ONE_SIGN = {
    pitch: [fifth for fifth in range(-8, 13) if fifth * 7 % 12 == pitch] for pitch in range(12)
}
"""Names with one sign at most as places on the line of fifths, C = 0: F flat is -8, B sharp 12."""


@pytest.mark.published("the line of fifths: diatonic intervals span five fifths at most")
@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA], ids=lambda one: one.key)
def test_no_other_naming_has_fewer_false_names(instrument: Instrument) -> None:
    checked = 0
    for drill in chromatic(instrument, 11, 0.01):
        if drill.stage < 3:
            continue
        pairs = {frozenset(pair) for pair in moves(play(drill, instrument))}
        wrong = sum(false(*sorted(pair)) for pair in pairs if len(pair) > 1)
        assert wrong <= fewest(drill, instrument), drill.key
        checked += 1

    assert checked > 15
