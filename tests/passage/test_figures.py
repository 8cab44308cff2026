"""Equal figures in the player's groups get equal fingers."""

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.fingered import every_way, price, solved, stops
from kit.lattices import keeps, laid, ways

from bookgen.passage.cheapest import cost_of, search
from bookgen.passage.figures import alike, figures, fingers_in
from bookgen.passage.placement import Pose


def told(text: str) -> list[list[tuple[int, int]]]:
    return figures(laid(text)[1])


def test_a_figure_is_the_same_where_it_moves_by_the_same_letters_in_the_same_rhythm() -> None:
    assert told("[C5 D5 E5] [D5 E5 F#5] [E5 D5 C5]") == [[(0, 2), (3, 5)]]
    assert told("[C5 D5=1/4] [D5=1/4 E5]") == []
    assert told("[C5 D5] [C5 r D5]") == []
    assert told("C5 D5 C5 D5") == []


def fingers(text: str) -> str:
    return " ".join(stop[-1] for stop in stops(solved(text).best).split())


def test_a_sequence_gets_the_same_fingers() -> None:
    free, grouped = "B5 C6 D6 A5 B5 C6 G5 A5 B5", "[B5 C6 D6] [A5 B5 C6] [G5 A5 B5]"

    assert fingers(free) != fingers(grouped)
    assert fingers(grouped) == "2 3 4 2 3 4 2 3 4"


def test_where_no_fingers_go_with_all_they_stay_as_they_are() -> None:
    """Finger 1 is wanted in the one, 2 in the other."""
    assert fingers("[C5:1 D5 E5] [D5:2 E5 F5]") == "1 2 3 2 3 4"


@settings(max_examples=12, deadline=None)
@given(
    first=st.lists(st.sampled_from(["G#3", "A3", "B3", "C4"]), min_size=2, max_size=2),
    between=st.sampled_from(["", "D4:0", "C#4:1"]),
)
def test_of_all_fingers_that_the_figures_have_the_cheapest_are_taken(
    first: list[str], between: str
) -> None:
    figure = f"[{' '.join(first)}]"
    steps, found = laid(f"{figure} {between} {figure}")
    searched = search(steps, found)
    events = [column.event for column in found]
    one, other = (0, 1), (len(found) - 2, len(found) - 1)
    candidates = {fingers_in(searched.best(), run) for run in (one, other)}
    equal = [
        price(steps.tariff, events, way)
        for way in every_way(ways(found))
        if keeps(found, way, steps)
        and (fingers_of(way[:2]) == fingers_of(way[-2:]))
        and fingers_of(way[:2]) in candidates
    ]
    result = alike(steps, searched)

    assert fingers_in(result.best(), one) == fingers_in(result.best(), other)
    assert cost_of(steps, result.columns, result.best()) == pytest.approx(min(equal))


def fingers_of(poses: Sequence[Pose]) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(stop.finger for stop in pose.stops) for pose in poses)
