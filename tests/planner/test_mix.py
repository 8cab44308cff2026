"""How new drills share their minutes, against every subset of them."""

from collections.abc import Iterator, Sequence
from itertools import chain, combinations

from hypothesis import given
from hypothesis import strategies as st

from bookgen.planner.mix import Room, Sort, best_mix, most_moves

Offer = tuple[Sort, int]

KNOWN = {minutes: Sort(minutes, new_hand=False) for minutes in (1.0, 1.5, 2.0, 2.5)}
NEW = {minutes: Sort(minutes, new_hand=True) for minutes in KNOWN}
sorts = st.sampled_from([*KNOWN.values(), *NEW.values()])
offered = st.lists(st.tuples(sorts, st.integers(1, 14)), max_size=7)
rooms = st.builds(Room, st.sampled_from([-0.5, 0.0, 1.0, 1.5, 3.0, 4.5, 5.0]), st.integers(-1, 3))


def subsets(offers: Sequence[Offer]) -> Iterator[tuple[Offer, ...]]:
    """Every choice of drills."""
    return chain.from_iterable(combinations(offers, count) for count in range(len(offers) + 1))


def moves(mix: Sequence[Offer]) -> int:
    """What the drills bring, as if no two shared a move."""
    return sum(gain for _, gain in mix)


def fits(mix: Sequence[Offer], room: Room) -> bool:
    """Minutes and new hands are within the room."""
    minutes = sum(sort.minutes for sort, _ in mix)
    hands = sum(sort.new_hand for sort, _ in mix)
    return not mix or (minutes <= room.minutes and hands <= max(room.hands, 0))


@given(offered, rooms)
def test_no_subset_brings_more(offers: list[Offer], room: Room) -> None:
    kinds = sorted({sort for sort, _ in offers})
    gains = [sorted((gain for one, gain in offers if one == kind), reverse=True) for kind in kinds]
    total, counts = most_moves(kinds, gains, room)
    mix = [
        (kind, gain)
        for kind, falling, count in zip(kinds, gains, counts, strict=True)
        for gain in falling[:count]
    ]

    assert total == moves(mix) == max(moves(one) for one in subsets(offers) if fits(one, room))
    assert fits(mix, room)


@given(offered, rooms)
def test_the_first_is_the_best_of_a_best_mix(offers: list[Offer], room: Room) -> None:
    fitting = [mix for mix in subsets(offers) if fits(mix, room)]
    most = max(map(moves, fitting))
    first = best_mix(offers, room)

    if first is None:
        assert most == 0
    else:
        best = [mix for mix in fitting if moves(mix) == most and first in mix]
        assert any(first[1] == max(gain for _, gain in mix) for mix in best)


def test_two_short_ones_may_bring_more_than_a_long_one() -> None:
    offers = [(KNOWN[2.0], 9), (KNOWN[1.5], 6), (KNOWN[1.5], 5)]

    assert best_mix(offers, Room(3.0, 0)) == (KNOWN[1.5], 6)
    assert best_mix(offers, Room(2.5, 0)) == (KNOWN[2.0], 9)


def test_new_hands_keep_to_their_number() -> None:
    offers = [(NEW[2.0], 14), (NEW[2.0], 14), (KNOWN[2.0], 3)]

    assert most_moves(sorted({*NEW.values()}), [[], [], [14, 14], []], Room(4.0, 1))[0] == 14
    assert best_mix(offers, Room(4.0, 1)) == (NEW[2.0], 14)
    assert best_mix(offers, Room(4.0, 0)) == (KNOWN[2.0], 3)


def test_where_nothing_fits_nothing_is_taken() -> None:
    assert best_mix([], Room(5.0, 2)) is None
    assert best_mix([(KNOWN[2.0], 9)], Room(1.5, 2)) is None
