"""A passage with its fingering, as plain values that anyone can engrave: hands, groups, costs."""

from collections.abc import Mapping
from dataclasses import dataclass

from bookgen.errors import Message
from bookgen.model.drill import Drill
from bookgen.model.phrase import Phrase
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
    """A run of sounds in one frame: in one place every finger has one height on each string.

    letter: "A", "B" … in the order of the passage; equal frames have the same one.
    first, last: indexes into the fingering, both included.
    place: of the hand, semitones from the nut to finger 1; 0 for open strings alone.
    position: the trade's label of the place.
    stops: the frame, with all that fingers hold in any of its groups; none for open strings alone.
    passing: sounds of the group in which a finger stands elsewhere for a moment.
    """

    letter: str
    first: int
    last: int
    place: Semitones
    position: str
    stops: tuple[Stop, ...]
    passing: tuple[int, ...] = ()


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
class Spot:
    """A few sounds that are hard for this player.

    number: from 1 in the order of the passage; first, last: sounds, both included.
    peak: the hardest sound; parts: how hard it is, part by part; see the table of spots.
    score: the sum with speed, repetition and what is secure counted in.
    others: the first sounds of the same spot elsewhere.
    """

    number: int
    first: int
    last: int
    peak: int
    parts: Mapping[str, float]
    score: float
    others: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Need:
    """What a drill has to contain: one stop after another, or both together.

    together: they are a double stop; the lower string's comes first.
    place: of the hand, semitones from the nut to finger 1; shift: by how much it came up there.
    """

    first: Stop
    then: Stop
    together: bool
    place: int
    shift: int = 0


@dataclass(frozen=True, slots=True)
class Ladder:
    """The way from what is secure to a spot, or to a frame.

    spot: its number; letter: of a frame, where the ladder leads to one, else empty.
    drills: the easiest first, the last of them nearest to the spot itself.
    shared: those of them that an earlier ladder has already.
    missing: what no drill holds; crowded: what had no room within the most drills of a ladder.
    """

    spot: int
    drills: tuple[Drill, ...]
    shared: tuple[Drill, ...] = ()
    missing: tuple[Need, ...] = ()
    crowded: tuple[Need, ...] = ()
    letter: str = ""

    @property
    def meets_all(self) -> bool:
        """Every move and every double stop is secure or stands in a drill."""
        return not self.missing and not self.crowded


@dataclass(frozen=True, slots=True)
class Passage:
    """A passage as a whole: the notes, the best fingering, the next best, the way there.

    title: as printed, from the file's name or the user.
    spots: the hardest, in the order of the passage; easier: how many more are worth a drill.
    ladders: to each spot; then to each frame, where those are wanted.
    plan: the ladders' drills as planned days, for the ordinary drill blocks.
    composer: as the file has it; empty where it does not say.
    sounding: the notes that sound, where the phrase is written as fingered on other strings.
    """

    title: str
    instrument: str
    size: str
    phrase: Phrase
    best: Fingering
    other: Fingering | None
    spots: tuple[Spot, ...] = ()
    easier: int = 0
    ladders: tuple[Ladder, ...] = ()
    plan: Plan | None = None
    composer: str = ""
    sounding: Phrase | None = None

    @property
    def heard(self) -> Phrase:
        """The phrase in the notes that sound, as the instrument writes them."""
        return self.phrase if self.sounding is None else self.sounding
