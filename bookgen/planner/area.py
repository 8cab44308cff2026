"""Which drills come into question: the hand's pairs, places and strings."""

from dataclasses import dataclass

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.place import place_label
from bookgen.model.spacing import Frame
from bookgen.model.units import Semitones, StringNumber

Laid = tuple[Frame, Semitones, tuple[StringNumber, ...]]
"""A frame at a place on some strings."""


@dataclass(frozen=True, slots=True)
class Area:
    """What a sheet may draw on.

    frames: pairs of fingers with a spacing.
    positions: labels as `place_label` gives them, e.g. "half" and "1st"; None is everywhere.
    strings: sets of neighbouring strings, each from low to high.
    highest_stage: 1 to 5.
    only: frames at places on strings to which it is narrowed; None is all of them.
    """

    frames: tuple[Frame, ...]
    positions: frozenset[str] | None
    strings: tuple[tuple[StringNumber, ...], ...]
    highest_stage: int
    stretches: bool = False
    only: frozenset[Laid] | None = None

    def holds(self, drill: Drill, instrument: Instrument) -> bool:
        """Whether a drill lies in the area and the hand takes it without a stretch.

        No area holds the kinds that only a passage, or the player, asks for.
        """
        return (
            drill.instrument == instrument.key
            and drill.frame in self.frames
            and drill.strings in self.strings
            and drill.stage <= self.highest_stage
            and not drill.for_passages
            and drill.refusal(instrument) is None
            and (self.stretches or not instrument.stretches(drill.frame, drill.place))
            and (self.positions is None or place_label(drill, instrument) in self.positions)
            and (self.only is None or (drill.frame, drill.place, drill.strings) in self.only)
        )


def string_sets(instrument: Instrument, fewest: int) -> tuple[tuple[StringNumber, ...], ...]:
    """All runs of that many or more neighbouring strings, the most strings first."""
    every = instrument.string_numbers()
    return tuple(
        every[start : start + count]
        for count in range(len(every), fewest - 1, -1)
        for start in range(len(every) - count + 1)
    )
