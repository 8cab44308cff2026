"""What stands in a drill's block beside chart and music: facts said, for all its forms."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.page.desk import Desk
from bookgen.model.drill import Drill
from bookgen.model.ear import pure_stops
from bookgen.model.tuned import left_over
from bookgen.plan.document import DrillEntry, Item, Plan, Role
from bookgen.plan.music import music_of
from bookgen.words.days import minutes_short, role_words, wait
from bookgen.words.drill import (
    hand_name,
    link_line,
    stretch,
    way_name,
)
from bookgen.words.drill_title import place_name
from bookgen.words.ear import cents_line, tune_line
from bookgen.words.names import place_short
from bookgen.words.shift import (
    heard_first,
    on_two_strings,
    passed_over,
    shift_short,
)
from bookgen.words.speech import Speech
from bookgen.words.tuning import tuning_line

SHEET_BOXES: Final = 2
TOLD_ROLES: Final = frozenset({Role.OTHER_WAY, Role.AGAIN, Role.STEP_BACK, Role.COLD, Role.PASSAGE})
"""Roles that a sheet says; of the others the link tells enough."""


@dataclass(frozen=True, slots=True)
class BlockWords:
    """The words of a block.

    place, short_place: its position, in full and where there is little room.
    stretch: said where the hand opens beyond its ordinary frame; role: on the sheet of a day.
    link: empty where it is left out; aside: under the boxes, a line each.
    waits: for another drill; below: paragraphs under everything.
    boxes: how many there are to tick.
    label: printed for the number, where that is not it.
    bare: no number is printed; it stands over several blocks.
    to: the number of the drill that the link names, or None.
    """

    number: int
    hand: str
    place: str
    short_place: str
    stage: str
    stretch: str = ""
    role: str = ""
    link: str = ""
    aside: tuple[str, ...] = ()
    waits: bool = False
    below: tuple[str, ...] = ()
    boxes: int = 0
    label: str = ""
    bare: bool = False
    to: int | None = None

    @property
    def shown(self) -> str:
        """What is printed for the number."""
        return self.label or str(self.number)

    def title(self, place: str) -> Iterator[str]:
        """What the drill is, the hand first."""
        yield from filter(None, (self.hand, place, self.stage, self.stretch, self.role))


def book_words(entry: DrillEntry, plan: Plan, desk: Desk, boxes: int = 1) -> BlockWords:
    """The words of a drill in a book of drills."""
    return words_of_drill(entry, entry.drill, plan.linked(entry), desk, boxes)


def words_of_drill(
    entry: DrillEntry, drill: Drill, to: Drill | None, desk: Desk, boxes: int
) -> BlockWords:
    """The words of a drill.

    to: the drill to which it is linked.
    """
    speech = desk.speech
    return BlockWords(
        number=entry.number,
        hand=hand_name(drill, speech),
        place=place_name(entry, speech),
        short_place=short_place_words(entry, speech),
        stage=way_name(drill, speech),
        stretch=stretch_words(drill, desk),
        link=link_line(entry.link, drill, to, speech),
        below=tuple(asked_for_words(entry, speech)),
        boxes=boxes,
        to=entry.link.to if isinstance(entry.link.to, int) else None,
    )


def stretch_words(drill: Drill, desk: Desk) -> str:
    """How a drill's hand opens beyond its ordinary frame; nothing where it does not."""
    instrument = desk.instrument
    if not instrument.stretches(drill.frame, drill.place):
        return ""
    return stretch(instrument.extension(drill.frame, drill.place), desk.speech)


def asked_for_words(entry: DrillEntry, speech: Speech) -> Iterator[str]:
    """What ear and bow do in a drill for a passage; no front and no head of a page tells it."""
    drill = entry.drill
    if drill.frame.shift:
        yield heard_first(music_of(entry), speech)
    elif len(drill.order) == 1 and not drill.skips:
        yield on_two_strings(music_of(entry), speech)
    if drill.skips:
        yield passed_over(drill.skipped, speech)


def short_place_words(entry: DrillEntry, speech: Speech) -> str:
    """The same where there is little room."""
    if entry.to_position is not None and entry.to_position != entry.position:
        return shift_short(entry.position, entry.to_position, speech)
    return place_short(entry.position, speech)


def sheet_words(item: Item, plan: Plan, desk: Desk, *, cents: bool) -> BlockWords:
    """The words of a drill on the sheet of a day.

    cents: figures are told for its double stops.
    """
    entry = plan.by_number[item.number]
    said = words_of_drill(entry, entry.drill, plan.linked(entry), desk, SHEET_BOXES)
    minutes = minutes_short(item.minutes, desk.speech)
    waits = () if item.only_if is None else (wait(item.only_if, desk.speech),)
    return replace(
        said,
        role=role_words(item.role, desk.speech) if item.role in TOLD_ROLES else "",
        aside=(minutes, *waits),
        waits=bool(waits),
        below=(*said.below, *tune_words(entry, desk, cents=cents)),
    )


def tune_words(entry: DrillEntry, desk: Desk, *, cents: bool) -> Iterator[str]:
    """How a drill's double stops are tuned: once for each kind that cannot be pure.

    cents: with figures, and what the pure ones are.
    """
    lefts = left_over(music_of(entry), desk.instrument)
    for left in {one.label: one for one in lefts[::-1]}.values():
        yield tune_line(left, desk.speech, cents=cents)
    if cents:
        yield from cents_words(entry, desk)


def cents_words(entry: DrillEntry, desk: Desk) -> tuple[str, ...]:
    """Cents and difference tones of a drill's double stops; nothing where it has none."""
    stops = list(pure_stops(music_of(entry), desk.instrument))
    return (cents_line(stops, desk.speech),) if stops else ()


def alone_words(entry: DrillEntry, desk: Desk, *, cents: bool) -> BlockWords:
    """The words of a drill that stands alone: without a link and without boxes."""
    said = words_of_drill(entry, entry.drill, None, desk, boxes=0)
    tuned = filter(None, [tuning_line(desk.instrument, desk.speech)])
    below = (*said.below, *tune_words(entry, desk, cents=cents), *tuned)
    return replace(said, link="", below=below)
