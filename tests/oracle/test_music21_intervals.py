"""Every interval that any drill can show, named once more by music21."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import combinations, pairwise, permutations, product
from random import Random

import pytest
from kit.shorthand import (
    SPECIMEN_KEYS,
    VIOLA,
    VIOLIN,
    frame,
    hands,
    skips,
    specimen,
    string_sets,
)
from kit.sources import published, published_words
from music21 import interval as m21_interval
from music21 import pitch as m21_pitch

from bookgen.model import music
from bookgen.model.drill import Drill
from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval, interval_label
from bookgen.model.music import play
from bookgen.model.naming import Names, names_of
from bookgen.model.pitch import Pitch
from bookgen.model.route import STAGES, Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.spelling import spell
from bookgen.model.units import Semitones, StringNumber

Named = tuple[Pitch, Pitch, str]
Runs = list[tuple[StringNumber, ...]]

MUSIC21 = "music21 10.5, interval names"
PLAYED_INSTRUMENTS = [VIOLIN, VIOLA, *map(specimen, SPECIMEN_KEYS)]
PAIRS = list(combinations((1, 2, 3, 4), 2))
SHIFTS = [*map(Semitones, (1, 2, 3, 4, 5, 6, 7, 12))]
MANY_FINGERS = [*combinations((1, 2, 3, 4), 3), (1, 2, 3, 4)]
STEPS = {Spacing.HALF, Spacing.WHOLE}
SHARE = 0.1
"""Of the drills, by a fixed seed: all of them take minutes."""

LABELS = published_words("double_stops", "label")
SEMITONES = published("double_stops", "semitones")


def theirs(pitch: Pitch) -> m21_pitch.Pitch:
    return m21_pitch.Pitch(str(pitch).replace("b", "-"))


def their_label(one: Pitch, other: Pitch) -> str:
    low, high = sorted(
        (theirs(one), theirs(other)), key=lambda pitch: (pitch.diatonicNoteNum, pitch.ps)
    )
    return str(m21_interval.Interval(low, high).name)


def disagreements(found: set[Named]) -> list[str]:
    return [
        f"{one} {other}: {label}, music21 {their_label(one, other)}"
        for one, other, label in found
        if their_label(one, other) != label
    ]


def all_and_twos(instrument: Instrument) -> Runs:
    """All strings together, and every two neighbours."""
    numbers = instrument.string_numbers()
    return [numbers, *(two for two in pairwise(numbers) if two != numbers)]


def labelled(events: tuple[Event, ...]) -> Iterator[Named]:
    """The labels of a drill, each with the two notes it must be between."""
    for event in events:
        if event.within is not None:
            yield event.notes[0].pitch, event.notes[-1].pitch, event.within
    for before, after in pairwise(events):
        if after.from_previous is not None:
            yield before.notes[-1].pitch, after.notes[-1].pitch, after.from_previous


def places(instrument: Instrument, hand: Frame) -> list[Semitones]:
    every = (Semitones(place) for place in range(instrument.highest_stop + 1))
    return [place for place in every if instrument.refused_place(hand, place) is None]


def laid(instrument: Instrument, hand: Frame, string_runs: Runs) -> Iterator[Drill]:
    """A share of the drills of a frame on these strings: all places, orders, stages, returns."""
    ways = product(
        permutations(hand.fingers), places(instrument, hand), string_runs, STAGES, Return
    )
    dice = Random(f"{hand} {string_runs}")
    for order, place, run, stage, back in ways:
        if dice.random() > SHARE:
            continue
        drill = Drill(instrument.key, hand, order, place, run, stage, back)
        if drill.refusal(instrument) is None:
            yield drill


@pytest.fixture
def spelled_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Spelling does not depend on stage, lead or return: remember it over them."""
    known: dict[tuple[str, Frame, int, tuple[StringNumber, ...]], Names] = {}

    def remembered(
        instrument: Instrument, hand: Frame, place: Semitones, run: tuple[StringNumber, ...]
    ) -> Names:
        at = (instrument.key, hand, place, run)
        if at not in known:
            known[at] = names_of(instrument, hand, place, run)
        return known[at]

    monkeypatch.setattr(music, "names_of", remembered)


def collect(instrument: Instrument, drills: Iterable[Drill]) -> tuple[int, set[Named]]:
    found: set[Named] = set()
    count = 0
    for drill in drills:
        count += 1
        found.update(labelled(play(drill, instrument)))
    return count, found


def on_frames(instrument: Instrument, frames: list[Frame], runs: Runs) -> Iterator[Drill]:
    return (drill for hand in frames for drill in laid(instrument, hand, runs))


