"""Room for the teacher's pencil: what drills leave of a page, ruled or as empty staves."""

from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.binder.layout import Layout, PencilRoom
from bookgen.binder.typeset import ASCENT, MM_PER_POINT, line_height

GRAY: Final = 0.6
MOST_APART_MM: Final = 3.0
LABEL_GAP_MM: Final = 2.0
LABEL_DROP_MM: Final = 3.0
"""From the room's upper edge to the words over the staves."""

FEWEST_LINES: Final = 2
STAVES_FROM_MM: Final = 45.0
"""Height from which empty staves are of more use than ruled lines."""

STAFF_STEP: Final = 2.5
"""From staff to staff, in heights of a staff: ledger lines fit between."""

STAFF_LINES: Final = 5
STAFF_LINE_MM: Final = 0.18


@dataclass(frozen=True, slots=True)
class Room:
    """An empty part of a page, in millimetres; top is its upper edge."""

    left: float
    top: float
    width: float
    height: float


def share_spare(spare: float, blocks: int, pencil: PencilRoom) -> tuple[float, float]:
    """Share the spare height of a page: room below each block, and room at the page's end.

    Too little for every block sets them apart, and the rest goes to the end; much more than
    each block needs goes there too; what lies between is for the blocks alone.

    >>> share_spare(30.0, 3, PencilRoom(page=6.0, most=30.0, line=8.0))
    (3.0, 21.0)
    >>> share_spare(80.0, 2, PencilRoom(page=6.0, most=30.0, line=8.0))
    (40.0, 0.0)
    """
    each = spare / blocks
    if each < FEWEST_LINES * pencil.line:
        apart = min(each, MOST_APART_MM)
        return apart, spare - blocks * apart
    if spare - blocks * pencil.most >= STAVES_FROM_MM:
        return pencil.most, spare - blocks * pencil.most
    return each, 0.0


def draw_rest(canvas: Canvas, room: Room, layout: Layout, labels: tuple[str, str]) -> None:
    """Fill the end of a page: empty staves where there is much room, else ruled lines.

    labels: over the ruled lines, and over the staves.
    """
    if room.height < STAVES_FROM_MM:
        draw_rules(canvas, room, layout, labels[0])
        return
    size = layout.text.body
    step = line_height(size, layout.text.leading)
    baseline = room.top - LABEL_DROP_MM - size * ASCENT * MM_PER_POINT
    canvas.text((room.left, baseline), labels[1], Style(Face.ITALIC, size))
    below = LABEL_DROP_MM + step
    staves = Room(room.left, room.top - below, room.width, room.height - below)
    draw_staves(canvas, staves, layout.staff_height_mm)


def draw_rules(canvas: Canvas, room: Room, layout: Layout, label: str) -> None:
    """Ruled lines evenly over the room; with less than two lines' room there are none.

    The room's lower edge is the last line: there the page has a rule of its own or ends.
    """
    lines = int(room.height // layout.pencil.line)
    if lines < FEWEST_LINES:
        return
    style = Style(Face.ITALIC, layout.text.small)
    step = room.height / lines
    canvas.text((room.left, room.top - step * min(1.0, lines - 0.25)), label, style)
    indent = canvas.width(label, style) + LABEL_GAP_MM
    for row in range(1, lines):
        y = room.top - row * step
        start = room.left + (indent if row == 1 else 0.0)
        canvas.line((start, y), (room.left + room.width, y), width=0.2, gray=GRAY)


def draw_staves(canvas: Canvas, room: Room, height: float) -> None:
    """Empty staves evenly over the room.

    height: of a staff, in millimetres.
    """
    count = int(room.height // (STAFF_STEP * height))
    step = room.height / count
    for number in range(count):
        middle = room.top - (number + 0.5) * step
        for line in range(STAFF_LINES):
            y = middle + (line / (STAFF_LINES - 1) - 0.5) * height
            end = (room.left + room.width, y)
            canvas.line((room.left, y), end, width=STAFF_LINE_MM, gray=GRAY)
