"""Every sentence about hearing, for the drills of violin and viola, from partials and ratios.

Nothing of ours says here what sounds: open strings are MIDI numbers, intervals are ratios of whole
numbers, and what a page says is read from its words. Pairs of fingers are walked through whole
where no other share is named.
"""

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import permutations, product
from math import log2
from random import Random

import numpy as np
import pytest
from kit.shorthand import VIOLA, VIOLIN, hands, string_sets

from bookgen.model.drill import Drill
from bookgen.model.ear import pure_stops
from bookgen.model.event import Event
from bookgen.model.geometry import FINGER_MM, gap_mm
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.route import STAGES, Return
from bookgen.model.stop import Note
from bookgen.model.tuned import Left, left_over
from bookgen.model.units import Semitones
from bookgen.notation.clef import clef_of
from bookgen.notation.label import rings
from bookgen.plan.link import crossings
from bookgen.words.ear import cents_line, ear_proof, tune_line
from bookgen.words.sheet import commonest
from bookgen.words.speech import ENGLISH

SOURCE = (
    "partials of a string are whole multiples; just ratios (Helmholtz, app. XX), own arithmetic"
)
BOTH = pytest.mark.parametrize("instrument", [VIOLIN, VIOLA], ids=lambda one: one.key)
OPEN = {"violin": {4: 55, 3: 62, 2: 69, 1: 76}, "viola": {4: 48, 3: 55, 2: 62, 1: 69}}
PAIRS = [(1, 2), (2, 3), (3, 4), (1, 3), (2, 4)]
LOUDEST_PARTIALS = (1, 2, 3, 4)
RATIOS = {
    "unison": Fraction(1),
    "minor third": Fraction(6, 5),
    "major third": Fraction(5, 4),
    "perfect fourth": Fraction(4, 3),
    "perfect fifth": Fraction(3, 2),
    "minor sixth": Fraction(8, 5),
    "major sixth": Fraction(5, 3),
    "octave": Fraction(2),
    "minor tenth": Fraction(12, 5),
    "major tenth": Fraction(5, 2),
    "perfect eleventh": Fraction(8, 3),
    "perfect twelfth": Fraction(3),
}
HEARD = {round(12 * log2(ratio)): name for name, ratio in RATIOS.items()}
"""What two strings can sound at rest, by half steps."""

Spot = tuple[int, int]
"""A string, and half steps above it; an open string has none."""

Wish = tuple[Spot, Spot, str, int]
"""A lower and a higher spot, the interval that is to be pure, and how easily it is heard."""

SEMITONE = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
NUMERALS = {"I": 1, "II": 2, "III": 3, "IV": 4}


def cents(ratio: Fraction) -> float:
    return 1200 * log2(ratio)


def drills(
    instrument: Instrument, stages: range = STAGES, share: float = 1.0, seed: int = 0
) -> Iterator[Drill]:
    """Every drill of two fingers, or a share of them."""
    dice = Random(seed)
    for fingers in PAIRS:
        for hand, order, place, run, stage, back in product(
            hands(instrument, fingers),
            permutations(fingers),
            range(1, instrument.highest_stop + 1),
            string_sets(instrument),
            stages,
            Return,
        ):
            drill = Drill(instrument.key, hand, order, Semitones(place), run, stage, back)
            if drill.refusal(instrument) is None and (share == 1.0 or dice.random() < share):
                yield drill


@cache
def answers(key: str, string: int, height: int) -> bool:
    """An open string sounds along: a low partial of one of the two is the other's own note."""
    sounds = OPEN[key][string] + height
    return any(
        abs(sounds - nut) == round(12 * log2(partial)) and partial in {1, 2, 4}
        for other, nut in OPEN[key].items()
        if other != string
        for partial in LOUDEST_PARTIALS
    )


def rests(key: str, string: int, height: int, other: int) -> str | None:
    """What the note and an open neighbour sound at rest; None where they beat."""
    return HEARD.get(abs(OPEN[key][string] + height - OPEN[key][other]))


def spot_of(note: Note) -> Spot:
    return int(note.stop.string), int(note.stop.semitones)


def midi_of(name: str) -> int:
    """The number of a printed note: F♯4."""
    letter, signs, octave = re.fullmatch(r"([A-G])([♯♭]*)(\d)", name).groups()  # type: ignore[union-attr]
    return SEMITONE[letter] + signs.count("♯") - signs.count("♭") + 12 * (int(octave) + 1)


