"""What layout.toml says of a drill's block: its forms, and the chart in it."""

from enum import StrEnum
from typing import Annotated, Literal

import msgspec

from bookgen.binder.page.measures import Length, Points, Section, Thickness

Width = Annotated[float, msgspec.Meta(ge=20, le=200)]
Share = Annotated[float, msgspec.Meta(ge=0.5, le=2)]
FormName = Literal["half", "full", "row", "long", "low"]
Kind = Literal["book", "sheet", "passage"]
"""Of a book of drills: in the order of their numbers, a day's, or those of a passage."""


class Arrangement(StrEnum):
    """How the parts of a block stand.

    stacked: chart and words beside each other, the music below; beside: a line of words, below it
    chart and music beside each other; first: number and link, below them the chart, then the music.
    """

    STACKED = "stacked"
    BESIDE = "beside"
    FIRST = "first"


class FormMeasures(Section, frozen=True):
    """`[block.half]` and its like: a form in which drills are printed.

    columns: of the page; type_share: times the sizes in `[text]`; box: side of a tick box.
    indent: room for number and boxes, left of all but music that stands below.
    under: where a chart beside its music begins, below the number; None where words begin.
    chart: width of the chart, where the hand has room in it and the form does not give it the line;
        after_chart: white beside it.
    millimetres: they stand below the chart; short_place: positions are abbreviated.
    words_below, music_above: white below a line of words, and above music that stands below.
    """

    columns: Literal[1, 2]
    arrangement: Arrangement
    type_share: Share
    box_mm: Annotated[float, msgspec.Meta(ge=3.5, le=15)]
    indent_mm: Length
    chart_mm: Width
    after_chart_mm: Length
    millimetres: bool
    short_place: bool
    words_below_mm: Length
    music_above_mm: Length
    under_mm: Length | None = None

    @property
    def chart_left(self) -> float:
        """Where a chart beside its music begins."""
        return self.indent_mm if self.under_mm is None else self.under_mm


class FormsByPaper(Section, frozen=True, rename="kebab"):
    """`[block.book]` and its like: the form of drills on each paper."""

    a4: FormName
    a5: FormName
    letter: FormName
    half_letter: FormName


class BlockMeasures(Section, frozen=True):
    """`[block]`: a drill on the page.

    book: in a book of drills in the order of their numbers; sheet: on the sheet of a day; passage:
        those that lead to a passage.
    half, full, row, long, low: the forms; music that has no room beside a chart makes its drill
        `long`, in two columns `half`.
    note, clef: room that a note and the clef take at least, by which lines of music are cut.
    most_note: the most that a note takes, so that few notes do not swim in a wide line.
    blank: length of a blank in which an interval is named; blank_row: from row to row of them.
    frame: thickness of the boxes' lines.
    """

    book: FormsByPaper
    sheet: FormsByPaper
    passage: FormsByPaper
    half: FormMeasures
    full: FormMeasures
    row: FormMeasures
    long: FormMeasures
    low: FormMeasures
    note_mm: Length
    clef_mm: Length
    most_note_mm: Length
    blank_mm: Length
    blank_row_mm: Length
    frame_mm: Thickness

    def form(self, name: FormName) -> FormMeasures:
        """A form by its name."""
        found: FormMeasures = getattr(self, name)
        return found


class ChartMeasures(Section, frozen=True):
    """`[chart]`: the fingerboard to scale.

    string_gap: drawn distance of the strings; spot_radius: of a finger.
    finger, order, label: type of the fingers, of the order of play, of all else.
    names: room for the strings' names; before: from there to the lowest finger, at least.
    tail: from the highest finger to the end of the strings.
    drop: from the lowest string down to the words below the chart.
    """

    string_gap_mm: Length
    spot_radius_mm: Annotated[float, msgspec.Meta(ge=1, le=10)]
    finger_pt: Points
    order_pt: Points
    label_pt: Points
    names_mm: Length
    before_mm: Length
    tail_mm: Length
    drop_mm: Length
