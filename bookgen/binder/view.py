"""Which stretch of the fingerboard a chart shows, and at what scale."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final

from bookgen.model.geometry import nut_distance_mm
from bookgen.model.stop import Stop
from bookgen.model.units import Millimetres, Semitones

SCALES: Final = tuple(map(Fraction, ("1", "3/4", "1/2", "1/3", "1/4", "1/5", "1/6", "1/8")))
LARGER: Final = tuple(map(Fraction, ("3/2", "2", "3")))
SMALLEST_WITH_NUT: Final = Fraction(1, 2)
"""Below half of the actual size a cut-out tells more than the nut does (own choice)."""

HIGHEST_WITH_NUT: Final = 7
"""Semitones of the lowest finger up to which the nut is near enough to be worth its room."""

CLEAR_MM: Final = 1.8
"""Paper between two spots on one string, at least: room for a route to be seen."""

CLEAR_CUT_OUT_MM: Final = 3.6
"""The same in a cut-out, which may be drawn larger than life."""

BEFORE_MM: Final = 9.0
"""Paper between the break and the lowest finger, in a chart that leaves the nut out."""


@dataclass(frozen=True, slots=True)
class View:
    """Part of a string, as drawn.

    string_length_mm: of the player's instrument.
    start_mm: distance from the nut on the instrument at which the drawing begins; 0 shows it.
    scale: millimetres on paper for one on the instrument.
    alone: nothing else on the page tells the scale.
    """

    string_length_mm: float
    start_mm: float
    scale: Fraction
    alone: bool = True

    @property
    def shows_nut(self) -> bool:
        """Whether the drawing begins at the nut."""
        return self.start_mm == 0

    def x(self, semitones: int) -> Millimetres:
        """Where a stop is drawn, in millimetres of paper from the left end of the strings."""
        along = nut_distance_mm(self.string_length_mm, semitones) - self.start_mm
        return Millimetres(along * float(self.scale))

    @property
    def scale_words(self) -> str:
        """The scale as printed.

        >>> View(328.0, 0.0, Fraction(1, 2)).scale_words
        'half of actual size'
        """
        names = {
            Fraction(1): "actual size",
            Fraction(3, 4): "three quarters of actual size",
            Fraction(1, 2): "half of actual size",
            Fraction(2): "twice the actual size",
        }
        return names.get(self.scale, f"scale {self.scale.numerator} : {self.scale.denominator}")


def common_views(
    charts: Sequence[Sequence[Stop]], string_length_mm: float, room: float, spot_radius: float
) -> list[View]:
    """Views at one scale for all charts of a day, so that a half step looks like a half step.

    All show the nut where they fit so at half of the actual size or more; else all leave it
    out, at the largest scale of at most the actual size that fits the widest hand, or at a
    larger one where fingers would touch on paper.

    charts: the stops of each; room: paper from the nut to the last spot's middle, in mm.
    """
    heights = [sorted({stop.semitones for stop in stops}) for stops in charts]
    highest = max(places[-1] for places in heights)
    near = all(places[0] <= HIGHEST_WITH_NUT for places in heights)
    for scale in SCALES:
        view = View(string_length_mm, 0.0, scale, alone=False)
        apart = all(clear(view, places, 2 * spot_radius + CLEAR_MM) for places in heights)
        if near and scale >= SMALLEST_WITH_NUT and view.x(highest) <= room and apart:
            return [view] * len(charts)
    cut_outs: list[View] = []
    for scale in (*SCALES[:1], *LARGER, *SCALES[1:]):
        cut_outs = [cut_out(places, string_length_mm, scale) for places in heights]
        pairs = list(zip(cut_outs, heights, strict=True))
        fit = all(view.x(places[-1]) <= room for view, places in pairs)
        apart = all(clear(view, places, 2 * spot_radius) for view, places in pairs)
        if fit and (apart or scale < 1):
            return cut_outs
    return cut_outs


def cut_out(places: Sequence[Semitones], string_length_mm: float, scale: Fraction) -> View:
    """A view without the nut, one of several on a page."""
    lowest = nut_distance_mm(string_length_mm, places[0])
    return View(string_length_mm, max(lowest - BEFORE_MM / float(scale), 0.0), scale, alone=False)


def choose_view(
    stops: Iterable[Stop], string_length_mm: float, room: float, spot_radius: float
) -> View:
    """The largest view that fits: with the nut where it is near, else a cut-out.

    Actual size is taken wherever it fits; more only where the spots would cover each other.

    room: paper from the nut to the last spot's middle, in millimetres.
    """
    heights = sorted({stop.semitones for stop in stops})
    with_nut = largest_with_nut(heights, string_length_mm, room)
    if with_nut and clear(with_nut, heights, 2 * spot_radius + CLEAR_MM):
        return with_nut
    cut_out = best_cut_out(heights, string_length_mm, room, spot_radius)
    return with_nut if with_nut and cut_out.scale <= with_nut.scale else cut_out


def largest_with_nut(
    heights: Sequence[Semitones], string_length_mm: float, room: float
) -> View | None:
    """The largest view that shows the nut, where that is near enough and fits."""
    for scale in SCALES:
        view = View(string_length_mm, 0.0, scale)
        if view.x(heights[-1]) <= room:
            near = heights[0] <= HIGHEST_WITH_NUT and scale >= SMALLEST_WITH_NUT
            return view if near else None
    return None


def best_cut_out(
    heights: Sequence[Semitones], string_length_mm: float, room: float, spot_radius: float
) -> View:
    """The view without the nut: actual size or the next larger one that is clear, else smaller."""
    nut_to_lowest = nut_distance_mm(string_length_mm, heights[0])
    views = [
        View(string_length_mm, max(nut_to_lowest - BEFORE_MM / float(scale), 0.0), scale)
        for scale in (*SCALES, *LARGER)
    ]
    fitting = [view for view in views if view.x(heights[-1]) <= room]
    for view in fitting:
        if view.scale >= 1 and clear(view, heights, 2 * spot_radius + CLEAR_CUT_OUT_MM):
            return view
    return max(fitting or views[-1:], key=lambda view: view.scale)


def clear(view: View, heights: Sequence[int], least: float) -> bool:
    """Whether neighbouring fingers stand at least that many millimetres apart on paper."""
    places = [view.x(height) for height in heights]
    return all(high - low >= least for low, high in pairwise(places))
