"""Pages are as few as can be, then as even as can be; nothing is lost, cut or turned round."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations, pairwise
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookgen.binder.page.flow import (
    EVEN,
    FULL,
    Costs,
    Opens,
    Page,
    Piece,
    Room,
    flow,
)
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.piece import CHAPTER
from bookgen.binder.page.stack import LEVEL_MM

A4 = Room(columns=2, width=89.0, gap=8.0, height=100.0)
NARROW = Room(columns=1, width=89.0, gap=8.0, height=100.0)


def nothing(*_: object) -> tuple[()]:
    return ()


def heights(*each: float, above: float = 0.0) -> list[Piece]:
    return [Piece(height, nothing, above=above, called=f"{height}") for height in each]


def counts(pages: Sequence[Page]) -> list[list[int]]:
    return [[len(column) for column in page.columns] for page in pages]


@st.composite
def stacks(draw: st.DrawFn) -> list[Piece]:
    amount = draw(st.integers(1, 8))
    return [
        Piece(
            draw(st.sampled_from((20.0, 30.0, 45.0, 70.0))),
            nothing,
            above=draw(st.sampled_from((0.0, 5.0))),
            keeps=draw(st.integers(0, 3)) == 0,
            opens=draw(st.sampled_from((*[Opens.NOTHING] * 5, Opens.COLUMN))),
            most_extra=draw(st.sampled_from((0.0, 8.0))),
            tied=draw(st.sampled_from((0.0, 0.4))),
        )
        for _ in range(amount)
    ]


rooms = st.builds(
    Room, st.integers(1, 3), st.just(89.0), st.just(8.0), st.sampled_from((100.0, 130.0, 180.0))
)


def used(pieces: Sequence[Piece]) -> float:
    return sum(p.height for p in pieces) + sum(p.above for p in pieces[1:])


def all_ways(pieces: Sequence[Piece], room: Room) -> Iterator[list[Sequence[Piece]]]:
    """Every way to cut a stack into columns that fit, with nothing torn apart that keeps."""
    torn = kept_chains(pieces, room.height)
    for columns in range(1, len(pieces) + 1):
        for cuts in combinations(range(1, len(pieces)), columns - 1):
            opened = {i for i, p in enumerate(pieces) if i and p.opens is Opens.COLUMN}
            if torn & set(cuts) or opened - set(cuts):
                continue
            edges = [0, *cuts, len(pieces)]
            way = [pieces[a:b] for a, b in pairwise(edges)]
            if all(used(column) <= room.height for column in way):
                yield way


def kept_chains(pieces: Sequence[Piece], height: float) -> set[int]:
    torn: set[int] = set()
    chain = [pieces[0]]
    for index, piece in enumerate(pieces[1:], start=1):
        if chain[-1].keeps and piece.opens is Opens.NOTHING and used([*chain, piece]) <= height:
            torn.add(index)
            chain.append(piece)
        else:
            chain = [piece]
    return torn


def price(
    way: Sequence[Sequence[Piece]], room: Room, costs: Costs, first: int
) -> tuple[int, float]:
    """The pages where the fewest are wanted, and all else that a way costs."""
    pages = -(-len(way) // room.columns)
    right = sum((first + page) % 2 == 0 for page in range(pages))
    blank = pages * room.columns - len(way)
    total = costs.even * costs.end * blank
    for number, column in enumerate(way):
        last = costs.end if number == len(way) - 1 else 1.0
        total += costs.even * last * (1 - used(column) / room.height) ** 2
        if number % room.columns:
            total += costs.column * column[0].tied
        elif number:
            turned = (first + number // room.columns) % 2
            total += (costs.turn if turned else costs.page) * column[0].tied
    return (pages, total) if costs.leaf == inf else (0, total + right * costs.leaf)


costs_met = (
    EVEN,
    FULL,
    Costs(end=0.5),
    Costs(2.0, 1.0, 0.3, 1.0, 5.0),
    CHAPTER,
    Costs(0.2, 0.7, 0.1, 0.2, 3.0, leaf=0.3),
)


@settings(max_examples=400)
@given(stacks(), rooms, st.sampled_from(costs_met), st.integers(0, 1))
def test_no_way_of_all_ways_is_better(
    pieces: list[Piece], room: Room, costs: Costs, first: int
) -> None:
    costs = replace(costs, level=False)
    pages = flow(pieces, lambda _: room, costs, first=first)
    found = [[put.piece for put in column] for page in pages for column in page.columns if column]
    best = min(price(way, room, costs, first) for way in all_ways(pieces, room))
    assert price(found, room, costs, first) == pytest.approx(best)


@given(stacks(), rooms)
def test_the_last_page_of_a_chapter_ends_level(pieces: list[Piece], room: Room) -> None:
    pages = flow(pieces, lambda _: room, CHAPTER)
    before = flow(pieces, lambda _: room, replace(CHAPTER, level=False))
    assert pages[:-1] == before[:-1]

    last = pages[-1].pieces
    assert last == before[-1].pieces
    ways = (way for way in all_ways(last, room) if len(way) <= room.columns)
    lowest = min(max(map(used, way)) for way in ways)
    tallest = max(used([put.piece for put in column]) for column in pages[-1].columns)
    assert lowest - 1e-6 <= tallest <= lowest + room.columns * LEVEL_MM


@given(stacks(), rooms)
def test_every_piece_stands_once_in_order_inside_its_column(
    pieces: list[Piece], room: Room
) -> None:
    pages = flow(pieces, lambda _: room)
    assert [id(piece) for page in pages for piece in page.pieces] == [id(p) for p in pieces]
    for page in pages:
        for column in page.columns:
            down = 0.0
            for order, put in enumerate(column):
                assert put.down == pytest.approx(down + put.piece.above * bool(order))
                assert 0.0 <= put.extra <= put.piece.most_extra
                down = put.down + put.piece.height + put.extra
            assert down <= room.height + 1e-6


def test_as_few_pages_as_can_be_then_as_even_as_can_be() -> None:
    assert counts(flow(heights(*[30.0] * 4), lambda _: NARROW)) == [[2], [2]]


def test_a_book_of_words_is_filled_page_after_page() -> None:
    assert counts(flow(heights(*[30.0] * 4), lambda _: NARROW, FULL)) == [[3], [1]]


def test_where_pages_cannot_be_even_the_last_one_has_the_white() -> None:
    assert counts(flow(heights(*[45.0] * 5), lambda _: NARROW, Costs(end=0.5))) == [[2], [2], [1]]
    assert counts(flow(heights(*[19.0] * 7), lambda _: NARROW, Costs(end=0.5))) == [[4], [3]]


def test_columns_of_the_last_page_are_balanced() -> None:
    assert counts(flow(heights(*[20.0] * 4), lambda _: A4)) == [[2, 2]]


def test_spare_room_is_shared_out_up_to_what_each_piece_can_use() -> None:
    pieces = [Piece(30.0, nothing, most_extra=most) for most in (2.0, 50.0, 50.0)]
    (page,) = flow(pieces, lambda _: NARROW)
    assert [put.extra for put in page.columns[0]] == [2.0, 4.0, 4.0]


def test_white_above_falls_away_at_the_top_of_a_column() -> None:
    assert counts(flow(heights(45.0, 45.0, above=10.0), lambda _: NARROW)) == [[2]]
    assert counts(flow(heights(46.0, 45.0, above=10.0), lambda _: NARROW)) == [[1], [1]]


def test_a_heading_goes_with_what_it_heads() -> None:
    heading = Piece(10.0, nothing, keeps=True)
    pages = flow([*heights(60.0, 25.0), heading, *heights(30.0)], lambda _: NARROW, FULL)
    assert counts(pages) == [[2], [2]]


def test_what_keeps_together_but_fits_no_column_is_cut_where_it_must_be() -> None:
    chain = [Piece(40.0, nothing, keeps=True) for _ in range(3)]
    assert counts(flow(chain, lambda _: NARROW)) == [[2], [1]]


def test_a_part_that_opens_a_right_hand_page_leaves_a_blank_page_before_it() -> None:
    part = Piece(50.0, nothing, opens=Opens.RIGHT)
    assert counts(flow([*heights(50.0), part], lambda _: NARROW)) == [[1], [], [1]]
    assert counts(flow([*heights(50.0), part], lambda _: NARROW, first=1)) == [[1], [1]]


def test_a_part_that_opens_a_page_does_not_even_out_what_is_before_it() -> None:
    part = Piece(20.0, nothing, opens=Opens.PAGE)
    assert counts(flow([*heights(20.0, 20.0), part], lambda _: A4)) == [[1, 1], [1, 0]]


def test_a_column_that_must_be_turned_to_costs_what_is_tied() -> None:
    tied = [Piece(25.0, nothing, tied=float(index == 2)) for index in range(4)]
    assert counts(flow(tied, lambda _: Room(1, 89, 8, 80), Costs(turn=0.0))) == [[2], [2]]
    assert counts(flow(tied, lambda _: Room(1, 89, 8, 80), Costs(turn=9.0))) in (
        [[1], [3]],
        [[3], [1]],
    )


def tied_at(amount: int, *places: int) -> list[Piece]:
    return [Piece(45.0, nothing, tied=float(index in places)) for index in range(amount)]


def test_a_leaf_more_is_taken_where_it_saves_more_than_it_costs() -> None:
    pair = tied_at(4, 2)
    assert counts(flow(pair, lambda _: NARROW, Costs(leaf=5.0))) == [[2], [2]]
    assert counts(flow(pair, lambda _: NARROW, Costs(leaf=0.3))) == [[1], [2], [1]]


def test_a_left_hand_page_that_would_be_blank_costs_nothing() -> None:
    pairs = tied_at(6, 2, 4)
    assert counts(flow(pairs, lambda _: NARROW)) == [[2], [2], [2]]
    assert counts(flow(pairs, lambda _: NARROW, Costs(leaf=99.0))) == [[1], [2], [2], [1]]


def test_a_piece_that_fits_none_of_the_pages_left_for_it_is_named() -> None:
    def room(page: int) -> Room:
        return Room(1, 89.0, 8.0, 50.0 if page else 100.0)

    with pytest.raises(NoRoomError) as refused:
        flow(heights(60.0, 60.5), room)
    assert str(refused.value.message) == "60.5 needs 60.5 mm of height; there are 50.0 mm"


def test_the_head_of_a_table_stands_again_in_the_next_column() -> None:
    head = Piece(10.0, nothing, keeps=True)
    rows = [Piece(20.0, nothing, again=head) for _ in range(7)]
    pages = flow([head, *rows], lambda _: NARROW, FULL)
    assert counts(pages) == [[5], [4]]  # ten and four rows; ten again and three rows
    assert pages[1].columns[0][0].piece is head


def test_a_first_page_may_have_less_room() -> None:
    def room(page: int) -> Room:
        return Room(1, 89.0, 8.0, 100.0 if page else 40.0)

    assert counts(flow(heights(60.0, 30.0), room)) == [[0], [2]]


def test_a_piece_higher_than_a_page_is_named() -> None:
    with pytest.raises(NoRoomError) as refused:
        flow(heights(50.0, 101.0), lambda _: NARROW)
    assert str(refused.value.message) == "101.0 needs 101.0 mm of height; there are 100.0 mm"


def test_no_pieces_take_no_page() -> None:
    assert flow([], lambda _: A4) == []


def test_a_thousand_pieces_are_all_placed_once_in_their_order() -> None:
    pieces = heights(*[45.0 + (index * 7 % 11) * 3 for index in range(1000)], above=2.2)
    pages = flow(pieces, lambda _: Room(2, 89.0, 8.0, 262.0))
    placed = [one.piece for page in pages for column in page.columns for one in column]
    assert [id(piece) for piece in placed] == [id(piece) for piece in pieces]