@BOTH
@pytest.mark.published(SOURCE)
def test_an_open_string_rings_where_the_sign_says_so(instrument: Instrument) -> None:
    signs = set()
    for drill in drills(instrument, range(1, 2), 0.5):
        for event in play(drill, instrument):
            stop = event.notes[0].stop
            signs.add((stop.string, int(stop.semitones), rings(event, instrument)))

    assert len(signs) > 80
    for string, height, told in signs:
        if told:
            assert answers(instrument.key, string, height), (string, height)


def proof_holds(said: str, played: tuple[Event, ...], key: str) -> bool:
    """An ear proof tells what is heard, and the easiest there is."""
    spots = {spot_of(note) for one in played for note in one.notes}
    some_ring = any(answers(key, *spot) for spot in spots)
    rest = {
        spot: {
            rests(key, *spot, other) for other in (spot[0] - 1, spot[0] + 1) if other in OPEN[key]
        }
        for spot in spots
    }
    if match := re.search(r"</b> (\S+), finger \d on (\w+), is in tune when", said):
        string = NUMERALS[match[2]]
        return answers(key, string, midi_of(match[1]) - OPEN[key][string])
    if match := re.search(r"</b> (\S+), finger \d on (\w+): bow it .* \(([a-z ]+)\)", said):
        string = NUMERALS[match[2]]
        spot = string, midi_of(match[1]) - OPEN[key][string]
        return not some_ring and match[3] in rest[spot]
    match = re.search(r"\((\w+)\), sing (\S+) above it \(([a-z ]+)\)", said)
    assert match, said
    silent = not any(found - {None} for found in rest.values())
    return not some_ring and silent and "augmented" not in match[3] and "dimin" not in match[3]


@BOTH
@pytest.mark.published(SOURCE)
def test_the_proof_of_a_day_is_true_and_none_is_easier(instrument: Instrument) -> None:
    met = set()
    for drill in drills(instrument, range(1, 4, 2)):
        hand = (drill.frame, drill.place, drill.strings, drill.stage)
        if hand in met:
            continue
        met.add(hand)
        played = play(drill, instrument)
        said = ear_proof([note for one in played for note in one.notes], instrument, ENGLISH)
        assert proof_holds(said, played, instrument.key), (drill.key, said)

    assert len(met) > 2000


def equal(name: str) -> float:
    return 100.0 * round(12 * log2(RATIOS[name]))


@BOTH
@pytest.mark.published(SOURCE)
def test_cents_are_those_of_the_ratios(instrument: Instrument) -> None:
    told = 0
    for drill in drills(instrument, range(5, 6), 0.2, seed=1):
        stops = [*pure_stops(play(drill, instrument), instrument)]
        line = cents_line(stops, ENGLISH) if stops else ""
        assert not re.search(r"\b0 cents", line)
        for name, number, way in re.findall(r"pure ([a-z ]+) \S+: (\d+) cents? (\w+),", line):
            away = cents(RATIOS[name]) - equal(name)
            assert int(number) == round(abs(away)), line
            assert way == ("wider" if away > 0 else "narrower")
            told += 1

    assert told > 200


RANKS = (
    *("unison", "octave", "perfect fifth", "perfect fourth", "double octave"),
    *("perfect twelfth", "perfect eleventh", "major sixth", "major third"),
    *("minor sixth", "minor third"),
)
PERFECT = {0: "unison", 12: "octave", 7: "perfect fifth", 5: "perfect fourth", 24: "double octave"}


def wishes(played: tuple[Event, ...], key: str) -> list[Wish]:
    """What is to be pure: notes to open strings by perfect intervals, and what sounds together."""

    def sounds(spot: Spot) -> int:
        return OPEN[key][spot[0]] + spot[1]

    found = []
    spots = {spot_of(note) for one in played for note in one.notes}
    pairs = [(spot, (other, 0)) for spot in spots for other in OPEN[key] if other != spot[0]]
    for spot, nut in sorted(pairs):
        name = PERFECT.get(abs(sounds(spot) - sounds(nut)))
        if name and (abs(spot[0] - nut[0]) == 1 or name.removeprefix("double ") in RANKS[:2]):
            low, high = sorted([spot, nut], key=sounds)
            found.append((low, high, name, RANKS.index(name)))
    for one in played:
        if len(one.notes) > 1:
            low, high = sorted([spot_of(note) for note in one.notes], key=sounds)
            name = HEARD.get(sounds(high) - sounds(low))
            if name:
                found.append((low, high, name, RANKS.index(name)))
    return found


