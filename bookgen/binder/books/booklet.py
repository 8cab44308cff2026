"""A dated booklet for one player: how to use it, the plan of days, each drill by its number."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from itertools import accumulate
from typing import Final

from bookgen.binder.books.sections import Section, sections_of, spans_of
from bookgen.binder.books.whose import imprint_of, span_of, title_of, whose_of
from bookgen.binder.page.bind import bind_leaves
from bookgen.binder.page.canvas import Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame, frame_of, lowest
from bookgen.binder.page.imposition import MOST_SHEETS, PAGES_ON_A_SHEET
from bookgen.binder.page.leaf import BLANK, Leaf, leaves_of
from bookgen.binder.page.piece import FULL, LINKED, Mark, Page, Piece, Room
from bookgen.binder.page.prose import Look, heading
from bookgen.binder.parts.answers import answer_pieces
from bookgen.binder.parts.block.words import book_words
from bookgen.binder.parts.cover import cover_leaf, cover_of
from bookgen.binder.parts.days.notes import calendar_of, notes_of
from bookgen.binder.parts.days.plan import days_leaves, plan_of
from bookgen.binder.parts.drills import DrillPiece, Drills, drills_of
from bookgen.binder.parts.drills_told import heard_of, key_words, running_of
from bookgen.binder.parts.front import front_leaves, stages_of
from bookgen.binder.parts.index import index_leaves, worth_an_index
from bookgen.binder.parts.map import map_of, map_piece, worth_a_map
from bookgen.binder.parts.passage.bars import Bars, bars_key, bars_leaves
from bookgen.binder.parts.pictures import Picture, music_picture
from bookgen.binder.parts.summary import summary_pieces
from bookgen.binder.parts.together import tied
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import Engraving, put_together
from bookgen.plan.document import Day, Plan
from bookgen.words import front as words
from bookgen.words.summary import summary_title

DAY_WHITE_MM: Final = 1.5
"""Below a day's heading, where drills follow day by day."""

DAY_ABOVE_MM: Final = 4.0
MOST_PAGES: Final = MOST_SHEETS * PAGES_ON_A_SHEET
IN_HAND: Final = 3
"""Booklets whose drills are remembered: the next is planned while others are engraved."""


def scores_of(plan: Plan, desk: Desk) -> tuple[DrillScore, ...]:
    """What is engraved for a booklet: each drill once, in the plan's order.

    Raises:
        NoRoomError: a chart or a line of music has no room.
    """
    return drills_in(plan, desk).scores


@lru_cache(maxsize=IN_HAND)
def drills_in(plan: Plan, desk: Desk) -> Drills:
    """How the drills of a plan are printed; asked before they are engraved and again after.

    Raises:
        NoRoomError: a chart or a line of music has no room.
    """
    return drills_of(
        plan.drills, [book_words(entry, plan, desk) for entry in plan.drills], desk, "book"
    )


def bind_booklet(plan: Plan, engraving: Engraving, desk: Desk, bars: Sequence[Bars] = ()) -> bytes:
    """Bind a booklet: the whole PDF, or sheets to be folded where the plan's binding says so.

    engraving: of `scores_of(plan, desk)`, in that order. bars: that stand after the drills.

    Raises:
        ValueError: the engraving is another plan's; or folded pages are not small ones.
        NoRoomError: a part does not fit its page.
    """
    if len(plan.drills) != len(engraving.drills):
        msg = f"{len(plan.drills)} drills planned, {len(engraving.drills)} engraved"
        raise ValueError(msg)
    book = Booklet(plan, engraving, desk, bars)
    frame, sections = lowest(book.frame, book.sections)
    leaves = [leaf for pages in sections for leaf in pages]
    music = put_together(engraving, *(one.lines for one in bars))
    heard = heard_of(book.drills)
    pdf = bind_leaves([], leaves, frame, music, imprint_of(plan, desk), heard)
    if not book.folded:
        return pdf
    starts = [1, *(1 + end for end in accumulate(map(len, sections[:-1])))]
    from bookgen.binder.page.fold import fold  # noqa: PLC0415  slow to import

    return fold(pdf, starts)


