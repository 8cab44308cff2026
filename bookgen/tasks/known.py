"""What a player is said to know when the log begins, as drills."""

from collections.abc import Iterator
from dataclasses import replace

from bookgen.model.drill import Drill
from bookgen.model.finger import signs_of
from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Frame
from bookgen.planner.area import Area
from bookgen.planner.pool import pool
from bookgen.readers.studio.known import KnownHands


def known_drills(known: KnownHands, area: Area, instrument: Instrument) -> Iterator[Drill]:
    """Every drill of these hands up to their stage, in both leads and both ways back.

    area: what the player is to cover; of its strings those count on which the hands are known.
    """
    strings = tuple(
        one for one in area.strings if known.strings is None or set(one) <= set(known.strings)
    )
    here = replace(
        area,
        frames=known.frames,
        positions=frozenset(known.positions),
        strings=strings,
        highest_stage=known.stage,
    )
    return pool(instrument, here)


def known_name(known: KnownHands) -> str:
    """What is known in few signs, as a plan's scope keeps it."""
    positions = " ".join(known.positions)
    hands = " ".join(map(hand_name, known.frames))
    strings = f" strings{''.join(map(str, known.strings))}" if known.strings else ""
    return f"{positions} {hands}{strings} stage{known.stage}"


def hand_name(frame: Frame) -> str:
    """Fingers and spacing as they stand in a drill's key.

    >>> hand_name(Drill.parse_key("violin-12-whole-place2-strings4321-stage1-low-same").frame)
    '12-whole'
    """
    fingers = signs_of(frame.fingers)
    back = "-back" if frame.back else ""
    return f"{fingers}-{'.'.join(spacing.word for spacing in frame.spacings)}{back}"
