"""How long a fingering takes, and what fingerings of whole quartets look like.

Run by hand from the top folder: `.venv/bin/python -m tests.benchmarks.fingering`.

A solution is the best way and the other one together, all tables empty at its beginning. Times
are those of the process, so that other programs count as little as they can; the least of the
rounds counts.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from random import Random
from time import process_time

from kit.fingered import CELLO, COSTS, counted
from kit.quartets import parts
from kit.shorthand import VIOLA, VIOLIN

from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Bar, Phrase, Sound, WrittenNote
from bookgen.model.pitch import Pitch
from bookgen.passage.groups import grouped
from bookgen.passage.solve import solve

QUARTETS = (
    "haydn/opus74no1/movement1",
    "haydn/opus74no1/movement2",
    "mozart/k80/movement1",
    "mozart/k458/movement1",
    "mozart/k458/movement3",
    "beethoven/opus18no1/movement1.mxl",
    "beethoven/opus18no1/movement3.mxl",
)
PLAYERS = (VIOLIN, VIOLIN, VIOLA, CELLO)
NAMES = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B")
ROUNDS = 3
MOST_CHORDS = 0.1


@dataclass(frozen=True)
class Line:
    """A part to solve, and how it is told."""

    name: str
    instrument: Instrument
    phrase: Phrase

    def milliseconds(self) -> tuple[float, int]:
        """The least time for a sounding event over some rounds, and how many events there are."""
        times = []
        count = 1
        for _ in range(ROUNDS):
            begun = process_time()
            solutions = solve(self.phrase, self.instrument, COSTS)
            count = max(1, len(solutions.best.placed))
            times.append(1000 * (process_time() - begun) / count)
        return min(times), count


def quartet_lines() -> list[Line]:
    """Every part of every movement."""
    return [
        Line(f"{movement} {instrument.key}", instrument, phrase)
        for movement in QUARTETS
        for instrument, phrase in zip(PLAYERS, parts(movement), strict=True)
    ]


def double_stops(seed: int, count: int) -> Line:
    """Thirds, sixths and octaves up and down at random, as studies in double stops have them."""
    dice = Random(seed)
    height, sounds = 62, []
    for _ in range(count):
        height = min(max(height + dice.choice((-4, -2, -1, 1, 2, 3)), 57), 76)
        wide = dice.choice((3, 4, 8, 9, 12))
        notes = tuple(WrittenNote(named(one)) for one in (height, height + wide))
        sounds.append(Sound(Fraction(0), Fraction(1, 8), notes))
    return Line("double stops", VIOLIN, Phrase((Bar("1", tuple(sounds), Fraction(count, 8)),)))


def named(height: int) -> Pitch:
    """A pitch by its MIDI number."""
    return Pitch.parse(f"{NAMES[height % 12]}{height // 12 - 1}")


def shares(counts: Counter[int]) -> str:
    """Counts as percent."""
    whole = max(1, counts.total())
    told = ", ".join(f"{key}: {100 * counts[key] / whole:.1f} %" for key in sorted(counts))
    return f"{told} of {counts.total()}"


def tell_times(lines: Sequence[Line]) -> None:
    """Print how long each takes."""
    for line in lines:
        time, count = line.milliseconds()
        print(f"{time:6.2f} ms an event, {count:5} events, {line.name}")  # noqa: T201


def tell_hands(lines: Sequence[Line]) -> None:
    """Print what the hands of the violins and violas do."""
    spacings: Counter[int] = Counter()
    octaves: Counter[int] = Counter()
    places: Counter[int] = Counter()
    fingers: Counter[int] = Counter()
    for line in lines:
        best = grouped(
            solve(line.phrase, line.instrument, COSTS).best, line.phrase, line.instrument
        )
        found, wide = counted(best)
        spacings += found
        octaves += wide
        places += Counter(one.hand.place for one in best.placed if one.hand)
        fingers += Counter(stop.finger for one in best.placed for stop in one.stops if stop)
    print("semitones between neighbours ", shares(spacings))  # noqa: T201
    print("1 below 4 on the next string ", shares(octaves))  # noqa: T201
    print("place of the hand            ", shares(places))  # noqa: T201
    print("fingers, 0 the open string   ", shares(fingers))  # noqa: T201


if __name__ == "__main__":
    every = quartet_lines()
    tell_times([*every, *(double_stops(seed, 100) for seed in range(3))])
    tell_hands([line for line in every if line.instrument is not CELLO])
