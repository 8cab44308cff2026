"""Every way in which the hand can be laid for one note, a double stop or a chord."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations, pairwise, product

from bookgen.model.finger import LEFT_HAND
from bookgen.model.harmonic import touches_for_place, touches_for_sound
from bookgen.model.instrument import Instrument
from bookgen.model.phrase import WrittenNote
from bookgen.model.position import THUMB_POSITION
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.passage.shape import FINGERS, Shape, Spot

BAR = 2
"""Neighbouring strings that one finger can stop together."""


@dataclass(frozen=True, slots=True)
class Option:
    """A string for a note and where on it the finger goes; touched: as a harmonic."""

    string: StringNumber
    semitones: Semitones
    touched: bool


@dataclass(frozen=True, slots=True, eq=False)
class Pose:
    """A hand laid for the notes of a sound; each pose is one value, told by its number.

    stops: one for each note. layout: a number that poses with the same stops share.
    place: semitones from the nut to finger 1 of the hand; 0 where only open strings sound.
    opening: 0 for the ordinary hand, see `Shape`. drawn: finger 1 lies behind the place.
    touched: indexes of the notes that are natural harmonics, as the source asks for them.
    stopped: the stops that a finger holds.
    """

    number: int
    layout: int
    stops: tuple[Stop, ...]
    stopped: tuple[Stop, ...]
    place: int
    opening: int
    drawn: bool
    touched: tuple[int, ...]


@dataclass(slots=True)
class Poses:
    """All poses of an instrument that a phrase has met so far.

    high: thumb position is in play. The thumb itself stops a note where it is asked for, and
        where nothing else does.
    """

    shape: Shape
    high: bool = False
    known: dict[tuple[WrittenNote, ...], tuple[Pose, ...]] = field(default_factory=dict)
    layouts: dict[tuple[Stop, ...], int] = field(default_factory=dict)
    count: int = 0

    @property
    def instrument(self) -> Instrument:
        """The instrument that is played."""
        return self.shape.instrument

    def of(self, notes: tuple[WrittenNote, ...]) -> tuple[Pose, ...]:
        """Every pose for these notes; none where they cannot be played together."""
        if notes not in self.known:
            self.known[notes] = tuple(self.lay(notes))
        return self.known[notes]

    def lay(self, notes: tuple[WrittenNote, ...]) -> Iterator[Pose]:
        """Find every pose for these notes."""
        found = list(self.laid(notes, FINGERS))
        yield from found or (self.laid(notes, LEFT_HAND) if self.high else ())

    def laid(self, notes: tuple[WrittenNote, ...], hand: Sequence[int]) -> Iterator[Pose]:
        """Every pose of these fingers."""
        choices = [options(self.instrument, note) for note in notes]
        for chosen in product(*choices):
            if neighbours([option.string for option in chosen]):
                for fingers in fingerings(chosen, notes, hand):
                    yield from self.placed(chosen, fingers)

    def placed(self, chosen: Sequence[Option], fingers: Sequence[int]) -> Iterator[Pose]:
        """Every pose with these fingers on these strings."""
        stops = tuple(
            Stop(option.string, finger, option.semitones)
            for option, finger in zip(chosen, fingers, strict=True)
        )
        layout = self.layouts.setdefault(stops, len(self.layouts))
        touched = tuple(index for index, option in enumerate(chosen) if option.touched)
        held = tuple(stop for stop in stops if stop.finger)
        spots: list[Spot] = sorted({(one.finger, one.semitones) for one in held})
        for place, opening in self.shape.laid(spots) if spots else [(0, 0)]:
            if (
                not self.high
                and self.instrument.position_rule.at(1, Semitones(place)) == THUMB_POSITION
            ):
                continue
            self.count += 1
            drawn = bool(spots) and spots[0][0] == 1 and spots[0][1] < place
            yield Pose(self.count, layout, stops, held, place, opening, drawn, touched)


def options(instrument: Instrument, note: WrittenNote) -> list[Option]:
    """The strings on which a note can be played, and where.

    A harmonic that the source asks for is read as what sounds; where no string sounds it so, as
    the place that is touched.
    """
    above = {
        string: note.pitch.midi - instrument.open_pitch(string).midi
        for string in instrument.string_numbers()
        if note.string in {None, string}
    }
    if not note.harmonic:
        return [
            Option(string, Semitones(semitones), touched=False)
            for string, semitones in above.items()
            if -instrument.behind_nut(string) <= semitones <= instrument.highest_stop
        ]
    readings = [
        [
            Option(string, touch, touched=True)
            for string, semitones in above.items()
            for touch in touches(semitones)
            if touch <= instrument.highest_stop
        ]
        for touches in (touches_for_sound, touches_for_place)
    ]
    return readings[0] or readings[1]


def neighbours(strings: Sequence[StringNumber]) -> bool:
    """Whether these are different strings that lie side by side."""
    return all(high - low == 1 for low, high in pairwise(sorted(strings)))


def fingerings(
    chosen: Sequence[Option], notes: Sequence[WrittenNote], hand: Sequence[int] = FINGERS
) -> Iterator[tuple[int, ...]]:
    """The fingers of a hand that could take these stops: higher fingers for higher places.

    One finger takes all that lie at one height, at most two neighbouring strings.
    """
    heights = sorted({option.semitones for option in chosen if option.semitones > 0})
    if not all(barred(chosen, height) for height in heights):
        return
    for fingers in combinations(hand, len(heights)):
        by_height = dict(zip(heights, fingers, strict=True))
        taken = tuple(by_height.get(option.semitones, 0) for option in chosen)
        if all(note.finger in {None, finger} for note, finger in zip(notes, taken, strict=True)):
            yield taken


def barred(chosen: Sequence[Option], height: int) -> bool:
    """Whether one finger can take all that lies at this height."""
    strings = [option.string for option in chosen if option.semitones == height]
    return len(strings) <= BAR and neighbours(strings)
