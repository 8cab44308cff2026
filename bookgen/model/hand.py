"""What the left hand does on an instrument: spacings it takes, and how far it goes, by region."""

from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from bookgen.errors import RefusedError
from bookgen.model.finger import THUMB, sign_of
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones

NONE = Semitones(0)


class Extension(StrEnum):
    """How a hand opens: finger 1 goes back while the others stay, or they go forward from it."""

    BACK = "back"
    FORWARD = "forward"


@dataclass(frozen=True, slots=True)
class Reach:
    """Two fingers and a spacing that the hand takes, and where on the string.

    lowest, highest: places of the lower finger, in semitones above the open string.
    stretch: the hand opens beyond its ordinary frame; extends: how, where that has a name.
    """

    low: int
    high: int
    spacing: Spacing
    lowest: Semitones
    highest: Semitones
    stretch: bool
    extends: Extension | None = None

    def __post_init__(self) -> None:
        """Refuse a reach that no place of the hand can use.

        Raises:
            RefusedError: the fingers or the places do not rise, or a hand is extended that is
                not stretched, or back without finger 1.
        """
        if self.low >= self.high:
            raise RefusedError("reach-fingers", low=sign_of(self.low), high=sign_of(self.high))
        if self.lowest > self.highest:
            raise RefusedError("reach-places", lowest=self.lowest, highest=self.highest)
        if self.extends and not self.stretch:
            raise RefusedError("reach-extends")
        if self.extends is Extension.BACK and self.low != 1:
            raise RefusedError("frame-back")


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
    heavy_to: the last place of finger 1 at which the hand tires soon; 0 where there is none.
    stretch_tires: a stretch is to be played but shortly.
    """

    reaches: tuple[Reach, ...]
    spans: tuple[Span, ...]
    drawn_back: Semitones = NONE
    heavy_to: Semitones = NONE
    stretch_tires: bool = False

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

    def takes_thumb(self, frame: Frame, place: int) -> bool:
        """Whether the thumb, where it comes onto the string first, lies next below this frame.

        It lies as far from the frame's lowest finger as that one from the finger above it.
        """
        return any(
            (one.low, one.high, one.spacing) == (THUMB, frame.fingers[0], frame.spacings[0])
            and one.lowest + one.spacing.semitones == place
            for one in self.reaches
            if frame.spacings
        )

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

    def reach(
        self, low: int, high: int, spacing: Spacing, place: int, *, back: bool = False
    ) -> Reach | None:
        """How the hand takes that spacing with the lower finger at that place, if it does.

        back: the hand is extended back.
        """
        for reach in self.reaches:
            same = (reach.low, reach.high, reach.spacing) == (low, high, spacing)
            drawn = reach.extends is Extension.BACK
            if same and reach.lowest <= place <= reach.highest and drawn == (back and low == 1):
                return reach
        return None

    def reaches_of(self, frame: Frame, place: int) -> tuple[Reach | None, ...]:
        """How the hand takes each two neighbouring fingers of a frame at that place."""
        return tuple(
            self.reach(low, high, spacing, place + frame.offset(low), back=frame.back)
            for (low, high), spacing in zip(pairwise(frame.fingers), frame.spacings, strict=True)
        )

    def widens(self, low: int, high: int, semitones: int, place: int, *, stretch: bool) -> bool:
        """Fingers between these two would set them farther apart than the hand has the two there.

        What is said of two fingers alone holds too where others stand between them, as long as
        anything is said; the thumb goes with each of them by itself.

        place: of the lower finger; stretch: whether the hand opens for it.
        """
        said = [
            reach.spacing.semitones
            for reach in self.reaches
            if (reach.low, reach.high, reach.stretch) == (low, high, stretch)
            and reach.lowest <= place <= reach.highest
        ]
        return low != THUMB and bool(said) and semitones > max(said)

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
