"""Fingered passages for the tests: in shorthand, solved; and at random, for what only prints."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cache
from random import Random

from hypothesis import strategies as st
from kit.phrases import phrase
from kit.shorthand import VIOLIN

from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Bar, Phrase, Sound, WrittenNote
from bookgen.model.pitch import Pitch
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.passage.groups import grouped
from bookgen.passage.solve import solve
from bookgen.plan.passage import Fingering, Group, Hand, Passage, Placed
from bookgen.readers.fingering import read_costs

TITLE = "A hard passage"
FIRST_BAR = 33
ORDINARY = (
    "A4 B4 C#5 D5 E5 F#5 G#5 A5 | C#5+A4=1/4 D5+B4=1/4 r=1/4 C#5=1/4 | A5 B5 C#6 D6 E6 D6 C#6 B5"
    " | A5=3/8 ~A5 gB5 G#5=1/4 F#3 E5 | G3+D4+B4+G5=1/2 A4=1/2 | D4 E4 F#4 G4 A4 B4 C#5 D5"
)
"""Bars with double stops, a chord, a tie, a grace note, a rest and a note below the violin."""


def numbered(given: Phrase, first: int = FIRST_BAR) -> Phrase:
    """The phrase with its bars numbered from another one."""
    bars = [replace(bar, number=str(first + at)) for at, bar in enumerate(given.bars)]
    return Phrase(tuple(bars))


@cache
def passage(
    text: str | Phrase = ORDINARY, instrument: Instrument = VIOLIN, title: str = TITLE
) -> Passage:
    """A passage in shorthand, with the best fingering, its groups, and the next best one."""
    given = numbered(phrase(text)) if isinstance(text, str) else text
    found = solve(given, instrument, read_costs())
    best = grouped(found.best, given, instrument)
    other = grouped(found.other, given, instrument) if found.other else None
    size = instrument.sizes[0].name
    return Passage(title, instrument.key, size, given, best, other)


def by_hand(
    text: str, stops: str = "", groups: Sequence[tuple[int, int]] = (), sharps: int = 0
) -> Passage:
    """A passage whose stops are told: `IV1`, `III0+II1`, - for what cannot be played.

    groups: first and last sound of each.
    """
    given = numbered(phrase(text))
    first = replace(given.bars[0], sharps=sharps)
    given = Phrase((first, *(replace(bar, sharps=None) for bar in given.bars[1:])))
    places = [
        (bar, at)
        for bar, here in enumerate(given.bars)
        for at, sound in enumerate(here.sounds)
        if sound.struck
    ]
    told = [word.split("+") for word in stops.split()] or [["-"]] * len(places)
    placed = tuple(
        Placed(bar, at, tuple(map(stop, words, notes_at(given, bar, at))), None, {})
        for (bar, at), words in zip(places, told, strict=True)
    )
    found = tuple(
        Group(chr(ord("A") + at), start, end, Semitones(2), "1st", held(placed[start : end + 1]))
        for at, (start, end) in enumerate(groups)
    )
    return Passage(TITLE, "violin", "4/4", given, Fingering(placed, found, 0.0, ()), None)


def laid_in_first(text: str, stops: str) -> Passage:
    """Stops that are told, in one group, the hand in first position wherever a finger is down."""
    one = by_hand(text, stops)
    hand = Hand(Semitones(2), ())
    placed = tuple(
        replace(each, hand=hand if any(s and s.finger for s in each.stops) else None)
        for each in one.best.placed
    )
    group = Group("A", 0, len(placed) - 1, Semitones(2), "1st", held(placed))
    return replace(one, best=replace(one.best, placed=placed, groups=(group,)))


def held(placed: Sequence[Placed]) -> tuple[Stop, ...]:
    """The stops that fingers hold in some sounds."""
    stops = {stop for one in placed for stop in one.stops if stop is not None and stop.finger}
    return tuple(sorted(stops))


def notes_at(given: Phrase, bar: int, at: int) -> tuple[WrittenNote, ...]:
    return given.bars[bar].sounds[at].notes


def stop(word: str, note: WrittenNote) -> Stop | None:
    """Read `II1` for a note of the violin."""
    if word == "-":
        return None
    string = StringNumber(["I", "II", "III", "IV"].index(word[:-1]) + 1)
    height = note.pitch.midi - VIOLIN.open_pitch(string).midi
    return Stop(string, int(word[-1]), Semitones(height))


RHYTHMS = (
    *("1/4", "1/8 1/8", "1/16 1/16 1/16 1/16", "3/16 1/16", "1/12 1/12 1/12", "1/6 1/12"),
    *("1/20 1/20 1/20 1/20 1/20", "1/24 1/24 1/24 1/8", "1/28 " * 7, "5/16", "7/16", "1/2"),
)
"""What a beat or two may hold, triplets, quintuplets and septuplets among it."""

METERS = ((4, 4), (3, 4), (6, 8), (2, 4), (5, 8), (2, 2), (12, 8))


def random_phrase(seed: int, bars: int = 12, instrument: Instrument = VIOLIN) -> Phrase:
    """Bars full of everything: chords, ties, graces, tuplets, rests, new keys and meters."""
    dice = Random(seed)
    made: list[Bar] = []
    before: tuple[WrittenNote, ...] = ()
    meter = dice.choice(METERS)
    for number in range(bars):
        turns = number == 0 or dice.random() < 0.1
        meter = dice.choice(METERS) if turns else meter
        upbeat = number == 0 and dice.random() < 0.4
        length = Fraction(1, 4) if upbeat else Fraction(*meter)
        sounds: list[Sound] = []
        at = Fraction(0)
        while at < length:
            for word in dice.choice(RHYTHMS).split():
                lasts = min(Fraction(word), length - at)
                if lasts <= 0:
                    break
                notes = random_notes(dice, instrument, before)
                sounds += random_graces(dice, instrument, at) if notes else []
                sounds.append(Sound(at, lasts, notes))
                before = notes
                at += lasts
        sharps = dice.randint(-7, 7) if turns else None
        made.append(Bar(str(number), tuple(sounds), length, meter if turns else None, sharps))
    return Phrase(tuple(made))


def random_notes(
    dice: Random, instrument: Instrument, before: tuple[WrittenNote, ...]
) -> tuple[WrittenNote, ...]:
    """A chord, a note, the chord before tied over, or a rest."""
    roll = dice.random()
    if roll < 0.08:
        return ()
    if roll < 0.2 and before:
        return tuple(replace(note, tied=dice.random() < 0.8) for note in before)
    count = dice.choice((1, 1, 1, 1, 1, 1, 2, 2, 3, 4))
    found = {one.degree: one for one in (random_pitch(dice, instrument) for _ in range(count))}
    return tuple(WrittenNote(one) for one in sorted(found.values(), key=lambda one: one.midi))


def random_graces(dice: Random, instrument: Instrument, at: Fraction) -> list[Sound]:
    count = dice.choice((0,) * 12 + (1, 2, 3))
    notes = [(WrittenNote(random_pitch(dice, instrument)),) for _ in range(count)]
    return [Sound(at, Fraction(0), one, grace=True) for one in notes]


def random_pitch(dice: Random, instrument: Instrument) -> Pitch:
    """A pitch from just below the instrument to just above it, seldom doubly altered."""
    low, high = instrument.strings[-1].midi - 2, instrument.strings[0].midi + 26
    while True:
        accidental = dice.choice(
            (0, 0, 0, 0, 1, 1, -1, -1, 2, -2) if dice.random() < 0.1 else (0, 1, -1)
        )
        found = Pitch(dice.choice("CDEFGAB"), accidental, dice.randint(2, 7))
        if low <= found.midi <= high:
            return found


@st.composite
def any_passage(draw: st.DrawFn) -> Passage:
    """Any phrase with any fingering that a file can hold, whether or not a hand could play it."""
    given = random_phrase(draw(st.integers(0, 10**6)), draw(st.integers(1, 4)))
    dice = Random(draw(st.integers(0, 10**6)))
    placed = [
        Placed(bar, at, tuple(random_stop(dice) for _ in sound.notes), Hand(Semitones(2), ()), {})
        for bar, here in enumerate(given.bars)
        for at, sound in enumerate(here.sounds)
        if sound.struck
    ]
    fingering = Fingering(tuple(placed), (), 0.0, ())
    return Passage(draw(st.text(max_size=20)), "violin", "4/4", given, fingering, None)


def random_stop(dice: Random) -> Stop | None:
    finger = dice.randint(0, 4)
    string = StringNumber(dice.randint(1, 4))
    if dice.random() < 0.1:
        return None
    return Stop(string, finger, Semitones(dice.randint(1, 20) if finger else 0))
