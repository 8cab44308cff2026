"""The cover of a bound book as one sheet: back, spine, front."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.imprint import CREATOR, Imprint
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.prose import Look, draw_words, height_of, words_of
from bookgen.binder.page.reportlab_canvas import ReportLabCanvas
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, line_height
from bookgen.binder.prepress.bar_code import HEIGHT_MM, WIDTH_MM, BarCode
from bookgen.binder.prepress.book_number import BookNumber
from bookgen.binder.prepress.spine import LEAST_PRINTED_MM
from bookgen.errors import told
from bookgen.notation.engraved import Engraving

MARGIN_MM: Final = 18.0
"""White at the edges, and on both sides of the spine (own choice)."""

GOLDEN: Final = 0.3
"""How much of the front lies above the title."""

TITLE: Final = 1.9
"""Size of the title, in sizes of a name elsewhere."""

RULE_MM: Final = 0.9
GAP_MM: Final = 7.0
SPINE_SHARE: Final = 0.5
"""Of the spine's width: size of its type."""

LARGEST_ON_SPINE_PT: Final = 14.0


@dataclass(frozen=True, slots=True)
class CoverSheet:
    """What stands on the cover, and the book that it goes around.

    title, author, publisher: empty where there is none; back: paragraphs.
    number: None where the book is not traded.
    width, height: of the book; spine: how thick it is, in millimetres.
    """

    title: str
    author: str
    publisher: str
    back: Sequence[str]
    number: BookNumber | None
    width: float
    height: float
    spine: float

    @property
    def whole(self) -> float:
        """Width of the sheet."""
        return 2 * self.width + self.spine

    @property
    def folds(self) -> tuple[float, float]:
        """Where the spine begins and ends, from the left edge."""
        return self.width, self.width + self.spine


def bind_cover(cover: CoverSheet, desk: Desk) -> bytes:
    """Draw a cover: one page, as wide as the sheet.

    Raises:
        NoRoomError: the title or the text on the back do not fit.
    """
    canvas = ReportLabCanvas(desk.fonts, cover.whole, cover.height)
    draw_front(canvas, cover, desk)
    draw_back(canvas, cover, desk)
    if cover.spine >= LEAST_PRINTED_MM:
        draw_spine(canvas, cover, desk)
    canvas.next_page()
    author = desk.clean(cover.author or cover.publisher) or CREATOR
    imprint = Imprint(desk.clean(cover.title), author, "", language=desk.speech.language)
    from bookgen.binder.page.press import press  # noqa: PLC0415  slow to import

    return press(canvas.finish(), Engraving((), ()), (), imprint)


def draw_front(canvas: Canvas, cover: CoverSheet, desk: Desk) -> None:
    """The author over a heavy rule, the title below it, the publisher at the foot.

    Raises:
        NoRoomError: the title is too long.
    """
    sizes = desk.layout.text
    left, right = cover.folds[1] + MARGIN_MM, cover.whole - MARGIN_MM
    plain = Style(Face.REGULAR, sizes.name_pt)
    y = cover.height * (1 - GOLDEN)
    canvas.line((left, y), (right, y), width=RULE_MM)
    canvas.text((left, y + GAP_MM), desk.name(cover.author, right - left, plain), plain)
    look = Look(sizes.name_pt * TITLE, Face.BOLD)
    title = words_of(desk.clean(cover.title), look, right - left, desk)
    room = y - 2 * GAP_MM - MARGIN_MM
    if title.height > room:
        raise NoRoomError(told("the title on the cover"), title.height, room)
    draw_words(canvas, [title], left, y - GAP_MM)
    publisher = desk.name(cover.publisher, right - left, plain)
    canvas.text((left, MARGIN_MM), publisher, plain)


def draw_back(canvas: Canvas, cover: CoverSheet, desk: Desk) -> None:
    """The text from the top, the bars at the foot beside the spine.

    Raises:
        NoRoomError: the text is too long.
    """
    left, right = MARGIN_MM, cover.width - MARGIN_MM
    sizes = desk.layout.text
    above = line_height(sizes.title_pt, sizes.leading) / 2
    look = Look(sizes.title_pt, above=above)
    words = [
        words_of(" ".join(map(desk.clean, text.split())), look, right - left, desk)
        for text in cover.back
    ]
    foot = MARGIN_MM + (HEIGHT_MM + GAP_MM if cover.number else 0.0)
    room = cover.height - MARGIN_MM - foot
    if height_of(words) > room:
        raise NoRoomError(told("the text on the back of the cover"), height_of(words), room)
    draw_words(canvas, words, left, cover.height - MARGIN_MM)
    if cover.number:
        BarCode(cover.number).draw(canvas, (right - WIDTH_MM, MARGIN_MM))


def draw_spine(canvas: ReportLabCanvas, cover: CoverSheet, desk: Desk) -> None:
    """Author and title, read from above when the book stands (ISO 6357:1985, descending)."""
    size = min(cover.spine * SPINE_SHARE / MM_PER_POINT, LARGEST_ON_SPINE_PT)
    plain, bold = Style(Face.REGULAR, size), Style(Face.BOLD, size)
    room = cover.height - 2 * MARGIN_MM
    author = desk.name(cover.author, room / 3, plain)
    title = desk.name(cover.title, room - (desk.fonts.width(author, plain) + GAP_MM), bold)
    x = cover.width + (cover.spine - size * ASCENT * MM_PER_POINT) / 2
    canvas.descend((x, cover.height - MARGIN_MM), title, bold)
    start = MARGIN_MM + desk.fonts.width(author, plain)
    canvas.descend((x, start), author, plain)
