"""What makes a sound of a passage hard: the numbers by which hard spots are found."""

from math import sqrt
from typing import Annotated

import msgspec

Amount = Annotated[float, msgspec.Meta(ge=0, le=10)]
Share = Annotated[float, msgspec.Meta(ge=0, le=1)]
Count = Annotated[int, msgspec.Meta(ge=1, le=1000)]
Length = Annotated[float, msgspec.Meta(gt=0, le=4, description="in whole notes")]


class Table(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A table of the file in which every key is known."""


class Chosen(Table, frozen=True):
    """`[chosen]`: which sounds are spots.

    most, most_short: spots of a movement and of an excerpt of up to `short_sounds`.
    least, share: the lowest score, by itself and as a part of the hardest.
    kind_share: of the spots, that one kind of difficulty may have.
    grows: part of the hardest sound's score from which its neighbour belongs to the spot.
    fewest, widest: sounds of a spot; drills: the most that lead to one.
    all, all_short: drills of a movement and of an excerpt.
    """

    most: Count
    most_short: Count
    short_sounds: Count
    least: Amount
    share: Share
    kind_share: Share
    grows: Share
    fewest: Count
    widest: Count
    drills: Count
    all: Count
    all_short: Count

    def places(self, sounds: int) -> int:
        """How many spots a passage of so many sounds has."""
        return self.most_short if sounds <= self.short_sounds else self.most

    def drills_in_all(self, sounds: int) -> int:
        """How many drills a passage of so many sounds has, where nobody asks for more spots."""
        return self.all_short if sounds <= self.short_sounds else self.all


class Crossing(Table, frozen=True):
    """`[crossing]`: from string to string, besides the difficulty table's figure."""

    any: Amount
    skipped: Amount
    open: Amount
    open_fast: Amount
    sixth: Amount


class Together(Table, frozen=True):
    """`[together]`: double stops, besides the difficulty table's figure."""

    stopped: Amount
    open: Amount
    pair: Amount


class Changed(Table, frozen=True):
    """`[change]`: a finger stands otherwise than when it last played in the same place.

    in_frame: on another string, where both belong to one frame.
    """

    same_string: Amount
    other_string: Amount
    in_frame: Amount
    further: Amount


class HandParts(Table, frozen=True):
    """`[hand]`: times what the fingering, or the difficulty table, says of it."""

    shift: Amount
    hop: Amount
    stretch: Amount
    pair: Amount
    high: Amount


class Time(Table, frozen=True):
    """`[time]`: how speed, rests and repetition change a score."""

    even: Length
    slowest: Amount
    fastest: Amount
    rest: Length
    covered: Share
    again: Share

    def speed(self, before: float) -> float:
        """Times the score; before: whole notes that the sound before lasts."""
        return min(self.fastest, max(self.slowest, sqrt(self.even / before)))


class Secure(Table, frozen=True):
    """`[secure]`: times the score."""

    all: Share
    elsewhere: Share


class SpotWeights(Table, frozen=True):
    """The whole file."""

    chosen: Chosen
    crossing: Crossing
    together: Together
    change: Changed
    hand: HandParts
    time: Time
    secure: Secure
