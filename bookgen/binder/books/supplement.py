"""A complete book without dates: its first pages, chapters of drills, and lists at the end."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from bookgen.binder.books.booklet import contents_of
from bookgen.binder.books.supplement_back import back_leaves
from bookgen.binder.page.bind import bind_leaves
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.frame import Frame, frame_of, lowest
from bookgen.binder.page.imprint import CREATOR, Imprint
from bookgen.binder.page.leaf import BLANK, Leaf, roman
from bookgen.binder.page.piece import Page, Piece
from bookgen.binder.parts.block.words import BlockWords, book_words, tune_words
from bookgen.binder.parts.drills import DrillPiece, Drills, drills_of
from bookgen.binder.parts.drills_told import heard_of, key_words, running_of
from bookgen.binder.parts.front import front_leaves, stages_of
from bookgen.binder.parts.matter import (
    Entry,
    contents_leaves,
    half_title_leaf,
    imprint_leaf,
    text_leaves,
    title_leaf,
)
from bookgen.binder.parts.opener import chapter_leaves, opening_pieces
from bookgen.binder.parts.passage.bars import Bars
from bookgen.binder.parts.passage.chapter import music_of, passage_pieces, starts
from bookgen.binder.parts.pictures import Picture, music_picture
from bookgen.binder.parts.together import tied
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import Engraving, put_together
from bookgen.plan.document import DrillEntry, Plan
from bookgen.plan.supplement import Chapter, Supplement
from bookgen.words import front
from bookgen.words import supplement as words
from bookgen.words.names import instrument_name, played_name
from bookgen.words.passage import key as passage_key
from bookgen.words.passage_ladders import links_in

IN_HAND = 2
"""Books whose drills are remembered between engraving and binding."""


def scores_of(plan: Plan, desk: Desk) -> tuple[DrillScore, ...]:
    """What is engraved for a book: each drill once, in the plan's order.

    Raises:
        NoRoomError: a chart or a line of music has no room.
    """
    return drills_in(plan, desk).scores


@lru_cache(maxsize=IN_HAND)
def drills_in(plan: Plan, desk: Desk) -> Drills:
    """How the drills of a plan are printed.

    Raises:
        NoRoomError: a chart or a line of music has no room.
    """
    teacher, links = book_in(plan).teacher, links_in(plan, desk.speech)
    told_of = [drill_words(entry, plan, desk, links, teacher=teacher) for entry in plan.drills]
    return drills_of(plan.drills, told_of, desk, "book")


def drill_words(
    entry: DrillEntry, plan: Plan, desk: Desk, links: Mapping[int, str], *, teacher: bool
) -> BlockWords:
    """The words of a drill; a teacher is told how its double stops are tuned.

    links: what some drills are like, by their numbers.
    """
    said = book_words(entry, plan, desk)
    tuned = tune_words(entry, desk, cents=True) if teacher else ()
    link = links.get(entry.number, said.link)
    return replace(said, link=link, below=(*said.below, *tuned))


def book_in(plan: Plan) -> Supplement:
    """What the plan's binding says of the book.

    Raises:
        ValueError: it says nothing.
    """
    if plan.binding is None or plan.binding.supplement is None:
        msg = "the plan has no chapters"
        raise ValueError(msg)
    return plan.binding.supplement


def bind_supplement(
    plan: Plan, engraving: Engraving, desk: Desk, bars: Sequence[Bars] = ()
) -> bytes:
    """Bind a book: the whole PDF.

    engraving: of `scores_of(plan, desk)`, in that order; bars: of the passages of its chapters.

    Raises:
        ValueError: the engraving is another plan's.
        NoRoomError: a part does not fit its page.
    """
    if len(plan.drills) != len(engraving.drills):
        msg = f"{len(plan.drills)} drills planned, {len(engraving.drills)} engraved"
        raise ValueError(msg)
    making = Making(plan, engraving, desk, bars)
    frame, (before, body) = lowest(making.frame, making.pages)
    heard = heard_of(making.drills)
    music = put_together(engraving, *music_of(bars))
    return bind_leaves(before, body, frame, music, making.imprint, heard)


@dataclass(frozen=True)
class Making:
    """A book on its way to its pages.

    engraving: of the plan's drills, in their order; bars: of the passages of its chapters.
    """

    plan: Plan
    engraving: Engraving
    desk: Desk
    bars: Sequence[Bars] = ()

    @cached_property
    def book(self) -> Supplement:
        """What its publisher says."""
        return book_in(self.plan)

    @property
    def title(self) -> str:
        """Its title as it can be printed."""
        return self.desk.clean(self.book.title)

    @property
    def played(self) -> str:
        """The instrument that it is for."""
        return played_name(self.desk.instrument, self.desk.size, self.desk.speech)

    @property
    def from_memory(self) -> bool:
        """Played from chart and words; the notation stands at the end."""
        return self.plan.binding is not None and self.plan.binding.from_memory

    @cached_property
    def drills(self) -> Drills:
        """How its drills are printed."""
        return drills_in(self.plan, self.desk)

    @cached_property
    def frame(self) -> Frame:
        """Head and foot of its pages, the foot as high as any of them may need."""
        key = {**(passage_key(self.desk.speech) if self.bars else {})}
        key |= key_words(self.drills, "book")
        whose = f"{self.title} · {self.played}"
        caution = front.caution(self.desk.speech)
        return frame_of(self.desk, whose, caution, key, mirrored=True, apart=True)

    @property
    def imprint(self) -> Imprint:
        """What the file says of itself."""
        return Imprint(
            title=self.title,
            author=self.desk.clean(self.book.author) or CREATOR,
            subject=words.subject(self.played, self.desk.speech),
        )

    @cached_property
    def pieces(self) -> Mapping[int, DrillPiece]:
        """The drills' pieces by their numbers."""
        drills = self.drills
        found = drills.memory_pieces() if self.from_memory else drills.pieces(self.engraving.drills)
        return {piece.number: piece for piece in found}

    def pages(self, frame: Frame) -> list[list[Leaf]]:
        """The first pages, which have Roman numbers, and all others."""
        body: list[Leaf] = []
        located: dict[int, int] = {}
        for number, chapter in enumerate(self.book.chapters, start=1):
            turned(body)
            for leaf, numbers in self.chapter(chapter, number, len(body), frame):
                body.append(leaf)
                located |= dict.fromkeys(numbers, len(body))
        turned(body)
        body += self.back(located, len(body), frame)
        return [self.before(body, frame), body]

    def chapter(
        self, chapter: Chapter, number: int, first: int, frame: Frame
    ) -> list[tuple[Leaf, tuple[int, ...]]]:
        """The pages of a chapter, each with the numbers of its drills.

        first: number of its first page among the body's, from 0.
        """
        title = self.desk.clean(chapter.title)

        def running(page: Page) -> str:
            return running_of(page, title, self.desk) or title

        opening = [*opening_pieces(chapter, number, self.desk, teacher=self.book.teacher)]
        opening += self.passage(chapter)
        own = [self.pieces[one] for one in chapter.numbers]
        links = {one: self.plan.by_number[one].link.to for one in chapter.numbers}
        drills = [*tied(own, links)]
        room = self.drills.room(frame)
        leaves = chapter_leaves(opening, drills, room, frame, first, running)
        left = {self.outline(one): one for one in chapter.numbers}
        return [
            (leaf, tuple(left[mark.title] for mark in leaf.marks if mark.title in left))
            for leaf in leaves
        ]

    def passage(self, chapter: Chapter) -> Iterator[Piece]:
        """The passage to which a chapter leads, if it leads to one."""
        numbers = {entry.drill: entry.number for entry in self.plan.drills}
        first = starts(self.bars, len(self.engraving.drills))
        for one, start in zip(self.bars, first, strict=True):
            if chapter.piece is not None and one.of == chapter.piece:
                yield from passage_pieces(one, numbers, start, self.desk)
                return

    def outline(self, number: int) -> str:
        """A drill's entry in the outline, which is its own."""
        return self.pieces[number].marks[0].title

    def before(self, body: Sequence[Leaf], frame: Frame) -> list[Leaf]:
        """Half title, title, imprint, contents, preface, how to use it; each part on the right."""
        desk, book, speech = self.desk, self.book, self.desk.speech
        kind = words.kind_name(book, speech, from_memory=self.from_memory)
        facts = [instrument_name(desk.instrument, speech), kind]
        found = [half_title_leaf(self.title, desk), BLANK]
        said = [desk.clean(one) for one in (book.subtitle, book.author, book.edition)]
        found.append(title_leaf(self.title, said[0], facts, said[1], said[2], desk))
        found.append(imprint_leaf(book.imprint, book.number or "", desk))
        parts = [*self.introduction(frame)]
        draft = self.contents([], parts, body, frame)
        listed = self.contents([*found, *draft], parts, body, frame)
        for part in (listed, *parts):
            turned(found)
            found += part
        turned(found)
        return found

    def introduction(self, frame: Frame) -> Iterator[list[Leaf]]:
        """The preface, and how to use the book."""
        speech = self.desk.speech
        if self.book.preface:
            yield text_leaves(words.preface_title(speech), self.book.preface, frame)
        stages = stages_of(self.drills, None if self.from_memory else self.music)
        linked = any(entry.link.to is not None for entry in self.plan.drills)
        gaps = max(self.plan.by_number) > len(self.plan.drills)
        use = [*words.use(speech, gaps=gaps, linked=linked, from_memory=self.from_memory)]
        care = front.care(words.advice(speech), speech)
        yield front_leaves(words.how_title(speech), use, care, self.plan.drills, stages, frame)

    def contents(
        self,
        done: Sequence[Leaf],
        parts: Sequence[Sequence[Leaf]],
        body: Sequence[Leaf],
        frame: Frame,
    ) -> list[Leaf]:
        """The contents: the parts of the introduction, chapters and lists, with their pages.

        done: the pages before the introduction; while it is not known how many these are, none.
        """
        entries: list[Entry] = []
        page = len(done)
        for part in parts:
            page += page % 2
            entries += [Entry(title, "", roman(page + at)) for title, at in contents_of(part)]
            page += len(part)
        notes = [
            words.drills_of_chapter(one.numbers, self.desk.speech) for one in self.book.chapters
        ]
        for place, (title, at) in enumerate(contents_of(body)):
            note = notes[place] if place < len(notes) else ""
            entries.append(Entry(title, note, str(at)))
        return contents_leaves(words.contents_title(self.desk.speech), entries, frame)

    def back(self, located: Mapping[int, int], first: int, frame: Frame) -> list[Leaf]:
        """What stands behind the chapters.

        located: the page of each drill; first: how many pages stand before.
        """
        music = [self.music(at) for at in range(len(self.plan.drills))] if self.from_memory else []
        return back_leaves(self.drills, music, located, first, frame, teacher=self.book.teacher)

    def music(self, index: int) -> Picture:
        """The engraved music of a drill."""
        setting = self.drills.settings[index]
        box = self.engraving.drills[index].box
        found = music_picture(index, box, self.desk, turns=setting.turns)
        return replace(found, signs=setting.staff_signs)


def turned(leaves: list[Leaf]) -> None:
    """Let what follows begin on a right-hand page."""
    if len(leaves) % 2:
        leaves.append(BLANK)
