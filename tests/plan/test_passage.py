"""A fingered passage as plain values: they stay as they are and compare by what they say."""

from dataclasses import FrozenInstanceError

import pytest

from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.plan.passage import Fingering, Group, Hand, Placed

STOP = Stop(StringNumber(2), 1, Semitones(2))


def placed(**parts: float) -> Placed:
    return Placed(0, 0, (STOP,), Hand(Semitones(2), (STOP,)), parts)


def test_a_fingering_says_what_it_costs_by_parts() -> None:
    one, other = placed(shift=1.5), placed(shift=1.5)
    whole = Fingering((one,), (Group("A", 0, 0, Semitones(2), "1st", (STOP,)),), 1.5, ())

    assert one == other
    assert sum(whole.placed[0].cost.values()) == whole.cost
    assert whole.groups[0].stops == (STOP,)


def test_nobody_changes_a_placement() -> None:
    with pytest.raises(FrozenInstanceError):
        placed().bar = 1  # type: ignore[misc]
