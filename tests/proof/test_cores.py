"""Pages of a finished book that several processes look at."""

from io import BytesIO
from operator import attrgetter

import pytest
from reportlab.pdfgen.canvas import Canvas

from bookgen.proof import cores


@pytest.fixture(scope="module")
def seven() -> bytes:
    out = BytesIO()
    canvas = Canvas(out)
    for number in range(1, 8):
        canvas.drawString(100, 100, f"page {number}")
        canvas.showPage()
    canvas.save()
    return out.getvalue()


@pytest.mark.parametrize("processes", [1, 2, 3])
def test_pages_come_in_order_from_however_many_processes(
    seven: bytes, processes: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(cores, "A_SHARE", 1)
    monkeypatch.setattr("os.cpu_count", lambda: processes)

    assert cores.looked_at(seven, attrgetter("text")) == [f"page{number}" for number in range(1, 8)]


def test_what_goes_wrong_in_another_process_is_told(
    seven: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(cores, "A_SHARE", 1)
    monkeypatch.setattr("os.cpu_count", lambda: 2)

    with pytest.raises(AttributeError, match="weight"):
        cores.looked_at(seven, attrgetter("weight"))
