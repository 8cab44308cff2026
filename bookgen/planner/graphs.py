"""Graphs that were asked for before: who plans in the same area meets the same drills."""

from functools import lru_cache

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.weights import Weights
from bookgen.planner.area import Area
from bookgen.planner.graph import Graph

NONE: frozenset[Drill] = frozenset()


@lru_cache(maxsize=8)
def graph_of(
    instrument: Instrument, area: Area, weights: Weights, besides: frozenset[Drill] = NONE
) -> Graph:
    """The graph of an area, with what it has answered; players of one roster often share it.

    A graph answers a question the same whoever asked before.
    """
    return Graph(instrument, area, weights, besides)
