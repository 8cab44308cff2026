"""The trade's shorthand in tests, and the specimen instruments."""

from collections.abc import Iterable
from itertools import combinations, product
from pathlib import Path

from hypothesis import strategies as st

from bookgen.model.drill import Drill
from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.pitch import Pitch
from bookgen.model.route import Group, Return, Step
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones, StringNumber
from bookgen.readers.instrument import parse_instrument, read_instrument

NUMERALS = {"I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6}
SPACINGS = {"H": Spacing.HALF, "W": Spacing.WHOLE, "A": Spacing.AUGMENTED}
SPECIMENS = Path(__file__).parents[1] / "specimens" / "instruments"
OWN = sorted(path.stem for path in SPECIMENS.glob("*.toml"))
SPECIMEN_KEYS = ["cello", "double_bass", *OWN]

VIOLIN = read_instrument("violin")
VIOLA = read_instrument("viola")
NEIGHBOURS = [
    Frame.pair(low, low + 1, spacing)
    for low, spacing in product((1, 2, 3), (Spacing.HALF, Spacing.WHOLE))
]


def specimen(key: str) -> Instrument:
    """An instrument beside the violins: of the package, or from its file beside the tests."""
    if key not in OWN:
        return read_instrument(key)
    file = SPECIMENS / f"{key}.toml"
    return parse_instrument(key, file.read_text(encoding="utf-8"), file.name)


def steps(text: str) -> tuple[Step, ...]:
    """Read `IV1 III2`: finger 1 on the violin's lowest string, then finger 2 on the next."""
    return tuple((StringNumber(NUMERALS[word[:-1]]), int(word[-1])) for word in text.split())


def groups(text: str) -> tuple[Group, ...]:
    """Read groups of steps, parted by bars."""
    return tuple(steps(part) for part in text.split("|"))


def strings(digits: str) -> tuple[StringNumber, ...]:
    """Read string numbers from low to high: `4321`."""
    return tuple(StringNumber(int(digit)) for digit in digits)


def pitch(name: str) -> Pitch:
    """Read one pitch name."""
    return Pitch.parse(name)


def frame(spacings: str) -> Frame:
    """Read a hand frame of four fingers: `WHW`, A for an augmented second."""
    return Frame((1, 2, 3, 4), tuple(SPACINGS[letter] for letter in spacings))


def pair(fingers: str, spacing: Spacing) -> Frame:
    """Read a pair: `12`."""
    return Frame.pair(int(fingers[0]), int(fingers[1]), spacing)


def events(instrument: Instrument, key: str) -> tuple[Event, ...]:
    """Play a drill by its key without the instrument: `12-whole-place2-strings4321-…`."""
    return play(Drill.parse_key(f"{instrument.key}-{key}"), instrument)


def names(played: Iterable[Event]) -> str:
    """Notes as text: held ones with ~, sounding together with +."""
    return " ".join(
        "+".join(f"{'~' if note.held else ''}{note.pitch}" for note in event.notes)
        for event in played
    )


def string_sets(instrument: Instrument) -> list[tuple[StringNumber, ...]]:
    """All runs of two or more neighbouring strings, from low to high."""
    numbers = instrument.string_numbers()
    return [
        numbers[first : last + 1]
        for first in range(len(numbers))
        for last in range(first + 1, len(numbers))
    ]


def hands(instrument: Instrument, fingers: tuple[int, ...]) -> list[Frame]:
    """Every frame of these fingers that the hand takes at one place or more."""
    count = len(fingers) - 1
    return [
        found
        for found in (Frame(fingers, way) for way in product(Spacing, repeat=count))
        if any(
            instrument.refused_place(found, Semitones(place)) is None
            for place in range(instrument.highest_stop + 1)
        )
    ]


def skips(instrument: Instrument) -> list[tuple[StringNumber, ...]]:
    """Every two strings with others between them, from low to high."""
    numbers = instrument.string_numbers()
    return [pair for pair in combinations(numbers, 2) if pair[0] - pair[1] > 1]


@st.composite
def drills(draw: st.DrawFn, instrument: Instrument) -> Drill:
    """Any drill in form, whether or not the hand takes it."""
    fingers = tuple(sorted(draw(st.sets(st.integers(1, 4), min_size=1))))
    count = len(fingers) - 1
    spacings = draw(st.lists(st.sampled_from(Spacing), min_size=count, max_size=count))
    shift = Semitones(draw(st.just(0) | st.integers(0, 14)))
    return Drill(
        instrument=instrument.key,
        frame=Frame(fingers, tuple(spacings), shift),
        order=tuple(draw(st.permutations(fingers))),
        place=Semitones(draw(st.integers(0, 26))),
        strings=draw(st.sampled_from([*string_sets(instrument), *skips(instrument)])),
        stage=draw(st.integers(1, 5)),
        back=draw(st.sampled_from(Return)),
    )
