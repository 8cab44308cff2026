"""The blocks of drills on a page, found by their numbers: words, chart and music of each."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.proof.chart import Chart, charts_of
from bookgen.proof.printed import Page, Run, bare
from bookgen.proof.staff import Music, music_of

LEAST_NUMBER: Final = 0.47
"""A number without room is set smaller, down to that share of its size."""

SAME_PT: Final = 0.1
COLUMN_PT: Final = 60.0
"""Numbers whose left ends are farther apart stand in two columns."""

MOST_RING: Final = 2.5
"""A ring is at most so many times as high as the type in it."""

CHART_PT: Final = 100.0
"""A chart begins so far under its number at most."""

OVER: Final = 0.9
"""From a number's baseline to the top of its block, by the size of the number."""

ANSWER_PT: Final = 30.0
"""From a number down to the ink of its music, at most, where notes stand without a block."""


@dataclass(frozen=True, slots=True)
class Block:
    """A drill as it is printed; words: all of its block, without white space."""

    number: int
    page: Page
    words: str
    chart: Chart | None
    music: Music | None


@dataclass(frozen=True, slots=True)
class Answer:
    """Notes that stand under a number alone."""

    number: int
    page: Page
    music: Music


def blocks_of(page: Page, numbers: frozenset[int], size: float, strings: int) -> list[Block]:
    """The blocks of a page.

    numbers: of the drills; size: in which they are set, in points; strings: of the instrument.
    """
    charts = charts_of(page, strings)
    heads = [*numbers_on(page, numbers, size, charts)]
    return [block_of(run, heads, page, charts) for run in heads]


def numbers_on(
    page: Page, numbers: frozenset[int], size: float, charts: Sequence[Chart]
) -> Iterator[Run]:
    """The numbers that stand over or beside a chart: of each chart the nearest one.

    A number in a ring is that of a hard spot.
    """
    found = [
        run
        for run in page.words
        if run.text.isdecimal()
        and int(run.text) in numbers
        and LEAST_NUMBER * size < run.size < size + SAME_PT
        and not any(chart.box.holds(run.box.middle) for chart in charts)
        and not is_ringed(run, page)
    ]
    for chart in charts:
        near = [
            run
            for run in found
            if chart.box.bottom < run.y < chart.top + CHART_PT
            and run.x < chart.box.left + COLUMN_PT / 4
            and not any(run.x < other.box.left < chart.box.left - COLUMN_PT for other in charts)
        ]
        if near:
            yield min(near, key=lambda run: abs(run.y - chart.top))


def is_ringed(run: Run, page: Page) -> bool:
    """A ring is drawn around a number."""
    return any(
        shape.stroke
        and not shape.dark
        and shape.box.holds(run.box.middle)
        and shape.box.height < MOST_RING * run.size
        and abs(shape.box.width - shape.box.height) < SAME_PT
        for shape in page.shapes
    )


def block_of(number: Run, heads: Sequence[Run], page: Page, charts: Sequence[Chart]) -> Block:
    """The block of a number: all down to the next number, and as far as the next column.

    heads: all numbers of the page.
    """
    top = number.y + OVER * number.size
    columns = [run.x for run in heads if run.x > number.x + COLUMN_PT]
    right = min(columns, default=float("inf")) - 1
    under = [
        run.y + OVER * run.size
        for run in heads
        if abs(run.x - number.x) < COLUMN_PT and run.y < number.y
    ]
    foot = max(under, default=0.0)

    def here(x: float, y: float) -> bool:
        return number.x - 1 < x < right and foot < y < top

    own = [chart for chart in charts if here(chart.box.left + 1, chart.top)]
    music = [at for at, box in enumerate(page.music) if here(box.left + 1, box.middle[1])]
    first = min(music, key=lambda at: -page.music[at].top, default=None)
    return Block(
        number=int(number.text),
        page=page,
        words=bare("".join(run.text for run in page.words if here(run.x, run.y))),
        chart=max(own, key=lambda chart: chart.top, default=None),
        music=None if first is None else music_of(page, first),
    )


def answers_on(page: Page, numbers: frozenset[int]) -> Iterator[Answer]:
    """Notes under a number, on a page on which no drill has its block."""
    heads = [
        run
        for run in page.words
        if run.text.isdecimal() and int(run.text) in numbers and not is_ringed(run, page)
    ]
    for index in range(len(page.music)):
        music = music_of(page, index)
        if music is None:
            continue
        over = [
            run
            for run in heads
            if 0 < run.y - music.box.top < ANSWER_PT and abs(run.x - music.left) < COLUMN_PT / 2
        ]
        if over:
            number = min(over, key=lambda run: run.y)
            yield Answer(int(number.text), page, music)
