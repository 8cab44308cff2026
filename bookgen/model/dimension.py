"""The one thing in which two linked drills differ."""

from enum import StrEnum


class Dimension(StrEnum):
    """Where a drill can differ from another; a link changes exactly one."""

    SPACING = "spacing"
    PAIR = "pair"
    FINGERS = "fingers"
    PLACE = "place"
    SHIFT = "shift"
    OCTAVE = "octave"
    STRINGS = "strings"
    LEAD = "lead"
    RETURN = "return"
    STAGE = "stage"
