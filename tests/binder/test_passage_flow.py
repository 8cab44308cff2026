"""Things of all kinds on their pages."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from booklets import furniture
from hypothesis import given
from hypothesis import strategies as st
from paper import Recorder

from bookgen.binder.canvas import Canvas
from bookgen.binder.layout import NoRoomError
from bookgen.binder.leaf import Mark, Side, side_of
from bookgen.binder.overlay import Placed
from bookgen.binder.passage_flow import Labels, Thing, height_of, leaves_of, paginate

LABELS = Labels("Notes", "Own")


def nothing(canvas: Canvas, side: Side, top: float, pencil: float) -> Iterator[Placed]:
    """Draws a box as a trace of where it stands."""
    canvas.box((side.left, top), (1.0, pencil), width=0.1)
    return iter(())


def thing(height: float, **more: bool) -> Thing:
    return Thing(height, nothing, f"{height:.0f}", above=2.0, **more)  # type: ignore[arg-type]


def heights(pages: list[list[Thing]]) -> list[list[float]]:
    return [[one.height for one in page] for page in pages]


def test_pages_are_filled_in_order() -> None:
    assert heights(paginate([thing(40), thing(50), thing(30)], 100.0, 0.0)) == [[40, 50], [30]]


def test_a_heading_goes_overleaf_with_what_it_heads() -> None:
    found = paginate([thing(60), thing(10, keeps=True), thing(40)], 100.0, 0.0)

    assert heights(found) == [[60], [10, 40]]


def test_a_chain_too_long_for_a_page_is_broken() -> None:
    found = paginate([thing(60, keeps=True), thing(60, keeps=True), thing(20)], 100.0, 0.0)

    assert heights(found) == [[60], [60, 20]]


def test_the_head_of_a_table_stands_again_on_a_new_page() -> None:
    head = thing(10, keeps=True)
    rows = [replace(thing(40), again=head if at else None) for at in range(4)]
    found = paginate([head, *rows], 100.0, 0.0)

    assert heights(found) == [[10, 40, 40], [10, 40, 40]]


def test_the_pencil_keeps_room_beside_drills() -> None:
    things = [thing(49, pencil=True), thing(49, pencil=True)]

    assert heights(paginate(things, 100.0, 0.0)) == [[49, 49]]
    assert heights(paginate(things, 100.0, 5.0)) == [[49], [49]]


def test_what_is_higher_than_a_page_is_refused() -> None:
    with pytest.raises(NoRoomError, match="120 mm do not fit"):
        paginate([thing(50), thing(120)], 100.0, 0.0)


@given(st.lists(st.tuples(st.integers(5, 95), st.booleans(), st.booleans()), max_size=20))
def test_everything_is_there_once_and_no_page_is_too_full(
    given_things: list[tuple[int, bool, bool]],
) -> None:
    things = [thing(high, keeps=keeps, pencil=pencil) for high, keeps, pencil in given_things]
    pages = paginate(things, 100.0, 3.0)

    assert [one for page in pages for one in page] == things
    assert all(height_of(page) <= 100.0 for page in pages)


def drawn(*things: Thing) -> tuple[Recorder, list[float]]:
    """One page: the canvas, and where each thing stands."""
    one = furniture(paper="a4")
    (leaf,) = leaves_of([things], one, LABELS)
    canvas = Recorder()
    list(leaf.draw(canvas, side_of(0, "1", one.desk.sheet)))
    return canvas, [y for _, y in canvas.boxes]


def test_things_stand_below_each_other_with_white_between() -> None:
    _, tops = drawn(thing(40), thing(30))

    assert tops == [furniture(paper="a4").top, furniture(paper="a4").top - 42.0]


def test_what_drills_leave_is_for_the_pencil() -> None:
    plain, _ = drawn(thing(40), thing(30))
    drills, _ = drawn(thing(40, pencil=True))

    assert "Notes" in plain.words
    assert "Own" in drills.words


def test_a_leaf_tells_where_it_is_and_what_the_outline_leads_to() -> None:
    things = [
        replace(thing(40), marks=(Mark("One", 0),)),
        replace(thing(30), marks=(Mark("Two", 1),)),
    ]
    (leaf,) = leaves_of([things], furniture(paper="a4"), LABELS)

    assert leaf.running == "40"
    assert [mark.title for mark in leaf.marks] == ["One", "Two"]
