"""One drill alone."""

from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from paper import LADDER, PT_PER_MM, a_plan, stand_in, violin

from bookgen.binder.desk import Options
from bookgen.binder.single import bind_block
from bookgen.readers.layout import read_layout


def test_the_page_is_trimmed_to_the_block() -> None:
    pdf = bind_block(a_plan(LADDER[:1]), violin(), stand_in(1), read_layout("ordinary"), Options())
    document = pypdfium2.PdfDocument(pdf)
    width, height = document[0].get_size()

    assert len(document) == 1
    assert width == pytest.approx((180 + 10) * PT_PER_MM, abs=0.1)
    assert 70 * PT_PER_MM < height < 110 * PT_PER_MM
    assert "Fingers 1 and 2" in document[0].get_textpage().get_text_range()
    with pikepdf.open(BytesIO(pdf)) as book:
        assert str(book.docinfo["/Title"]).startswith("Fingers 1 and 2, a whole step apart")


def test_only_one_drill_is_bound() -> None:
    with pytest.raises(ValueError, match="2 drills planned and 2 engraved"):
        bind_block(a_plan(LADDER[:2]), violin(), stand_in(2), read_layout("ordinary"), Options())
