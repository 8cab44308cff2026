"""The steps between nodes: looked up, they cost what the table says."""

from itertools import product
from math import inf

import pytest
from kit.fingered import price
from kit.lattices import laid

from bookgen.passage.lattice import NOWHERE, Key, Node
from bookgen.passage.timing import Gap

PLAIN = Gap(1.0, 1.0)


def stopped(place: int) -> Key:
    return (place, False, False, False)


def opened(place: int) -> Key:
    return (place, True, False, False)


@pytest.mark.parametrize("text", ["B4 E5", "A5 B4=1/2", "F4+D5 r G4+E5", "gB4 C5+E5"])
def test_every_step_costs_what_the_slow_way_says(text: str) -> None:
    steps, (first, then) = laid(text)
    events = [first.event, then.event]
    for (one, a), (other, b) in product(
        zip(first.nodes, first.own, strict=True), zip(then.nodes, then.own, strict=True)
    ):
        if other.pose.place or one.place == other.place:
            found = a + steps.step((first, one), (then, other)) + b
            again = a + steps.step((first, one), (then, other)) + b
            slow = price(steps.tariff, events, [one.pose, other.pose])
            assert found == again == pytest.approx(slow)


def test_the_way_is_as_long_up_as_down() -> None:
    steps, _ = laid("B4")

    assert steps.way(stopped(2), stopped(7), PLAIN) == steps.way(stopped(7), stopped(2), PLAIN) > 0
    assert steps.way(stopped(2), stopped(2), PLAIN) == 0


def test_a_hand_that_was_nowhere_comes_for_nothing() -> None:
    steps, _ = laid("B4")

    assert steps.way(opened(NOWHERE), stopped(9), PLAIN) == 0


def test_while_open_strings_sound_the_place_is_kept() -> None:
    steps, _ = laid("B4")

    assert steps.way(stopped(2), opened(2), PLAIN) == 0
    assert steps.way(stopped(2), opened(3), PLAIN) == inf
    assert steps.way(stopped(9), opened(2), PLAIN) == inf


def test_a_held_stop_keeps_finger_and_place() -> None:
    steps, (first, then) = laid("E4:1@III+C5 ~E4+D5")
    held = [
        (one.place, other.place)
        for one, other in product(first.nodes, then.nodes)
        if steps.step((first, one), (then, other)) < inf
    ]

    assert held
    assert all(one == other for one, other in held)
    assert then.ties == ((0, 0),)


def test_nodes_are_bundled_by_all_that_the_way_depends_on() -> None:
    _, (first,) = laid("A5")
    bundle = first.bundle
    members = [index for group in bundle.members.values() for index in group]

    assert sorted(members) == list(range(len(bundle.nodes)))
    assert {key for kind in bundle.kinds for key in kind} == set(bundle.members)
    assert all(
        bundle.nodes[index].key == key for key in bundle.members for index in bundle.members[key]
    )
    assert len({kind[0][1:] for kind in bundle.kinds}) == len(bundle.kinds)


def test_a_node_is_itself_alone() -> None:
    _, (first,) = laid("B4")
    node = first.nodes[0]

    assert node != Node(node.pose, node.place)
