"""What the ear can prove in a drill: notes that ring, double stops and what tunes them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from bookgen.binder.english import open_name, pitch_name, with_article
from bookgen.model.event import Event
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.interval import Interval, interval_label, interval_words
from bookgen.model.pitch import Pitch
from bookgen.model.ring import EASY, EarCheck, ear_check
from bookgen.model.stop import Note
from bookgen.model.tuning import CONSONANT, difference_tone, just_deviation, just_ratio
from bookgen.model.units import Cents, Hertz, Semitones

MOST_PROOFS: Final = 2
SUNG: Final = {
    1: "a half step above",
    2: "a whole step above",
    3: "a minor third above",
    4: "a major third above",
}
"""How a note is sung from the open string below it, however the two are spelled."""

PURE: Final = CONSONANT | {"P1"}
"""What two strings can sound at rest: the consonances, and two fingers on one pitch."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A stopped note in words: pitch, finger, string."""

    pitch: str
    finger: int
    string: str


@dataclass(frozen=True, slots=True)
class Proof:
    """A stopped note and the open string that proves it, in words.

    way: `sing` from the open string to the note; `same` for the note's own string, `rings` where
        the open string sounds along without the bow, `bow` where the open neighbour is bowed
        together with the note.
    relation: how the open string lies to the note, e.g. "an octave above".
    """

    spot: Spot
    way: str
    open_pitch: str
    open_string: str
    relation: str


@dataclass(frozen=True, slots=True)
class Pair:
    """A double stop in words.

    stays, joins: the note that came first and the one tuned to it.
    pure: the ear can bring it to rest.
    """

    stays: Spot
    joins: Spot
    label: str
    name: str
    pure: bool


@dataclass(frozen=True, slots=True)
class Tuning:
    """A pure double stop in figures, for grown players.

    away: how far the pure interval lies from the equal-tempered one, e.g. "15.6 cents narrower".
    """

    pair: Pair
    away: str
    tone: str
    tone_hz: str


@dataclass(frozen=True, slots=True)
class Ear:
    """Everything a drill gives to hear.

    proofs: for single notes, at most two.
    pairs: every double stop once, in the order in which they come.
    anchor: the proof of one note of `tuned`, with which tuning begins; None where no open
        string proves a note of a pure double stop.
    start: the first note measured from its own open string, to be sung.
    """

    proofs: tuple[Proof, ...]
    pairs: tuple[Pair, ...]
    tuned: Pair | None
    anchor: Proof | None
    figures: tuple[Tuning, ...]
    start: Proof

    @property
    def pure_count(self) -> int:
        """How many double stops the ear can bring to rest."""
        return sum(pair.pure for pair in self.pairs)

    @property
    def pure_names(self) -> tuple[str, ...]:
        """Names of the double stops that the ear can bring to rest, each once."""
        return tuple(dict.fromkeys(pair.name for pair in self.pairs if pair.pure))

    @property
    def rough_names(self) -> tuple[str, ...]:
        """Names of the double stops that do not come to rest, each once."""
        return tuple(dict.fromkeys(pair.name for pair in self.pairs if not pair.pure))


def hear(events: Iterable[Event], instrument: Instrument) -> Ear:
    """Find what the ear can prove in a drill."""
    events = tuple(events)
    notes = tuple({note.stop: note for event in events for note in event.notes}.values())
    checks = [check for note in notes if (check := ear_check(note, instrument))]
    doubles = tuple(double_stops(events))
    pairs = tuple(pair_of(*double) for double in doubles)
    tuned, anchor = anchored(doubles, instrument)
    return Ear(
        proofs=tuple(proof(check, instrument) for check in best(checks)),
        pairs=pairs,
        tuned=tuned,
        anchor=anchor,
        figures=tuple(figures(doubles, instrument)),
        start=sung(notes[0], instrument),
    )


def sung(note: Note, instrument: Instrument) -> Proof:
    """A note as it is sung from its own open string; the relation says how far above it lies."""
    string = note.stop.string
    open_pitch = instrument.open_pitch(string)
    return Proof(
        spot=spot(note),
        way="sing",
        open_pitch=open_name(open_pitch),
        open_string=NUMERALS[string],
        relation=SUNG.get(note.stop.semitones) or relation(note.pitch, open_pitch),
    )


def best(checks: Iterable[EarCheck]) -> list[EarCheck]:
    """The checks easiest to hear, each with another open string."""
    chosen: list[EarCheck] = []
    for check in sorted(checks, key=ease):
        if all(check.open_string != other.open_string for other in chosen):
            chosen.append(check)
    return chosen[:MOST_PROOFS]


