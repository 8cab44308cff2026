"""The list of layouts."""

from pathlib import Path

from shell import bookgen


def test_each_layout_has_its_line_with_a_folder_to_copy() -> None:
    outcome = bookgen("layouts")

    assert outcome.code == 0
    (line,) = outcome.out.splitlines()
    name, _, rest = line.partition(": ")
    assert name == "ordinary"
    assert (Path(rest.rpartition(", ")[2]) / "layout.toml").is_file()
