"""The page of a class: each step of the day for several instruments, one below the other."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from bookgen.binder.books.sheet import under_head
from bookgen.binder.page.bind import bind_leaves
from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame, frame_of, lowest
from bookgen.binder.page.imprint import CREATOR, Imprint
from bookgen.binder.page.leaf import Leaf, height_of, leaf_of
from bookgen.binder.page.piece import WHITE_AT_END, Piece, Room
from bookgen.binder.page.prose import Look, words_of
from bookgen.binder.page.signs import Sign
from bookgen.binder.parts.class_step import row_words, step_head, step_pieces
from bookgen.binder.parts.drill_signs import intervals_in
from bookgen.binder.parts.drills import DrillPiece, Drills, drills_of
from bookgen.binder.parts.drills_told import heard_of, key_words
from bookgen.binder.parts.key import key_pieces
from bookgen.binder.parts.sheet_head import GAP_MM, SheetHead, wished_words
from bookgen.model.together import LABELS, sounds_between
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import Engraving
from bookgen.plan.document import DrillEntry, Plan
from bookgen.plan.music import music_of
from bookgen.words import class_page as words
from bookgen.words import front, sheet
from bookgen.words.days import minutes_short
from bookgen.words.marks import marks_of


@dataclass(frozen=True, slots=True)
class Row:
    """An instrument of a class: its plan, its desk, and how its drills are printed."""

    plan: Plan
    desk: Desk
    drills: Drills


def rows_of(plans: Sequence[Plan], desks: Sequence[Desk]) -> list[Row]:
    """How each instrument's drills are printed, in the order of play.

    Raises:
        NoRoomError: a chart or a line of music has no room.
    """
    found = []
    for plan, desk in zip(plans, desks, strict=True):
        cents = plan.binding is not None and plan.binding.cents
        entries = [plan.by_number[item.number] for _, item, _ in plan.items()]
        said = [row_words(entry, desk, cents=cents) for entry in entries]
        found.append(Row(plan, desk, drills_of(entries, said, desk, "sheet")))
    return found


def scores_of(plans: Sequence[Plan], desks: Sequence[Desk]) -> list[tuple[DrillScore, ...]]:
    """What is engraved for each instrument.

    Raises:
        NoRoomError: a chart or a line of music has no room.
    """
    return [row.drills.scores for row in rows_of(plans, desks)]


def bind_class(plans: Sequence[Plan], engraving: Engraving, desks: Sequence[Desk]) -> bytes:
    """Bind the page of a class: the whole PDF.

    plans, desks: of each instrument, the first one's first.
    engraving: of `scores_of(plans, desks)`, one instrument after the other.

    Raises:
        NoRoomError: a part does not fit its page.
    """
    rows = rows_of(plans, desks)
    starts = accumulate((len(row.drills.settings) for row in rows), initial=0)
    music = [
        row.drills.pieces(engraving.drills[start : start + len(row.drills.settings)], start)
        for row, start in zip(rows, starts, strict=False)
    ]
    frame, (leaves,) = lowest(class_frame(rows), lambda frame: [class_leaves(rows, music, frame)])
    desk, day = desks[0], plans[0].days[0]
    whose = words.class_name((one.instrument for one in desks), desk.speech)
    title = f"{whose} · {desk.speech.date(day.date)}"
    imprint = Imprint(title, desk.clean(desk.studio) or CREATOR, words.class_subject(desk.speech))
    heard = heard_of(*(row.drills for row in rows))
    return bind_leaves([], leaves, frame, engraving, imprint, heard)


def class_frame(rows: Sequence[Row]) -> Frame:
    """Head and foot of the pages; the key tells the signs of all instruments."""
    desk = rows[0].desk
    key: dict[str, str] = {}
    labels: set[str] = set()
    for row in rows:
        key.update(key_words(row.drills, "sheet"))
        labels |= {one for s in row.drills.settings for one in intervals_in(s.score, row.desk)}
    if any(item.only_if is not None for _, item, _ in rows[0].plan.items()):
        key[Sign.WAIT] = sheet.wait_key(desk.speech)
    key |= sheet.interval_key(labels - set(listened(rows)), marks_of(desk.speech), desk.speech)
    whose = desk.clean(desk.studio)
    return frame_of(desk, whose, front.caution(desk.speech), key, apart=True)


def listened(rows: Sequence[Row]) -> list[str]:
    """The commonest crossings of all instruments together."""
    events = (event for row in rows for entry in row.plan.drills for event in music_of(entry))
    return sheet.commonest(events)


def class_leaves(
    rows: Sequence[Row], music: Sequence[Sequence[DrillPiece]], frame: Frame
) -> list[Leaf]:
    """The pages of the day; a step that has no room under the head begins there all the same."""
    desk = rows[0].desk
    (day,) = rows[0].plan.days
    head = class_head(rows)
    below = head.height + desk.layout.frame.head_white_mm

    def room(page: int) -> Room:
        full = frame.columns()
        return full if page else replace(full, height=full.height - below)

    steps = [*steps_of(rows, music)]
    if height_of(steps[0]) > frame.room - below:
        steps[0] = [steps[0][0], *(replace(piece, keeps=False) for piece in steps[0][1:])]
    pieces = [piece for step in steps for piece in step]
    pieces += key_pieces(frame, desk.layout.flow.between_mm)
    pages = flow(pieces, room, WHITE_AT_END)
    whose = words.class_name((row.desk.instrument for row in rows), desk.speech)
    running = sheet.sheet_running(whose, day.date, desk.speech)
    leaves = [leaf_of(page, frame.top - below * (not at), running) for at, page in enumerate(pages)]
    leaves[0] = under_head(head, leaves[0], day, frame)
    return leaves


def steps_of(rows: Sequence[Row], music: Sequence[Sequence[DrillPiece]]) -> Iterator[list[Piece]]:
    """Each step of the day with the rows of all instruments, as pieces that stay together."""
    first = rows[0]
    for at, (_, item, entry) in enumerate(first.plan.items()):
        strings = common_strings(entry, first.desk) if labels_of(rows) == {words.UNISON} else ""
        head = step_head(item, first.plan, strings, first.desk)
        blocks = [pieces[at] for pieces in music]
        gap = first.desk.layout.flow.column_gap_mm
        yield [*step_pieces(head, blocks, first.drills.columns, first.drills.width, gap)]


def common_strings(entry: DrillEntry, desk: Desk) -> str:
    """The strings of a drill by their notes."""
    strings = entry.drill.strings
    return words.common_strings([desk.instrument.open_pitch(s) for s in strings], desk.speech)


def labels_of(rows: Sequence[Row]) -> set[str]:
    """The consonances that are heard between any two instruments."""
    instruments = [row.desk.instrument for row in rows]
    return {
        LABELS[semitones]
        for entries in zip(*(row.plan.drills for row in rows), strict=True)
        for sounds in sounds_between(instruments, [entry.drill.strings for entry in entries])
        for semitones in sounds
        if semitones in LABELS
    }


def class_head(rows: Sequence[Row]) -> SheetHead:
    """Over the day's steps: who plays, how long, how it sounds."""
    (day,), desk = rows[0].plan.days, rows[0].desk
    text, width, speech = desk.layout.text, desk.sheet.column, desk.speech
    minutes = minutes_short(sum(item.minutes for item in day.items), speech)
    room = width - desk.fonts.width(minutes, Style(Face.BOLD, text.title_pt)) - GAP_MM
    whose = words.class_name((row.desk.instrument for row in rows), speech)
    bold = Style(Face.BOLD, text.name_pt)
    fits = desk.fonts.width(whose, bold) <= room
    name = desk.name(whose if fits else words.class_word(speech), room, bold)
    said = (
        "" if fits else desk.clean(whose),
        wished_words(rows[0].plan, day, desk),
        words.sound_line(labels_of(rows), speech),
        sheet.listen_for(listened(rows), marks_of(speech), speech),
    )
    below = [words_of(one, Look(text.title_pt), width, desk) for one in said]
    return SheetHead(desk, name, minutes, tuple(one for one in below if one.lines))
