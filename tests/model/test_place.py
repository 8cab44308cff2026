"""What the trade calls a place."""

from itertools import product

import pytest
from kit.drills import VIOLA, VIOLIN
from kit.sources import published_rows

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.place import place_label

GROVE = published_rows("positions", "violin")


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


@pytest.mark.published(GROVE.title)
@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA], ids=lambda one: one.key)
@pytest.mark.parametrize("fingers", ["12", "23", "34"])
def test_a_place_has_one_name_on_all_strings_and_in_every_spacing(
    instrument: Instrument, fingers: str
) -> None:
    for place in range(1, 23):
        found = set()
        for spacing, run in product(("half", "whole"), ("43", "32", "21", "432", "321", "4321")):
            hand = f"{instrument.key}-{fingers}-{spacing}-place{place}"
            drill = Drill.parse_key(f"{hand}-strings{run}-stage1-low-same")
            found.add(place_label(drill, instrument))

        assert len(found) == 1, place
        names = {name for name, row in GROVE.values.items() if place in row}
        assert fingers != "12" or not names or found <= names, "one of Grove's names of the place"
