"""The cheapest way, against every way there is."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.fingered import INSTRUMENTS, every_way, price
from kit.lattices import affordable, keeps, laid, phrases, ways

from bookgen.model.costs import Preference
from bookgen.passage.cheapest import Way, cost_of, search
from bookgen.passage.lattice import Column, Steps


@pytest.mark.parametrize("key", INSTRUMENTS)
@settings(max_examples=7)
@given(data=st.data())
def test_an_exhaustive_search_finds_nothing_cheaper(key: str, data: st.DataObject) -> None:
    instrument = INSTRUMENTS[key]
    prefer = data.draw(st.sampled_from([None, *Preference]))
    steps, found = laid(data.draw(phrases(instrument, 5)), instrument, prefer)
    found = affordable(found)
    if not found:
        return
    events = [column.event for column in found]
    searched = search(steps, found)
    best = searched.best()
    held = [way for way in every_way(ways(found)) if keeps(found, way, steps)]
    if not held:
        assert searched.broken
        return
    cheapest = min(price(steps.tariff, events, way) for way in held)
    assert not searched.broken

    assert price(steps.tariff, events, [node.pose for node in best]) == pytest.approx(cheapest)
    assert cost_of(steps, found, best) == pytest.approx(cheapest)


@settings(max_examples=10)
@given(
    first=st.sampled_from(["E4+C5", "D4+B4", "G4+E5", "A3+F4"]),
    then=st.sampled_from(["C5", "B4", "D5", "E5"]),
)
def test_tied_ways_are_the_cheapest_of_those_that_hold_the_tie(first: str, then: str) -> None:
    steps, found = laid(f"{first} ~{first.partition('+')[0]}+{then}")
    if not found[1].ties:
        return
    events = [column.event for column in found]
    searched = search(steps, found)
    held = [
        price(steps.tariff, events, way)
        for way in every_way(ways(found))
        if way[0].stops[0] == way[1].stops[0]
        and (
            not way[0].stops[0].finger
            or (
                way[0].place == way[1].place
                and steps.tariff.shape.stays(way[0].stopped, way[1].stopped)
            )
        )
    ]

    assert searched.broken == ([] if held else [1])
    if held:
        assert cost_of(steps, found, searched.best()) == pytest.approx(min(held))


@pytest.mark.parametrize(
    ("free", "kept"),
    [("A4 B4 C#5 D5 E5 F#5 G#5 A5 B5", "A4 [B4 C#5 D5 E5 F#5 G#5 A5 B5]"),
     ("C#5 [B4 A4 G#4 A4 G#4] F#4", "[C#5 B4 A4 G#4 A4 G#4 F#4]")],
)  # fmt: skip
def test_a_group_of_the_players_is_taken_by_one_hand(free: str, kept: str) -> None:
    steps, found = laid(kept)
    searched = search(steps, found)
    places = {node.place for node in searched.best() if node.pose.place}

    assert searched.broken == []
    assert len(places) == 1
    assert cost_of(steps, found, searched.best()) >= cost_of(*best_of(free)) - 1e-9


def best_of(text: str) -> tuple[Steps, list[Column], Way]:
    steps, found = laid(text)
    return steps, found, search(steps, found).best()


def test_a_group_that_no_hand_takes_is_given_up_at_one_step() -> None:
    _, found = laid("[A3 B3 A6 B6]")
    searched = search(*laid("[A3 B3 A6 B6]"))

    assert [column.kept for column in found] == [False, True, True, True]
    assert [column.kept for column in searched.columns] == [False, True, False, True]
    assert searched.broken == [2]


def test_a_tie_keeps_its_stop() -> None:
    steps, found = laid("C5+E5 ~E5+G5")
    first, then = search(steps, found).best()

    assert found[1].ties == ((1, 0),)
    assert first.pose.stops[1] == then.pose.stops[0]


def test_a_tie_that_no_hand_can_hold_is_given_up() -> None:
    steps, found = laid("E4:1@III+C5 ~E4:2@III+C#5")
    searched = search(steps, found)

    assert searched.broken == [1]
    assert searched.columns[1].ties == ()
    assert found[1].ties == ((0, 0),)


def test_the_best_way_goes_on_the_best_from_each_of_its_nodes() -> None:
    steps, found = laid("C5 D5 E5 F5 G5 A5")
    searched = search(steps, found)
    best = searched.best()

    for index, node in enumerate(best):
        assert searched.onwards(index, found[index].nodes.index(node)) == best[index:]
