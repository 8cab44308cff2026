"""What a drill gets of the day at most."""

from datetime import date

import pytest
from planner.knowing import knowing, short

from bookgen.plan.document import Character, Kind
from bookgen.planner.outline import Item, Outline, most_minutes

MET, UNMET = short("12W2 4321 1"), short("12W2 4321 1 mirror")
KNOWLEDGE = knowing(MET)
DAY = Outline(date(2026, 12, 1), Character.ORDINARY, 10.0, 4.0, 1)
STRANGER = Outline(date(2026, 12, 1), Character.ORDINARY, 10.0, 10.0, 2)


@pytest.mark.parametrize(
    ("kind", "most"),
    [
        (Kind.OPENING, 4.0),
        (Kind.REVIEW, 4.0),
        (Kind.LADDER, 4.0),
        (Kind.VARIANT, 4.0),
        (Kind.TEST, 2.0),
        (Kind.NEW, 2.0),
    ],
)
def test_what_is_known_may_take_twice_its_time(kind: Kind, most: float) -> None:
    assert most_minutes(Item(MET, kind, 2.0), DAY, KNOWLEDGE) == most


@pytest.mark.parametrize("kind", [Kind.LADDER, Kind.NEW])
def test_what_was_never_met_keeps_to_its_time(kind: Kind) -> None:
    assert most_minutes(Item(UNMET, kind, 2.0), DAY, KNOWLEDGE) == 2.0


def test_the_very_first_opening_may_take_longer() -> None:
    assert most_minutes(Item(UNMET, Kind.OPENING, 1.5), DAY, KNOWLEDGE) == 3.0


def test_a_variant_has_only_known_moves_and_may_take_longer() -> None:
    assert most_minutes(Item(UNMET, Kind.VARIANT, 1.5), DAY, KNOWLEDGE) == 3.0


def test_where_new_drills_may_take_the_whole_day_they_may_take_longer() -> None:
    assert most_minutes(Item(UNMET, Kind.NEW, 2.0), STRANGER, KNOWLEDGE) == 4.0
    assert most_minutes(Item(UNMET, Kind.TEST, 2.0), STRANGER, KNOWLEDGE) == 2.0
