"""The cover of a complete book as one sheet: back, spine, front."""

from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.imprint import CREATOR, Imprint
from bookgen.binder.page.leaf import Side
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.prose import Look, draw_words, height_of
from bookgen.binder.page.reportlab_canvas import ReportLabCanvas
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT
from bookgen.binder.parts.matter import title_leaf
from bookgen.binder.parts.told import told_words
from bookgen.binder.prepress.bar_code import HEIGHT_MM, WIDTH_MM, BarCode
from bookgen.binder.prepress.book_number import BookNumber
from bookgen.binder.prepress.spine import LEAST_PRINTED_MM
from bookgen.errors import told
from bookgen.notation.engraved import Engraving
from bookgen.plan.supplement import Supplement
from bookgen.words.names import instrument_name
from bookgen.words.supplement import kind_name

GAP_MM: Final = 7.0
SPINE_SHARE: Final = 0.5
"""Of the spine's width: size of its type (own choice)."""

LARGEST_ON_SPINE_PT: Final = 14.0
AUTHOR_SHARE: Final = 0.3
"""Of the spine's height, at most (own choice)."""


@dataclass(frozen=True, slots=True)
class CoverSheet:
    """The cover of a book on the desk's paper.

    back: its text, in Markdown; number: None where the book is not traded.
    spine: how thick the book is, in millimetres.
    """

    book: Supplement
    back: str
    number: BookNumber | None
    spine: float
    desk: Desk
    from_memory: bool = False

    @property
    def width(self) -> float:
        """Of the whole sheet, in millimetres."""
        return 2 * self.desk.sheet.width + self.spine

    @property
    def folds(self) -> tuple[float, float]:
        """Where the spine begins and ends, from the left edge."""
        return self.desk.sheet.width, self.desk.sheet.width + self.spine

    @property
    def title(self) -> str:
        """As it can be printed."""
        return self.desk.clean(self.book.title)

    def bound(self) -> bytes:
        """Draw the cover: a PDF of one page, as wide as the sheet.

        Raises:
            NoRoomError: the title or the text on the back do not fit.
        """
        desk = self.desk
        canvas = ReportLabCanvas(desk.fonts, self.width, desk.sheet.height)
        self.draw_back(canvas)
        self.draw_front(canvas)
        if self.spine >= LEAST_PRINTED_MM:
            self.draw_spine(canvas)
        canvas.next_page()
        author = desk.clean(self.book.author) or CREATOR
        imprint = Imprint(self.title, author, "", language=desk.speech.language)
        from bookgen.binder.page.press import press  # noqa: PLC0415  slow to import

        return press(canvas.finish(), Engraving((), ()), (), imprint)

    def draw_front(self, canvas: Canvas) -> None:
        """What the title page says, in the same places.

        Raises:
            NoRoomError: the title is too long.
        """
        desk, book = self.desk, self.book
        kind = kind_name(book, desk.speech, from_memory=self.from_memory)
        facts = [instrument_name(desk.instrument, desk.speech), kind]
        subtitle, author, edition = map(desk.clean, (book.subtitle, book.author, book.edition))
        leaf = title_leaf(self.title, subtitle, facts, author, edition, desk)
        margins = replace(desk.sheet.margins, left=self.folds[1] + desk.sheet.margins.left)
        sheet = replace(desk.sheet, width=self.width, margins=margins)
        list(leaf.draw(canvas, Side(0, "", sheet, verso=False)))

    def draw_back(self, canvas: Canvas) -> None:
        """The text from the top, the bars at the foot beside the spine.

        Raises:
            NoRoomError: the text is too long.
        """
        sheet, layout = self.desk.sheet.mirrored, self.desk.layout
        look = Look(layout.text.title_pt, above=layout.supplement.paragraph_mm)
        words = told_words(self.back, look, self.desk)
        foot = sheet.bottom + (HEIGHT_MM + GAP_MM if self.number else 0.0)
        if height_of(words) > sheet.top - foot:
            part = told("the text on the back of the cover")
            raise NoRoomError(part, height_of(words), sheet.top - foot)
        draw_words(canvas, words, sheet.margins.left, sheet.top)
        if self.number:
            right = sheet.margins.left + sheet.column
            BarCode(self.number).draw(canvas, (right - WIDTH_MM, sheet.bottom))

    def draw_spine(self, canvas: ReportLabCanvas) -> None:
        """Title and author, read from above when the book stands (ISO 6357:1985, descending)."""
        sheet, desk = self.desk.sheet, self.desk
        size = min(self.spine * SPINE_SHARE / MM_PER_POINT, LARGEST_ON_SPINE_PT)
        plain, bold = Style(Face.REGULAR, size), Style(Face.BOLD, size)
        room = sheet.top - sheet.bottom
        author = desk.name(self.book.author, room * AUTHOR_SHARE, plain)
        end = desk.fonts.width(author, plain)
        title = desk.name(self.book.title, room - end - GAP_MM, bold)
        x = sheet.width + (self.spine - size * ASCENT * MM_PER_POINT) / 2
        canvas.descend((x, sheet.top), title, bold)
        canvas.descend((x, sheet.bottom + end), author, plain)