@pytest.mark.published(MUSIC21)
@pytest.mark.usefixtures("spelled_once")
@pytest.mark.parametrize("instrument", PLAYED_INSTRUMENTS, ids=lambda one: one.key)
def test_every_interval_of_every_pair_drill(instrument: Instrument) -> None:
    frames = [hand for fingers in PAIRS for hand in hands(instrument, fingers)]
    runs = string_sets if instrument in {VIOLIN, VIOLA} else all_and_twos
    count, found = collect(instrument, on_frames(instrument, frames, runs(instrument)))

    assert count > 500 * SHARE
    assert disagreements(found) == []


@pytest.mark.published(MUSIC21)
@pytest.mark.usefixtures("spelled_once")
@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA], ids=lambda one: one.key)
def test_intervals_of_drills_on_a_frame_of_half_and_whole_steps(
    instrument: Instrument,
) -> None:
    frames = [
        hand
        for fingers in MANY_FINGERS
        for hand in hands(instrument, fingers)
        if STEPS.issuperset(hand.spacings)
    ]
    every = on_frames(instrument, frames, [instrument.string_numbers()])
    count, found = collect(instrument, every)

    assert count > 30_000 * SHARE
    assert disagreements(found) == []


def asked_for(instrument: Instrument) -> Iterator[Drill]:
    """Drills that a passage asks for: one finger, a shift of up to an octave, a skipped string."""
    alone = [Frame((finger,), ()) for finger in (1, 2, 3, 4)]
    pairs = [hand for fingers in PAIRS for hand in hands(instrument, fingers)]
    still = [*alone, *(hand for hand in pairs if STEPS.issuperset(hand.spacings))]
    shifting = [replace(hand, shift=Semitones(shift)) for hand in still for shift in SHIFTS]
    every = instrument.string_numbers()
    for hand in alone:
        yield from laid(instrument, hand, [every, *skips(instrument)])
    for hand in still:
        yield from laid(instrument, hand, skips(instrument))
    for hand in shifting:
        yield from laid(instrument, hand, [every])
    for hand in hands(instrument, (1, 2, 3)):
        yield from laid(instrument, hand, [every[:2]])


@pytest.mark.published(MUSIC21)
@pytest.mark.usefixtures("spelled_once")
@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA], ids=lambda one: one.key)
def test_notes_and_intervals_of_drills_that_a_passage_asks_for(
    instrument: Instrument,
) -> None:
    found: set[Named] = set()
    heights: set[tuple[Pitch, int]] = set()
    count = 0
    for drill in asked_for(instrument):
        count += drill.for_passages
        found.update(labelled(played := play(drill, instrument)))
        heights.update(
            (note.pitch, instrument.open_pitch(note.stop.string).midi + note.stop.semitones)
            for event in played
            for note in event.notes
        )

    assert count > 20_000 * SHARE
    assert disagreements(found) == []
    assert [(str(name), midi) for name, midi in heights if theirs(name).ps != midi] == []


@pytest.mark.published(MUSIC21)
@pytest.mark.parametrize("instrument", PLAYED_INSTRUMENTS, ids=lambda one: one.key)
def test_any_two_notes_of_a_frame_on_the_same_or_neighbouring_strings(
    instrument: Instrument,
) -> None:
    found: set[Named] = set()
    for hand in (hand for fingers in MANY_FINGERS for hand in hands(instrument, fingers)):
        for place, run in product(places(instrument, hand), all_and_twos(instrument)):
            pitches = spell(instrument, hand, place, run).pitches
            found.update(
                (here, there, interval_label(here, there))
                for ((low, _), here), ((high, _), there) in combinations(pitches.items(), 2)
                if abs(low - high) <= 1
            )

    assert disagreements(found) == []


def cells() -> list[tuple[str, int, int]]:
    """Frame, finger on the lower string, finger on the higher string."""
    return [(name[:3], int(name[4]), int(name[6])) for name in LABELS.values]


def test_the_table_has_sixteen_double_stops_for_each_of_eight_frames() -> None:
    assert len(cells()) == 128
    assert len({name for name, _, _ in cells()}) == 8


@pytest.mark.published(LABELS.title)
@pytest.mark.parametrize(("name", "low", "high"), cells())
def test_a_double_stop_of_a_frame_on_strings_a_fifth_apart(name: str, low: int, high: int) -> None:
    hand = frame(name)
    fifth = VIOLIN.between_open(StringNumber(4), StringNumber(3))
    first, above = Pitch.parse("A3"), Pitch.parse("A3").up(fifth.degrees, fifth.semitones)
    one = first.up(hand.letters(low), hand.offset(low))
    other = above.up(hand.letters(high), hand.offset(high))
    expected = LABELS.values[f"{name} {low}-{high}"]

    assert interval_label(one, other) == expected
    assert Interval.between(one, other).semitones == SEMITONES.values[f"{name} {low}-{high}"]
    assert their_label(one, other) == expected
