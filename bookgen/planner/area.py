"""Which drills come into question: the hand's pairs, places and strings."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bookgen.model.dimension import Dimension
from bookgen.model.drill import OCTAVE, Drill
from bookgen.model.instrument import Instrument
from bookgen.model.route import Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones, StringNumber

ORDINARY = (Spacing.HALF, Spacing.WHOLE)


@dataclass(frozen=True, slots=True)
class Area:
    """What a sheet may draw on.

    frames: pairs of fingers with a spacing.
    highest_hand: how far finger 1 of the closed hand may stand from the nut, in semitones.
    strings: sets of neighbouring strings, each from low to high.
    highest_stage: 1 to 5.
    """

    frames: tuple[Frame, ...]
    highest_hand: Semitones
    strings: tuple[tuple[StringNumber, ...], ...]
    highest_stage: int

    def holds(self, drill: Drill, instrument: Instrument) -> bool:
        """Whether a drill lies in the area and the hand takes it without a stretch."""
        room = instrument.hand.room_below(drill.frame.fingers[0])
        return (
            drill.frame in self.frames
            and drill.strings in self.strings
            and drill.stage <= self.highest_stage
            and 1 <= drill.place - room + 1 <= self.highest_hand
            and drill.refusal(instrument) is None
            and not instrument.stretches(drill.frame, drill.place)
        )

    def neighbours(self, drill: Drill, instrument: Instrument) -> Iterator[tuple[Dimension, Drill]]:
        """All drills of the area that differ from this one in one dimension, in a fixed order.

        A change of place is a half or a whole step; a stage is the next or the one before.
        """
        for dimension, other in self.changed(drill):
            if drill.changes_to(other) == (dimension,) and self.holds(other, instrument):
                yield dimension, other

    def changed(self, drill: Drill) -> Iterator[tuple[Dimension, Drill]]:
        """Candidates for a neighbour, not yet checked against hand and area."""
        for step in (1, -1):
            yield Dimension.STAGE, replace_stage(drill, drill.stage + step)
        yield Dimension.LEAD, replace(drill, order=drill.order[::-1])
        back = Return.MIRROR if drill.back is Return.SAME else Return.SAME
        yield Dimension.RETURN, replace(drill, back=back)
        ranks = drill.ranks()
        for frame in self.frames:
            order = tuple(frame.fingers[rank] for rank in ranks)
            other = replace(drill, frame=frame, order=order)
            yield Dimension.SPACING, other
            yield Dimension.PAIR, other
        for step in (1, -1, 2, -2):
            yield Dimension.PLACE, moved(drill, step)
        for step in (OCTAVE, -OCTAVE):
            yield Dimension.OCTAVE, moved(drill, step)
        for strings in self.strings:
            yield Dimension.STRINGS, replace(drill, strings=strings)


def replace_stage(drill: Drill, stage: int) -> Drill:
    """The drill at another stage, or the drill itself where there is no such stage."""
    return replace(drill, stage=stage) if 1 <= stage <= 5 else drill  # noqa: PLR2004


def moved(drill: Drill, step: int) -> Drill:
    """The drill that many semitones up the string, or itself where that lies behind the nut."""
    place = drill.place + step
    return replace(drill, place=Semitones(place)) if place >= 1 else drill


def ordinary_pairs(instrument: Instrument) -> tuple[Frame, ...]:
    """Every pair of fingers that takes a half or a whole step without a stretch."""
    return tuple(
        Frame.pair(reach.low, reach.high, reach.spacing)
        for reach in instrument.hand.reaches
        if reach.spacing in ORDINARY and not reach.stretch
    )


def string_sets(instrument: Instrument, fewest: int) -> tuple[tuple[StringNumber, ...], ...]:
    """All runs of that many or more neighbouring strings, the most strings first."""
    every = instrument.string_numbers()
    return tuple(
        every[start : start + count]
        for count in range(len(every), fewest - 1, -1)
        for start in range(len(every) - count + 1)
    )
