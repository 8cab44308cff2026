"""The atlas of the fingerboard, measured: at which scale it has room, on one page or two."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from typing import Final

from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.typeset import line_height
from bookgen.binder.parts.chart.scale import STEPS
from bookgen.model.geometry import gap_mm
from bookgen.model.instrument import Instrument
from bookgen.model.units import Semitones
from bookgen.words.names import position_short

WHITE_MM: Final = 3.0
"""Below the words, above the key, and between the strings' names and the nut."""

GAP_MM: Final = 1.6
"""Beside a name, a position, a figure."""

BRACKET_MM: Final = 2.0
"""Of a bracket beside a position."""

TIGHT: Final = 0.94
"""Of a line's height: names may stand so close under each other."""

PAGES: Final = (1, 2)


@dataclass(frozen=True, slots=True)
class Span:
    """The stops of one page: from the nut, or from the stop with which the page before ends."""

    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Atlas:
    """A fingerboard, measured.

    per: millimetres on the instrument for one on paper; size: of names, in points.
    spans: the stops of each page; staggered: names stand right and left of a string in turn.
    """

    desk: Desk
    per: Fraction
    size: float
    spans: tuple[Span, ...]
    staggered: bool

    @property
    def instrument(self) -> Instrument:
        """Whose fingerboard it is."""
        return self.desk.instrument

    @property
    def length(self) -> float:
        """Of its strings, in millimetres."""
        return length_of(self.desk)

    def down(self, span: Span, stop: float) -> float:
        """From the first stop of a page down to another one, in millimetres on paper."""
        return gap_mm(self.length, span.first, stop) / float(self.per)

    @property
    def left(self) -> float:
        """Room for the positions, in millimetres."""
        style = Style(Face.BOLD, self.desk.layout.text.small_pt)
        rule, speech = self.instrument.position_rule, self.desk.speech
        places = range(1, self.instrument.highest_stop + 1)
        names = [position_short(rule.at(1, Semitones(place)), speech) for place in places]
        widest = max(self.desk.fonts.width(name, style) for name in names)
        return widest + BRACKET_MM + 2.5 * GAP_MM

    @property
    def right(self) -> float:
        """Room for the millimetres."""
        style = Style(Face.REGULAR, self.desk.layout.text.small_pt)
        return self.desk.fonts.width(f"{self.length:.0f}", style) + GAP_MM


def length_of(desk: Desk) -> float:
    """The length of the strings, in millimetres."""
    return desk.instrument.size(desk.size).string_length_mm


def head_mm(desk: Desk) -> float:
    """Room for the names of the strings."""
    return line_height(desk.layout.text.title_pt, desk.layout.text.leading) + WHITE_MM


def key_mm(desk: Desk) -> float:
    """Room for the key, and for half a name at both ends of the strings."""
    text = desk.layout.text
    return line_height(text.small_pt, text.leading) + WHITE_MM + line_height(text.body_pt, 1.0)


def atlas_of(desk: Desk, heights: Sequence[float]) -> Atlas:
    """The fingerboard on as few pages as its names allow, as near to life size as it can be.

    heights: of the room on the first page and on the next one, in millimetres.
    """
    text, leading = desk.layout.text, desk.layout.text.leading
    last, length = desk.instrument.highest_stop, length_of(desk)
    sizes = (text.body_pt, text.small_pt)
    for staggered, pages, size in product((False, True), PAGES, sizes):
        found = scaled(desk, heights[:pages])
        closest = gap_mm(length, last - 1 - staggered, last)
        if found and closest / found[0] >= line_height(size, leading) * TIGHT:
            return Atlas(desk, *found[:1], size, found[1], staggered)
    per, spans = scaled(desk, heights) or (STEPS[-1], (Span(0, last),))
    return Atlas(desk, per, text.small_pt, spans, staggered=True)


def scaled(desk: Desk, heights: Sequence[float]) -> tuple[Fraction, tuple[Span, ...]] | None:
    """The largest scale at which the strings have room on pages of these heights, and where.

    Two pages meet at the stop that cuts the strings into halves as equal as can be.
    """
    last, length = desk.instrument.highest_stop, length_of(desk)
    ways: list[tuple[Span, ...]] = [(Span(0, last),)]
    if len(heights) > 1:
        ways = [(Span(0, cut), Span(cut, last)) for cut in range(1, last)]

    def lengths(way: Sequence[Span]) -> list[float]:
        return [gap_mm(length, span.first, span.last) for span in way]

    ways.sort(key=lambda way: max(lengths(way)))
    for per, way in product(STEPS, ways):
        if all(one / per <= high for one, high in zip(lengths(way), heights, strict=True)):
            return per, way
    return None
