"""What no press prints is told in a line that a user can follow."""

from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest

from bookgen.errors import BookgenError
from bookgen.tasks.pressed import PressWish, press_of
from bookgen.words.speech import ENGLISH

MOMENT = datetime(2026, 12, 1, tzinfo=UTC)


def pages(drawing: bytes, *sizes: tuple[int, int]) -> bytes:
    with pikepdf.new() as book:
        for size in sizes:
            book.add_blank_page(page_size=size).contents_add(drawing)
        out = BytesIO()
        book.save(out)
    return out.getvalue()


@pytest.mark.parametrize(
    ("pdf", "said"),
    [
        (pages(b"1 0 0 rg 0 0 9 9 re f", (99, 99)), "page 1 is drawn in colour (rg), and a press"),
        (pages(b"BI /W 1 /H 1 /CS /G /BPC 8 ID 0 EI", (99, 99)), "page 1 has a picture in dots"),
        (pages(b"", (99, 99), (50, 50)), "page 2 has another size than page 1"),
    ],
)
def test_what_no_press_prints_is_a_line_with_its_mend(pdf: bytes, said: str) -> None:
    with pytest.raises(BookgenError) as raised:
        press_of(Path(), PressWish(MOMENT))(pdf)

    assert raised.value.exit_code == 2
    (finding,) = raised.value.findings
    assert finding.place == "--press"
    assert ENGLISH.line(finding.problem).startswith(said)
    assert ENGLISH.line(finding.mend).startswith("take another layout, or leave --press out")
