"""Where a player begins of whom nothing is known: where an open string is to be heard."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date as Date  # noqa: N812
from functools import cache
from random import Random
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.place import place_label
from bookgen.model.position import THUMB_POSITION
from bookgen.model.ring import ear_check
from bookgen.model.route import Return
from bookgen.model.spacing import Frame
from bookgen.model.units import Semitones, StringNumber
from bookgen.planner.area import Area

THIRD: Final = 4

EASY_RINGS: Final = frozenset({"P1", "P8"})
"""Unison and octave: what a beginner hears an open string answer to (common practice)."""


def first_start(
    instrument: Instrument, area: Area, date: Date, seed: int, position: str | None = None
) -> Drill:
    """A start for a day: the seed shuffles all there are, the date counts through them.

    Where nothing in the position rings with an open string it is whatever lies lowest.

    position: None is first position.

    Raises:
        RefusedError: the area has no drill.
    """
    found = list(starts(instrument, area, position) or anywhere(instrument, area))
    if not found:
        raise RefusedError("plan-no-start", instrument=instrument.key)
    Random(f"{instrument.key}/{seed}").shuffle(found)
    return found[date.toordinal() % len(found)]


@cache
def starts(instrument: Instrument, area: Area, position: str | None = None) -> tuple[Drill, ...]:
    """Every drill that a player can begin with: stage 1 in first position, where it rings.

    In thumb position it is a hand that takes in the thumb next; the thumb itself tires, and what
    tires never opens a day.

    position: None is first position.
    """
    label = position or instrument.first_position
    highest = instrument.highest_stop if position else highest_place(instrument)
    found = [
        drill
        for frame in area.frames
        for place in range(1, highest + 1)
        for strings in area.strings
        for drill in [laid(instrument, frame, place, strings)]
        if area.holds(drill, instrument)
        and place_label(drill, instrument) == label
        and not instrument.tires(frame, drill.place)
        and (
            instrument.hand.takes_thumb(frame, place)
            if label == THUMB_POSITION
            else rings_well(play(drill, instrument), instrument)
        )
    ]
    return tuple(
        replace(drill, order=order, back=back)
        for drill in found
        for order in (drill.order, drill.order[::-1])
        for back in (Return.MIRROR, Return.SAME)
    )


def anywhere(instrument: Instrument, area: Area) -> tuple[Drill, ...]:
    """Every drill of stage 1 at the lowest place at which the area has any."""
    for place in range(1, instrument.highest_stop + 1):
        laid_here = (
            laid(instrument, frame, place, strings)
            for frame in area.frames
            for strings in area.strings
        )
        if found := tuple(drill for drill in laid_here if area.holds(drill, instrument)):
            return found
    return ()


def laid(
    instrument: Instrument, frame: Frame, place: int, strings: tuple[StringNumber, ...]
) -> Drill:
    """A frame at a place on some strings, as a drill of stage 1."""
    back = Return.SAME
    return Drill(instrument.key, frame, frame.fingers, Semitones(place), strings, 1, back)


def highest_place(instrument: Instrument) -> int:
    """The highest place at which a finger may still lie in first position.

    Finger 1 is at most a third above the nut there, and no finger further from it than the
    ordinary hand is wide.
    """
    return min(THIRD + instrument.hand.spans[0].ordinary, instrument.highest_stop)


def rings_well(events: Sequence[Event], instrument: Instrument) -> bool:
    """Whether a beginner's ear has a hold: an open string rings, and few notes are altered."""
    notes = {note.stop: note for event in events for note in event.notes}.values()
    altered = sum(note.pitch.accidental != 0 for note in notes)
    checks = [check for note in notes if (check := ear_check(note, instrument))]
    rings = any(check.rings and check.interval in EASY_RINGS for check in checks)
    return rings and 2 * altered <= len(notes)
