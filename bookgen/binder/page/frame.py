"""Head and foot of every page: what it holds, whose it is, its number, the key, the caution."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Measure, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.leaf import Leaf, Side
from bookgen.binder.page.piece import Room
from bookgen.binder.page.signs import KEY_SIGNS
from bookgen.binder.page.typeset import (
    ASCENT,
    MM_PER_POINT,
    Line,
    cut,
    draw_line,
    line_height,
    line_width,
    shorten,
    wrap,
)
from bookgen.binder.structure.tag import ARTIFACT, FOOTER, HEADER, Role, Tag
from bookgen.words.tuning import tuning_line

FOLIO_ROOM_MM: Final = 12.0
"""Own choice: for three figures and white beside them."""

HEAD_GAP_MM: Final = 6.0
"""White between what the page holds and whose it is, at least."""

SIGN_GAP: Final = 0.12
"""Between a sign and its words in the key, in millimetres by points of their size."""

TUNING: Final = "tuning"
CAUTION: Final = "caution"
"""In the key, on every page: the last of its entries."""

PART: Final = " · "
"""Between the parts of whose a page is: a part is said whole or not at all."""


def noted() -> Tag:
    """Words that stand at the foot of many pages."""
    return Tag(Role.PARAGRAPH, once=True, last=True)


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """What a sign means, or a line of that; width in millimetres, with the sign.

    goes_on: the sign stands in the line above.
    tag: it is read once, on the first page that has it.
    """

    sign: str
    words: Line
    width: float
    goes_on: bool = False
    tag: Tag = field(default_factory=noted, compare=False)


@dataclass(frozen=True, slots=True)
class Frame:
    """Head and foot of a book's pages, measured.

    whose: at the head's inner end, e.g. the studio and the instrument.
    key: in the order of the foot; a page has the entries of its own signs, and the caution.
    apart: entries of a key so long that it stands elsewhere in the book.
    lines: for which the foot has room; mirrored: left-hand pages have the number at the left.
    """

    desk: Desk
    whose: str
    key: tuple[KeyEntry, ...]
    apart: tuple[KeyEntry, ...]
    lines: int
    mirrored: bool

    @property
    def head(self) -> float:
        """Height from the upper margin to the contents, in millimetres."""
        measures = self.desk.layout.frame
        ascent = measures.running_pt * ASCENT * MM_PER_POINT
        return ascent + measures.head_drop_mm + measures.head_white_mm

    @property
    def foot(self) -> float:
        """Height from the contents to the lower margin, in millimetres."""
        measures = self.desk.layout.frame
        return self.lines * self.step + measures.foot_drop_mm + measures.foot_white_mm

    @property
    def step(self) -> float:
        """From line to line of the foot."""
        return line_height(self.desk.layout.text.small_pt, self.desk.layout.text.leading)

    @property
    def top(self) -> float:
        """Where the contents begin, from the paper's lower edge."""
        return self.desk.sheet.top - self.head

    @property
    def bottom(self) -> float:
        """Where the contents end, from the paper's lower edge."""
        return self.desk.sheet.bottom + self.foot

    @property
    def room(self) -> float:
        """Height of the contents."""
        return self.top - self.bottom

    def columns(self, count: int = 1) -> Room:
        """A page's room for contents in so many columns, with a rule between them."""
        gap = self.desk.layout.flow.column_gap_mm if count > 1 else 0.0
        width = (self.desk.sheet.column - (count - 1) * gap) / count
        return Room(count, width, gap, self.room, ruled=True)

    def key_rows(self, signs: Iterable[str]) -> list[list[KeyEntry]]:
        """The key of these signs in lines, and the caution."""
        shown = {*signs, TUNING, CAUTION}
        return key_rows([entry for entry in self.key if entry.sign in shown], self.desk)

    def holds(self, leaves: Iterable[Leaf]) -> bool:
        """The foot has room for the key of each of these pages."""
        return all(leaf.bare or len(self.key_rows(leaf.signs)) <= self.lines for leaf in leaves)

    def draw(
        self,
        canvas: Canvas,
        side: Side,
        running: str,
        signs: frozenset[str],
        tag: Tag = HEADER,
    ) -> None:
        """Draw head and foot.

        signs: those on the page; tag: what is read of what the page holds.
        """
        self.draw_head(canvas, side, running, tag)
        self.draw_foot(canvas, side, signs)

    def draw_head(self, canvas: Canvas, side: Side, running: str, tag: Tag) -> None:
        """What the page holds at the outer edge of a book, whose it is at the inner one."""
        measures = self.desk.layout.frame
        bold = Style(Face.BOLD, measures.running_pt)
        plain = Style(Face.REGULAR, measures.whose_pt)
        column = side.right - side.left
        running = shorten(whole_parts(running, column, bold, canvas), column, bold, canvas)
        room = column - canvas.width(running, bold) - HEAD_GAP_MM * bool(running)
        whose = whole_parts(self.whose, room, plain, canvas)
        whose = whose if canvas.width(whose, plain) <= room else ""
        left, right = ((running, bold, tag), (whose, plain, HEADER))
        if self.mirrored and not side.verso:
            left, right = right, left
        baseline = side.sheet.top - measures.running_pt * ASCENT * MM_PER_POINT
        starts = side.left, side.right - canvas.width(*right[:2])
        for x, (text, style, own) in zip(starts, (left, right), strict=True):
            with canvas.tagged(own):
                canvas.text((x, baseline), text, style)
        y = baseline - measures.head_drop_mm
        with canvas.tagged(HEADER):
            canvas.line((side.left, y), (side.right, y), width=measures.rule_mm)

    def draw_foot(self, canvas: Canvas, side: Side, signs: frozenset[str]) -> None:
        """The key of the page's signs, the caution, and the page's number at the outer edge."""
        measures, size = self.desk.layout.frame, self.desk.layout.text.small_pt
        y = self.bottom - measures.foot_white_mm
        outer_left = self.mirrored and side.verso
        left = side.left + (FOLIO_ROOM_MM if outer_left else 0.0)
        baseline = y - measures.foot_drop_mm - size * ASCENT * MM_PER_POINT
        folio = Style(Face.BOLD, measures.folio_pt)
        x = side.left if outer_left else side.right - canvas.width(side.folio, folio)
        drop = (measures.folio_pt - size) * ASCENT * MM_PER_POINT
        with canvas.tagged(FOOTER):
            canvas.line((side.left, y), (side.right, y), width=measures.rule_mm)
            canvas.text((x, baseline - drop), side.folio, folio)
        for row in self.key_rows(signs):
            self.draw_key(canvas, row, left, baseline)
            baseline -= self.step

    def draw_key(
        self, canvas: Canvas, row: Iterable[KeyEntry], left: float, baseline: float
    ) -> None:
        """One line of the key."""
        size = self.desk.layout.text.small_pt
        for entry in row:
            x = left
            if entry.sign in KEY_SIGNS and not entry.goes_on:
                width, draw = KEY_SIGNS[entry.sign]
                with canvas.tagged(ARTIFACT):
                    draw(canvas, (x, baseline), size)
                x += (width + SIGN_GAP) * size
            with canvas.tagged(entry.tag):
                draw_line(canvas, (x, baseline), entry.words, size)
            left += entry.width + self.desk.layout.frame.key_gap_mm


