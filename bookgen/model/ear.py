"""What the ear can prove in a drill: a note by an open string, a pure double stop in figures."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval
from bookgen.model.pitch import Pitch
from bookgen.model.ring import EASY, EarCheck, ear_check
from bookgen.model.stop import Note
from bookgen.model.tuned import left_over
from bookgen.model.tuning import difference_tone, just_deviation, just_ratio
from bookgen.model.units import Cents, Hertz, Semitones

TONES: Final = {
    "m3": "M17",
    "M3": "P15",
    "P4": "P12",
    "P5": "P8",
    "m6": "M6",
    "M6": "P5",
    "P8": "P1",
}
"""How far the difference tone of a pure interval lies below its lower note.

The ratio less one: a fifth 3/2 leaves 1/2, an octave below (computed; Helmholtz, On the
Sensations of Tone, chapter VII).
"""

SUNG: Final = {
    12: "P8",
    7: "P5",
    5: "P4",
    4: "M3",
    3: "m3",
    2: "M2",
    1: "m2",
    9: "M6",
    8: "m6",
    10: "m7",
    11: "M7",
}
"""How a note is sung from the open string below it, by semitones, however it is spelled; the
easiest first (common practice, no source)."""

TRITONE: Final = "A4"
"""What is sung where there is nothing else."""


@dataclass(frozen=True, slots=True)
class PureStop:
    """A double stop that the ear can bring to rest, in figures.

    low, high: its notes; label: its interval.
    away: how far the pure interval lies above (+) or below (-) the equal-tempered one.
    tone, tone_hz: the difference tone, by its name over the written notes, and as it sounds.
    """

    low: Note
    high: Note
    label: str
    away: Cents
    tone: Pitch
    tone_hz: Hertz


def easiest(notes: Iterable[Note], instrument: Instrument) -> EarCheck | None:
    """The check that is easiest to hear; None where no open string proves a note.

    What rings by itself goes first, then the easier interval.
    """
    checks = [check for note in notes if (check := ear_check(note, instrument))]
    return min(
        checks, key=lambda check: (not check.rings, EASY.index(check.interval)), default=None
    )


def sung(note: Note) -> str:
    """The interval by which a note is sung from its own open string."""
    octaves, rest = divmod(note.stop.semitones - 1, 12)
    label = SUNG.get(rest + 1, TRITONE)
    return f"{label[0]}{int(label[1:]) + 7 * octaves}"


def easiest_sung(notes: Iterable[Note]) -> Note:
    """The note that is easiest to sing from its own open string.

    notes: at least one.
    """
    order = [*SUNG]

    def hardness(note: Note) -> tuple[int, int]:
        octaves, rest = divmod(note.stop.semitones - 1, 12)
        return order.index(rest + 1) if rest + 1 in SUNG else len(order), octaves

    return min(notes, key=hardness)


def pure_stops(events: Sequence[Event], instrument: Instrument) -> Iterator[PureStop]:
    """Each kind of pure double stop once, where it first comes and can be pure.

    The note that an open string proves is taken as equal-tempered, the other tuned to it.
    """
    met: set[str] = set()
    impure = {(left.low.stop, left.high.stop) for left in left_over(events, instrument)}
    for event in events:
        if event.within not in TONES or event.within in met:
            continue
        low, high = sorted(event.notes, key=lambda note: note.pitch.midi)
        if (low.stop, high.stop) in impure:
            continue
        met.add(event.within)
        ratio = float(just_ratio(event.within))
        check = easiest((low, high), instrument)
        proven = check.note if check else low
        below = low.pitch.hz if proven == low else high.pitch.hz / ratio
        sounding = Hertz(below * 2.0 ** (instrument.sounding / 12.0))
        yield PureStop(
            low=low,
            high=high,
            label=event.within,
            away=just_deviation(event.within),
            tone=tone_name(low.pitch, event.within, instrument.sounding),
            tone_hz=difference_tone(sounding, Hertz(sounding * ratio)),
        )


def tone_name(low: Pitch, label: str, sounding: Semitones) -> Pitch:
    """The spelled difference tone of a pure double stop over its lower note.

    sounding: semitones from the written to the sounding note, whole octaves.

    >>> str(tone_name(Pitch.parse("D4"), "M6", Semitones(0)))
    'G3'
    """
    below = Interval.parse(TONES[label])
    octaves = sounding // 12
    return low.up(7 * octaves - below.degrees, Semitones(sounding - below.semitones))
