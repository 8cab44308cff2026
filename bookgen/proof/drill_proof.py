"""A printed block compared with its drill: its words, and the fingers in its chart."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.errors import Message, told
from bookgen.model.finger import sign_of
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.units import StringNumber
from bookgen.plan.document import DrillEntry
from bookgen.proof import wanted
from bookgen.proof.block import Block
from bookgen.proof.chart import Chart, Spot
from bookgen.proof.printed import bare

MM: Final = 25.4 / 72

OFF_MM: Final = 0.15
"""A finger may lie off its place on paper by that: half the thickness of a ring."""

SIDE_PT: Final = 7.0
"""Two fingers at one place of a string stand beside each other, each so far from it at most."""


@dataclass(frozen=True, slots=True)
class Measure:
    """What charts are measured by: the instrument, and the length of its strings."""

    instrument: Instrument
    string_length_mm: float

    def from_nut(self, semitones: int) -> float:
        """Where a stop lies, in millimetres from the nut (definition of equal temperament)."""
        return self.string_length_mm * (1 - 2 ** (-semitones / 12))


def word_faults(block: Block, said: Sequence[Sequence[str]]) -> Iterator[Message]:
    """Words that are missing from a block.

    said: what it has to say; of each the ways in which it may be said.
    """
    for ways in said:
        if not any(bare(way) in block.words for way in ways):
            yield told("the words {words} are missing", words=repr(ways[0]))


def chart_faults(chart: Chart | None, entry: DrillEntry, measure: Measure) -> Iterator[Message]:
    """Fingers in a chart that are not the drill's, or not where they belong."""
    if chart is None:
        yield told("there is no chart")
        return
    stops = [*wanted.stops_of(entry)]
    found = Counter((spot.string, spot.finger) for spot in chart.spots)
    want = Counter((stop.string, stop.finger) for stop in stops)
    for string, finger in (want - found).elements():
        yield told(
            "the chart is without finger {finger} on string {string}",
            finger=sign_of(finger),
            string=NUMERALS[StringNumber(string)],
        )
    for string, finger in (found - want).elements():
        yield told(
            "the chart has finger {finger} on string {string}, the drill has not",
            finger=sign_of(finger),
            string=NUMERALS[StringNumber(string)],
        )
    if found == want:
        yield from distance_faults(chart, entry, measure)


def distance_faults(chart: Chart, entry: DrillEntry, measure: Measure) -> Iterator[Message]:
    """Distances in a chart that are not the instrument's, and figures that are not the chart's."""
    if chart.per is None:
        yield told("the chart is without its scale")
        return
    shifts = entry.to is not None
    heights = sorted({stop.semitones for stop in wanted.stops_of(entry)})
    for hollow in {spot.hollow for spot in chart.spots}:
        spots = [spot for spot in chart.spots if spot.hollow == hollow]
        yield from spot_faults(spots, entry, chart.per, measure, shifts=shifts)
    if shifts:
        return
    away = [measure.from_nut(height) for height in heights]
    lowest = min(spot.x for spot in chart.spots)
    if chart.nut is not None:
        yield from off((lowest - chart.nut) * MM, away[0] / chart.per, "0", chart.per)
    figures = [f"{high - low:.0f}" for low, high in zip([0.0, *away], away, strict=False)]
    if chart.figures and [*chart.figures] != figures:
        yield told(
            "the figures below the chart are {found}, and should be {wanted}",
            found=" ".join(chart.figures),
            wanted=" ".join(figures),
        )


def spot_faults(
    spots: Sequence[Spot], entry: DrillEntry, per: float, measure: Measure, *, shifts: bool
) -> Iterator[Message]:
    """Fingers that lie too near to the lowest one, or too far from it.

    per: millimetres on the instrument for one on paper; shifts: fingers may share a place.
    """
    paired = [*pairs_of(spots, entry)]
    lowest, height = min(paired, key=lambda pair: (pair[1], pair[0].x))
    for spot, semitones in paired:
        apart = measure.from_nut(semitones) - measure.from_nut(height)
        printed = (spot.x - lowest.x) * MM
        if shifts and abs(printed - apart / per) < 2 * SIDE_PT * MM:
            continue
        yield from off(printed, apart / per, sign_of(spot.finger), per)


def pairs_of(spots: Sequence[Spot], entry: DrillEntry) -> Iterator[tuple[Spot, int]]:
    """Each spot with the height of its stop in semitones.

    A finger that lies on a string twice, before a shift and after it, is the higher one then.
    """
    heights: dict[tuple[int, int], list[int]] = {}
    for stop in sorted(wanted.stops_of(entry), key=lambda stop: stop.semitones):
        heights.setdefault((stop.string, stop.finger), []).append(stop.semitones)
    for spot in sorted(spots, key=lambda spot: spot.x):
        yield spot, heights[spot.string, spot.finger].pop(-1 if spot.hollow else 0)


def off(found: float, want: float, finger: str, per: float) -> Iterator[Message]:
    """That a finger is off its place on paper; lengths in millimetres.

    finger: its figure, or 0 for the nut.
    """
    if abs(found - want) > OFF_MM:
        yield told(
            "finger {finger} of the chart lies {found} mm from its lowest one, not {wanted} mm",
            finger=finger,
            found=f"{found * per:.1f}",
            wanted=f"{want * per:.1f}",
        )
