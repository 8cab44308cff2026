"""A month reaches every position and pair that is asked for, or says what it does not and why."""

import pytest
from msgspec.structs import replace

from bookgen.model.place import place_label
from bookgen.plan.document import Binding
from bookgen.readers.studio.file import parse_studio
from bookgen.tasks.plans import planned
from bookgen.tasks.reach import reach_lines, unreached_in
from bookgen.tasks.span import month_span, span_between
from bookgen.tasks.wish import Asked, Wish, asked_of

MONTH = month_span("2026-12")
ADVANCED = """
[players.Ines]
minutes = 40
positions = [{positions}]
[[players.Ines.known]]
positions = ["1st"]
stage = 5
"""


def asked(*positions: str) -> Asked:
    text = ADVANCED.format(positions=", ".join(f'"{one}"' for one in positions))
    return asked_of(parse_studio(text, "studio.toml").players["Ines"], Wish())


def told(who: Asked) -> tuple[list[str], set[tuple[str, tuple[int, ...]]]]:
    """The lines, and the positions and fingers that the month has."""
    printing = planned(who, MONTH.days(frozenset()), None, Wish())
    found = {
        (place_label(entry.drill, who.instrument), entry.drill.frame.fingers)
        for entry in printing.plan.drills
    }
    missed = unreached_in(who, MONTH, None, printing)
    plan = replace(printing.plan, binding=Binding(book="booklet", unreached=missed))
    return [str(line) for line in reach_lines(plan, MONTH)], found


SEVEN = ("1st", "2nd", "3rd", "4th", "5th", "6th", "7th")
PAIRS = {(1, 2): "1\u20132", (2, 3): "2\u20133", (3, 4): "3\u20134"}


def test_an_advanced_player_is_told_all_that_a_month_does_not_reach() -> None:
    lines, found = told(asked(*SEVEN))
    missing = {(one, pair) for one in SEVEN[1:] for pair in PAIRS} - found

    assert len(found) > 8
    assert bool(missing) == bool(lines)
    for position, pair in missing:
        assert position in lines[0] or " to " in lines[0]
        assert PAIRS[pair] in lines[0]
    if missing:
        assert lines[0].startswith("Ines: not reached in 2026-12, as each hand goes ")
        assert lines[0].endswith(" steps further: plan on, or cover less")


def test_of_what_is_reached_nothing_is_told() -> None:
    lines, found = told(asked("1st", "2nd", "3rd"))

    assert {(one, pair) for one in ("2nd", "3rd") for pair in PAIRS} <= found
    assert lines == []


def test_a_gap_between_positions_is_stepped_over() -> None:
    lines, found = told(asked("1st", "5th"))

    assert {("5th", pair) for pair in PAIRS} & found
    assert not any("nothing leads" in line for line in lines)


UNTIED = """
[players.Ines]
instrument = "cello"
positions = ["1st", "thumb"]
hands = ["34", "t3"]
spacings = ["half", "fourth"]
"""


def test_what_no_change_leads_to_is_told() -> None:
    ines = parse_studio(UNTIED, "studio.toml").players["Ines"]
    lines, _ = told(asked_of(ines, Wish()))

    assert "|".join(lines) == (
        "Ines: nothing leads to thumb\u20133 in thumb position; cover the positions between as well"
    )


@pytest.mark.parametrize("last", [1, 27])
def test_shorter_booklets_promise_nothing(last: int) -> None:
    who = asked("1st", "5th")
    span = span_between(MONTH.first, MONTH.first.replace(day=last))
    printing = planned(who, [MONTH.first], None, Wish())

    assert unreached_in(who, span, None, printing) == ()
