"""Where the same intervals were heard before."""

from drills import entry

from bookgen.planner.echo import Echo, Echoes

BASE = "12-whole-place2-strings4321-stage1-low-mirror"  # fourths up and back


def echoes(*keys: str) -> Echoes:
    found = Echoes()
    for number, key in enumerate(keys, start=1):
        met = entry(key)
        found.add(Echo(number, met.drill, met.position), met.events)
    return found


def found(known: Echoes, key: str) -> int | None:
    echo = known.find(entry(key).drill, entry(key).events)
    return None if echo is None else echo.number


def test_other_fingers_come_before_another_place() -> None:
    known = echoes(
        BASE.replace("12-", "23-").replace("place2", "place4"),
        BASE.replace("place2", "place4"),
        BASE.replace("stage1", "stage2").replace("low", "high"),
    )

    assert found(known, BASE) == 1
    assert found(echoes(BASE.replace("place2", "place4")), BASE) == 1


def test_the_same_hand_and_other_intervals_are_no_echo() -> None:
    assert found(echoes(BASE, BASE.replace("4321", "432")), BASE) is None
    assert found(echoes(BASE.replace("whole", "half")), BASE) is None
    assert found(echoes(BASE.replace("12-", "23-").replace("mirror", "same")), BASE) is None


def test_the_last_one_counts() -> None:
    other = BASE.replace("12-", "23-")

    assert found(echoes(other, other.replace("4321", "432")), BASE) == 2
    third = BASE.replace("12-", "34-").replace("place2", "place5")
    assert found(echoes(other, third, other.replace("4321", "432")), BASE) == 3


def test_crossings_without_one_name_have_no_echo() -> None:
    key = "1234-whole.half.whole-place2-strings4321-stage3-low-mirror"

    assert found(echoes(key.replace("place2", "place4")), key) is None
