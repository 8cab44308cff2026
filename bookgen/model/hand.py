"""What the left hand does on an instrument: spacings it takes, and how far it goes, by region."""

from dataclasses import dataclass
from itertools import pairwise

from bookgen.errors import RefusedError
from bookgen.model.finger import THUMB, sign_of
from bookgen.model.spacing import Spacing
from bookgen.model.units import Semitones

NONE = Semitones(0)


@dataclass(frozen=True, slots=True)
class Reach:
    """Two fingers and a spacing that the hand takes, and where on the string.

    lowest, highest: places of the lower finger, in semitones above the open string.
    stretch: the hand opens beyond its ordinary frame.
    """

    low: int
    high: int
    spacing: Spacing
    lowest: Semitones
    highest: Semitones
    stretch: bool

    def __post_init__(self) -> None:
        """Refuse a reach that no place of the hand can use.

        Raises:
            RefusedError: the fingers or the places do not rise.
        """
        if self.low >= self.high:
            raise RefusedError("reach-fingers", low=sign_of(self.low), high=sign_of(self.high))
        if self.lowest > self.highest:
            raise RefusedError("reach-places", lowest=self.lowest, highest=self.highest)


@dataclass(frozen=True, slots=True)
class Span:
    """How far the hand goes from its lowest to its highest finger, in semitones.

    ordinary, widest: without a stretch, and at the most.
    place: from here up, semitones from the nut to the lowest finger.
    """

    ordinary: Semitones
    widest: Semitones
    place: Semitones = NONE


@dataclass(frozen=True, slots=True)
class Hand:
    """What the left hand does on this instrument.

    reaches: every pair of fingers with every spacing it takes.
    spans: of each region of the string, the lowest, which begins at the nut, first.
    drawn_back: semitones that finger 1 can lie behind its place while the hand stays.
    """

    reaches: tuple[Reach, ...]
    spans: tuple[Span, ...]
    drawn_back: Semitones = NONE

    def __post_init__(self) -> None:
        """Refuse regions that do not rise from the nut.

        Raises:
            RefusedError: the first one begins elsewhere, or one begins below the one before.
        """
        places = [span.place for span in self.spans]
        if places[:1] != [NONE] or any(low >= high for low, high in pairwise(places)):
            raise RefusedError("hand-regions")

    @property
    def fingers(self) -> tuple[int, ...]:
        """Every finger that this hand puts on a string, the thumb where it does, rising."""
        return tuple(sorted({one for reach in self.reaches for one in (reach.low, reach.high)}))

    def thumb_at(self, place: int) -> bool:
        """Whether the thumb lies on the string at that place."""
        return any(one.low == THUMB and one.lowest <= place <= one.highest for one in self.reaches)

    def span(self, place: int) -> Span:
        """How far the hand goes with its lowest finger at that place."""
        return [span for span in self.spans if span.place <= place][-1]

    @property
    def ordinary_span(self) -> Semitones:
        """The widest hand without a stretch, of all regions."""
        return max(span.ordinary for span in self.spans)

    @property
    def widest_span(self) -> Semitones:
        """The widest hand of all regions."""
        return max(span.widest for span in self.spans)

    def reach(self, low: int, high: int, spacing: Spacing, place: int) -> Reach | None:
        """How the hand takes that spacing with the lower finger at that place, if it does."""
        for reach in self.reaches:
            same = (reach.low, reach.high, reach.spacing) == (low, high, spacing)
            if same and reach.lowest <= place <= reach.highest:
                return reach
        return None

    def room_below(self, finger: int) -> Semitones:
        """Fewest semitones from the nut to this finger: the fingers below it need room too."""
        if finger == THUMB:
            return NONE
        closest = {1: 1}
        for reach in sorted(self.reaches, key=lambda reach: (reach.high, reach.low)):
            if reach.low in closest:
                room = closest[reach.low] + reach.spacing.semitones
                closest[reach.high] = min(room, closest.get(reach.high, room))
        return Semitones(closest.get(finger, finger))
