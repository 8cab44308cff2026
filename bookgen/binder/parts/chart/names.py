"""What stands at the left of a chart: the strings' numerals and names, as wide as a language is."""

from typing import Final

from bookgen.binder.page.block_measures import ChartMeasures
from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.model.instrument import NUMERALS
from bookgen.words.names import open_string

LABEL_GAP: Final = 0.12
"""Beside words in the chart, in millimetres by points of their size."""

NAMES_WHITE_MM: Final = 0.6
"""Between the names and the nut, beside the gap: half of the nut's thickness."""


def names_of(desk: Desk) -> list[tuple[str, str]]:
    """Numeral and name of each string, the highest first."""
    instrument = desk.instrument
    return [
        (NUMERALS[string], open_string(instrument.open_pitch(string), desk.speech))
        for string in reversed(instrument.string_numbers())
    ]


def names_mm(desk: Desk) -> float:
    """Room for the names: what the layout gives, or more where they are longer."""
    measures, fonts = desk.layout.chart, desk.fonts
    bold, plain = Style(Face.BOLD, measures.label_pt), Style(Face.REGULAR, measures.label_pt)
    numerals, names = zip(*names_of(desk), strict=True)
    widest = max(fonts.width(one, bold) for one in numerals)
    widest += max(fonts.width(one, plain) for one in names)
    return max(measures.names_mm, widest + 2 * label_gap(measures) + NAMES_WHITE_MM)


def label_gap(measures: ChartMeasures) -> float:
    """White beside words in the chart, in millimetres."""
    return measures.label_pt * LABEL_GAP
