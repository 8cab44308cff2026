"""What a style refuses."""

import pytest

from bookgen.errors import RefusedError
from bookgen.notation.style import Style

FILES = ("/fonts/Text-Regular.ttf",)


def test_an_ordinary_style_is_taken() -> None:
    style = Style(7.5, "PT Serif", FILES)

    assert style.intervals


@pytest.mark.parametrize(
    ("staff", "family", "files", "refusal"),
    [
        (75.0, "Text", FILES, "style-staff"),
        (0.0, "Text", FILES, "style-staff"),
        (float("nan"), "Text", FILES, "style-staff"),
        (7.5, "", FILES, "style-family"),
        (7.5, 'Text" #(system "id") "', FILES, "style-family"),
        (7.5, "Text\\include", FILES, "style-family"),
        (7.5, "Text\n", FILES, "style-family"),
        (7.5, "Text", ('face.t"f',), "style-font"),
    ],
)
def test_a_style_refuses(staff: float, family: str, files: tuple[str, ...], refusal: str) -> None:
    with pytest.raises(RefusedError, match=refusal):
        Style(staff, family, files)


@pytest.mark.parametrize("size", [float("nan"), float("inf")])
def test_a_size_is_a_number(size: float) -> None:
    with pytest.raises(RefusedError, match="style-size"):
        Style(7.5, "Text", FILES, finger=size)
    with pytest.raises(RefusedError, match="style-size"):
        Style(7.5, "Text", FILES, move_baseline=size)
