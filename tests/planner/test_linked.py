"""Ways through drills and their links, beside plain comparisons of every pair."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st
from kit.drills import VIOLIN

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill, Lead
from bookgen.model.route import Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import StringNumber
from bookgen.planner.area import Area
from bookgen.planner.linked import Linked, links_of, way_through
from bookgen.planner.selection import Query, chosen

FRAMES = (
    Frame.pair(1, 2, Spacing.HALF),
    Frame.pair(1, 2, Spacing.WHOLE),
    Frame.pair(2, 3, Spacing.HALF),
    Frame.pair(3, 4, Spacing.WHOLE),
    Frame((1, 2, 3), (Spacing.WHOLE, Spacing.HALF)),
)
RUNS = tuple(tuple(map(StringNumber, run)) for run in ((4, 3, 2, 1), (3, 2)))
QUERY = Query(
    Area(FRAMES, frozenset({"half", "1st", "4th"}), RUNS, 5),
    frozenset({1, 2, 3, 5}),
    frozenset(Lead),
    frozenset(Return),
)
EVERY = [
    *chosen(QUERY, VIOLIN),
    *map(
        Drill.parse_key,
        (
            "violin-1-place2-strings4321-stage3-low-same",
            "violin-12-whole-place2to4-strings4321-stage1-low-same",
        ),
    ),
]
SOME = st.lists(st.sampled_from(EVERY), min_size=1, max_size=25, unique=True)


def effort(drill: Drill) -> float:
    return drill.stage + drill.place / 10


def groups(drills: list[Drill]) -> int:
    """How many groups links fall into, by joining one pair after the other."""
    owner = {drill: drill for drill in drills}

    def top(drill: Drill) -> Drill:
        while owner[drill] != drill:
            drill = owner[drill]
        return drill

    for one, other in combinations(drills, 2):
        if len(one.changes_to(other)) == 1:
            owner[top(one)] = top(other)
    return len({top(drill) for drill in drills})


def jumps(drills: list[Drill]) -> int:
    """Drills that differ in more than one thing from all that come earlier."""
    return sum(
        all(len(before.changes_to(drill)) != 1 for before in drills[:place])
        for place, drill in enumerate(drills)
    )


@given(SOME)
def test_neighbours_are_those_that_a_comparison_of_all_finds(drills: list[Drill]) -> None:
    linked = Linked(drills)
    for drill in drills:
        slow = {other for other in drills if len(drill.changes_to(other)) == 1}
        assert set(linked.of(drill)) == slow


@given(SOME)
def test_a_way_has_all_drills_and_no_jump_too_many(drills: list[Drill]) -> None:
    way = [*way_through(drills, effort)]

    assert sorted(way, key=lambda one: one.key) == sorted(drills, key=lambda one: one.key)
    assert jumps(way) == groups(drills)


@given(SOME)
def test_a_way_hangs_on_the_drills_and_not_on_their_order(drills: list[Drill]) -> None:
    assert [*way_through(drills, effort)] == [*way_through(drills[::-1], effort)]


def test_a_way_puts_no_stage_before_a_lower_one_of_the_same_hand() -> None:
    whole = [*chosen(QUERY, VIOLIN)]
    way = [*way_through(whole, effort)]
    place = {drill: at for at, drill in enumerate(way)}

    for one, other in combinations(whole, 2):
        if one.changes_to(other) == (Dimension.STAGE,):
            low, high = sorted((one, other), key=lambda drill: drill.stage)
            assert place[low] < place[high]


def test_a_way_that_goes_on_begins_at_what_was_there() -> None:
    before, drills = EVERY[:1], EVERY[1:40]
    first = next(iter(way_through(drills, effort, before)))

    assert len(before[0].changes_to(first)) == 1


@given(SOME)
def test_a_link_names_an_earlier_drill_and_what_changes(drills: list[Drill]) -> None:
    numbers = {drill: 3 * place + 1 for place, drill in enumerate(drills)}
    named = {number: drill for drill, number in numbers.items()}
    for drill, link in links_of(numbers).items():
        earlier = [one for one in drills if numbers[one] < numbers[drill]]
        if link.to is None:
            assert all(len(one.changes_to(drill)) != 1 for one in earlier)
            assert link.changes is None
        else:
            assert isinstance(link.to, int)
            assert link.to < numbers[drill]
            assert named[link.to].changes_to(drill) == (link.changes,)


def test_a_thousand_drills_are_linked_in_a_moment() -> None:
    runs = tuple(
        tuple(map(StringNumber, run)) for run in ((4, 3, 2, 1), (4, 3, 2), (3, 2, 1), (3, 2))
    )
    query = Query(
        Area(FRAMES, None, runs, 5), frozenset({1, 3, 4}), frozenset(Lead), frozenset(Return)
    )
    many = [*chosen(query, VIOLIN)][:1000]
    assert len(many) == 1000
    links = links_of({drill: place for place, drill in enumerate(many, start=1)})

    assert sum(link.to is None for link in links.values()) < 10
