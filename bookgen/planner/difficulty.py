"""How hard a drill is, part by part, by the difficulty table; the difficulty is their sum."""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Final

from bookgen.model.drill import Drill, Lead
from bookgen.model.hand import Hand
from bookgen.model.instrument import Instrument
from bookgen.model.naming import names_of
from bookgen.model.pitch import Pitch
from bookgen.model.route import Return
from bookgen.model.spacing import Frame
from bookgen.model.spelling import UNUSUAL
from bookgen.model.units import Semitones, StringNumber
from bookgen.model.way import in_turn, way_of
from bookgen.model.weights import Effort, NameEffort, PlaceEffort

PAIR: Final = 2


def difficulty(drill: Drill, instrument: Instrument, effort: Effort) -> float:
    """The sum over all parts of a drill.

    Raises:
        ValueError: the instrument has no such string.
    """
    hand = hand_parts(drill.frame, drill.place, drill.strings, instrument, effort)
    return sum(hand.values()) + sum(way_parts(drill, instrument, effort).values())


def hand_parts(
    frame: Frame,
    place: Semitones,
    strings: Sequence[StringNumber],
    instrument: Instrument,
    effort: Effort,
) -> Mapping[str, float]:
    """The parts that stay the same through all stages, leads and ways back of a hand.

    Raises:
        ValueError: the instrument has no such string.
    """
    names = names_of(instrument, frame, place, strings).values()
    neighbours = zip(pairwise(frame.fingers), frame.spacings, strict=True)
    reach = max((effort.fingers.of(*pair, spacing) for pair, spacing in neighbours), default=0.0)
    opened = instrument.extension(frame, place) is not None
    at = hand_place(frame.fingers[0], place, instrument.hand)
    places = {at, at + frame.shift}
    return {
        "fingers": reach
        + effort.fingers.more * max(len(frame.fingers) - PAIR, 0)
        + effort.fingers.extended * opened,
        "place": max(place_effort(one, strings[0] - 1, effort.place) for one in places),
        "shift": effort.shift.of(frame.shift),
        "names": name_effort(tuple(names), effort.names),
        "strings": effort.more_strings * (len(strings) - 2),
    }


def way_parts(drill: Drill, instrument: Instrument, effort: Effort) -> Mapping[str, float]:
    """The parts that hang on how the fingers run; the same at every place.

    Raises:
        ValueError: the instrument has no such string.
    """
    crossings = set(crossings_of(drill, instrument))
    high = effort.high_lead if drill.lead is Lead.HIGH else 0.0
    hardest = max(effort.crossing.of(half_steps) for half_steps in crossings)
    if drill.skips:
        hardest = 0.0
    return {
        "crossing": hardest + effort.crossing.mixed * (len(crossings) > 1),
        "stage": effort.stage[drill.stage],
        "skip": effort.skipped * drill.skips,
        "lead": high if drill.plain_order else effort.other_order,
        "return": effort.mirror if drill.back is Return.MIRROR else 0.0,
    }


def crossings_of(drill: Drill, instrument: Instrument) -> list[int]:
    """Half steps between the two notes of each crossing of a drill, whichever is higher.

    Raises:
        ValueError: the instrument has no such string.
    """
    heights = [
        (stop.string, instrument.open_pitch(stop.string).midi + stop.semitones)
        for stop in in_turn(way_of(drill))
    ]
    return [
        abs(there - here) for (string, here), (other, there) in pairwise(heights) if string != other
    ]


def hand_place(finger: int, place: Semitones, hand: Hand) -> float:
    """Where finger 1 of the ordinary hand stands when this finger is at this place.

    The fingers between take the mean of what they take without a stretch.
    """
    below = [
        [
            reach.spacing.semitones
            for reach in hand.reaches
            if (reach.low, reach.high) == (low, low + 1) and not reach.stretch
        ]
        for low in range(1, finger)
    ]
    return place - sum(sum(ways) / len(ways) if ways else 1.0 for ways in below)


def place_effort(at: float, strings_above: int, effort: PlaceEffort) -> float:
    """How awkward the hand lies.

    at: semitones from the nut to finger 1 of the ordinary hand.
    strings_above: strings between the drill's lowest one and the edge of the fingerboard.
    """
    return (
        effort.below * max(0.0, effort.home - effort.near - at)
        + effort.above * max(0.0, at - effort.home - effort.near)
        + effort.high * max(0.0, at - effort.high_from)
        + effort.round_string * max(0.0, at - effort.round_from) * strings_above
    )


def name_effort(names: Sequence[Pitch], effort: NameEffort) -> float:
    """How hard the notes are to read, by the part of them that is altered."""
    altered = sum(pitch.accidental != 0 for pitch in names)
    unusual = sum(pitch.name in UNUSUAL for pitch in names)
    double = sum(abs(pitch.accidental) > 1 for pitch in names)
    total = effort.altered * altered + effort.unusual * unusual + effort.double * double
    return total / len(names)
