"""What makes a drill hard, and how a day is shared out: the planner's numbers as values."""

from collections.abc import Mapping
from dataclasses import dataclass

from bookgen.errors import RefusedError
from bookgen.model.route import STAGES
from bookgen.model.spacing import Spacing


@dataclass(frozen=True, slots=True)
class CrossingEffort:
    """How awkward the step from one string to the next lies.

    interval: by half steps between the two notes.
    wider: any interval that is not among them.
    mixed: added where a drill crosses by more than one interval.
    """

    interval: Mapping[int, float]
    wider: float
    mixed: float

    def of(self, half_steps: int) -> float:
        """The effort of one crossing."""
        return self.interval.get(half_steps, self.wider)


@dataclass(frozen=True, slots=True)
class FingerEffort:
    """How awkward two fingers and their spacing are.

    pairs: by lower finger, higher finger and spacing.
    otherwise: any spacing of two fingers that is not among them.
    more: added for each finger past the second; extended: added where the hand is extended.
    """

    pairs: Mapping[tuple[int, int, Spacing], float]
    otherwise: float
    more: float
    extended: float

    def of(self, low: int, high: int, spacing: Spacing) -> float:
        """The effort of one pair of neighbours in the frame."""
        return self.pairs.get((low, high, spacing), self.otherwise)


@dataclass(frozen=True, slots=True)
class PlaceEffort:
    """How awkward the hand's place is; every figure is for one half step.

    home, near: finger 1 of the ordinary hand stands at ease within `near` of `home`.
    below: towards the nut.
    above: towards the bridge.
    high_from, high: added above that place, where the thumb leaves the neck's root.
    round_from, round_string: added above that place for each string between the highest string
        and the drill's lowest one, because the elbow has to come round.
    """

    home: float
    near: float
    below: float
    above: float
    high_from: float
    high: float
    round_from: float
    round_string: float


@dataclass(frozen=True, slots=True)
class ShiftEffort:
    """How hard it is to move the hand to another place.

    hand: that it moves at all; half_step: for each half step that it moves.
    """

    hand: float
    half_step: float

    def of(self, half_steps: int) -> float:
        """The effort of one shift; none where the hand stays."""
        return self.hand + self.half_step * half_steps if half_steps else 0.0


@dataclass(frozen=True, slots=True)
class NameEffort:
    """How hard the notes are to read; each figure where every note of the drill is such."""

    altered: float
    unusual: float
    double: float


@dataclass(frozen=True, slots=True)
class Effort:
    """The difficulty table; a drill's difficulty is the sum over its parts.

    stage: by stage, 1 to 5.
    high_lead, other_order: the higher finger begins; the fingers run neither up nor down.
    mirror: the way back is the way up backwards.
    more_strings: for each string past the second.
    skipped: the bow passes over a string; then it counts no interval.
    """

    crossing: CrossingEffort
    fingers: FingerEffort
    place: PlaceEffort
    shift: ShiftEffort
    names: NameEffort
    stage: Mapping[int, float]
    high_lead: float
    other_order: float
    mirror: float
    more_strings: float
    skipped: float

    def __post_init__(self) -> None:
        """Refuse a table that leaves out a stage.

        Raises:
            RefusedError: a stage is missing, or there are more than five.
        """
        if self.stage.keys() != set(STAGES):
            raise RefusedError("weights-stages", given=sorted(self.stage), wanted=list(STAGES))


@dataclass(frozen=True, slots=True)
class Shares:
    """How a day is shared out.

    new_share, new_most_minutes: new drills take no more than either part of a day or minutes.
    first_share, first_most_minutes: all that is played for the first time takes no more than
        either part of a day or minutes.
    waiting_share: part for what was secure once, where a next stage waits for the second day.
    light_share: part of the ordinary minutes that a light day takes.
    test_items: drills of a cold test.
    stretch: a drill gets at most this many times its own minutes.
    """

    new_share: float
    new_most_minutes: float
    first_share: float
    first_most_minutes: float
    waiting_share: float
    light_share: float
    test_items: int
    stretch: float


@dataclass(frozen=True, slots=True)
class Order:
    """What makes a first time come sooner or later, in the unit of difficulty.

    depth, move: sooner for each stage, and for each move that the player has not met.
    away: later if nothing on its day is linked to it.
    owed_day: sooner for each day since the hand was begun, if it owes this opposite.
    known_frame, known_way: later if the frame has had the stage elsewhere; if the hand has.
    """

    depth: float
    move: float
    away: float
    owed_day: float
    known_frame: float
    known_way: float


@dataclass(frozen=True, slots=True)
class Pace:
    """How fast a player goes on.

    firm_days: days on which a drill is secure before its next stage comes.
    hope_days: days between two stages of a hand of which the log says nothing.
    rest_days: practice days without anything novel, from which that comes first.
    least_width, width_share: so many hands may be under way, or that part of the area's hands.
    """

    firm_days: int
    hope_days: int
    rest_days: int
    least_width: int
    width_share: float
    order: Order


@dataclass(frozen=True, slots=True)
class Weights:
    """All numbers that the planner judges by.

    retention: the part of secure drills that should still be secure when a review comes.
    """

    effort: Effort
    shares: Shares
    pace: Pace
    retention: float

    def __hash__(self) -> int:
        """Return the hash of all but the difficulty table, which is no key itself."""
        return hash((self.shares, self.pace, self.retention))
