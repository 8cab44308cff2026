"""Which frames of the hand differ in one thing, and where the one is laid after the other."""

from collections.abc import Iterable, Iterator
from functools import cache

from bookgen.model.dimension import Dimension
from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Frame, Spacing, joins, nests
from bookgen.model.units import Semitones


def framed(frame: Frame, frames: tuple[Frame, ...]) -> tuple[tuple[Dimension, Frame], ...]:
    """The frames that differ from this one in the spacing or in the fingers, not in both."""
    return tuple(
        (Dimension.SPACING if frame.fingers == other.fingers else Dimension.PAIR, other)
        for other in frames
        if len(other.fingers) == len(frame.fingers)
        and other.shift == frame.shift
        and (frame.fingers == other.fingers) != (hand_of(frame) == hand_of(other))
    )


def hand_of(frame: Frame) -> tuple[tuple[Spacing, ...], bool]:
    """How far the fingers stand apart, and whether the hand is extended back."""
    return frame.spacings, frame.back


def places_of(frame: Frame, other: Frame, place: Semitones) -> tuple[Semitones, ...]:
    """Where another frame is laid: at the same place, or so that a finger of both stays."""
    if frame.fingers == other.fingers:
        return (Semitones(place + frame.drawn - other.drawn),)
    shared = [finger for finger in frame.fingers if finger in other.fingers]
    stays = [Semitones(place + frame.offset(f) - other.offset(f)) for f in shared]
    return tuple(dict.fromkeys((*stays, place)))


def joined(frame: Frame, place: Semitones, other: Frame) -> Semitones | None:
    """Where a frame lies that has one finger more or fewer, while the others stay.

    None where one of them would have to move, or where it lies behind the nut.
    """
    up = joined_by(frame, other)
    return Semitones(place + up) if up is not None and place + up >= 1 else None


@cache
def joined_by(frame: Frame, other: Frame) -> int | None:
    """How far above a frame the other lies then."""
    shared = [finger for finger in frame.fingers if finger in other.fingers]
    if not shared:
        return None
    up = Semitones(frame.offset(shared[0]) - other.offset(shared[0]))
    return up if joins(frame, Semitones(0), other, up) else None


def nested(
    frame: Frame, place: Semitones, frames: Iterable[Frame], instrument: Instrument
) -> Iterator[tuple[Frame, Semitones]]:
    """The pairs within a pair, and those within which it lies, while the hand stays.

    Its three fingers are a hand of the instrument there, without a stretch if the wider pair is.
    """
    for other in frames:
        found = nested_by(frame, other)
        if found is None or place + found[0] < 1:
            continue
        up, threes = found
        at = Semitones(place + up)
        wide = (frame, place) if frame.span > other.span else (other, at)
        low, opened = min(place, at), instrument.stretches(*wide)
        if any(
            instrument.refused_place(three, low) is None
            and instrument.stretches(three, low) == opened
            for three in threes
        ):
            yield other, at


@cache
def nested_by(frame: Frame, other: Frame) -> tuple[Semitones, tuple[Frame, ...]] | None:
    """How far above a pair the other lies then, and the three fingers of both."""
    shared = {*frame.fingers} & {*other.fingers}
    if len(shared) != 1:
        return None
    (stays,) = shared
    up = Semitones(frame.offset(stays) - other.offset(stays))
    if not nests(frame, Semitones(0), other, up):
        return None
    wide, narrow = (frame, other) if frame.span > other.span else (other, frame)
    (step,) = narrow.spacings
    beside = [one for one in Spacing if one.semitones == wide.span - narrow.span]
    lower = stays == narrow.fingers[0]
    return up, tuple(
        Frame(
            tuple(sorted({*frame.fingers, *other.fingers})),
            (step, one) if lower else (one, step),
            back=frame.back,
        )
        for one in beside
    )
