"""A canvas that tells of all ink to what it belongs: something that is read, or nothing."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from functools import partial

from bookgen.binder.page.canvas import Point, Style
from bookgen.binder.page.fonts import POINTS_PER_MM, Fonts
from bookgen.binder.page.order import bare
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.reportlab_canvas import Closing, ReportLabCanvas
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT
from bookgen.binder.structure.tag import ARTIFACT, Box, Role, Tag
from bookgen.binder.structure.tree import Goal, Tree
from bookgen.notation.engraved import Engraving

SAME_MM = 0.05
"""Words that stand no farther apart are one."""

DESCENT = 0.1
"""How far letters reach below their line, in millimetres by points of their size."""


class ScreenCanvas(ReportLabCanvas):
    """Pages whose content is marked (ISO 32000-1, 14.6), and the tree of what is read."""

    def __init__(
        self,
        fonts: Fonts,
        width: float,
        height: float,
        engraving: Engraving,
        heard: Callable[[int], str] | None,
    ) -> None:
        """Open a PDF whose pages have that size in millimetres.

        heard: the music of the engraving's drills in words, by their places in it.
        """
        super().__init__(fonts, width, height)
        self.engraving, self.heard = engraving, heard
        self.tree = Tree()
        self.under: list[Tag] = []
        self.loose = Tag(Role.LOOSE)
        self.drawn: set[Tag] = set()
        self.marked: Tag | None = None
        self.written: tuple[Tag, Point, Style] | None = None

    @contextmanager
    def tagged(self, tag: Tag) -> Iterator[None]:
        """What is drawn meanwhile belongs to a tag; a figure and an artifact stay whole."""
        if self.under and self.under[-1].whole:
            tag = self.under[-1]
        elif tag.once and tag in self.drawn:
            tag = ARTIFACT
        elif tag.role is not Role.ARTIFACT:
            self.tree.element(tag)
        self.drawn.add(tag)
        self.under.append(tag)
        yield
        self.under.pop()

    def reading(self, *tags: Tag) -> None:
        """These are read one after the other, in whatever order they are drawn."""
        for tag in tags:
            self.tree.element(tag)

    def begin(self, title: str, level: int) -> None:
        """A section of the book begins, which has that entry in the outline."""
        self.loose = Tag(Role.LOOSE)
        self.tree.begin(bare(title), level)

    def begin_ink(self) -> None:
        """Mark what is drawn next, where it is not yet."""
        tag = self.under[-1] if self.under else self.loose
        if tag is self.marked:
            return
        self.end_mark()
        if tag.role is Role.ARTIFACT:
            self.pdf.addLiteral(f"/Artifact <<{tag.artifact}>> BDC")
        else:
            self.pdf.addLiteral(
                f"/{self.tree.element(tag).role} <</MCID {self.tree.mark(tag)}>> BDC"
            )
        self.marked = tag

    def end_mark(self) -> None:
        """End what is marked."""
        if self.marked is not None:
            self.pdf.addLiteral("EMC")
        self.marked = None

    def text(self, start: Point, text: str, style: Style, *, gray: float = 0.0) -> None:
        """Set one line of text; white parts it from the words that are read before it.

        Raises:
            MissingGlyphError: no face has one of the characters.
        """
        self.begin_ink()
        tag = self.under[-1] if self.under else self.loose
        if self.written is not None and self.written[0] is tag and not tag.whole:
            _, (x, y), before = self.written
            if abs(y - start[1]) > SAME_MM or abs(x - start[0]) > SAME_MM:
                super().text((x, y), " ", before)
        super().text(start, text, style, gray=gray)
        end = start[0] + self.width(text, style)
        self.written = tag, (end, start[1]), style
        low = start[1] - style.size * DESCENT
        high = start[1] + style.size * ASCENT * MM_PER_POINT
        self.reach(tag, text, (start[0], low, end, high))

    def reach(self, tag: Tag, text: str, box: Box) -> None:
        """Note the words of a link and where they stand, and where links lead that name a tag."""
        if tag.name and tag.name not in self.tree.goals:
            self.tree.goals[tag.name] = Goal(self.page, box[3])
        if tag.role is Role.LINK:
            element = self.tree.element(tag)
            element.alt = f"{element.alt} {bare(text)}".strip()
            element.box = box if element.box is None else around(element.box, box)

    def descend(self, start: Point, text: str, style: Style) -> None:
        """Set one line of text that runs down the page.

        Raises:
            MissingGlyphError: no face has one of the characters.
        """
        self.begin_ink()
        super().descend(start, text, style)

    def music(self, place: Placed) -> Placed:
        """Let engraved music be read here, or where its tag is."""
        heard = self.heard
        words = None if heard is None else lambda: heard(place.drill)
        tag = place.tag or Tag(Role.FIGURE)
        if self.under and self.under[-1].role is Role.ARTIFACT:
            return replace(place, mark=f"/Artifact <<{self.under[-1].artifact}>>")
        element = self.tree.element(tag)
        element.alt = element.alt or ("" if words is None else words())
        ink = self.engraving.drills[place.drill].box
        left, top = place.left / POINTS_PER_MM, place.top / POINTS_PER_MM
        right, low = left + ink.width / POINTS_PER_MM, top - ink.height / POINTS_PER_MM
        if element.page == self.page:
            box = (left, low, right, top)
            element.box = box if element.box is None else around(element.box, box)
        return replace(place, mark=f"/{element.role} <</MCID {self.tree.mark(tag)}>>")

    def closing(self, folios: Sequence[str]) -> Closing:
        """What is put into the finished file; folios: the pages' printed numbers."""
        from bookgen.binder.structure.screen_file import for_screen  # noqa: PLC0415  slow

        return partial(for_screen, tree=self.tree, folios=folios)

    def next_page(self) -> None:
        """Finish this page; the next begins."""
        self.end_mark()
        self.written = None
        self.tree.turn()
        self.loose = Tag(Role.LOOSE)
        super().next_page()


def around(one: Box, other: Box) -> Box:
    """The least box that holds both."""
    return (
        min(one[0], other[0]),
        min(one[1], other[1]),
        max(one[2], other[2]),
        max(one[3], other[3]),
    )
