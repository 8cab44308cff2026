"""Where the same intervals were heard before."""

import pytest
from kit.drills import VIOLIN, entry

from bookgen.model.music import play
from bookgen.planner.echo import Echoes

BASE = "12-whole-place2-strings4321-stage1-low-mirror"  # fourths up and back


def echoes(*keys: str) -> Echoes:
    found = Echoes()
    for key in keys:
        met = entry(key).drill
        found.add(met, play(met, VIOLIN))
    return found


def found(known: Echoes, key: str) -> str | None:
    asked = entry(key).drill
    echo = known.find(asked, play(asked, VIOLIN))
    return None if echo is None else echo.key.removeprefix("violin-")


def test_other_fingers_come_before_another_place() -> None:
    fingers = BASE.replace("12-", "23-").replace("place2", "place4")
    known = echoes(
        fingers,
        BASE.replace("place2", "place4"),
        BASE.replace("stage1", "stage2").replace("low", "high"),
    )

    assert found(known, BASE) == fingers
    assert found(echoes(BASE.replace("place2", "place4")), BASE) == BASE.replace("place2", "place4")


def test_the_same_hand_and_other_intervals_are_no_echo() -> None:
    assert found(echoes(BASE, BASE.replace("4321", "432")), BASE) is None
    assert found(echoes(BASE.replace("whole", "half")), BASE) is None
    assert found(echoes(BASE.replace("12-", "23-").replace("mirror", "same")), BASE) is None


def test_the_last_one_counts() -> None:
    other = BASE.replace("12-", "23-")

    narrower = other.replace("4321", "432")

    assert found(echoes(other, narrower), BASE) == narrower
    third = BASE.replace("12-", "34-").replace("place2", "place5")
    assert found(echoes(other, third, narrower), BASE) == narrower


def test_crossings_without_one_name_have_no_echo() -> None:
    key = "1234-whole.half.whole-place2-strings4321-stage3-low-mirror"

    assert found(echoes(key.replace("place2", "place4")), key) is None


def test_only_the_last_are_remembered_whether_heard_in_one_run_or_in_two(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("bookgen.planner.echo.REMEMBERED", 2)
    higher = BASE.replace("place2", "place4")
    other = BASE.replace("12-whole", "23-half")
    asked = BASE.replace("12-", "23-").replace("place2", "place4")

    assert found(echoes(higher, other), asked) == higher
    assert found(echoes(higher, other, other), asked) == higher, "it counts once"
    assert found(echoes(higher, other, BASE.replace("whole", "half")), asked) is None
