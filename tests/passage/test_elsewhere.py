"""The next best way that is really different, against every way there is."""

from collections.abc import Sequence
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.fingered import CELLO, INSTRUMENTS, every_way, price
from kit.lattices import affordable, keeps, laid, phrases, ways

from bookgen.passage.cheapest import Way, cost_of, search
from bookgen.passage.elsewhere import Quest, Window, along, choices, differs, elsewhere
from bookgen.passage.lattice import Column
from bookgen.passage.placement import Pose
from bookgen.passage.window import windows_of


def really_different(
    way: Sequence[Pose], best: Way, found: Sequence[Column], windows: Sequence[Window]
) -> bool:
    """The slow twin of the rule: a whole window of other places and other stops."""
    place = 0
    there = []
    for pose, node, column in zip(way, best, found, strict=True):
        place = pose.place or place
        free = all(choices(column, node))
        there.append(free or (place != node.place and pose.stops != node.pose.stops))
    return any(all(there[one.first : one.last + 1]) for one in windows)


@pytest.mark.parametrize("key", INSTRUMENTS)
@settings(max_examples=7)
@given(data=st.data())
def test_no_really_different_way_is_cheaper_than_the_other_one(
    key: str, data: st.DataObject
) -> None:
    instrument = INSTRUMENTS[key]
    steps, found = laid(data.draw(phrases(instrument, 5)), instrument)
    found = affordable(found)
    if not found:
        return
    searched = search(steps, found)
    found = searched.columns
    best = searched.best()
    last = st.integers(0, len(found) - 1)
    some = [Window(index, index) for index in sorted(data.draw(st.sets(last, min_size=1)))]
    windows = data.draw(st.sampled_from([windows_of(found, best, steps), some]))
    other = elsewhere(steps, searched, best, windows)
    events = [column.event for column in found]
    cheapest = min(
        (
            price(steps.tariff, events, way)
            for way in every_way(ways(found))
            if really_different(way, best, found, windows) and keeps(found, way, steps)
        ),
        default=inf,
    )

    assert (inf if other is None else cost_of(steps, found, other)) == pytest.approx(cheapest)


@settings(max_examples=10)
@given(data=st.data())
def test_before_a_window_any_way_may_be_taken(data: st.DataObject) -> None:
    steps, found = laid(data.draw(phrases(CELLO, 6)), CELLO)
    found = affordable(found)
    if not found:
        return
    searched = search(steps, found)
    found = searched.columns
    best = searched.best()
    window = Window(len(found) - 1, len(found) - 1)
    other = elsewhere(steps, searched, best, [window])
    events = [column.event for column in found]
    cheapest = min(
        (
            price(steps.tariff, events, way)
            for way in every_way(ways(found))
            if really_different(way, best, found, [window]) and keeps(found, way, steps)
        ),
        default=inf,
    )

    assert (other is None) == (cheapest == inf)
    if other is None:
        return
    assert cost_of(steps, found, other) == pytest.approx(cheapest)


@pytest.mark.parametrize(
    "text", ["C4 F#5 D6 C6", "C6 B3 G4 B3", "D5 C6 D5 D5", "C5 G5 E4 C5", "A5 A3 E5 E4"]
)
def test_the_way_to_the_window_need_not_be_the_best_one(text: str) -> None:
    steps, found = laid(text)
    searched = search(steps, found)
    best = searched.best()
    quest = Quest(steps, searched, best)
    quest.sweep([Window(3, 3)], along(searched, best))
    behind_the_best = quest.limit
    other = elsewhere(steps, searched, best, [Window(3, 3)])

    assert other is not None
    assert cost_of(steps, found, other) < behind_the_best


def test_a_longer_phrase_is_cut_and_each_window_tried() -> None:
    steps, found = laid("C5 D5 E5 F5 | G5 A5 B5 C6 | C4 B3 A3 B3 | E6 D6 C6 B5")
    searched = search(steps, found)
    best = searched.best()
    windows = windows_of(found, best, steps)
    other = elsewhere(steps, searched, best, windows)
    alone = [elsewhere(steps, searched, best, [window]) for window in windows]

    assert len(windows) > 1
    assert other is not None
    assert cost_of(steps, found, other) == min(
        cost_of(steps, found, way) for way in alone if way is not None
    )


def test_without_a_window_there_is_no_other_way() -> None:
    steps, found = laid("G3:0")
    searched = search(steps, found)

    assert elsewhere(steps, searched, searched.best(), []) is None


def test_a_node_differs_in_place_and_stop() -> None:
    steps, found = laid("E4 F4 G4")
    best = search(steps, found).best()
    node = best[0]
    others = [one for one in found[0].nodes if differs(one, node)]

    assert others
    assert not differs(node, node)
    assert all(one.place != node.place and one.pose.stops != node.pose.stops for one in others)


def test_where_nothing_differs_all_is_free() -> None:
    steps, found = laid("B4:1@II C5 A4:0")
    best = search(steps, found).best()

    assert [all(choices(column, node)) for column, node in zip(found, best, strict=True)] == [
        True, False, True,
    ]  # fmt: skip


def test_the_cost_along_the_best_way_ends_with_all_of_it() -> None:
    steps, found = laid("B4 E6 r C5 F4")
    searched = search(steps, found)
    best = searched.best()
    sums = [min(relaxed.sums) for relaxed in along(searched, best)]

    assert sums == sorted(sums)
    assert sums[-1] == pytest.approx(cost_of(steps, found, best))
