"""A fingerboard chart as it is printed: which finger lies on which string, and how far apart."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from bookgen.model.finger import THUMB
from bookgen.model.instrument import NUMERALS
from bookgen.model.units import StringNumber
from bookgen.proof.printed import Box, Page, Run, Shape

ALIGNED_PT: Final = 1.0
"""The numerals of a chart end on one line, and its rows are as far apart, but for that much."""

THICK_PT: Final = 2.5
"""The nut is thicker, all else in a chart finer."""

SPOT_ROWS: Final = 1.4
"""A finger's spot is smaller than that many times the distance between two strings."""

UPRIGHT: Final = 1.15
"""The sign of the thumb is that much higher than wide, at least."""

SAME_PT: Final = 0.3

RATIO: Final = re.compile(r"1\s*:\s*(\d+(?:[.,]\d+)?)")
FIGURES: Final = re.compile(r"[\d,. ]*\d")
UNIT: Final = "mm"


@dataclass(frozen=True, slots=True)
class Spot:
    """A finger in a chart; hollow: it is played after the hand has shifted."""

    string: int
    finger: int
    x: float
    hollow: bool


@dataclass(frozen=True, slots=True)
class Chart:
    """A printed chart.

    box: from its numerals to the end of its strings; top: baseline of the highest one's numeral.
    nut: where it stands, or None where it is cut off.
    per: millimetres on the instrument for one on paper, as the page says, or None.
    figures: the millimetres below it, as they are printed; empty where there are none.
    """

    box: Box
    top: float
    spots: tuple[Spot, ...]
    nut: float | None
    per: float | None
    figures: tuple[str, ...]


def charts_of(page: Page, count: int) -> list[Chart]:
    """The charts of a page.

    count: of the instrument's strings.
    """
    words = [*page.words]
    shapes = [shape for shape in page.shapes if shape.music is None]
    stacks = (stack_of(run, words, count) for run in words if run.text == NUMERALS[FIRST])
    return [chart_of(stack, words, shapes) for stack in stacks if stack]


FIRST: Final = StringNumber(1)


def stack_of(first: Run, words: Sequence[Run], count: int) -> list[Run]:
    """The numerals of the strings below each other, the highest first; none where they do not."""
    found = [first]
    for number in range(2, count + 1):
        below = [
            run
            for run in words
            if run.text == NUMERALS[StringNumber(number)]
            and abs(run.box.right - first.box.right) < ALIGNED_PT
            and run.y < found[-1].y
        ]
        if not below:
            return []
        found.append(max(below, key=lambda run: run.y))
    steps = [high.y - low.y for high, low in pairwise(found)]
    return found if max(steps) - min(steps) < ALIGNED_PT else []


def chart_of(names: Sequence[Run], words: Sequence[Run], shapes: Sequence[Shape]) -> Chart:
    """The chart beside the numerals of its strings."""
    first, last = names[0], names[-1]
    gap = (first.y - last.y) / (len(names) - 1)
    rows = [run.box.middle[1] for run in names]
    end = end_of(first, shapes, gap)
    around = Box(first.box.right, rows[-1] - gap, end, rows[0] + gap)
    below = below_of(last, words, gap, end)
    ratio = next((found for run in below if (found := RATIO.fullmatch(run.text.strip()))), None)
    unit = any(run.text.endswith(UNIT) for run in below)
    return Chart(
        box=Box(min(run.x for run in names), rows[-1] - gap / 2, end, rows[0] + gap / 2),
        top=first.y,
        spots=tuple(spots_of(words, shapes, rows, around, gap)),
        nut=nut_of(shapes, around),
        per=float(ratio[1].replace(",", ".")) if ratio else None,
        figures=tuple(figures_of(below)) if unit else (),
    )


def end_of(first: Run, shapes: Sequence[Shape], gap: float) -> float:
    """Where the highest string ends, which begins beside its numeral and its name."""
    lines = [
        shape.box
        for shape in shapes
        if shape.stroke
        and shape.box.height < gap / 2
        and abs(shape.box.middle[1] - first.box.middle[1]) < gap / 4
        and shape.box.left > first.box.right
    ]
    nearest = min(lines, key=lambda box: box.left, default=first.box)
    return nearest.right


def spots_of(
    words: Sequence[Run], shapes: Sequence[Shape], rows: Sequence[float], around: Box, gap: float
) -> Iterator[Spot]:
    """Fingers: figures that stand in a black spot.

    rows: heights of the strings; around: the chart; gap: between two strings.
    """
    small = [
        shape
        for shape in shapes
        if around.holds(shape.box.middle)
        and max(shape.box.width, shape.box.height) < SPOT_ROWS * gap
    ]
    dark = [shape.box for shape in small if shape.dark]
    for run in words:
        middle = run.box.middle
        if len(run.text) != 1 or not run.text.isdecimal() or not around.holds(middle):
            continue
        held = [box for box in dark if box.holds(middle)]
        if held:
            x, _ = min(held, key=lambda box: box.width).middle
            yield Spot(row_of(middle[1], rows), int(run.text), x, not run.white)
    for oval, hollow in thumbs_in(small, dark):
        x, y = oval.middle
        yield Spot(row_of(y, rows), THUMB, x, hollow)


def row_of(y: float, rows: Sequence[float]) -> int:
    """The string that is nearest to a height."""
    return min(range(len(rows)), key=lambda at: abs(rows[at] - y)) + 1


def thumbs_in(small: Sequence[Shape], dark: Sequence[Box]) -> Iterator[tuple[Box, bool]]:
    """Signs of the thumb, an upright oval within a spot; and whether that spot is hollow."""
    light = [shape.box for shape in small if shape.light]
    for oval in light:
        x, _ = oval.middle
        held = [box for box in dark if box.holds(oval.middle) and abs(box.middle[0] - x) < SAME_PT]
        if oval.height > UPRIGHT * oval.width and held and oval.height < max(map(high, held)):
            wide = max(box.width for box in held)
            yield (
                oval,
                any(
                    box.holds(oval.middle) and UPRIGHT * oval.width < box.width < wide
                    for box in light
                ),
            )


def high(box: Box) -> float:
    """How high it is."""
    return box.height


def nut_of(shapes: Sequence[Shape], around: Box) -> float | None:
    """Where the nut stands: a thick line over all strings."""
    found = [
        shape.box.middle[0]
        for shape in shapes
        if shape.stroke > THICK_PT
        and shape.box.height > shape.box.width
        and around.holds(shape.box.middle)
    ]
    return found[0] if found else None


def below_of(last: Run, words: Sequence[Run], gap: float, end: float) -> list[Run]:
    """The words on the line below a chart, which its scale begins; none where there is no scale."""
    near = [
        run
        for run in words
        if last.y - 2 * gap < run.y < last.y - gap / 4 and last.x - 3 * gap < run.x < end + 3 * gap
    ]
    scale = [run for run in near if RATIO.fullmatch(run.text.strip())]
    return [run for run in near if scale and abs(run.y - scale[0].y) < ALIGNED_PT]


def figures_of(below: Sequence[Run]) -> Iterator[str]:
    """The millimetres from the nut and between fingers, from left to right."""
    for run in sorted(below, key=lambda run: run.x):
        said = run.text.removesuffix(UNIT).strip()
        if not RATIO.fullmatch(run.text.strip()) and FIGURES.fullmatch(said):
            yield from said.replace(",", " ").split()
