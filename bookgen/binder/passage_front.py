"""A passage's first pages: title, music, charts of its hands, table of its groups, and words."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.binder.desk import Desk
from bookgen.binder.leaf import Mark, Side
from bookgen.binder.overlay import Placed, placed
from bookgen.binder.passage_flow import Thing
from bookgen.binder.passage_table import row_of
from bookgen.binder.passage_text import PassageText
from bookgen.binder.prose import Look, Set, draw_prose, height_of, set_prose
from bookgen.binder.typeset import ASCENT, MM_PER_POINT
from bookgen.notation.engraved import EngravedDrill

LINE_ABOVE_MM: Final = 4.0
"""White between two lines of music."""

HEADING_ABOVE_MM: Final = 5.5
CHART_ABOVE_MM: Final = 4.0
TEXT_ABOVE_MM: Final = 2.0
TITLE_BELOW_MM: Final = 3.0


@dataclass(frozen=True, slots=True)
class Words:
    """Paragraphs as one thing.

    studio: printed at the right of the first line.
    """

    sets: Sequence[Set]
    studio: str = ""
    below: float = 0.0

    @property
    def height(self) -> float:
        """Height with the white below."""
        return height_of(self.sets) + self.below

    def draw(self, canvas: Canvas, side: Side, top: float, pencil: float) -> Iterator[Placed]:
        """Draw the paragraphs."""
        del pencil
        draw_prose(canvas, self.sets, side.left, top)
        if self.studio:
            size = self.sets[0].look.size
            style = Style(Face.REGULAR, size * 0.6)
            x = side.right - canvas.width(self.studio, style)
            canvas.text((x, top - size * ASCENT * MM_PER_POINT), self.studio, style)
        return iter(())


@dataclass(frozen=True, slots=True)
class Music:
    """One line of music: which of the engraving's, and its ink."""

    index: int
    engraved: EngravedDrill

    @property
    def height(self) -> float:
        """Height of its ink in millimetres."""
        return self.engraved.box.height * MM_PER_POINT

    def draw(self, canvas: Canvas, side: Side, top: float, pencil: float) -> Iterator[Placed]:
        """Tell where it goes."""
        del canvas, pencil
        yield placed(side.page, self.index, (side.left, top))


def front_things(text: PassageText, desk: Desk, lines: Sequence[EngravedDrill]) -> Iterator[Thing]:
    """Everything before the drills, from top to bottom."""
    running = text.plain("passage")
    yield title_of(text, desk, running)
    for index, line in enumerate(lines):
        music = Music(index, line)
        above = LINE_ABOVE_MM if index else 0.0
        keeps = index == len(lines) - 1
        yield Thing(music.height, music.draw, running, above=above, keeps=keeps)
    sizes = desk.layout.text
    key = words_of(text, desk, {"key": Look(sizes.small)})
    yield Thing(key.height, key.draw, running, above=TEXT_ABOVE_MM)
    yield from section(text, desk, "unplayable", "item")
    yield from hand_things(text, desk)
    yield from table_things(text, desk)
    yield from section(text, desk, "other", "other-item")
    yield from text_things(text, desk, "other", "other-text")


def title_of(text: PassageText, desk: Desk, running: str) -> Thing:
    """The title with the studio, and the facts below it."""
    sizes = desk.layout.text
    looks = {"title": Look(sizes.name), "fact": Look(sizes.link)}
    words = words_of(text, desk, looks, TITLE_BELOW_MM)
    words = Words(words.sets, text.facts.studio or "", words.below)
    return Thing(words.height, words.draw, running, keeps=True, marks=(Mark(running, 0),))


def words_of(text: PassageText, desk: Desk, looks: Mapping[str, Look], below: float = 0.0) -> Words:
    """The paragraphs of some parts, in their order."""
    sizes = desk.layout.text
    sets = set_prose(text.found, looks, desk.sheet.column, sizes.leading, desk.fonts)
    return Words(sets, below=below)


def heading(text: PassageText, desk: Desk, part: str) -> Iterator[Thing]:
    """A heading over what follows; nothing where the template leaves it out."""
    words = words_of(text, desk, {part: Look(desk.layout.text.title)}, TEXT_ABOVE_MM)
    if words.sets:
        title = text.plain(part)
        yield Thing(
            words.height,
            words.draw,
            title,
            above=HEADING_ABOVE_MM,
            keeps=True,
            marks=(Mark(title, 0),),
        )


def section(text: PassageText, desk: Desk, part: str, item: str) -> Iterator[Thing]:
    """A heading with its items below it."""
    sizes = desk.layout.text
    look = Look(sizes.body, above=0.6, indent=3.6, bullet="•")
    items = words_of(text, desk, {item: look}).sets
    if not items:
        return
    yield from heading(text, desk, part)
    for one in items:
        words = Words([one])
        yield Thing(words.height, words.draw, text.plain(part), above=look.above)


def hand_things(text: PassageText, desk: Desk) -> Iterator[Thing]:
    """The charts of the hands, row by row."""
    if text.hands:
        yield from heading(text, desk, "hands")
    for index, row in enumerate(text.hands):
        above = CHART_ABOVE_MM if index else 0.0
        yield Thing(row.height, row.draw, text.plain("hands"), above=above)


def table_things(text: PassageText, desk: Desk) -> Iterator[Thing]:
    """The table of the groups: the heads of its columns, then a row for each group."""
    if not text.groups:
        return
    running, size = text.plain("groups"), desk.layout.text.small
    yield from heading(text, desk, "groups")
    head = row_of(text.found, desk, size)
    over = Thing(head.height, head.draw, running, keeps=True)
    yield over
    for index, (_, found) in enumerate(text.groups):
        row = row_of(found, desk, size)
        yield Thing(row.height, row.draw, running, again=over if index else None)
    yield from text_things(text, desk, "groups", "marks")


def text_things(text: PassageText, desk: Desk, heading: str, part: str) -> Iterator[Thing]:
    """Words below what stands under a heading."""
    size = desk.layout.text.small if part == "marks" else desk.layout.text.body
    words = words_of(text, desk, {part: Look(size)})
    if words.sets:
        yield Thing(words.height, words.draw, text.plain(heading), above=TEXT_ABOVE_MM)
