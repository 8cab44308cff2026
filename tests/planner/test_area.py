"""Which drills a sheet may draw on, and which are neighbours."""

from dataclasses import replace

from drills import VIOLIN, entry
from hypothesis import given
from hypothesis import strategies as st

from bookgen.model.dimension import Dimension
from bookgen.model.spacing import Frame, Spacing
from bookgen.planner.area import ordinary_pairs, string_sets
from bookgen.planner.first_sheet import first_area, openings

AREA = first_area(VIOLIN)
OPENINGS = openings(VIOLIN, AREA)


def test_the_violin_has_three_ordinary_pairs_with_two_spacings_each() -> None:
    assert ordinary_pairs(VIOLIN) == tuple(
        Frame.pair(low, low + 1, spacing)
        for low in (1, 2, 3)
        for spacing in (Spacing.HALF, Spacing.WHOLE)
    )


def test_string_sets_run_over_neighbours_from_low_to_high() -> None:
    assert string_sets(VIOLIN, 3) == ((4, 3, 2, 1), (4, 3, 2), (3, 2, 1))


@given(st.sampled_from(OPENINGS))
def test_a_neighbour_differs_in_the_one_dimension_it_names(drill: object) -> None:
    for dimension, other in AREA.neighbours(drill, VIOLIN):  # type: ignore[arg-type]
        assert drill.changes_to(other) == (dimension,)  # type: ignore[attr-defined]
        assert other.refusal(VIOLIN) is None


def test_the_first_stage_leads_to_the_second_only() -> None:
    drill = entry("12-whole-place2-strings4321-stage1-low-same").drill

    stages = [
        other.stage
        for dimension, other in AREA.neighbours(drill, VIOLIN)
        if dimension is Dimension.STAGE
    ]
    assert stages == [2]


def test_a_stretch_and_a_far_place_lie_outside() -> None:
    drill = entry("12-whole-place2-strings4321-stage1-low-same").drill

    assert AREA.holds(drill, VIOLIN)
    assert not AREA.holds(entry("12-whole-place9-strings4321-stage1-low-same").drill, VIOLIN)
    assert not AREA.holds(entry("12-augmented-place2-strings4321-stage1-low-same").drill, VIOLIN)
    assert not replace(AREA, highest_stage=0).holds(drill, VIOLIN)
