"""The planner's numbers as values."""

from dataclasses import replace

from kit.refusing import refused

from bookgen.model.spacing import Spacing
from bookgen.readers.weights import read_weights

WEIGHTS = read_weights()


def test_what_the_table_does_not_name_is_a_stretch() -> None:
    crossing, fingers = WEIGHTS.effort.crossing, WEIGHTS.effort.fingers

    assert crossing.of(15) == crossing.wider > crossing.of(12)
    assert fingers.of(1, 4, Spacing.HALF) == fingers.otherwise > fingers.of(1, 2, Spacing.HALF)


def test_a_table_without_a_stage_is_refused() -> None:
    with refused(r"its stages are 1 and 2, but"):
        replace(WEIGHTS.effort, stage={1: 0.0, 2: 1.0})
