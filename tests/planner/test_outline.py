"""What a drill gets of the day at most."""

from datetime import date

import pytest
from kit.knowing import knowing, short

from bookgen.plan.document import Character, Role
from bookgen.planner.outline import Outline, Pick, most_minutes

MET, UNMET = short("12W2 4321 1"), short("12W2 4321 1 mirror")
KNOWLEDGE = knowing(MET)
DAY = Outline(date(2026, 12, 1), Character.ORDINARY, 10.0, 4.0, 1)
STRANGER = Outline(date(2026, 12, 1), Character.ORDINARY, 10.0, 10.0, 2, stranger=True)


@pytest.mark.parametrize(
    ("role", "most"),
    [
        (Role.START, 4.0),
        (Role.AGAIN, 4.0),
        (Role.STEP_BACK, 4.0),
        (Role.COLD, 2.0),
    ],
)
def test_what_is_known_may_take_twice_its_time(role: Role, most: float) -> None:
    assert most_minutes(Pick(MET, role, 2.0), DAY, KNOWLEDGE) == most


@pytest.mark.parametrize("role", [Role.STEP_BACK, Role.NEW, Role.OTHER_WAY, Role.PASSAGE])
def test_what_was_never_met_keeps_to_its_time(role: Role) -> None:
    assert most_minutes(Pick(UNMET, role, 2.0), DAY, KNOWLEDGE) == 2.0


def test_the_very_first_opening_may_take_longer() -> None:
    assert most_minutes(Pick(UNMET, Role.START, 1.5), DAY, KNOWLEDGE) == 3.0


def test_where_new_drills_may_take_the_whole_day_they_may_take_longer() -> None:
    assert most_minutes(Pick(UNMET, Role.NEW, 2.0), STRANGER, KNOWLEDGE) == 4.0
    assert most_minutes(Pick(UNMET, Role.COLD, 2.0), STRANGER, KNOWLEDGE) == 2.0
