"""What could be added to an area of which all is secure."""

from datetime import date, timedelta

import pytest
from kit.knowing import pool_of

from bookgen.plan.ahead import Further
from bookgen.plan.document import Role
from bookgen.plan.record import Played, Printed, Record, Result
from bookgen.planner.month import plan_days
from bookgen.readers.studio.file import parse_studio
from bookgen.tasks.further import coverage_before, further_of, next_step
from bookgen.tasks.wish import Asked, Known, Wish, asked_of

FIRST = date(2026, 12, 1)
DAY = timedelta(days=1)


def asked(text: str) -> Asked:
    return asked_of(parse_studio(f"[players.Jo]\n{text}", "studio.toml").players["Jo"], Wish())


@pytest.mark.parametrize(
    ("text", "more"),
    [
        ("highest_stage = 3", Further(stage=4)),
        ('pairs = ["12"]', Further(fingers=(2, 3))),
        ('pairs = ["12", "34"]', Further(fingers=(2, 3))),
        ('positions = ["1st"]', Further(position="2nd")),
        ('positions = ["half", "3rd"]', Further(position="4th")),
    ],
)
@pytest.mark.published("common practice, no source")
def test_one_thing_more_comes_next(text: str, more: Further) -> None:
    assert next_step(asked(text)) == more


ONE_HAND = 'pairs = ["12"]\nspacings = ["whole"]\nhighest_stage = 3'


@pytest.mark.parametrize(
    ("highest", "result", "found"),
    [
        (3, Result.SECURE, Further(stage=4)),
        (2, Result.SECURE, None),
        (3, Result.NOT_YET, Further(stage=4, secure=False)),
        (2, Result.NOT_YET, None),
    ],
)
def test_only_where_all_was_met_through_the_last_stage(
    highest: int, result: Result, found: Further | None
) -> None:
    who = asked(ONE_HAND)
    played = (Played(FIRST - DAY, result),)
    printed = (Printed(FIRST - DAY, Role.NEW),)
    records = [
        Record(number, drill, printed, played)
        for number, drill in enumerate(pool_of(who.area), start=1)
        if drill.stage <= highest
    ]
    plan = plan_days(who.request(FIRST, Known(records, first_number=1000)), [FIRST])
    standing = coverage_before(records, who, plan, FIRST)

    assert further_of(records, who, standing, FIRST) == found
