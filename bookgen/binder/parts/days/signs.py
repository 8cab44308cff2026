"""How a number on a plan of days shows its role: by shape and weight, never by colour."""

from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Measure, Point, Style
from bookgen.binder.page.layout import Level
from bookgen.plan.document import Item, Role
from bookgen.words.days import wait, wait_short
from bookgen.words.speech import Speech

FIGURE: Final = 0.25
"""Height of a figure of the text face, in millimetres by points of its size."""

SIGN: Final = 0.19
SIGN_GAP: Final = 0.05
"""Width of the sign before a number and the white behind it, likewise."""

ROUND: Final = 0.035
"""White between a number and the frame around it, likewise."""

WAIT_MM: Final = 0.6
"""Between a number and what it waits for."""

WAIT_SMALLER_PT: Final = 2.5
FRAME_MM: Final = 0.35

Like = int | str | None
"""What a drill's link names: a number, the key of a drill that has none, or nothing."""

SIGNED: Final = frozenset({Role.START, Role.STEP_BACK, Role.PASSAGE})
FRAMED: Final = frozenset({Role.NEW, Role.COLD})
LIGHT: Final = frozenset({Role.START, Role.AGAIN, Role.COLD})


def number_style(role: Role, level: Level) -> Style:
    """The number's cut: bold where the drill is met in some new way."""
    return Style(Face.REGULAR if role in LIGHT else Face.BOLD, level.number_pt)


def number_width(number: int, role: Role, level: Level, measure: Measure) -> float:
    """How wide a number with its sign or frame is, in millimetres."""
    wide = measure.width(str(number), number_style(role, level))
    if role in SIGNED:
        wide += level.number_pt * (SIGN + SIGN_GAP)
    return wide + 2 * level.number_pt * ROUND * (role in FRAMED)


def draw_number(canvas: Canvas, start: Point, number: int, role: Role, level: Level) -> float:
    """Draw a number with the sign of its role. Returns where it ends.

    start: left end of its baseline.
    """
    x, y = start
    size = level.number_pt
    style = number_style(role, level)
    if role in SIGNED:
        draw_sign(canvas, start, role, size)
        x += size * (SIGN + SIGN_GAP)
    wide = canvas.width(str(number), style)
    if role in FRAMED:
        more = size * ROUND
        corner, end = (x, y - more), (x + wide + 2 * more, y + size * FIGURE + more)
        if role is Role.NEW:
            canvas.shape([corner, (end[0], corner[1]), end, (corner[0], end[1])])
        else:
            canvas.box(corner, (end[0] - corner[0], end[1] - corner[1]), width=FRAME_MM)
        canvas.text((x + more, y), str(number), style, gray=1.0 if role is Role.NEW else 0.0)
        return end[0]
    canvas.text((x, y), str(number), style)
    return x + wide


def draw_sign(canvas: Canvas, start: Point, role: Role, size: float) -> None:
    """A triangle to start, one that points down for an easier step, a diamond for a piece.

    size: of the number, in points.
    """
    (x, y), wide, high = start, size * SIGN, size * FIGURE
    middle = (x + wide / 2, y + high / 2)
    match role:
        case Role.START:
            canvas.shape([(x, y), (x, y + high), (x + wide, middle[1])])
        case Role.STEP_BACK:
            canvas.shape([(x, y + high), (x + wide, y + high), (middle[0], y)])
        case Role.PASSAGE:
            side, top = (x + wide, middle[1]), (middle[0], y + high)
            canvas.shape([(x, middle[1]), top, side, (middle[0], y)])
        case _:
            return


def wait_label(item: Item, like: Like, level: Level, speech: Speech) -> str:
    """What an item waits for, as it stands beside its number.

    like: what the drill's own page names; where that is what it waits for, a sign is enough.
    """
    if item.only_if is None:
        return ""
    if level.names_wait:
        return wait(item.only_if, speech)
    return wait_short(None if like == item.only_if else item.only_if, speech)


def wait_style(level: Level) -> Style:
    """How that is set."""
    return Style(Face.ITALIC, level.number_pt - WAIT_SMALLER_PT)


def label_width(item: Item, waits: str, level: Level, measure: Measure) -> float:
    """How wide a number is with all that stands beside it, in millimetres."""
    wide = number_width(item.number, item.role, level, measure)
    return wide + (WAIT_MM + measure.width(waits, wait_style(level)) if waits else 0.0)