def bind_summary(plan: Plan, desk: Desk) -> bytes:
    """The teacher's summary of a booklet: a PDF of its own.

    Raises:
        NoRoomError: it does not fit its page.
    """
    frame = frame_of(desk, whose_of(plan, desk), "", {})
    title = summary_title(desk.speech)
    room = Room(1, desk.sheet.column, 0.0, frame.room)
    pages = flow([*summary_pieces(plan, desk)], lambda _: room, FULL)
    leaves = leaves_of(pages, frame.top, lambda _: title)
    return bind_leaves([], leaves, frame, Engraving((), ()), imprint_of(plan, desk))


@dataclass(frozen=True)
class Booklet:
    """A booklet on its way to its pages.

    engraving: of the plan's drills, in their order. bars: of pieces that are played in its days.
    """

    plan: Plan
    engraving: Engraving
    desk: Desk
    bars: Sequence[Bars] = ()

    @cached_property
    def frame(self) -> Frame:
        """Head and foot of its pages, the foot as high as any of them may need."""
        desk = self.desk
        studio = desk.clean(desk.studio)
        whose = " · ".join(filter(None, (title_of(self.plan, self.desk), studio)))
        caution = words.caution(desk.speech)
        key = {**key_words(self.drills, "book"), **bars_key(self.bars, desk.speech)}
        return frame_of(desk, whose, caution, key, mirrored=True, apart=True)

    @cached_property
    def drills(self) -> Drills:
        """How its drills are printed."""
        found = drills_in(self.plan, self.desk)
        return replace(found, level=2) if self.by_day else found

    @property
    def folded(self) -> bool:
        """It is printed on sheets to be folded."""
        return self.plan.binding is not None and self.plan.binding.fold

    @property
    def by_day(self) -> bool:
        """The drills follow day by day."""
        return self.plan.binding is not None and self.plan.binding.by_day

    @property
    def from_memory(self) -> bool:
        """Played from chart and words; the notation stands at the end."""
        return self.plan.binding is not None and self.plan.binding.from_memory

    @cached_property
    def pieces(self) -> Mapping[int, DrillPiece]:
        """The drills' pieces by their numbers."""
        found = (
            self.drills.memory_pieces()
            if self.from_memory
            else self.drills.pieces(self.engraving.drills)
        )
        return {piece.number: piece for piece in found}

    def sections(self, frame: Frame) -> list[list[Leaf]]:
        """All pages; of a folded booklet as few sections as can be folded."""
        found = self.leaves(sections_of(self.plan, 1), frame)
        if not self.folded:
            return found
        for count in range(2, len(self.plan.days) + 1):
            if max(map(len, found)) <= MOST_PAGES:
                break
            found = self.leaves(sections_of(self.plan, count), frame)
        return found

    def leaves(self, sections: Sequence[Section], frame: Frame) -> list[list[Leaf]]:
        """The pages of each section; each begins on a right-hand page."""
        found: list[list[Leaf]] = []
        plans, whole, calendar = 1, span_of(self.plan), calendar_of(self.plan.binding)
        for section, span in zip(sections, spans_of(sections, whole), strict=True):
            # the cover is made when all is known
            pages = [] if found else [BLANK, *self.front(frame)]
            plan = plan_of(
                section.days,
                self.likes,
                self.plan.player,
                whole,
                self.desk,
                calendar=calendar,
                notes=notes_of(section.days, self.plan.binding, span, self.desk),
                first=plans,
            )
            plans += len(plan.pages)
            pages += days_leaves(plan, whole=len(sections) == 1)
            pages += self.drill_leaves(section, frame, len(pages))
            if section is sections[-1]:
                pages += self.back(frame)
            elif len(pages) % 2:
                pages.append(BLANK)
            found.append(pages)
        contents = contents_of([leaf for pages in found for leaf in pages])
        found[0][0] = cover_leaf(
            cover_of(self.plan, title_of(self.plan, self.desk), self.desk, contents)
        )
        return found

    @property
    def likes(self) -> Mapping[int, int | str | None]:
        """What the link of each drill names."""
        return {entry.number: entry.link.to for entry in self.plan.drills}

    def front(self, frame: Frame) -> list[Leaf]:
        """How to use it, with one of the player's own drills for each stage."""
        speech = self.desk.speech
        stages = stages_of(self.drills, None if self.from_memory else self.music)
        care = words.care(words.advice(speech), speech)
        use = [*words.use(self.plan, speech)]
        return front_leaves(words.how_title(speech), use, care, self.plan.drills, stages, frame)

    def music(self, index: int) -> Picture:
        """The engraved music of a drill."""
        setting = self.drills.settings[index]
        box = self.engraving.drills[index].box
        found = music_picture(index, box, self.desk, turns=setting.turns)
        return replace(found, signs=setting.staff_signs)

    def drill_leaves(self, section: Section, frame: Frame, first: int) -> list[Leaf]:
        """The drills of a section: each once by its number, or day by day.

        first: how many pages of the section stand before them.
        """
        pieces: list[Piece]
        if self.by_day:
            pieces = [piece for day in section.days for piece in self.day_pieces(day)]
            title = words.drills_by_day(self.desk.speech)
        else:
            own = [self.pieces[entry.number] for entry in section.entries]
            pieces = [*tied(own, self.likes)]
            title = words.drills_title(self.desk.speech)
        if not pieces:
            return []
        marked = replace(pieces[0], marks=(Mark(title, 0), *pieces[0].marks))
        room = self.drills.room(frame)
        pages = flow([marked, *pieces[1:]], lambda _: room, LINKED, first=first)
        running = None if self.by_day else self.running
        return leaves_of(pages, frame.top, running)

    def running(self, page: Page) -> str:
        """Whose drills a page has, and which."""
        return running_of(page, self.plan.player, self.desk)

    def day_pieces(self, day: Day) -> Iterator[Piece]:
        """A day's heading and all its drills, also those that stood on a day before."""
        speech = self.desk.speech
        date = words.day_heading(day.date, day.minutes, speech)
        look = Look(self.desk.layout.text.title_pt, Face.BOLD, above=DAY_ABOVE_MM)
        over = heading(date, look, self.drills.width, self.desk, DAY_WHITE_MM)
        running = " · ".join(filter(None, (self.desk.clean(self.plan.player), date)))
        yield replace(over, marks=(Mark(date, 1),), running=running, ruled=True)
        first, *others = (self.pieces[item.number] for item in day.items)
        yield replace(first, ruled=False, above=0.0)
        yield from others

    def back(self, frame: Frame) -> list[Leaf]:
        """The bars of pieces, map and index where they say something, and the answers."""
        plan, desk = self.plan, self.desk
        coverage = plan.binding.coverage if plan.binding else None
        over = None
        if coverage and worth_a_map(coverage):
            over = map_piece(map_of(coverage, desk, desk.sheet.column))
        found = bars_leaves(self.bars, len(plan.drills), frame)
        if worth_an_index(plan.drills):
            found += index_leaves(plan.drills, frame, over)
        elif over:
            room = Room(1, desk.sheet.column, 0.0, frame.room)
            found += leaves_of(flow([over], lambda _: room, FULL), frame.top)
        if self.from_memory:
            music = [self.music(index) for index in range(len(plan.drills))]
            answers = [*answer_pieces(plan.drills, music, desk)]
            pages = flow(answers, lambda _: self.drills.room(frame))
            found += leaves_of(pages, frame.top)
        return found


def contents_of(leaves: Sequence[Leaf]) -> list[tuple[str, int]]:
    """The parts of a booklet with the numbers of their pages."""
    return [
        (mark.title, page)
        for page, leaf in enumerate(leaves, start=1)
        for mark in leaf.marks
        if mark.level == 0
    ]
