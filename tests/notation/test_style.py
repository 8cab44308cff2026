"""What a style refuses."""

import pytest

from bookgen.notation.style import Style

FILES = ("/fonts/Text-Regular.ttf",)


def test_an_ordinary_style_is_taken() -> None:
    style = Style(178.0, 7.5, "PT Serif", FILES)

    assert style.intervals


@pytest.mark.parametrize(
    ("line", "staff", "family", "files", "problem"),
    [
        (0.0, 7.5, "Text", FILES, "line of music of 0.0 mm"),
        (float("nan"), 7.5, "Text", FILES, "line of music of nan mm"),
        (178.0, 75.0, "Text", FILES, "staff of 75.0 mm"),
        (178.0, 7.5, "", FILES, "no font family"),
        (178.0, 7.5, 'Text" #(system "id") "', FILES, "no font family"),
        (178.0, 7.5, "Text\\include", FILES, "no font family"),
        (178.0, 7.5, "Text\n", FILES, "no font family"),
        (178.0, 7.5, "Text", ('face.t"f',), "no font file"),
    ],
)
def test_a_style_refuses(
    line: float, staff: float, family: str, files: tuple[str, ...], problem: str
) -> None:
    with pytest.raises(ValueError, match=problem):
        Style(line, staff, family, files)
