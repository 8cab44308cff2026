"""Things of all kinds under each other on pages: music, charts, tables, words, drills."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from bookgen.binder.canvas import Canvas
from bookgen.binder.furniture import Furniture
from bookgen.binder.layout import NoRoomError
from bookgen.binder.leaf import Leaf, Mark, Side
from bookgen.binder.overlay import Placed
from bookgen.binder.pencil import Room, draw_rest, draw_rules, share_spare

Draw = Callable[[Canvas, Side, float, float], Iterable[Placed]]
"""Draws a thing on a side with its upper edge there and so much room for the pencil below it."""


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that is not broken over pages.

    above: white before it where it is not the first of its page; keeps: it stays with what
        follows; pencil: room below it is of use; ruled: a line parts it from what is before.
    running: in the head of a page that begins with it; marks: in the outline.
    again: what stands once more above it where it begins a page, as the head of a table.
    """

    height: float
    draw: Draw
    running: str
    above: float = 0.0
    keeps: bool = False
    pencil: bool = False
    ruled: bool = False
    marks: tuple[Mark, ...] = ()
    again: "Thing | None" = None


@dataclass(frozen=True, slots=True)
class Labels:
    """Words over what a page leaves: over ruled lines, and over empty staves."""

    pencil: str
    own: str


def paginate(things: Sequence[Thing], room: float, spare: float) -> list[list[Thing]]:
    """Fill pages one after the other; what keeps with the next goes overleaf with it.

    spare: kept free on a page of drills, for the pencil.

    Raises:
        NoRoomError: something is higher than a page.
    """
    pages: list[list[Thing]] = []
    page: list[Thing] = []
    for chain in chains(things, room):
        kept = spare if any(thing.pencil for thing in (*page, *chain)) else 0.0
        if page and height_of([*page, *chain]) > room - kept:
            pages.append(page)
            page = [chain[0].again] if chain[0].again else []
        page.extend(chain)
        if height_of(page) > room:
            msg = f"{height_of(page):.0f} mm do not fit on a page of {room:.0f} mm"
            raise NoRoomError(msg)
    return [*pages, page] if page else pages


def chains(things: Sequence[Thing], room: float) -> Iterator[list[Thing]]:
    """Things that stay together, as long as a page holds them."""
    chain: list[Thing] = []
    for thing in things:
        if chain and height_of([*chain, thing]) > room:
            yield chain
            chain = []
        chain.append(thing)
        if not thing.keeps:
            yield chain
            chain = []
    if chain:
        yield chain


def height_of(things: Sequence[Thing]) -> float:
    """Height of things under each other; the first has no white above."""
    return sum(thing.height for thing in things) + sum(thing.above for thing in things[1:])


def leaves_of(
    pages: Sequence[Sequence[Thing]], furniture: Furniture, labels: Labels
) -> Iterator[Leaf]:
    """The pages, measured and ready to draw."""
    for things in pages:
        marks = tuple(mark for thing in things for mark in thing.marks)
        page = Page(furniture, things, labels)
        yield Leaf(things[0].running, marks, page.draw)


@dataclass(frozen=True, slots=True)
class Page:
    """One page; what its things leave is for the pencil."""

    furniture: Furniture
    things: Sequence[Thing]
    labels: Labels

    def draw(self, canvas: Canvas, side: Side) -> Iterator[Placed]:
        """Draw the things from top to bottom."""
        layout = self.furniture.desk.layout
        spare = self.furniture.room - height_of(self.things)
        blocks = sum(thing.pencil for thing in self.things)
        each, rest = share_spare(spare, blocks, layout.pencil) if blocks else (0.0, spare)
        top = self.furniture.top
        for index, thing in enumerate(self.things):
            if index:
                if thing.ruled:
                    y = top - thing.above / 2
                    canvas.line((side.left, y), (side.right, y), width=0.2)
                top -= thing.above
            room = each if thing.pencil else 0.0
            yield from thing.draw(canvas, side, top, room)
            top -= thing.height + room
        left = Room(side.left, top, side.right - side.left, rest)
        if blocks:
            draw_rest(canvas, left, layout, (self.labels.pencil, self.labels.own))
        else:
            draw_rules(canvas, left, layout, self.labels.pencil)
