"""A page as a picture."""

from io import BytesIO

import pytest
from kit.paper import stand_in
from kit.plates import as_pdf
from PIL import Image

from bookgen.binder.page.picture import png

PDF = as_pdf(stand_in(2, width_mm=150.0))


def test_the_picture_is_as_large_as_the_page_at_its_resolution() -> None:
    one, two = (Image.open(BytesIO(png(PDF, page=1, dpi=dpi))) for dpi in (72, 144))

    assert one.format == "PNG"
    assert two.width == pytest.approx(2 * one.width, abs=2)
    darkest, _ = two.convert("L").getextrema()
    assert darkest == 0


@pytest.mark.parametrize(("page", "dpi"), [(2, 72), (-1, 72), (0, 0)])
def test_what_cannot_be_shown_is_refused(page: int, dpi: int) -> None:
    with pytest.raises(ValueError, match=r"no page|no picture"):
        png(PDF, page=page, dpi=dpi)
