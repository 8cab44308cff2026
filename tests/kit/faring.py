"""Players as a teacher looks at them: how they stand, and what is known for a lesson."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from kit.month_plan import a_month
from kit.shorthand import VIOLIN

from bookgen.plan.ahead import Further
from bookgen.plan.document import Role
from bookgen.plan.fared import Fared
from bookgen.plan.record import Played, Printed, Record, Result
from bookgen.words.lesson import Coming, Section, sections
from bookgen.words.roster import Standing
from bookgen.words.speech import Speech

DAY = date(2026, 12, 3)
"""A Thursday."""

SIGNS = {"+": Result.SECURE, "-": Result.NOT_YET}


def fared(*courses: str, day: date = DAY, first: date = date(2026, 11, 2)) -> Fared:
    """A player's drills from No. 1: a sign for each day from the first, `+-` or a blank."""
    drills = [entry.drill for entry in a_month(len(courses) or 1).drills]
    return Fared(
        [
            Record(number, drill, (Printed(first, Role.NEW),), played(course, first))
            for number, (drill, course) in enumerate(zip(drills, courses, strict=False), start=1)
        ],
        day,
    )


def played(course: str, first: date) -> tuple[Played, ...]:
    """The results that a course tells."""
    return tuple(
        Played(first + timedelta(at), SIGNS[sign]) for at, sign in enumerate(course) if sign != " "
    )


def a_standing(name: str = "Ines", **facts: object) -> Standing:
    """A player of whom all is well, but for what is said."""
    usual = Standing(
        name=name,
        day=DAY,
        lesson=None,
        away=None,
        secure=120,
        practised=40,
        new=300,
        printed_to=date(2026, 12, 5),
        logged=date(2026, 11, 30),
        gained=12,
        still_since=None,
        leads_to=a_month(20).drills[14],
    )
    return replace(usual, **facts)  # type: ignore[arg-type]


class LessonFacts:
    """What is known of a player for a lesson."""

    def __init__(self, told: Fared, coming: Coming | None, further: Further | None = None) -> None:
        self.told, self.coming, self.further = told, coming, further

    def sections(self, speech: Speech) -> Sequence[Section]:
        """The parts of the page."""
        return [*sections(self.told, VIOLIN, self.coming, self.further, speech)]


def a_lesson_of(drills: int, coming: Coming | None = None) -> LessonFacts:
    """A player of so many drills, half of them shaky; next is a printed day unless one is given."""
    courses = ["+-+-+-+ -++-"[at % 5 :] if at % 2 else "-+++" for at in range(drills)]
    plan = a_month(drills, days=3)
    items = tuple((item, entry) for _, item, entry in plan.items())
    usual = Coming(DAY, items, is_printed=True, numbers=frozenset(range(1, drills + 1)))
    return LessonFacts(fared(*courses), coming or usual)
