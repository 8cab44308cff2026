"""How to use a booklet: plan and ticks, what each stage asks, in a picture, signs and cautions."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf, leaves_of
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.piece import Mark, Page, Piece, Room, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import (
    Look,
    Words,
    draw_words,
    heading,
    height_of,
    pieces_of,
    words_of,
)
from bookgen.binder.page.signs import RETURN_MM, Sign
from bookgen.binder.parts.drills import Drills, Setting
from bookgen.binder.parts.key import key_pieces
from bookgen.binder.parts.pictures import Picture, chart_picture
from bookgen.binder.structure.tag import head
from bookgen.errors import told
from bookgen.model.geometry import FINGER_MM, gap_mm
from bookgen.model.interval import Interval
from bookgen.plan.document import DrillEntry
from bookgen.words import front as words
from bookgen.words.drill import stage_name
from bookgen.words.names import interval_label, interval_name

HEADING_MM: Final = 3.0
TEXT_MM: Final = 0.9
WAY_MM: Final = 3.2
BELOW_WORDS_MM: Final = 1.4
BESIDE_MM: Final = 3.0
"""Between pictures and what stands beside them."""

WORDS_MM: Final = 45.0
"""Own choice: the narrowest column of words beside pictures."""

MOST_EXTRA_MM: Final = 5.0
TOLERANCE_MM: Final = 0.5
"""Ink may stand out of its place by a line's thickness."""

Stages = Mapping[int, tuple[str, Sequence[Picture]]]
"""Each stage that comes, with its name and its pictures, of each stage as many."""


class Stand(StrEnum):
    """Where the pictures of a stage stand.

    beside: right of its words; row: side by side below them; first: the first one right of them,
    the others below; column: below them and each other.
    """

    BESIDE = "beside"
    ROW = "row"
    FIRST = "first"
    COLUMN = "column"


