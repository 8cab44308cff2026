"""Where another fingering lies elsewhere, and what it saves."""

from dataclasses import replace

from kit.passages import by_hand

from bookgen.model.units import Semitones
from bookgen.plan.passage import Fingering, Hand, Passage
from bookgen.plan.passage_other import instead_of

TEXT = "B4 E5 E5 E5 A4 B4"


def laid(stops: str, places: list[int], text: str = TEXT) -> Fingering:
    best = by_hand(text, stops).best
    hands = [Hand(Semitones(place), ()) if place else None for place in places]
    placed = zip(best.placed, hands, strict=True)
    return replace(best, placed=tuple(replace(one, hand=hand) for one, hand in placed))


def two_ways(text: str = TEXT) -> Passage:
    best = laid("II1 II4 II4 II4 II0 II1", [2, 2, 2, 2, 0, 2], text)
    other = laid("II1 II3 II3 II3 II0 II1", [2, 4, 4, 4, 0, 2], text)
    return replace(by_hand(text, "- " * 6), best=best, other=other)


def test_the_other_way_saves_fourth_fingers_and_costs_shifts() -> None:
    one = two_ways()
    placed = list(one.other.placed) if one.other else []
    placed[1] = replace(placed[1], cost={"shift": 1.2})
    one = replace(one, other=replace(one.other, placed=tuple(placed)) if one.other else None)
    found = instead_of(one)

    assert found is not None
    assert (found.first, found.last) == (1, 3)
    assert (found.saved, found.more) == ({"fourth": 3}, {"shift": 1})


def test_a_long_rest_parts_two_runs() -> None:
    found = instead_of(two_ways("B4 E5 r=1/2 E5 E5 A4 B4"))

    assert found is not None
    assert (found.first, found.last) == (2, 3)


def test_a_way_that_saves_nothing_is_not_shown() -> None:
    one = two_ways()
    assert one.other is not None
    assert instead_of(replace(one, best=one.other, other=one.best)) is None
    assert instead_of(replace(one, other=None)) is None
