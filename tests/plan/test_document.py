"""What a plan adds to a drill."""

import pytest
from drills import entry


@pytest.mark.published("Grove, A Dictionary of Music and Musicians, 1900, 'Positions'")
@pytest.mark.parametrize(
    ("key", "position"),
    [
        ("12-whole-place2-strings43-stage1-low-same", "1st"),
        ("12-whole-place5-strings43-stage1-low-same", "3rd"),
        ("23-half-place4-strings43-stage1-low-same", "1st"),
        ("34-whole-place5-strings43-stage1-low-same", "1st"),
        ("12-half-place1-strings43-stage1-low-same", "half"),
    ],
)
def test_a_place_is_called_by_the_position_of_its_lowest_finger(key: str, position: str) -> None:
    assert entry(key).position == position


def test_a_drill_past_the_fingerboard_is_refused_not_clipped() -> None:
    with pytest.raises(ValueError, match="past the fingerboard's last stop, 24"):
        entry("12-whole-place23-strings43-stage1-low-same")
