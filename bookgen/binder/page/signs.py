"""Signs that stand on pages beside music and words, and in the key at their foot."""

from collections.abc import Callable, Mapping
from enum import StrEnum
from math import cos, pi, sin
from typing import Final

from bookgen.binder.page.canvas import Canvas, Point

RING_RADIUS_MM: Final = 1.05
RING_LINE_MM: Final = 0.25
RING_DOT_MM: Final = 0.36
"""As wide as the ring that is engraved beside notes."""

RETURN_SHARE: Final = 0.56
RETURN_LINE_MM: Final = 0.55
RETURN_TIP_MM: Final = 1.15
RETURN_BEND: Final = 0.8
ORDINARY_STAFF_MM: Final = 7.5
"""The return sign beside an ordinary staff: its height as a share of the staff's, its line, half
its arrow head, how far it bends out as a share of its height."""

RETURN_MM: Final = 5.0
"""Room right of the music for the return sign."""


class Sign(StrEnum):
    """What a page may show that a key tells.

    order: figures of the order of play; start: the mark of the first stop; wait: for what a drill
    waits.
    """

    RING = "ring"
    RETURN = "return"
    HALF = "half"
    WHOLE = "whole"
    WIDER = "wider"
    SHIFT = "shift"
    BOX = "box"
    ORDER = "order"
    START = "start"
    STRETCH = "stretch"
    EXTENDED = "extended"
    THUMB = "thumb"
    WAIT = "wait"


def draw_ring(canvas: Canvas, centre: Point, scale: float = 1.0) -> None:
    """An open string rings along: a ring with a dot, which is no harmonic and no open string."""
    canvas.ring(centre, radius=RING_RADIUS_MM * scale, width=RING_LINE_MM * scale)
    canvas.spot(centre, radius=RING_DOT_MM * scale)


def draw_return(canvas: Canvas, corner: Point, staff: float) -> None:
    """Back the way you came: an arrow that turns round.

    corner: left end, on the staff's middle line; staff: its height in millimetres.
    """
    scale = staff / ORDINARY_STAFF_MM
    x, middle = corner
    high = staff * RETURN_SHARE
    top, bottom = middle + high / 2, middle - high / 2
    bend, tip = x + high * RETURN_BEND, RETURN_TIP_MM * scale
    width = RETURN_LINE_MM * scale
    canvas.curve((x, top), (bend, top), (bend, bottom), (x + 0.9 * scale, bottom), width=width)
    canvas.shape(
        [
            (x - 0.6 * scale, bottom),
            (x + 1.9 * scale, bottom + tip),
            (x + 1.9 * scale, bottom - tip),
        ]
    )


THUMB_OVAL: Final = 0.62
THUMB_WIDE: Final = 0.52
THUMB_LINE: Final = 0.26
"""Half the height of the thumb's oval, half its width, and its line; of half the sign's height."""

SMOOTH: Final = 32
"""Corners of an oval."""


def draw_thumb(canvas: Canvas, centre: Point, half: float, gray: float = 0.0) -> None:
    """The thumb on the string: an upright oval on a short stem. No text face has the sign.

    half: half its height, in millimetres; gray: of its ink, on white or on black.
    """
    x, y = centre
    high, wide, line = half * THUMB_OVAL, half * THUMB_WIDE, half * THUMB_LINE
    middle = y + half - high
    for inset, ink in ((0.0, gray), (line, 1.0 - gray)):
        turns = (2 * pi * corner / SMOOTH for corner in range(SMOOTH))
        oval = [
            (x + (wide - inset) * cos(turn), middle + (high - inset) * sin(turn)) for turn in turns
        ]
        canvas.shape(oval, gray=ink)
    foot = y - half + line / 2
    canvas.line((x, middle - high + line / 2), (x, foot), width=line, gray=gray)


def key_thumb(canvas: Canvas, start: Point, size: float) -> None:
    """The thumb in a line of words of that size, in points, which begins there."""
    half = THUMB_HALF_MM * size / KEY_PT
    draw_thumb(canvas, (start[0] + half * THUMB_WIDE, start[1] + half), half)


def key_ring(canvas: Canvas, start: Point, size: float) -> None:
    """The ring in a line of words of that size, in points, which begins there."""
    scale = size / KEY_PT
    radius = RING_RADIUS_MM * scale
    draw_ring(canvas, (start[0] + radius, start[1] + radius), scale)


def key_return(canvas: Canvas, start: Point, size: float) -> None:
    """The return sign in a line of words of that size, in points, which begins there."""
    scale = size / KEY_PT
    draw_return(canvas, (start[0] + 0.6 * scale, start[1] + 1.25 * scale), KEY_STAFF_MM * scale)


KEY_PT: Final = 9.0
KEY_STAFF_MM: Final = 4.8
THUMB_HALF_MM: Final = 1.15
KEY_SIGNS: Final[Mapping[str, tuple[float, Callable[[Canvas, Point, float], None]]]] = {
    Sign.RING: (2 * RING_RADIUS_MM / KEY_PT, key_ring),
    Sign.RETURN: (3.6 / KEY_PT, key_return),
    Sign.THUMB: (2 * THUMB_HALF_MM * THUMB_WIDE / KEY_PT, key_thumb),
}
"""Signs that are drawn before their words in a key: how wide for each point of the words' size,
and how."""
