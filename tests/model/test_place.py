"""What the trade calls a place."""

import pytest
from kit.drills import VIOLIN

from bookgen.model.drill import Drill
from bookgen.model.place import place_label


@pytest.mark.published("Grove, A Dictionary of Music and Musicians, 1900, 'Positions'")
@pytest.mark.parametrize(
    ("hand", "position"),
    [
        ("12-whole-place2", "1st"),
        ("12-whole-place5", "3rd"),
        ("23-half-place4", "1st"),
        ("34-whole-place5", "1st"),
        ("12-half-place1", "half"),
    ],
)
def test_a_place_is_called_by_the_position_of_its_lowest_finger(hand: str, position: str) -> None:
    drill = Drill.parse_key(f"violin-{hand}-strings43-stage1-low-same")

    assert place_label(drill, VIOLIN) == position