def frame_of(
    desk: Desk,
    whose: str,
    caution: str,
    key: Mapping[str, str],
    *,
    mirrored: bool = False,
    apart: bool = False,
) -> Frame:
    """Measure head and foot.

    whose: in printable characters; caution, key: may mark the cut with `<b>` and `<i>`.
    key: what each sign of the book means, in the order of the foot. Before it the foot tells
        another tuning than the ordinary one.
    apart: the book has a place for a key that is too long for a foot.
    """
    entries = measured(key, desk)
    tuned = tuning_line(desk.instrument, desk.speech)
    first = measured({TUNING: tuned}, desk) if tuned else ()
    last = measured({CAUTION: caution}, desk) if caution else ()
    long = apart and len(key_rows(entries, desk)) > desk.layout.frame.most_key_lines
    foot = first + (() if long else entries) + last
    rows = len(key_rows(foot, desk))
    return Frame(desk, whose, foot, entries if long else (), max(rows, 1), mirrored)


def lowest(
    frame: Frame, pages: Callable[[Frame], list[list[Leaf]]]
) -> tuple[Frame, list[list[Leaf]]]:
    """The frame with the lowest foot that has room for the key of each page, and the pages.

    pages: of a book with that frame.
    """
    for lines in range(max(len(frame.key_rows(())), 1), frame.lines):
        low = replace(frame, lines=lines)
        found = pages(low)
        if all(low.holds(part) for part in found):
            return low, found
    return frame, pages(frame)


def measured(key: Mapping[str, str], desk: Desk) -> tuple[KeyEntry, ...]:
    """Measure the entries of a key."""
    size, room = desk.layout.text.small_pt, desk.sheet.column - FOLIO_ROOM_MM
    return tuple(
        entry
        for sign, words in key.items()
        for entry in key_entries(sign, cut(words), room, size, desk.fonts)
    )


def key_rows(entries: Sequence[KeyEntry], desk: Desk) -> list[list[KeyEntry]]:
    """Entries in lines, each in the first line that has room."""
    gap, room = desk.layout.frame.key_gap_mm, desk.sheet.column - FOLIO_ROOM_MM
    rows: list[list[KeyEntry]] = []
    for entry in entries:
        fits = (
            row
            for row in rows
            if not entry.goes_on and sum(one.width + gap for one in row) + entry.width <= room
        )
        row = next(fits, None)
        if row is None:
            rows.append([entry])
        else:
            row.append(entry)
    return rows


def whole_parts(text: str, width: float, style: Style, measure: Measure) -> str:
    """As many parts of a head as have room in that many millimetres; the first one always."""
    parts = text.split(PART)
    while len(parts) > 1 and measure.width(PART.join(parts), style) > width:
        parts.pop()
    return PART.join(parts)


def key_entries(
    sign: str, words: Line, room: float, size: float, measure: Measure
) -> Iterator[KeyEntry]:
    """Measure an entry of the key; one that is wider than the room goes on in a line below."""
    drawn = (KEY_SIGNS[sign][0] + SIGN_GAP) * size if sign in KEY_SIGNS else 0.0
    tag = noted()
    for at, line in enumerate(wrap(words, room - drawn, size, measure)):
        width = line_width(line, size, measure) + (0.0 if at else drawn)
        own = Tag(Role.SPAN, within=tag, once=True) if at else tag
        yield KeyEntry(sign, line, width, goes_on=at > 0, tag=own)
