"""How a week runs, over every choice of practice days."""

from collections import Counter
from itertools import combinations

import pytest
from kit.knowing import TODAY, WEIGHTS, day

from bookgen.plan.document import Character
from bookgen.planner.rhythm import character_of, minutes_on, new_hands_on, new_minutes_on

SHARES = WEIGHTS.shares
CHOICES = [frozenset(some) for count in range(8) for some in combinations(range(7), count)]
ORDINARY, LIGHT, TEST = Character.ORDINARY, Character.LIGHT, Character.TEST


def week(practice: frozenset[int]) -> dict[int, Character]:
    """The practice days of a week by weekday."""
    return {offset: character_of(day(offset), practice) for offset in sorted(practice)}


def test_the_week_begins_on_a_monday() -> None:
    assert TODAY.weekday() == 0


@pytest.mark.parametrize("practice", CHOICES, ids=lambda days: "".join(map(str, sorted(days))))
def test_one_cold_test_and_one_light_day_where_there_are_days_for_them(
    practice: frozenset[int],
) -> None:
    found = Counter(week(practice).values())

    assert found[TEST] == (len(practice) >= 2)
    assert found[LIGHT] == (len(practice) >= 3)


@pytest.mark.parametrize("practice", [days for days in CHOICES if len(days) >= 3])
def test_the_test_comes_last_and_the_light_day_lies_in_the_middle(practice: frozenset[int]) -> None:
    found = list(week(practice).values())
    before, after = found.index(LIGHT), len(found) - 1 - found.index(LIGHT)

    assert found[-1] is TEST
    assert after - before in {0, 1}


@pytest.mark.parametrize("practice", CHOICES[::9])
def test_every_week_runs_alike_and_free_days_are_ordinary(practice: frozenset[int]) -> None:
    for offset in range(7):
        character = character_of(day(offset), practice)
        assert character is character_of(day(offset + 28), practice)
        assert offset in practice or character is ORDINARY


@pytest.mark.parametrize(
    ("minutes", "light"), [(3, 1.5), (5, 3.0), (10, 6.0), (17, 10.0), (120, 72.0)]
)
def test_a_light_day_has_three_fifths_of_the_minutes_in_halves(minutes: int, light: float) -> None:
    assert minutes_on(LIGHT, minutes, SHARES) == light
    assert minutes_on(ORDINARY, minutes, SHARES) == minutes_on(TEST, minutes, SHARES) == minutes


@pytest.mark.parametrize(
    ("minutes", "new"), [(3, 2.0), (4, 2.0), (5, 2.5), (6, 3.0), (9, 4.5), (10, 5.0), (120, 5.0)]
)
def test_new_drills_take_half_of_a_day_and_five_minutes_at_most(minutes: int, new: float) -> None:
    assert new_minutes_on(ORDINARY, minutes, SHARES) == pytest.approx(new)
    assert new_minutes_on(TEST, minutes, SHARES) == pytest.approx(new)
    assert new_minutes_on(LIGHT, minutes, SHARES) == 0.0


@pytest.mark.parametrize(("minutes", "hands"), [(3, 1), (19, 1), (20, 2), (120, 2)])
def test_a_second_new_hand_comes_from_twenty_minutes_on(minutes: int, hands: int) -> None:
    assert new_hands_on(minutes) == hands