@dataclass(frozen=True, slots=True)
class Way:
    """One stage: its words and its pictures.

    widths: from each picture to the next, in millimetres, the same for all stages; the first is
        that of the words where a picture stands beside these, else 0.
    """

    asked: Sequence[Words]
    pictures: Sequence[Picture]
    stand: Stand
    widths: Sequence[float]

    @property
    def height(self) -> float:
        """Height in millimetres."""
        heights = [picture.height for picture in self.pictures]
        match self.stand:
            case Stand.BESIDE:
                return max(*heights, height_of(self.asked))
            case Stand.ROW:
                return height_of(self.asked) + BELOW_WORDS_MM + max(heights)
            case Stand.FIRST:
                over = max(heights[0], height_of(self.asked))
                return over + sum(height + BELOW_WORDS_MM for height in heights[1:])
            case Stand.COLUMN:
                return height_of(self.asked) + sum(height + BELOW_WORDS_MM for height in heights)

    def draw(self, canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        """Draw words and pictures.

        Yields:
            Where music goes.
        """
        end = draw_words(canvas, self.asked, slot.left, slot.top)
        beside = self.stand in {Stand.BESIDE, Stand.FIRST}
        left, top = slot.left, slot.top if beside else end - BELOW_WORDS_MM
        for picture, width in zip(self.pictures, self.widths, strict=True):
            left += width
            yield from picture.draw(canvas, replace(slot, left=left, top=top))
            match self.stand:
                case Stand.COLUMN:
                    top -= picture.height + BELOW_WORDS_MM
                case Stand.FIRST:
                    left = slot.left
                    top = min(top - picture.height, end) - BELOW_WORDS_MM
                case _:
                    pass


def ways_of(
    stages: Stages, size: float, width: float, desk: Desk, *, close: bool
) -> dict[int, Way]:
    """Measure the stages, their pictures in columns as far as these have room.

    size: of the words in points; width: of the column in millimetres; close: see `close_spots`.

    Raises:
        NoRoomError: a picture is wider than the column.
    """
    columns = zip(*(pictures for _, pictures in stages.values()), strict=True)
    widest = [max(picture.width for picture in column) for column in columns]
    if max(widest) > width + TOLERANCE_MM:
        raise NoRoomError(told("an example of a stage"), max(widest), width, wide=True)
    rest = width - sum(one + BESIDE_MM for one in widest)
    if rest >= WORDS_MM:
        stand, room = Stand.BESIDE, rest
        widths = [rest + BESIDE_MM, *(one + BESIDE_MM for one in widest[:-1])]
    elif rest + BESIDE_MM >= -TOLERANCE_MM:
        stand, room = Stand.ROW, width
        widths = [0.0, *(one + BESIDE_MM for one in widest[:-1])]
    elif width - widest[0] - BESIDE_MM >= WORDS_MM:
        stand, room = Stand.FIRST, width - widest[0] - BESIDE_MM
        widths = [room + BESIDE_MM, *(0.0 for _ in widest[1:])]
    else:
        stand, room, widths = Stand.COLUMN, width, [0.0] * len(widest)
    return {
        stage: Way(way_words(stage, name, size, room, desk, close=close), pictures, stand, widths)
        for stage, (name, pictures) in sorted(stages.items())
    }


def way_words(
    stage: int, name: str, size: float, room: float, desk: Desk, *, close: bool
) -> list[Words]:
    """The name of a stage, what it asks, how it is bowed."""
    looks = (
        (f"<b>{name}</b>", Look(desk.layout.text.title_pt), head(STAGE_DEPTH)),
        (words.stage_how(stage, desk.speech, close=close), Look(size, above=TEXT_MM), None),
        (words.stage_bow(stage, desk.speech), Look(size, Face.ITALIC, above=TEXT_MM), None),
    )
    return [words_of(text, look, room, desk, tag) for text, look, tag in looks]


STAGE_DEPTH: Final = 2
"""Of a stage's head, below that of the part and that of the stages."""


def close_spots(entries: Sequence[DrillEntry], desk: Desk) -> bool:
    """Two fingers of some drill of stage 1 have no room beside each other."""
    length = desk.instrument.size(desk.size).string_length_mm
    drills = (entry.drill for entry in entries if entry.stage == 1)
    return any(
        gap_mm(length, drill.height(low), drill.height(high)) < FINGER_MM
        for drill in drills
        for low, high in pairwise(drill.frame.fingers)
    )


def stages_of(drills: Drills, music: Callable[[int], Picture] | None) -> Stages:
    """One drill for each stage, with its chart and its music.

    music: of a drill by its place among them, or None where it is not shown.
    """
    desk, stages = drills.desk, dict[int, tuple[str, Sequence[Picture]]]()
    every = list(enumerate(drills.settings))
    settings = [one for one in every if not one[1].entry.drill.for_passages] or every
    for index, setting in sorted(settings, key=lambda one: unfit(one[1], desk)):
        if setting.entry.stage in stages:
            continue
        signs = setting.signs - setting.staff_signs - {Sign.BOX}
        pictures = [chart_picture(setting.chart, desk, signs)]
        pictures += [] if music is None else [music(index)]
        name = stage_name(setting.entry.stage, desk.speech)
        stages[setting.entry.stage] = (name, pictures)
    return stages


def unfit(setting: Setting, desk: Desk) -> tuple[bool, bool]:
    """How ill a drill would be shown at the front: with a way back of its own, or too wide."""
    wide = setting.chart.end + BESIDE_MM + setting.score.width_mm + RETURN_MM
    return not setting.turns, wide > desk.sheet.column


def front_pieces(
    use: Sequence[str],
    care: Sequence[str],
    entries: Sequence[DrillEntry],
    stages: Stages,
    size: float,
    frame: Frame,
) -> Iterator[Piece]:
    """How to use a book, in pieces of the paper's column.

    size: of the words in points.
    """
    desk = frame.desk
    width, speech = desk.sheet.column, desk.speech
    look = Look(size, above=TEXT_MM)
    over = Look(desk.layout.text.title_pt, Face.BOLD, above=HEADING_MM)
    yield from pieces_of(use, look, width, desk)
    yield heading(words.ways_heading(speech), over, width, desk, 0.0)
    close = close_spots(entries, desk)
    for stage, way in ways_of(stages, size, width, desk, close=close).items():
        signs = frozenset(sign for picture in way.pictures for sign in picture.signs)
        yield Piece(
            way.height,
            way.draw,
            above=WAY_MM,
            ruled=True,
            most_extra=MOST_EXTRA_MM,
            signs=signs,
            called=stages[stage][0],
        )
    yield heading(words.signs_heading(speech), over, width, desk, 0.0)
    yield from pieces_of([*signs_of(entries, desk)], look, width, desk)
    yield from key_pieces(frame, TEXT_MM)
    yield heading(words.care_heading(speech), over, width, desk, 0.0)
    yield from pieces_of(care, look, width, desk)


def signs_of(entries: Sequence[DrillEntry], desk: Desk) -> Iterator[str]:
    """What charts and staves show: only what comes."""
    speech = desk.speech
    yield words.chart_signs(speech)
    spacings = {spacing for entry in entries for spacing in entry.spacings}
    steps = {"half": words.half_step(speech), "whole": words.whole_step(speech)}
    yield words.staff_signs([steps[word] for word in steps if word in spacings], speech)
    labels = {
        label
        for entry in entries
        for event in entry.events
        for met in [event.from_previous if event.crosses or event.shifts else None]
        for label in [event.within or met]
        if label is not None
    }
    rising = sorted(labels, key=lambda label: (Interval.parse(label).semitones, label))
    named = [(interval_label(label, speech), interval_name(label, speech)) for label in rising]
    if named:
        yield words.intervals(named, speech)


def front_leaves(
    title: str,
    use: Sequence[str],
    care: Sequence[str],
    entries: Sequence[DrillEntry],
    stages: Stages,
    frame: Frame,
) -> list[Leaf]:
    """The pages, in the largest type that takes no page more.

    use: paragraphs at their beginning; care: the cautions at their end.

    Raises:
        NoRoomError: a picture has no room.
    """
    text, room = frame.desk.layout.text, Room(1, frame.desk.sheet.column, 0.0, frame.room)

    def pages(size: float) -> list[Page]:
        return flow([*front_pieces(use, care, entries, stages, size, frame)], lambda _: room)

    smallest, tries = pages(text.small_pt), []
    for size in (text.title_pt, text.link_pt, text.body_pt):
        with suppress(NoRoomError):  # a stage is higher than a page in this type; try the next
            tries.append(pages(size))
    first, *rest = leaves_of(min([*tries, smallest], key=len), frame.top, lambda _: title)
    return [replace(first, marks=(Mark(title, 0),)), *rest]
