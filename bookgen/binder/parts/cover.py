"""The cover: whose booklet it is, for when, from whom, and where on the fingerboard it plays."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from operator import attrgetter
from typing import Final

from msgspec.structs import replace as replace_facts

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.leaf import Leaf, Side
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.piece import Mark
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, Words, draw_words, height_of, words_of
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, line_height, shorten, wrap
from bookgen.binder.parts.map_strip import Strip, strip_of
from bookgen.binder.structure.tag import ARTIFACT, Role, Tag, head, of_page, paragraph
from bookgen.errors import told
from bookgen.plan.document import Plan
from bookgen.words import front as words
from bookgen.words.ahead import area_through, reached
from bookgen.words.names import played_name
from bookgen.words.tuning import tuning_line

GOLDEN: Final = 0.3
"""How much of the page lies above the title."""

TITLE: Final = 1.7
"""Size of the player's name, in sizes of a name elsewhere."""

LOOSE: Final = 1.1
"""Of the leading, for lines of names and contents."""

BELOW_HEADING: Final = 0.17
"""White below a heading, in millimetres by points of its size."""

GAP_MM: Final = 7.0
STRIP_GAP_MM: Final = 4.2
"""From string to string on the fingerboard."""

RULE_MM: Final = 0.9
NAME_RULE_MM: Final = 0.25
WRITE_MM: Final = 8.0
"""From rule to rule where the teacher writes (from memory: school rulings are 7 to 9)."""

WRITE_RULE_MM: Final = 0.2
WRITE_GRAY: Final = 0.6
LINES_TO_WRITE: Final = 5


