"""What became of a drill."""

from datetime import date

import pytest

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.plan.document import Role
from bookgen.plan.record import Played, Printed, Record, Result

DRILL = Drill.parse_key("violin-12-whole-place2-strings4321-stage1-low-same")
TUESDAY, LATER = date(2026, 12, 1), date(2026, 12, 3)
PRINTED = (Printed(TUESDAY, Role.NEW), Printed(LATER, Role.AGAIN))
PLAYED = (Played(TUESDAY, Result.NOT_YET), Played(TUESDAY, Result.SECURE))


def test_days_do_not_fall_and_one_day_may_have_two_results() -> None:
    record = Record(3, DRILL, PRINTED, PLAYED)

    assert record.results[-1].result is Result.SECURE
    with pytest.raises(RefusedError, match=r"record-order \(number=3\)"):
        Record(3, DRILL, PRINTED[::-1])
    with pytest.raises(RefusedError, match=r"record-order \(number=3\)"):
        Record(3, DRILL, PRINTED, (Played(LATER, Result.SECURE), *PLAYED))
