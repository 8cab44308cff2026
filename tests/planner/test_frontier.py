"""What a player could meet next, against sorting every drill of the area."""

from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st
from kit.knowing import LOW, SMALL, day, knowing, pool_of, short, shorts
from kit.planning import area_of
from kit.players import gate_of, next_to
from kit.shorthand import VIOLIN

from bookgen.model.drill import Drill
from bookgen.model.move import moves_of
from bookgen.planner.frontier import Frontier
from bookgen.planner.knowledge import Knowledge, hand_of

POOL = pool_of(SMALL)
GRAPH = knowing(area=SMALL).graph
FEW = settings(max_examples=30)
START = short("12W2 4321 1")
WAYS = shorts("12W2 4321 1 | 12W2 4321 1 mirror | 12W2 4321 1 high | 12W2 4321 1 high mirror")
steps = st.lists(st.integers(0, 10_000), max_size=5)


def gain(knowledge: Knowledge, drill: Drill) -> int:
    return len(moves_of(drill) - knowledge.covered)


def open_to(knowledge: Knowledge) -> list[Drill]:
    """All drills of the area that were never met and may come."""
    secure = knowledge.secure
    return [
        drill
        for drill in POOL
        if drill not in knowledge.met
        and (drill.stage == 1 or gate_of(drill) in secure)
        and any(next_to(drill, other) for other in secure)
    ]


def ranked(knowledge: Knowledge, drills: list[Drill]) -> list[tuple[int, float]]:
    """The most moves first, then the easiest: what ties leave open is left out."""
    return [(-gain(knowledge, drill), GRAPH.difficulty(drill)) for drill in drills]


def check(frontier: Frontier, count: int) -> None:
    """The best of each sort are those that sorting all of them would give."""
    knowledge = frontier.knowledge
    fresh: dict[tuple[float, bool], list[Drill]] = {}
    variants: dict[int, list[Drill]] = {}
    narrower: list[Drill] = []
    for drill in open_to(knowledge):
        if gain(knowledge, drill):
            key = (GRAPH.minutes(drill), hand_of(drill) not in knowledge.hands)
            fresh.setdefault(key, []).append(drill)
        elif frontier.known_wider(drill):
            narrower.append(drill)
        else:
            variants.setdefault(drill.stage, []).append(drill)

    best = [sorted(ranked(knowledge, fresh[key]))[:count] for key in sorted(fresh)]
    assert ranked(knowledge, list(frontier.best_fresh(count))) == [
        one for row in best for one in row
    ]
    for stage in range(1, 4):
        slow = sorted(ranked(knowledge, variants.get(stage, [])))[:count]
        assert ranked(knowledge, frontier.best_variants(stage, count)) == slow
    assert (
        ranked(knowledge, frontier.best_narrower(count))
        == sorted(ranked(knowledge, narrower))[:count]
    )
    for key in [*fresh, (99.0, True)]:
        assert frontier.offers(key[0], new_hand=key[1]) is (key in fresh)


@FEW
@given(steps, st.integers(1, 5))
def test_the_best_are_those_that_sorting_would_give(chosen: list[int], count: int) -> None:
    knowledge = knowing(START, area=SMALL)
    frontier = Frontier(knowledge, Random(0))
    for number, index in enumerate(chosen):
        check(frontier, count)
        offers = open_to(knowledge)
        drill = offers[index % len(offers)]
        knowledge.presume(drill, day(number))
        frontier.open(drill)
    check(frontier, count)


@FEW
@given(steps)
def test_asked_again_it_says_the_same(chosen: list[int]) -> None:
    frontier = Frontier(knowing(*(POOL[index % len(POOL)] for index in chosen)), Random(1))

    for count in (3, 1, 3):
        assert list(frontier.best_fresh(count)) == list(frontier.best_fresh(count))
        assert frontier.best_variants(1, count) == frontier.best_variants(1, count)
        assert frontier.best_bridge() == frontier.best_bridge()


def test_the_seed_breaks_ties() -> None:
    knowledge = knowing(START, area=LOW)
    firsts = {next(Frontier(knowledge, Random(seed)).best_fresh(1)) for seed in range(40)}
    efforts = {ranked(knowledge, [drill])[0] for drill in firsts}

    assert len(efforts) == 1


@FEW
@given(st.lists(st.sampled_from(POOL), min_size=1, max_size=6, unique=True), st.integers(0, 6))
def test_a_bridge_alone_leads_to_the_most_moves(met: list[Drill], before: int) -> None:
    knowledge = knowing(*met[:before], area=SMALL)
    frontier = Frontier(knowledge, Random(0))
    for number, drill in enumerate(met[before:]):
        knowledge.presume(drill, day(number))
        frontier.open(drill)
    joined = {
        other for drill in met for _, other in GRAPH.neighbours(drill) if may_come(other, met)
    }
    beyond = {
        drill: {far for _, far in GRAPH.neighbours(drill) if may_come(far, met)} - joined
        for drill in open_to(knowledge)
        if not gain(knowledge, drill)
    }

    most = max((gain(knowledge, far) for ahead in beyond.values() for far in ahead), default=0)
    found = frontier.best_bridge()
    if found is None:
        assert most == 0
    else:
        drill, far = found
        assert gain(knowledge, far) == most
        assert far in beyond[drill]


def may_come(drill: Drill, secure: list[Drill]) -> bool:
    """The stage before is secure, or there is none."""
    return drill.stage == 1 or gate_of(drill) in secure


def test_what_is_reached_already_needs_no_bridge() -> None:
    area = area_of(VIOLIN, frozenset({"1st", "2nd"}), fewest=4, highest_stage=1)
    knowledge = knowing(*WAYS, area=area)
    there = {drill for drill in pool_of(area) if hand_of(drill) == hand_of(short("12W4 4321 1"))}
    for drill in pool_of(area):
        if drill not in there:
            knowledge.covered |= moves_of(drill)
    frontier = Frontier(knowledge, Random(0))

    assert set(frontier.best_fresh(99)) == there, "a whole step up from what is known"
    assert frontier.best_bridge() is None, "though a half step up leads there, too"


def test_a_later_stage_on_fewer_strings_is_narrower_than_its_first_one() -> None:
    frontier = Frontier(knowing(*WAYS, short("12W2 321 1"), area=LOW), Random(0))

    assert short("12W2 321 2") in frontier.best_narrower(99)
    assert short("12W2 4321 2") in frontier.best_variants(2, 99)


def test_a_crossing_on_fewer_strings_leads_to_nothing_new() -> None:
    wide, narrow = shorts("12W2 4321 1 | 12W2 321 1")  # both turn on I
    frontier = Frontier(knowing(wide, area=LOW), Random(0))

    assert frontier.best_narrower(99) == [narrow]
    assert narrow not in frontier.best_variants(1, 99)