@dataclass(frozen=True, slots=True)
class Cover:
    """The cover, measured.

    title: which days; facts: lines about the booklet; note: the teacher's, or None.
    contents: the parts with their pages.
    """

    desk: Desk
    player: str | None
    title: str
    facts: Sequence[Words]
    note: Words | None
    strip: Strip
    contents: Sequence[tuple[str, int]]

    @property
    def names_height(self) -> float:
        """Height of player, days and instrument with the rule above them."""
        sizes = self.desk.layout.text
        name = GAP_MM + sizes.name_pt * TITLE * ASCENT * MM_PER_POINT
        label = line_height(sizes.small_pt, sizes.leading)
        return name + label + 2 * line_height(sizes.name_pt, sizes.leading * LOOSE)

    @property
    def contents_step(self) -> float:
        """From line to line of the contents."""
        sizes = self.desk.layout.text
        return line_height(sizes.body_pt, sizes.leading * LOOSE)

    @property
    def note_height(self) -> float:
        """Height of the heading of the note with one line, where there is a note."""
        sizes = self.desk.layout.text
        line = line_height(sizes.title_pt, sizes.leading)
        return 2 * line + GAP_MM if self.desk.studio or self.note else 0.0

    @property
    def needs(self) -> float:
        """Height of all that stands under the heavy rule."""
        parts = self.names_height + self.strip.height + height_of(self.facts) + self.note_height
        return parts + len(self.contents) * self.contents_step + 4 * GAP_MM

    def top(self, side: Side) -> float:
        """Where the heavy rule lies: in the golden section, or as high as is needed.

        Raises:
            NoRoomError: the page is too low.
        """
        studio = line_height(self.desk.layout.text.title_pt, self.desk.layout.text.leading)
        room = side.sheet.top - studio - side.sheet.bottom
        if self.needs > room:
            raise NoRoomError(told("the cover"), self.needs, room)
        return max(side.sheet.height * (1 - GOLDEN), side.sheet.bottom + self.needs)

    def draw(self, canvas: Canvas, side: Side) -> None:
        """Draw the cover from top to bottom.

        Raises:
            NoRoomError: the page is too low, or too narrow for the contents.
        """
        sizes = self.desk.layout.text
        small = Style(Face.REGULAR, sizes.title_pt)
        top = side.sheet.top - sizes.title_pt * ASCENT * MM_PER_POINT
        studio = self.desk.name(self.desk.studio, side.right - side.left, small)
        canvas.begin(self.title, 0)
        whose, named = paragraph(), head()
        canvas.reading(named, whose)
        with canvas.tagged(whose):
            canvas.text((side.left, top), studio, small)
        y = self.draw_names(canvas, side, self.top(side), named) - GAP_MM
        with canvas.tagged(ARTIFACT):
            self.strip.draw(canvas, side.left, y, self.desk)
        y -= self.strip.height + GAP_MM
        y = draw_words(canvas, self.facts, side.left, y)
        end = self.draw_contents(canvas, side)
        if self.note_height:
            self.draw_note(canvas, side, y - GAP_MM, end + GAP_MM)

    def draw_names(self, canvas: Canvas, side: Side, y: float, named: Tag) -> float:
        """Player, days and instrument under a heavy rule. Returns where they end.

        named: as what the player is read.
        """
        sizes, speech = self.desk.layout.text, self.desk.speech
        width = side.right - side.left
        with canvas.tagged(ARTIFACT):
            canvas.line((side.left, y), (side.right, y), width=RULE_MM)
        plain, name = Style(Face.REGULAR, sizes.name_pt), Style(Face.BOLD, sizes.name_pt * TITLE)
        y -= GAP_MM + name.size * ASCENT * MM_PER_POINT
        player = self.desk.name(self.player, width, name)
        if player:
            with canvas.tagged(named):
                canvas.text((side.left, y), player, name)
        else:
            label = Style(Face.REGULAR, sizes.small_pt)
            with canvas.tagged(ARTIFACT):
                canvas.line((side.left, y), (side.right, y), width=NAME_RULE_MM)
            y -= line_height(sizes.small_pt, sizes.leading)
            with canvas.tagged(named):
                canvas.text((side.left, y), words.name(speech), label)
        instrument = played_name(self.desk.instrument, self.desk.size, speech)
        for line in (self.title, instrument):
            y -= line_height(plain.size, sizes.leading * LOOSE)
            with canvas.tagged(paragraph()):
                canvas.text((side.left, y), shorten(line, width, plain, canvas), plain)
        return y

    def draw_note(self, canvas: Canvas, side: Side, y: float, end: float) -> None:
        """The teacher's note, or lines to write one."""
        heading = Style(Face.BOLD, self.desk.layout.text.title_pt)
        y -= heading.size * ASCENT * MM_PER_POINT
        with canvas.tagged(head(1)):
            canvas.text((side.left, y), words.from_teacher(self.desk.speech), heading)
        if self.note:
            top = y - heading.size * BELOW_HEADING
            fits = max(int((top - end) // self.note.step), 1)
            lines = [*self.note.lines[:fits]]
            if fits < len(self.note.lines):
                style = Style(Face.REGULAR, self.note.look.size)
                run_on = "".join(text for line in self.note.lines[fits - 1 :] for text, _ in line)
                shown = shorten(run_on, side.right - side.left, style, canvas)
                lines[-1] = ((shown, Face.REGULAR),)
            replace(self.note, lines=tuple(lines)).draw(canvas, side.left, top)
            return
        for row in range(1, LINES_TO_WRITE + 1):
            below = y - row * WRITE_MM
            if below > end:
                start, stop = (side.left, below), (side.right, below)
                with canvas.tagged(ARTIFACT):
                    canvas.line(start, stop, width=WRITE_RULE_MM, gray=WRITE_GRAY)

    def draw_contents(self, canvas: Canvas, side: Side) -> float:
        """The parts with their pages at the foot, the pages in a column.

        Returns:
            Where they begin.

        Raises:
            NoRoomError: a title is too wide.
        """
        style, step = Style(Face.REGULAR, self.desk.layout.text.body_pt), self.contents_step
        widest = max((canvas.width(title, style) for title, _ in self.contents), default=0.0)
        room = side.right - side.left - 2 * GAP_MM
        if widest > room:
            raise NoRoomError(told("the contents on the cover"), widest, room, wide=True)
        top = side.sheet.bottom + len(self.contents) * step
        whole = Tag(Role.CONTENTS)
        for row, (title, page) in enumerate(self.contents):
            y = top - row * step - style.size * ASCENT * MM_PER_POINT
            number = str(page)
            x = side.left + widest + 2 * GAP_MM - canvas.width(number, style)
            reference = Tag(Role.REFERENCE, within=Tag(Role.ENTRY, within=whole))
            with canvas.tagged(Tag(Role.LINK, within=reference, goal=of_page(number))):
                canvas.text((side.left, y), title, style)
                canvas.text((x, y), number, style)
        return top


def cover_of(plan: Plan, title: str, desk: Desk, contents: Sequence[tuple[str, int]]) -> Cover:
    """Measure the cover.

    title: which days; contents: the parts with their pages.
    """
    width, sizes = desk.sheet.column, desk.layout.text
    look = Look(sizes.title_pt)
    places = {
        (stop.string, stop.semitones)
        for entry in plan.drills
        for event in entry.events
        for stop in event.stops
    }
    note = desk.clean(plan.binding.note) if plan.binding else ""
    lines = wrap(((note, Face.REGULAR),), width, look.size, desk.fonts)
    return Cover(
        desk=desk,
        player=plan.player,
        title=title,
        facts=[words_of(fact, look, width, desk) for fact in facts_of(plan, desk)],
        note=Words(look, tuple(lines), line_height(look.size, sizes.leading)) if note else None,
        strip=strip_of(places, desk.instrument, width, STRIP_GAP_MM, sizes.small_pt),
        contents=contents,
    )


def facts_of(plan: Plan, desk: Desk) -> Iterator[str]:
    """How the strings are tuned, if not as usual; what is in the booklet, and what it reaches."""
    yield from filter(None, [tuning_line(desk.instrument, desk.speech)])
    yield from words.facts(plan, desk.speech)
    if plan.binding is None:
        return
    for deadline in filter(attrgetter("drills"), plan.binding.deadlines):
        clean = replace_facts(deadline, title=desk.clean(deadline.title))
        day = desk.speech.date(deadline.ready_by)
        yield f"{desk.speech.line(reached(clean, day))}."
    if plan.binding.further is not None:
        yield area_through(plan.binding.further, desk.speech)


def cover_leaf(cover: Cover) -> Leaf:
    """The cover as a page."""

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        cover.draw(canvas, side)
        return iter(())

    return Leaf("", (Mark(cover.title, 0),), draw, bare=True)
