"""One step of the search, against the minimum over all pairs of nodes."""

from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.lattices import laid

from bookgen.passage.lattice import Column, Steps
from bookgen.passage.relax import ahead, back

PAIRS = st.sampled_from(
    ["B4 E5", "E5 B4", "A5 G5=1/2", "A5 r E5", "D4 A4", "F4+D5 G4+E5", "C5+E5 ~E5+G5", "D4+A4 E5"]
)
SUMS = st.lists(st.sampled_from([0.0, 0.25, 1.0, 2.5, 7.0, inf]), min_size=200, max_size=200)


def pair(text: str) -> tuple[Steps, Column, Column]:
    """The second and third column of a phrase, so that open strings have places."""
    steps, (_, first, then) = laid(f"B3 {text}")
    return steps, first, then


def matrix(steps: Steps, first: Column, then: Column) -> list[list[float]]:
    return [
        [steps.step((first, one), (then, other)) for other in then.nodes] for one in first.nodes
    ]


@settings(max_examples=40)
@given(text=PAIRS, sums=SUMS)
def test_back_is_the_minimum_over_all_that_follows(text: str, sums: list[float]) -> None:
    steps, first, then = pair(text)
    later = sums[: len(then.nodes)]
    found = back(steps, first, then, later)
    for row, least, through in zip(
        matrix(steps, first, then), found.sums, found.through, strict=True
    ):
        whole = [step + own + rest for step, own, rest in zip(row, then.own, later, strict=True)]
        assert least == pytest.approx(min(whole))
        assert (through == -1) == (least == inf)
        if through >= 0:
            assert whole[through] == pytest.approx(least)


@settings(max_examples=40)
@given(text=PAIRS, sums=SUMS, allowed=st.lists(st.booleans(), min_size=200, max_size=200))
def test_ahead_is_the_minimum_over_all_that_came_before(
    text: str, sums: list[float], allowed: list[bool]
) -> None:
    steps, first, then = pair(text)
    before = sums[: len(first.nodes)]
    found = ahead(steps, first, then, before, allowed[: len(then.nodes)])
    steps_to = zip(*matrix(steps, first, then), strict=True)
    for column, own, free, least, through in zip(
        steps_to, then.own, allowed, found.sums, found.through, strict=False
    ):
        whole = [came + step + own for came, step in zip(before, column, strict=True)]
        assert least == pytest.approx(min(whole) if free else inf)
        if through >= 0:
            assert whole[through] == pytest.approx(least)
