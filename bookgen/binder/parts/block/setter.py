"""A drill's block is set, part by part: number, boxes, words, each in the room that it has."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

from bookgen.binder.page.block_measures import FormMeasures
from bookgen.binder.page.canvas import Face, Point, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.typeset import (
    ASCENT,
    MM_PER_POINT,
    Line,
    cut,
    line_height,
    line_width,
    widest,
    wrapped,
)
from bookgen.binder.parts.block.measured import Part, PlacedLine, called
from bookgen.binder.parts.block.words import BlockWords
from bookgen.errors import Message, told

TOLERANCE_MM: Final = 0.5
"""Ink may stand out of its place by a line's thickness."""

LEAST_NUMBER: Final = 0.48
"""A number that is wide is set smaller, down to that share of its size."""

NUMBER_GAP_MM: Final = 2.0
BOX_DROP_MM: Final = 2.2
ASIDE_DROP_MM: Final = 1.0
LINK_GAP_MM: Final = 4.0
"""White: right of the number; from it to the boxes, from these to the words under them; between
what a drill is and what it is like, where they share a line."""

DOT: Final = " · "


@dataclass
class Setter:
    """Sets a block part by part from its upper left corner.

    width: of the block; form: in which it is printed.
    """

    words: BlockWords
    form: FormMeasures
    desk: Desk
    width: float
    lines: list[PlacedLine] = field(default_factory=list)
    boxes: list[Point] = field(default_factory=list)

    @property
    def called(self) -> Message:
        """The drill in a finding."""
        return called(self.words.number)

    @property
    def place(self) -> str:
        """The drill's position as this form says it."""
        return self.words.short_place if self.form.short_place else self.words.place

    def size(self, points: float) -> float:
        """A size of `[text]` in this form."""
        return points * self.form.type_share

    def step(self, size: float) -> float:
        """From line to line of type of that size, in millimetres."""
        return line_height(size, self.desk.layout.text.leading)

    def broken(self, words: Line, size: float, room: float, part: str) -> Sequence[Line]:
        """Words in lines.

        part: what they are, in a finding.

        Raises:
            NoRoomError: a word is wider than the line.
        """
        wide = widest(words, size, self.desk.fonts)
        if wide > room:
            raise NoRoomError(self.part(part), wide, room, wide=True)
        return wrapped(words, room, size, self.desk.fonts)

    def part(self, name: str) -> Message:
        """A part of the drill in a finding."""
        match name:
            case "words":
                return told("{drill}: its words", drill=self.called)
            case "number":
                return told("{drill}: its number", drill=self.called)
            case "blanks":
                return told("{drill}: its blanks", drill=self.called)
            case "music":
                return told("{drill}: its music", drill=self.called)
            case _:
                return told("{drill}: the words under its boxes", drill=self.called)

    def put(
        self,
        lines: Sequence[Line],
        size: float,
        left: float,
        top: float,
        part: Part = Part.TITLE,
    ) -> float:
        """Place lines under each other. Returns where they end."""
        for line in lines:
            at = (left, top + size * ASCENT * MM_PER_POINT)
            self.lines.append(PlacedLine(at, line, size, part))
            top += self.step(size)
        return top

    def put_number(self, room: float) -> float:
        """The number at the left; a wide one is set smaller. Returns how wide it is.

        Raises:
            NoRoomError: it is too wide all the same.
        """
        size, text = self.size(self.desk.layout.text.number_pt), self.words.shown
        wide = self.desk.fonts.width(text, Style(Face.BOLD, size))
        share = min(1.0, room / wide)
        if share < LEAST_NUMBER:
            raise NoRoomError(self.part("number"), wide * LEAST_NUMBER, room, wide=True)
        baseline = size * ASCENT * MM_PER_POINT
        line: Line = ((text, Face.BOLD),)
        self.lines.append(PlacedLine((0.0, baseline), line, size * share))
        return wide * share

    def put_left(self) -> float:
        """Number, boxes under it, and what stands under these. Returns where they end.

        Raises:
            NoRoomError: number, boxes or words are too wide.
        """
        form, size = self.form, self.desk.layout.text.small_pt
        room = form.indent_mm - NUMBER_GAP_MM
        y = 0.0
        if not self.words.bare:
            self.put_number(room)
            y = self.size(self.desk.layout.text.number_pt) * ASCENT * MM_PER_POINT
        y += BOX_DROP_MM * bool(self.words.boxes)
        for index in range(self.words.boxes):
            self.boxes.append((index * form.box_mm, y))
        if self.words.boxes:
            if self.words.boxes * form.box_mm > form.indent_mm - self.desk.layout.block.frame_mm:
                raise NoRoomError(
                    told("{drill}: its boxes", drill=self.called),
                    self.words.boxes * form.box_mm,
                    form.indent_mm,
                    wide=True,
                )
            y += form.box_mm
        for words in self.words.aside:
            lines = self.broken(cut(words), size, form.indent_mm, "aside")
            drop = ASIDE_DROP_MM * (words == self.words.aside[0])
            y = self.put(lines, size, 0.0, y + drop, Part.ASIDE)
        return y

    def put_title(self, left: float, room: float, beside: float = 0.0) -> tuple[float, float]:
        """What the drill is and what it is like, on one line where they have room.

        beside: width left of what stands beside the chart: a link on a line of its own may stand
            there, and leaves what is right of it free.

        Returns:
            Where the words end at the left, and where they end at the right.
        """
        text = self.desk.layout.text
        size, small = self.size(text.title_pt), self.size(text.link_pt)
        link = cut(self.words.link, Face.ITALIC)
        wide = line_width(link, small, self.desk.fonts) if link else 0.0
        after = wide + LINK_GAP_MM * bool(link)
        line = titled(self.words, self.place)
        if line_width(line, size, self.desk.fonts) + after <= room:
            end = self.put([line], size, left, 0.0)
            if link:
                at = (left + room - wide, self.lines[-1].at[1])
                self.lines.append(PlacedLine(at, link, small, Part.LINK))
            return end, end
        lines = [
            part for one in self.parts(size, room) for part in self.broken(one, size, room, "words")
        ]
        last = line_width(lines[-1], size, self.desk.fonts)
        title = self.put(lines, size, left, 0.0)
        if link and last + after <= room:
            at = (left + room - wide, self.lines[-1].at[1])
            self.lines.append(PlacedLine(at, link, small, Part.LINK))
            return title, title
        below = self.broken(link, small, room, "words") if link else []
        end = self.put(below, small, left, title, Part.LINK)
        return end, title if wide <= beside else end

    def parts(self, size: float, room: float) -> Iterator[Line]:
        """What the drill is, in lines that end with a part: in as few of them as have room."""
        hand, *others = self.words.title(self.place)
        line: Line = ((hand, Face.BOLD),)
        for other in others:
            longer: Line = (*line, (DOT + other, Face.REGULAR))
            if line_width(longer, size, self.desk.fonts) <= room:
                line = longer
            else:
                yield line
                line = ((other, Face.REGULAR),)
        yield line

    def put_column(self, left: float, room: float) -> float:
        """Hand, place, stage and link under each other. Returns where they end."""
        text = self.desk.layout.text
        size, small = self.size(text.title_pt), self.size(text.link_pt)
        y = 0.0
        for line in self.column_lines:
            linked = bool(line == self.column_lines[-1] and self.words.link)
            own, part = (small, Part.LINK) if linked else (size, Part.TITLE)
            y = self.put(self.broken(line, own, room, "words"), own, left, y, part)
        return y

    @property
    def column_lines(self) -> list[Line]:
        """Hand, place, stage and link, each to be broken."""
        hand, *others = self.words.title(self.place)
        lines: list[Line] = [((hand, Face.BOLD),), *(((one, Face.REGULAR),) for one in others)]
        return [*lines, ((self.words.link, Face.ITALIC),)] if self.words.link else lines

    def has_column(self, room: float) -> bool:
        """Words that stand under each other have room in that width."""
        size = self.size(self.desk.layout.text.title_pt)
        return all(widest(line, size, self.desk.fonts) <= room for line in self.column_lines)


def titled(words: BlockWords, place: str) -> Line:
    """What a drill is, on one line."""
    hand, *others = words.title(place)
    return ((hand, Face.BOLD), (DOT + DOT.join(others), Face.REGULAR))
