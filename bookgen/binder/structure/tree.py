"""The tree of what is read, as it grows while pages are drawn."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

from bookgen.binder.structure.tag import Box, Role, Tag

DEEPEST: Final = 6
"""Levels of heads (ISO 32000-1, table 334)."""

EMPTY_TOO: Final = frozenset({Role.CELL, Role.OVER})
"""A table keeps its cells though nothing stands in them."""


@dataclass(frozen=True, slots=True)
class Content:
    """Marked content: on which page, from 0, and its number there."""

    page: int
    mark: int


@dataclass(eq=False, slots=True)
class Element:
    """Something that is read.

    role: its structure type; title: of a section; alt: a figure or a link in words.
    box: of a figure or of a link on its page, in millimetres; goal: of a link.
    rows: of a cell, over how many it reaches; scope: of a head in a table.
    """

    role: str
    page: int
    title: str = ""
    alt: str = ""
    goal: str = ""
    box: Box | None = None
    rows: int = 1
    scope: str = "Column"
    kids: list["Element | Content"] = field(default_factory=list)

    @property
    def said(self) -> bool:
        """Anything is read of it."""
        return self.role in EMPTY_TOO or any(
            isinstance(kid, Content) or kid.said for kid in self.kids
        )

    def every(self) -> Iterator["Element"]:
        """It and all that is read in it."""
        yield self
        for kid in self.kids:
            if isinstance(kid, Element):
                yield from kid.every()


@dataclass(frozen=True, slots=True)
class Goal:
    """Where links lead: a page, from 0, and how high on it, in millimetres."""

    page: int
    top: float


@dataclass(eq=False)
class Tree:
    """What is read of a book, in reading order.

    sections: those that are open, each with its level in the outline.
    late: what is read last on this page; goals: of links, by their names.
    page: that is drawn, from 0; marks: of each page, to what each of them belongs.
    """

    root: Element = field(default_factory=lambda: Element(Role.DOCUMENT, 0))
    sections: list[tuple[int, Element]] = field(default_factory=list)
    elements: dict[Tag, Element] = field(default_factory=dict)
    late: list[Element] = field(default_factory=list)
    goals: dict[str, Goal] = field(default_factory=dict)
    page: int = 0
    marks: list[list[Element]] = field(default_factory=lambda: [[]])

    @property
    def section(self) -> Element:
        """The section that is read."""
        return self.sections[-1][1] if self.sections else self.root

    def begin(self, title: str, level: int) -> None:
        """A section begins; those of its level and deeper ones end.

        It may be begun again on the same page, by the page's head and by what stands below it.
        """
        open_level = self.sections[-1][0] if self.sections else None
        if (open_level, self.section.title, self.section.page) == (level, title, self.page):
            return
        while self.sections and self.sections[-1][0] >= level:
            self.sections.pop()
        found = Element(Role.SECTION, self.page, title=title)
        self.section.kids.append(found)
        self.sections.append((level, found))

    def element(self, tag: Tag) -> Element:
        """The element of a tag; it is laid where reading has come when it is first met."""
        if tag in self.elements:
            return self.elements[tag]
        parent = self.section if tag.within is None else self.element(tag.within)
        kids = self.late if tag.last else parent.kids
        role: str = tag.role
        if tag.role is Role.HEAD:
            role = f"H{min(max(len(self.sections), 1) + tag.depth, DEEPEST)}"
        alt = "" if tag.alt is None else tag.alt()
        found = Element(
            role,
            self.page,
            alt=alt,
            goal=tag.goal,
            box=tag.box,
            rows=tag.rows,
            scope=tag.scope,
        )
        self.elements[tag] = found
        kids.append(found)
        return found

    def mark(self, tag: Tag) -> int:
        """The number of marked content under a tag."""
        element, marks = self.element(tag), self.marks[self.page]
        marks.append(element)
        element.kids.append(Content(self.page, len(marks) - 1))
        return len(marks) - 1

    def turn(self) -> None:
        """The page ends; what is read last on it is read now, in its part of the book."""
        part = self.sections[0][1] if self.sections else self.root
        part.kids += self.late
        self.late.clear()
        self.marks.append([])
        self.page += 1
