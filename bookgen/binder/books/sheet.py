"""The sheet of a day; and one drill alone, cut to its block."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate
from typing import Final

from bookgen.binder.page.bind import bind_leaves, canvas_of
from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame, frame_of, lowest
from bookgen.binder.page.imprint import CREATOR, Imprint, Numbering
from bookgen.binder.page.leaf import Leaf, Side, drawn, leaf_of, leaves_of
from bookgen.binder.page.piece import WHITE_AT_END, WHITE_COLUMNS, Mark, Piece, Room, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.parts.answers import answer_pieces
from bookgen.binder.parts.block.words import alone_words, sheet_words
from bookgen.binder.parts.drill_signs import intervals_in
from bookgen.binder.parts.drills import Drills, drills_of
from bookgen.binder.parts.drills_told import heard_of, key_words
from bookgen.binder.parts.key import key_pieces
from bookgen.binder.parts.passage.bars import Bars, bars_key, bars_leaves
from bookgen.binder.parts.pictures import Picture, music_picture
from bookgen.binder.parts.sheet_head import SheetHead, sheet_head, told_over
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import EngravedDrill, Engraving, put_together
from bookgen.plan.document import Day, DrillEntry, Plan
from bookgen.words import front
from bookgen.words import sheet as words
from bookgen.words.marks import marks_of
from bookgen.words.names import played_name
from bookgen.words.speech import capital

WHITE_MM: Final = 5.0
"""Around a drill alone."""


@dataclass(frozen=True, slots=True)
class DayDrills:
    """A day and its drills in the order of play."""

    day: Day
    drills: Drills


def days_of(plan: Plan, desk: Desk) -> list[DayDrills]:
    """How the drills of each day are printed.

    Raises:
        NoRoomError: a chart or a line of music has no room.
    """
    cents = plan.binding is not None and plan.binding.cents
    found = []
    for day in plan.days:
        entries = [plan.by_number[item.number] for item in day.items]
        said = [sheet_words(item, plan, desk, cents=cents) for item in day.items]
        found.append(DayDrills(day, drills_of(entries, said, desk, "sheet")))
    return found


def scores_of(plan: Plan, desk: Desk) -> tuple[DrillScore, ...]:
    """What is engraved for the sheets of a plan, in the order of play.

    Raises:
        NoRoomError: a chart or a line of music has no room.
    """
    return tuple(score for one in days_of(plan, desk) for score in one.drills.scores)


def bind_sheet(plan: Plan, engraving: Engraving, desk: Desk, bars: Sequence[Bars] = ()) -> bytes:
    """Bind the sheets of a plan's days: the whole PDF.

    engraving: of `scores_of(plan, desk)`, in that order. bars: that stand after the days.

    Raises:
        ValueError: the engraving is another plan's.
        NoRoomError: a part does not fit its page.
    """
    days = days_of(plan, desk)
    *starts, count = accumulate((len(one.drills.settings) for one in days), initial=0)
    if count != len(engraving.drills):
        msg = f"{count} drills planned, {len(engraving.drills)} engraved"
        raise ValueError(msg)

    def of_days(frame: Frame) -> list[list[Leaf]]:
        found = [
            day_leaves(plan, one, engraving, start, frame)
            for one, start in zip(days, starts, strict=True)
        ]
        return [*found, bars_leaves(bars, count, frame)]

    highest = sheet_frame(plan, days, bars_key(bars, desk.speech), desk)
    frame, found = lowest(highest, of_days)
    leaves = [leaf for pages in found for leaf in pages]
    dates = [desk.speech.date(one.day.date) for one in (days[0], days[-1])]
    title = " · ".join(filter(None, (desk.clean(plan.player), *dict.fromkeys(dates))))
    subject = words.subject(played(desk), desk.speech)
    imprint = Imprint(title, desk.clean(desk.studio) or CREATOR, subject)
    music = put_together(engraving, *(one.lines for one in bars))
    heard = heard_of(*(one.drills for one in days))
    return bind_leaves([], leaves, frame, music, imprint, heard)


def played(desk: Desk) -> str:
    """The instrument with its size."""
    return played_name(desk.instrument, desk.size, desk.speech)


def sheet_frame(
    plan: Plan, days: Sequence[DayDrills], besides: Mapping[str, str], desk: Desk
) -> Frame:
    """Head and foot of the pages; the key tells the intervals too, for a sheet has no front.

    Those that a day's head names are not told again. besides: what is in the key too.
    """
    key: dict[str, str] = {}
    labels: set[str] = set()
    for one in days:
        key.update(key_words(one.drills, "sheet").items())
        met = (intervals_in(setting.score, desk) for setting in one.drills.settings)
        labels |= set().union(*met) - told_over(plan, one.day)
    key |= besides
    key |= words.interval_key(labels, marks_of(desk.speech), desk.speech)
    whose = " · ".join(filter(None, (desk.clean(desk.studio), played(desk))))
    return frame_of(desk, whose, front.caution(desk.speech), key, apart=True)


def day_leaves(
    plan: Plan, one: DayDrills, engraving: Engraving, first: int, frame: Frame
) -> list[Leaf]:
    """The pages of a day; where it is played from memory, the answers follow overleaf.

    first: which of the engraving's is the day's first drill.
    """
    desk, drills = frame.desk, one.drills
    head = sheet_head(plan, one.day, desk)
    below = head.height + desk.layout.frame.head_white_mm
    music = engraving.drills[first : first + len(drills.settings)]

    def room(page: int) -> Room:
        full = drills.room(frame)
        return full if page else replace(full, height=full.height - below)

    memory = plan.binding is not None and plan.binding.from_memory
    pieces: list[Piece] = [*(drills.memory_pieces() if memory else drills.pieces(music, first))]
    pieces += key_pieces(frame, desk.layout.flow.between_mm)
    even = WHITE_AT_END if drills.columns == 1 else WHITE_COLUMNS
    pages = flow(pieces, room, even)
    running = words.sheet_running(desk.clean(plan.player), one.day.date, desk.speech)
    leaves = [leaf_of(page, frame.top - below * (not at), running) for at, page in enumerate(pages)]
    leaves[0] = under_head(head, leaves[0], one.day, frame)
    if memory:
        answers = [*answer_pieces(*answers_of(one, music, first), desk)]
        overleaf = flow(answers, lambda _: drills.room(frame), even)
        leaves += leaves_of(overleaf, frame.top, lambda _: running)
    return leaves


def under_head(head: SheetHead, leaf: Leaf, day: Day, frame: Frame) -> Leaf:
    """A day's first page, with the day's head over its drills."""

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        head.draw(canvas, side.left, frame.top)
        yield from leaf.draw(canvas, side)

    date = capital(frame.desk.speech.date(day.date))
    marks = (Mark(date, 0), *leaf.marks)
    return replace(leaf, running=date, marks=marks, draw=draw, bare=False)


def answers_of(
    one: DayDrills, music: Sequence[EngravedDrill], first: int
) -> tuple[list[DrillEntry], list[Picture]]:
    """The drills of a day and their music, for the answers."""
    pictures = [
        replace(
            music_picture(index, drill.box, one.drills.desk, turns=setting.turns),
            signs=setting.staff_signs,
        )
        for index, (setting, drill) in enumerate(
            zip(one.drills.settings, music, strict=True), start=first
        )
    ]
    return [setting.entry for setting in one.drills.settings], pictures


def drill_scores(plan: Plan, desk: Desk) -> tuple[DrillScore, ...]:
    """What is engraved for a drill alone.

    Raises:
        NoRoomError: its chart or its music has no room.
    """
    return drill_alone(plan, desk).scores


def drill_alone(plan: Plan, desk: Desk) -> Drills:
    """How the one drill of a plan is printed, as on a sheet.

    Raises:
        ValueError: there are more drills than one.
        NoRoomError: its chart or its music has no room.
    """
    if len(plan.drills) != 1:
        msg = f"{len(plan.drills)} drills, not one"
        raise ValueError(msg)
    cents = plan.binding is not None and plan.binding.cents
    said = alone_words(plan.drills[0], desk, cents=cents)
    return drills_of(plan.drills, [said], desk, "sheet")


def bind_drill(plan: Plan, engraving: Engraving, desk: Desk) -> bytes:
    """Bind a plan that holds one drill: a PDF whose pages are cut each to its block.

    From memory, the block with blanks comes first and the one with the music overleaf.

    engraving: of `drill_scores(plan, desk)`.

    Raises:
        ValueError: there are more drills than one.
        NoRoomError: a part has no room.
    """
    drills = drill_alone(plan, desk)
    memory = plan.binding is not None and plan.binding.from_memory
    pieces = [*(drills.memory_pieces() if memory else []), *drills.pieces(engraving.drills)]
    wide = drills.width + 2 * WHITE_MM
    size = wide, pieces[0].height + 2 * WHITE_MM
    canvas = canvas_of(desk, size, engraving, heard_of(drills))
    places: list[Placed] = []
    for page, piece in enumerate(pieces):
        canvas.resize(wide, piece.height + 2 * WHITE_MM)
        slot = Slot(page, WHITE_MM, piece.height + WHITE_MM, drills.width, 0.0)
        places += [canvas.music(place) for place in drawn(piece, canvas, slot)]
        canvas.next_page()
    folios = [str(page) for page in range(1, len(pieces) + 1)]
    imprint = Imprint(
        title=pieces[0].marks[0].title,
        author=CREATOR,
        subject=words.drill_subject(played(desk), desk.speech),
        page_labels=(Numbering(0),),
        language=desk.speech.language,
    )
    from bookgen.binder.page.press import press  # noqa: PLC0415  slow to import

    return press(canvas.finish(), engraving, places, imprint, canvas.closing(folios))
