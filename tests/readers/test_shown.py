"""What a user wrote stands in one short line of a finding, whatever it is."""

from bookgen.errors import told
from bookgen.readers.shown import plain, shown, unknown


def test_names_from_a_file_are_one_short_line() -> None:
    assert plain("Ines") == "Ines"
    assert plain("a\nb") == r"'a\nb'"
    assert len(plain("x" * 500)) < 50
    assert str(shown([1])) == "a list"


def test_an_unknown_name_is_told_with_the_nearest() -> None:
    problem = told("no position {name}", name="'halve'")
    finding = unknown("here", problem, "halve", ("half", "1st"))
    assert str(finding) == "here: no position 'halve'; perhaps half; choose half, 1st."
