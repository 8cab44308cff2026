"""The exercise: a frame at a place on some strings, at a stage; and its key."""

from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Final

from bookgen.errors import Message, RefusedError, refused
from bookgen.model.dimension import Dimension
from bookgen.model.drill_key import DRAWN, KEY, KEY_EXAMPLE, wanted_in
from bookgen.model.finger import fingers_in, signs_of
from bookgen.model.instrument import Instrument
from bookgen.model.route import STAGES, Return, crossable, notes_across, route, shift_route
from bookgen.model.spacing import STAYS, Frame, Spacing, joins, nests
from bookgen.model.units import Semitones, StringNumber

OCTAVE: Final = Semitones(12)
CROSS_ON_EVERY_NOTE: Final = 3  # the first stage with one note on each string
TOGETHER_FROM: Final = 4  # the first stage at which two strings sound at once


class Lead(StrEnum):
    """Which side of the hand begins."""

    LOW = "low"
    HIGH = "high"


@dataclass(frozen=True, slots=True)
class Drill:
    """One exercise, apart from the day on which it is played.

    instrument: key of the instrument.
    order: the frame's fingers in the order in which they play.
    place: semitones from the nut to the lowest finger of the frame.
    strings: neighbouring, from low to high, at least two; or two with others between them.
    stage: 1 to 5, how soon the player crosses.
    back: how the way back runs.
    """

    instrument: str
    frame: Frame
    order: tuple[int, ...]
    place: Semitones
    strings: tuple[StringNumber, ...]
    stage: int
    back: Return
    digest: int = field(init=False, repr=False, compare=False)
    """The hash, kept because a planner looks drills up millions of times."""

    def __hash__(self) -> int:
        """Return the hash that was made at birth."""
        return self.digest

    def __post_init__(self) -> None:
        """Refuse a drill that is none on any instrument.

        Raises:
            RefusedError: the order is no order of the fingers, or instrument, place, strings or
                stage are wrong.
        """
        if sorted(self.order) != list(self.frame.fingers):
            raise RefusedError(
                "drill-order", order=signs_of(self.order), fingers=signs_of(self.frame.fingers)
            )
        if self.stage not in STAGES:
            raise RefusedError("stage", stage=self.stage)
        if not crossable(self.strings):
            raise RefusedError("strings-neighbours", strings=self.strings)
        if KEY.fullmatch(self.key) is None:
            raise RefusedError("drill-key-holds", key=self.key)
        named = (self.instrument, self.frame, self.order, self.place, self.strings)
        object.__setattr__(self, "digest", hash((*named, self.stage, self.back)))

    @property
    def lead(self) -> Lead:
        """High where the order's first finger lies above its last one."""
        return Lead.HIGH if self.order[0] > self.order[-1] else Lead.LOW

    @property
    def plain_order(self) -> bool:
        """The order runs straight up or straight down the hand."""
        return self.order in {self.frame.fingers, self.frame.fingers[::-1]}

    @property
    def key(self) -> str:
        """A stable, readable name; `parse_key` reads it back."""
        spacings = ".".join(spacing.word for spacing in self.frame.spacings)
        to = f"to{self.upper_place}" if self.frame.shift else ""
        return "-".join(
            (
                self.instrument,
                signs_of(self.frame.fingers),
                *filter(None, (spacings, DRAWN * self.frame.back)),
                f"place{self.place}{to}",
                f"strings{''.join(map(str, self.strings))}",
                f"stage{self.stage}",
                self.lead if self.plain_order else f"order{signs_of(self.order)}",
                self.back,
            )
        )

    @classmethod
    def parse_key(cls, key: str) -> "Drill":
        """Read a drill's key.

        >>> Drill.parse_key("violin-12-whole-place2-strings4321-stage1-low-same").place
        2

        Raises:
            RefusedError: the text is no key, or names a drill that there is not.
        """
        match = KEY.fullmatch(key)
        if match is None:
            raise RefusedError("drill-key", key=key, wanted=wanted_in(key), example=KEY_EXAMPLE)
        fingers = fingers_in(match["fingers"])
        words = match["spacings"].split(".") if match["spacings"] else ()
        place = int(match["place"])
        shift = Semitones(int(match["to"]) - place) if match["to"] else STAYS
        if match["to"] and not shift:
            raise RefusedError("frame-shift", shift=shift)
        frame = Frame(fingers, tuple(map(Spacing.parse, words)), shift, bool(match["drawn"]))
        orders = {"low": fingers, "high": fingers[::-1]}
        drill = cls(
            instrument=match["instrument"],
            frame=frame,
            order=orders.get(match["lead"]) or fingers_in(match["order"]),
            place=Semitones(place),
            strings=tuple(StringNumber(int(digit)) for digit in match["strings"]),
            stage=int(match["stage"]),
            back=Return(match["back"]),
        )
        if drill.key != key:
            raise RefusedError("drill-key-written", given=key, key=drill.key)
        return drill

    def octave_sibling(self) -> "Drill":
        """The same drill an octave higher on the same strings."""
        return replace(self, place=Semitones(self.place + OCTAVE))

    @property
    def turns_alike(self) -> bool:
        """Both ways back visit the same stops: then `same` is its name.

        So it is where every note crosses and the finger that leads also ends the way up.
        """
        lead = shift_route if self.frame.shift else route
        return len({lead(self.strings, self.order, self.stage, back) for back in Return}) == 1

    def refusal(self, instrument: Instrument) -> Message | None:
        """Why this instrument or its hand cannot play the drill, or None if it can."""
        return (
            self.left_out()
            or self.out_of_stage()
            or self.doubled()
            or instrument.refusal(self.frame, self.place, self.strings)
        )

    def doubled(self) -> Message | None:
        """Why another key names the same notes, or None."""
        if self.back is Return.MIRROR and self.turns_alike:
            return refused("drill-doubled")
        return None

    def out_of_stage(self) -> Message | None:
        """Why the drill has no such stage, or None.

        A hand that shifts, and strings that are no neighbours, sound one note at a time. One
        finger alone has a single note on a string: it crosses, or shifts, on every note.
        """
        if self.stage >= TOGETHER_FROM and self.frame.shift:
            return refused("drill-shift-stage", stage=self.stage)
        if self.stage >= TOGETHER_FROM and self.skips:
            return refused("drill-skip-stage", strings=self.strings, stage=self.stage)
        stages = (1, CROSS_ON_EVERY_NOTE) if self.frame.shift else STAGES[2:]
        if len(self.order) == 1 and self.stage not in stages:
            return refused("drill-finger-stage", stages=list(stages), stage=self.stage)
        return None

    @property
    def skips(self) -> bool:
        """A string lies between its two strings."""
        return self.strings[0] - self.strings[-1] >= len(self.strings)

    @property
    def skipped(self) -> tuple[StringNumber, ...]:
        """The strings between its two strings, from the lower one up."""
        low, high = self.strings[0], self.strings[-1]
        return tuple(map(StringNumber, range(low - 1, high, -1))) if self.skips else ()

    @property
    def goes_round(self) -> bool:
        """Three fingers cross between two strings until each has met each."""
        strings, fingers = len(self.strings), len(self.order)
        return self.stage >= CROSS_ON_EVERY_NOTE and notes_across(strings, fingers) > strings

    @property
    def for_passages(self) -> bool:
        """Days bring such a drill only where a passage, or the player, asks for it.

        So are a shift, a finger alone, a skipped string, and three fingers between two strings.
        """
        return bool(self.frame.shift or len(self.order) == 1 or self.skips or self.goes_round)

    def left_out(self) -> Message | None:
        """Why some fingers never play, or None: from stage 3 each string takes one."""
        strings, fingers = len(self.strings), len(self.order)
        if self.stage < CROSS_ON_EVERY_NOTE or strings >= fingers or self.goes_round:
            return None
        return refused(
            "drill-few",
            strings=strings,
            left=fingers - strings,
            fingers=fingers,
            stage=self.stage,
        )

    def changes_to(self, other: "Drill") -> tuple[Dimension, ...]:
        """The dimensions in which another drill differs from this one.

        Where two pairs share a finger that stays where it is, the hand keeps its place: only
        the fingers change. So it does where other fingers play the same notes, and where a finger
        between the two of a pair takes the part of one of them. To leave one finger alone is one
        change too, and so it is where one joins others that stay.
        """
        octave = abs(self.place - other.place) == OCTAVE
        same_fingers = self.frame.fingers == other.frame.fingers
        alone = not same_fingers and 1 in {len(self.order), len(other.order)}
        joined = joins(self.frame, self.place, other.frame, other.place)
        nested = nests(self.frame, self.place, other.frame, other.place)
        here, there = (self.ranks(), other.ranks())
        if joined:
            here, there = (
                tuple(f for f in one if f in self.order and f in other.order)
                for one in (self.order, other.order)
            )
        same_order = alone or here == there
        own, its = self.frame, other.frame
        spacing = (own.spacings, own.back) != (its.spacings, its.back)
        differs = {
            Dimension.PAIR: not (same_fingers or joined),
            Dimension.FINGERS: joined,
            Dimension.SPACING: spacing and not (alone or joined or nested),
            Dimension.PLACE: not (octave or joined or self.keeps_place(other)),
            Dimension.OCTAVE: octave,
            Dimension.SHIFT: self.frame.shift != other.frame.shift,
            Dimension.STRINGS: self.strings != other.strings,
            Dimension.LEAD: not same_order,
            Dimension.RETURN: self.back != other.back,
            Dimension.STAGE: self.stage != other.stage,
        }
        return tuple(dimension for dimension, changed in differs.items() if changed)

    def keeps_place(self, other: "Drill") -> bool:
        """The lowest fingers stand at one place, or a finger of both frames stays where it is.

        One finger of several that is left alone must stay. A hand that is extended back keeps
        the place of the closed one.
        """
        counts = {len(self.order), len(other.order)}
        alike = self.frame.fingers == other.frame.fingers
        here, there = (
            (self.closed_place, other.closed_place) if alike else (self.place, other.place)
        )
        if here == there and counts not in ({1, 2}, {1, 3}, {1, 4}):
            return True
        if alike:
            return False
        shared = set(self.frame.fingers) & set(other.frame.fingers)
        return any(self.height(finger) == other.height(finger) for finger in shared)

    @property
    def upper_place(self) -> Semitones:
        """Where the lowest finger stands after the shift; its place where the hand stays."""
        return Semitones(self.place + self.frame.shift)

    @property
    def closed_place(self) -> Semitones:
        """Where the lowest finger stands in the closed hand."""
        return Semitones(self.place + self.frame.drawn)

    def height(self, finger: int) -> Semitones:
        """Semitones above the open string at which a finger stands, before any shift."""
        return Semitones(self.place + self.frame.offset(finger))

    def ranks(self) -> tuple[int, ...]:
        """The order of play with the frame's fingers counted from its lowest, from 0.

        Two pairs led from the low finger have the same ranks, whatever the fingers are.
        """
        return tuple(self.frame.fingers.index(finger) for finger in self.order)
