"""The columns of a phrase: which nodes stand in them."""

from kit.lattices import laid

from bookgen.passage.lattice import NOWHERE, Column


def columns(text: str) -> list[Column]:
    return laid(text)[1]


def open_places(column: Column) -> list[int]:
    return [node.place for node in column.nodes if not node.pose.place]


def test_at_the_beginning_an_open_string_finds_the_hand_nowhere() -> None:
    assert open_places(columns("D4")[0]) == [NOWHERE]


def test_an_open_string_keeps_the_place_of_the_note_before() -> None:
    first, then = columns("A3:1 D4:0")

    assert {node.place for node in first.nodes} == {2, 3}
    assert open_places(then) == [2, 3]


def test_open_strings_in_a_row_hand_the_place_on() -> None:
    assert open_places(columns("A3:1 D4:0 G3:0")[2]) == [2, 3]


def test_the_same_sound_after_the_same_places_is_laid_once() -> None:
    one, other, _ = columns("B4 B4 B4=1/2")

    assert one.bundle is other.bundle
    assert one.own is other.own


def test_a_longer_open_note_costs_more() -> None:
    short, long = columns("G3 G3=1/2")

    assert short.own[0] < long.own[0]
    assert (short.manner.sings, long.manner.sings) == (False, True)
