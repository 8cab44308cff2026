"""The columns of phrases, random phrases, and every way through them."""

from collections.abc import Sequence
from fractions import Fraction
from math import prod

from hypothesis import strategies as st
from kit.fingered import COSTS
from kit.phrases import phrase
from kit.shorthand import VIOLIN

from bookgen.model.costs import Preference
from bookgen.model.instrument import Instrument
from bookgen.model.marking import Marking
from bookgen.model.phrase import Bar, Phrase, Sound, WrittenNote, with_whole_lines
from bookgen.model.pitch import Pitch
from bookgen.passage.columns import columns_of
from bookgen.passage.cost import Tariff
from bookgen.passage.event import events_of
from bookgen.passage.lattice import Column, Steps
from bookgen.passage.placement import Pose, Poses
from bookgen.passage.playable import playable
from bookgen.passage.shape import Shape

NAMES = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B")
MOST_WAYS = 20_000


def laid(
    given: str | Phrase, instrument: Instrument = VIOLIN, prefer: Preference | None = None
) -> tuple[Steps, list[Column]]:
    """The columns of what can be played of a phrase."""
    poses = Poses(Shape(instrument))
    events = events_of(phrase(given) if isinstance(given, str) else given)
    played = [playable(event, poses) for event in events]
    steps = Steps(Tariff(poses.shape, COSTS, prefer))
    return steps, columns_of([one for one in played if one.poses], steps.tariff)


@st.composite
def phrases(draw: st.DrawFn, instrument: Instrument, most: int) -> Phrase:
    """A short phrase in range: notes, double stops, rests, long and grace notes, slurs, groups."""
    low = instrument.strings[-1].midi
    high = instrument.strings[0].midi + min(instrument.highest_stop, 14)
    sounds: list[Sound] = []
    for _ in range(draw(st.integers(2, most))):
        heights = {draw(st.integers(low, high))}
        if draw(st.integers(0, 3)) == 0:
            heights.add(min(high, min(heights) + draw(st.integers(3, 12))))
        lasts = draw(st.sampled_from(["0", "1/16", "1/4", "1/2"]))
        notes = tuple(WrittenNote(named(height)) for height in sorted(heights))
        lines = Marking(
            slurs_end=draw(st.integers(0, 1)),
            slurs_begin=draw(st.integers(0, 1)),
            hand_ends=draw(st.booleans()),
            hand_begins=draw(st.integers(0, 3)) == 0,
        )
        sounds.append(Sound(Fraction(0), Fraction(lasts), notes, lasts == "0", lines))
        if draw(st.integers(0, 4)) == 0:
            sounds.append(Sound(Fraction(0), Fraction(1, 4), ()))
    return Phrase(with_whole_lines([Bar("1", tuple(sounds), Fraction(4))]))


def named(height: int) -> Pitch:
    """A pitch by its MIDI number."""
    return Pitch.parse(f"{NAMES[height % 12]}{height // 12 - 1}")


def ways(columns: Sequence[Column]) -> list[list[Pose]]:
    """The poses of each column."""
    return [list(dict.fromkeys(node.pose for node in column.nodes)) for column in columns]


def keeps(columns: Sequence[Column], way: Sequence[Pose], steps: Steps) -> bool:
    """Whether the hand stays where the player wants it kept, open strings in between or not."""
    place = 0
    before: Pose | None = None
    for column, pose in zip(columns, way, strict=True):
        moved = 0 not in {place, pose.place} and place != pose.place
        stopped = before is not None and before.place and pose.place
        if column.kept and (
            moved or (before is not None and stopped and crosses(before, pose, steps))
        ):
            return False
        place, before = pose.place or place, pose
    return True


def crosses(before: Pose, pose: Pose, steps: Steps) -> bool:
    return not steps.tariff.shape.stays(before.stopped, pose.stopped)


def affordable(columns: list[Column]) -> list[Column]:
    """As many columns from the beginning as every way can be tried of."""
    while prod(map(len, ways(columns))) > MOST_WAYS:
        columns = columns[:-1]
    return columns
