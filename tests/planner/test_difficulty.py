"""How hard drills are, judged against each other as a teacher would."""

import pytest
from kit.drills import VIOLIN, entry
from kit.planning import difficulty_parts

from bookgen.model.drill import Drill
from bookgen.planner.difficulty import crossings_of, hand_place
from bookgen.readers.weights import read_weights

EFFORT = read_weights().effort
BASE = "12-whole-place2-strings4321-stage1-low-same"


def drill(key: str) -> Drill:
    return entry(key).drill


def difficulty(key: str) -> float:
    return sum(difficulty_parts(drill(key), VIOLIN).values())


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("easier", "harder"),
    [
        (BASE, BASE.replace("stage1", "stage2")),
        (BASE.replace("stage2", "stage3"), BASE.replace("stage1", "stage4")),
        (BASE.replace("stage1", "stage4"), BASE.replace("stage1", "stage5")),
        (BASE, BASE.replace("whole", "half")),  # fourths before tritones
        (BASE, BASE.replace("12-", "34-").replace("place2", "place5")),  # 1-2 before 3-4
        (BASE, BASE.replace("low", "high")),
        (BASE.replace("4321", "43"), BASE),  # two strings before four
        (BASE, BASE.replace("place2", "place1")),  # 1st before half position
        (BASE, BASE.replace("place2", "place7")),  # 1st before 4th
        (BASE.replace("place2", "place9"), BASE.replace("place2", "place14")),
        (  # high on I before high on IV
            BASE.replace("place2", "place14").replace("4321", "21"),
            BASE.replace("place2", "place14").replace("4321", "43"),
        ),
        (BASE, "12-whole-place4-strings4321-stage1-low-same"),  # A B before B C sharp
        (BASE, BASE.replace("place2", "place2to4")),  # in place before a shift
        (BASE.replace("place2", "place2to4"), BASE.replace("place2", "place2to7")),
        (  # the next string before one that is skipped
            BASE.replace("4321-stage1", "43-stage3"),
            BASE.replace("4321-stage1", "42-stage3"),
        ),
    ],
)
def test_the_easier_one_counts_less(easier: str, harder: str) -> None:
    assert difficulty(easier) < difficulty(harder)


def test_the_parts_add_up_and_are_all_named() -> None:
    parts = difficulty_parts(drill(BASE), VIOLIN)

    assert list(parts) == [
        *("fingers", "place", "shift", "names", "strings"),
        *("crossing", "stage", "skip", "lead", "return"),
    ]
    assert parts["strings"] == 2 * EFFORT.more_strings
    assert parts["place"] == parts["lead"] == parts["return"] == 0.0


@pytest.mark.parametrize(
    ("key", "half_steps"),
    [
        (BASE, {5, 9}),  # fourths up, sixths back
        (BASE.replace("same", "mirror"), {5}),
        (BASE.replace("whole", "half"), {6, 8}),
        (BASE.replace("stage1", "stage3"), {9, 5}),
        ("13-major-third-place2-strings21-stage3-high-same", {3, 11}),
    ],
)
def test_crossings_are_measured_in_half_steps(key: str, half_steps: set[int]) -> None:
    assert set(crossings_of(drill(key), VIOLIN)) == half_steps


@pytest.mark.parametrize(("finger", "place", "at"), [(1, 2, 2.0), (2, 4, 2.5), (3, 5, 2.0)])
def test_the_hand_of_first_position_stands_near_its_home(
    finger: int, place: int, at: float
) -> None:
    assert (
        hand_place(finger, drill(BASE.replace("place2", f"place{place}")).place, VIOLIN.hand) == at
    )