def ease(check: EarCheck) -> tuple[bool, int]:
    """Sorts checks: on another string first, then the easier interval; else the earlier note."""
    return (check.open_string == check.note.stop.string, EASY.index(check.interval))


def proof(check: EarCheck, instrument: Instrument) -> Proof:
    """A check in words."""
    open_pitch = instrument.open_pitch(check.open_string)
    own = check.open_string == check.note.stop.string
    return Proof(
        spot=spot(check.note),
        way="same" if own else "rings" if check.rings else "bow",
        open_pitch=open_name(open_pitch),
        open_string=NUMERALS[check.open_string],
        relation=relation(open_pitch, check.note.pitch),
    )


def relation(pitch: Pitch, other: Pitch) -> str:
    """How one pitch lies to another, in words.

    >>> relation(Pitch.parse("A4"), Pitch.parse("A3"))
    'an octave above'
    """
    label = interval_label(pitch, other)
    if label == "P1":
        return "the same note"
    return (
        f"{with_article(interval_words(label))} {'above' if pitch.midi > other.midi else 'below'}"
    )


def spot(note: Note) -> Spot:
    """A note in words."""
    return Spot(pitch_name(note.pitch), note.stop.finger, NUMERALS[note.stop.string])


def double_stops(events: Iterable[Event]) -> Iterator[tuple[Note, Note]]:
    """Every double stop once, however its notes are ordered later."""
    met: set[frozenset[tuple[int, int]]] = set()
    for event in events:
        if event.within is None:
            continue
        stops = frozenset((note.stop.string, note.stop.finger) for note in event.notes)
        if stops not in met:
            met.add(stops)
            yield event.notes[0], event.notes[1]


def pair_of(stays: Note, joins: Note) -> Pair:
    """A double stop in words."""
    label = interval_label(stays.pitch, joins.pitch)
    return Pair(spot(stays), spot(joins), label, interval_words(label), label in PURE)


def anchored(
    doubles: Iterable[tuple[Note, Note]], instrument: Instrument
) -> tuple[Pair | None, Proof | None]:
    """The double stop with which tuning begins, its proven note first, and the proof.

    The check that is heard most easily goes first, then the earlier double stop, then the note
    that came first.
    """
    pure = [double for double in doubles if pair_of(*double).pure]
    checked = [
        (check, note, other)
        for first, second in pure
        for note, other in ((first, second), (second, first))
        if (check := ear_check(note, instrument))
    ]
    if checked:
        check, note, other = min(checked, key=lambda found: ease(found[0]))
        return pair_of(note, other), proof(check, instrument)
    return (pair_of(*pure[0]), None) if pure else (None, None)


def figures(doubles: Iterable[tuple[Note, Note]], instrument: Instrument) -> Iterator[Tuning]:
    """Cents and difference tone of each kind of pure double stop, at its first place.

    The note that an open string proves is taken as equal-tempered, the other tuned to it.
    """
    met: set[str] = set()
    for first, second in doubles:
        pair = pair_of(first, second)
        if pair.label not in TONES or pair.label in met:
            continue
        met.add(pair.label)
        low, high = sorted((first, second), key=lambda note: note.pitch.midi)
        ratio = float(just_ratio(pair.label))
        proven = proven_note(low, high, instrument)
        below = low.pitch.hz if proven is low else high.pitch.hz / ratio
        sounding = Hertz(below * 2.0 ** (instrument.sounding / 12.0))
        tone = difference_tone(sounding, Hertz(sounding * ratio))
        yield Tuning(
            pair=pair_of(low, high),
            away=away(just_deviation(pair.label)),
            tone=pitch_name(tone_name(low.pitch, pair.label, instrument.sounding)),
            tone_hz=f"{tone:.0f}",
        )


def proven_note(low: Note, high: Note, instrument: Instrument) -> Note:
    """The note of a double stop that an open string proves more easily; else the lower one."""
    checks = [check for note in (low, high) if (check := ear_check(note, instrument))]
    return min(checks, key=ease).note if checks else low


def away(deviation: Cents) -> str:
    """How far a pure interval lies from the equal-tempered one."""
    return f"{abs(deviation):.0f} cents {'wider' if deviation > 0 else 'narrower'}"


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


def tone_name(low: Pitch, label: str, sounding: Semitones) -> Pitch:
    """The spelled difference tone of a pure double stop over its lower note.

    sounding: semitones from the written to the sounding note, whole octaves.

    >>> str(tone_name(Pitch.parse("D4"), "M6", Semitones(0)))
    'G3'
    """
    below = Interval.parse(TONES[label])
    octaves = sounding // 12
    return low.up(7 * octaves - below.degrees, Semitones(sounding - below.semitones))
