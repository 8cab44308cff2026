"""What a teacher reads of drills that lead to a passage: shifts, one finger, a skipped string."""

import pytest
from kit.faring import DAY, a_standing, played
from kit.shorthand import VIOLIN

from bookgen.model.drill import Drill
from bookgen.plan.document import Link, Role
from bookgen.plan.entry import entry_of
from bookgen.plan.fared import Fared
from bookgen.plan.record import Printed, Record
from bookgen.words.lesson import sections
from bookgen.words.roster import cells
from bookgen.words.speech import ENGLISH

DASH = "\N{EN DASH}"
SHIFT = Drill.parse_key("violin-12-whole-place2to4-strings4321-stage2-low-same")
ALONE = Drill.parse_key("violin-1-place2-strings43-stage3-low-same")
SKIP = Drill.parse_key("violin-12-whole-place2-strings42-stage3-low-same")


@pytest.mark.parametrize(
    ("drill", "shaky", "secure"),
    [
        (
            SHIFT,
            "1 and 2, whole step, 1st to 2nd position, shift on 2nd note",
            ("1 and 2, whole step", "1st to 2nd position", "up to “shift on 2nd note”"),
        ),
        (
            ALONE,
            "finger 1 alone, 1st position, cross on every note",
            ("finger 1 alone", "1st position", "up to “cross on every note”"),
        ),
        (
            SKIP,
            "1 and 2, whole step, 1st position, cross on every note, skip III",
            ("1 and 2, whole step", "1st position", "up to “cross on every note, skip III”"),
        ),
    ],
)
def test_a_lesson_names_them_as_their_blocks_do(
    drill: Drill, shaky: str, secure: tuple[str, ...]
) -> None:
    def of(course: str) -> list[tuple[str, ...]]:
        record = Record(7, drill, (Printed(DAY, Role.PASSAGE),), played(course, DAY))
        parts = [*sections(Fared([record], DAY), VIOLIN, None, None, ENGLISH)]
        return [row for part in parts[1:3] for row in part.rows]

    assert of("-") == [("7", shaky, "not yet 3 Dec")]
    assert of("+") == [(*secure, "7")]


@pytest.mark.parametrize(
    ("drill", "title"),
    [
        (SHIFT, f"1{DASH}2 whole, 1st to 2nd pos., shift on 2nd note"),
        (ALONE, "finger 1 alone, 1st pos., cross on every note"),
        (SKIP, f"1{DASH}2 whole, 1st pos., cross on every note, skip III"),
    ],
)
def test_a_roster_names_them_in_short(drill: Drill, title: str) -> None:
    entry = entry_of(drill, VIOLIN, 7, Link(to=None, changes=None))
    assert cells(a_standing(leads_to=entry), ENGLISH)[-1] == title
