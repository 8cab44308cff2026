"""The words around a day's drills."""

from dataclasses import replace
from datetime import date

from paper import a_drill, violin

from bookgen.binder.sheet_words import intervals_of, position_order, sheet_words, steps_of
from bookgen.model.position import LetterRule, TableRule
from bookgen.plan.document import Character, Day

DAY = Day(
    date(2026, 12, 5),
    10.0,
    (
        a_drill("12-whole-place2-strings4321-stage1-low-same"),
        a_drill("23-half-place4-strings432-stage2-low-mirror", number=2),
    ),
    Character.TEST,
)


def test_a_day_is_told_with_its_character() -> None:
    found = sheet_words(DAY, (violin(), "4/4"), ("Ines", None), (1, 2), "actual size")

    assert (found.date, found.total) == ("Saturday, 5 December 2026", "4 minutes")
    assert (found.character, found.page, found.pages) == ("test", 1, 2)
    assert found.strings == "all four strings"
    assert found.dashed


def test_the_signs_of_its_staves_are_named() -> None:
    assert steps_of(DAY) == ("half", "whole")
    assert ("P4", "perfect fourth") in intervals_of(DAY)
    only = replace(DAY, drills=DAY.drills[:1])
    assert steps_of(only) == ("whole",)


def test_positions_are_ordered_from_the_nut() -> None:
    letters = LetterRule()
    mixed = ["11th", "2nd", "half", "3rd", "1st"]
    in_order = sorted(mixed, key=lambda label: position_order(label, letters))
    assert in_order == ["half", "1st", "2nd", "3rd", "11th"]
    table = TableRule(("half", "1", "2", "2½"), (0, 1, 2, 3))
    assert position_order("2½", table) == 3
