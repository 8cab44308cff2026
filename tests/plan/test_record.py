"""What became of a printed drill."""

from datetime import date

import pytest

from bookgen.model.drill import Drill
from bookgen.plan.document import Kind
from bookgen.plan.record import Record, Result

DRILL = Drill.parse_key("violin-12-whole-place2-strings4321-stage1-low-same")
TUESDAY = date(2026, 12, 1)


def test_a_result_and_its_day_go_together() -> None:
    whole = Record(3, TUESDAY, DRILL, Kind.NEW, Result.SECURE, TUESDAY)

    assert whole.result is Result.SECURE
    with pytest.raises(ValueError, match=r"No\. 3: a result and its day go together"):
        Record(3, TUESDAY, DRILL, Kind.NEW, Result.SECURE)
    with pytest.raises(ValueError, match=r"No\. 3: a result and its day go together"):
        Record(3, TUESDAY, DRILL, Kind.NEW, None, TUESDAY)
