"""Which drills a player is to cover."""

from dataclasses import replace

import pytest
from kit.drills import VIOLIN, entry
from kit.planning import area_of
from kit.shorthand import strings

from bookgen.planner.area import string_sets

BASE = "12-whole-place2-strings4321-stage1-low-same"
AREA = area_of(VIOLIN, frozenset({"1st", "3rd"}), fewest=3, highest_stage=2)


@pytest.mark.parametrize(
    "key",
    [
        BASE,
        BASE.replace("stage1", "stage2").replace("4321", "432"),
        BASE.replace("place2", "place5").replace("low", "high"),  # 3rd position
        "34-half-place6-strings321-stage1-low-mirror",
    ],
)
def test_what_the_hand_takes_in_the_positions_lies_inside(key: str) -> None:
    assert AREA.holds(entry(key).drill, VIOLIN)


@pytest.mark.parametrize(
    "key",
    [
        BASE.replace("place2", "place4"),  # 2nd position
        BASE.replace("stage1", "stage3"),
        BASE.replace("4321", "43"),
        BASE.replace("whole", "augmented"),  # no such spacing in the area
        "13-minor-third-place2-strings4321-stage1-low-same",
    ],
)
def test_other_places_stages_strings_and_pairs_lie_outside(key: str) -> None:
    assert not AREA.holds(entry(key).drill, VIOLIN)


def test_a_stretch_lies_outside_even_where_its_frame_is_asked_for() -> None:
    stretch = entry(BASE.replace("whole", "augmented")).drill
    asked = replace(AREA, frames=(stretch.frame,))

    assert VIOLIN.refused_place(stretch.frame, stretch.place) is None
    assert not asked.holds(stretch, VIOLIN)


def test_string_sets_run_over_neighbours_the_most_strings_first() -> None:
    assert string_sets(VIOLIN, 3) == (strings("4321"), strings("432"), strings("321"))
    assert string_sets(VIOLIN, 2)[3:] == (strings("43"), strings("32"), strings("21"))
