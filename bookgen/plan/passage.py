"""A passage with its fingering, as plain values that anyone can engrave: hands, groups, costs."""

from collections.abc import Mapping
from dataclasses import dataclass

from bookgen.errors import Message
from bookgen.model.drill import Drill
from bookgen.model.phrase import Phrase
from bookgen.model.spacing import Frame
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones
from bookgen.plan.document import Plan


@dataclass(frozen=True, slots=True)
class Hand:
    """Where the hand lies for a sound.

    place: semitones from the nut to finger 1, whether or not it plays. A low first finger that
        is drawn back lies below it: the hand stays.
    stops: the fingers that are down for this sound, open strings included.
    """

    place: Semitones
    stops: tuple[Stop, ...]


@dataclass(frozen=True, slots=True)
class Placed:
    """One sound of the phrase with its fingering.

    bar, sound: indexes into the phrase's bars and the bar's sounds; no rests, no mere ties.
    stops: one for each note of the sound, in its order; None where the note cannot be played.
    hand: None where only open strings sound: the hand is free to go.
    cost: of coming here from the sound before, by parts; see the cost table.
    touched: indexes of the notes that are natural harmonics; their stops say where the string
        is touched.
    """

    bar: int
    sound: int
    stops: tuple[Stop | None, ...]
    hand: Hand | None
    cost: Mapping[str, float]
    touched: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Group:
    """The longest run of sounds that lie in one placement of the hand.

    letter: "A", "B" … in the order of the passage; equal hands keep letters of their own.
    first, last: indexes into the fingering, both included.
    frame: the fingers that play, with their spacings; None for a single finger or none.
    place: semitones from the nut to the lowest finger that plays; 0 for open strings alone.
    position: the trade's label of the hand's place.
    same_as: letter of an earlier group with the same frame, or None; higher: how many semitones
        this one lies above it.
    others: the frames of strings on which a finger stands otherwise, e.g. a low 2 for a high
        one; they are no other placement.
    """

    letter: str
    first: int
    last: int
    frame: Frame | None
    place: Semitones
    position: str
    same_as: str | None = None
    higher: int = 0
    others: tuple[Frame, ...] = ()


@dataclass(frozen=True, slots=True)
class Fingering:
    """One way to play a phrase.

    placed: in the order of time; groups: in the same order.
    cost: the sum over all sounds.
    unplayable: by bar number, what cannot be played there and why.
    """

    placed: tuple[Placed, ...]
    groups: tuple[Group, ...]
    cost: float
    unplayable: tuple[tuple[str, Message], ...]


@dataclass(frozen=True, slots=True)
class Ladder:
    """The way from what is secure to a group.

    group: its letter; drills: each linked to the one before it by one change; the first one to
        something secure. shared: drills of them that an earlier group's ladder has already.
    """

    group: str
    drills: tuple[Drill, ...]
    shared: tuple[Drill, ...]


@dataclass(frozen=True, slots=True)
class Passage:
    """A passage as a whole: the notes, the best fingering, the next best, the way there.

    title: as printed, from the file's name or the user.
    plan: the ladders' drills as planned days, for the ordinary drill blocks.
    """

    title: str
    instrument: str
    size: str
    phrase: Phrase
    best: Fingering
    other: Fingering | None
    ladders: tuple[Ladder, ...]
    plan: Plan | None