def residues(played: tuple[Event, ...], key: str) -> dict[frozenset[Spot], float]:
    """Cents by which each double stop differs from pure, by least squares.

    What is easier to hear weighs ten thousand times more than what is harder, open strings most.
    """
    wanted = [(one, other, name, 0) for one, other, name, _ in fifths()]
    wanted += [(one, other, name, 1 + (rank > 4)) for one, other, name, rank in wishes(played, key)]
    spots = sorted({spot for one, other, *_ in wanted for spot in (one, other)})
    rows = np.zeros((len(wanted) + 1, len(spots)))
    right = np.zeros(len(wanted) + 1)
    rows[-1, 0] = 1.0
    for row, (low, high, name, rank) in enumerate(wanted):
        weight = 1e-4**rank
        rows[row, spots.index(low)], rows[row, spots.index(high)] = -weight, weight
        size = Fraction(4) if name == "double octave" else RATIOS[name]
        right[row] = weight * cents(size)
    heights, *_ = np.linalg.lstsq(rows, right, rcond=1e-14)
    at = dict(zip(spots, heights, strict=True))
    return {
        frozenset((low, high)): float(at[high] - at[low] - cents(RATIOS[name]))
        for low, high, name, _ in wishes(played, key)
        if name in RATIOS and low[1] and high[1]
    }


def fifths() -> list[Wish]:
    return [((string + 1, 0), (string, 0), "perfect fifth", 0) for string in (1, 2, 3)]


def spots_of(left: Left) -> frozenset[Spot]:
    return frozenset(spot_of(note) for note in (left.low, left.high))


@BOTH
@pytest.mark.published(SOURCE)
def test_what_cannot_be_pure_is_told_with_its_cents(instrument: Instrument) -> None:
    """A tenth of the drills of two fingers in double stops, by seed."""
    conflicts = 0
    for drill in drills(instrument, range(4, 6), 0.1, seed=2):
        played = play(drill, instrument)
        told = {spots_of(left): left for left in left_over(played, instrument)}
        for spots, away in residues(played, instrument.key).items():
            if spots in told:
                left = told[spots]
                assert left.away == pytest.approx(away, abs=0.1), drill.key
                line = tune_line(left, ENGLISH, cents=True)
                assert f"{round(abs(away))} cents {'wider' if away > 0 else 'narrower'}" in line
                conflicts += 1
            else:
                assert away == pytest.approx(0.0, abs=0.1), (drill.key, spots)

    assert conflicts > 20


@BOTH
@pytest.mark.published(SOURCE)
def test_a_double_stop_is_heard_by_its_own_interval_and_not_over_the_turn(
    instrument: Instrument,
) -> None:
    for drill in drills(instrument, range(5, 6), 0.1, seed=3):
        played = play(drill, instrument)
        own = {one.within for one in played}
        assert set().union(*crossings(played)) <= own, drill.key
        assert set(commonest(played)) <= own


@BOTH
@pytest.mark.published("equal temperament and makers' string lengths, own arithmetic")
def test_fingers_nearer_than_a_centimetre_make_room(instrument: Instrument) -> None:
    for size in instrument.sizes:
        for place, step in product(range(1, 24), (1, 2, 3, 4)):
            apart = size.string_length_mm * (2 ** (-place / 12) - 2 ** (-(place + step) / 12))
            told = gap_mm(size.string_length_mm, place, place + step) < FINGER_MM
            assert told == (apart < 10.0)


LINES = {"alto": "F3", "treble": "E4"}


def staff_place(name: str) -> int:
    """Letters above C0 of a note's name."""
    return 7 * int(name[-1]) + "CDEFGAB".index(name[0])


def ledger_lines(played: tuple[Event, ...], clef: str) -> int:
    """Short lines that the notes need above and below five lines."""
    total = 0
    for note in (note for one in played for note in one.notes):
        above = staff_place(str(note.pitch)) - staff_place(LINES[clef])
        total += max(0, (above - 8) // 2) if above > 0 else -above // 2 if above < -1 else 0
    return total


@pytest.mark.published("common practice: ledger lines of notes on a staff of five lines")
def test_a_violas_drill_is_read_in_alto_unless_treble_spares_many_ledger_lines() -> None:
    clefs = set()
    for drill in drills(VIOLA, range(1, 4), 0.2, seed=4):
        played = play(drill, VIOLA)
        if any(note.pitch.midi >= 96 for one in played for note in one.notes):
            continue  # an 8va sign spares lines in either clef
        clef = clef_of(played, VIOLA)
        lines = {name: ledger_lines(played, name) for name in LINES}
        alto = lines["alto"] <= lines["treble"] + len(played)
        assert clef == ("alto" if alto else "treble"), drill.key
        clefs.add(clef)

    assert clefs == {"alto", "treble"}
