"""Data files of the package."""

import msgspec
import pytest

from bookgen.errors import BookgenError
from bookgen.readers.data_file import data_text, decoded


class Table(msgspec.Struct, forbid_unknown_fields=True):
    """A table with one number."""

    retention: float


def test_a_table_is_read() -> None:
    assert decoded("retention = 0.9", "some.toml", Table).retention == 0.9
    assert "retention" in data_text("weights.toml")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "some.toml: it lacks the value `retention`; mend the file"),
        ("retention = 1.0\nx = 1", "some.toml: it knows no value `x`; mend the file"),
        ("retention = [", "some.toml: "),
    ],
)
def test_what_is_wrong_is_told_in_one_line(text: str, told: str) -> None:
    with pytest.raises(BookgenError) as stopped:
        decoded(text, "some.toml", Table)

    (line,) = str(stopped.value).splitlines()
    assert line.startswith(told)
