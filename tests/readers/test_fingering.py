"""The cost table from its file."""

from importlib import resources

import pytest

from bookgen.errors import BookgenError
from bookgen.readers.fingering import parse_costs, read_costs
from bookgen.words.speech import ENGLISH

TEXT = (resources.files("bookgen") / "data" / "fingering.toml").read_text(encoding="utf-8")


def test_the_file_of_the_package_is_sound_and_read_once() -> None:
    assert read_costs() is read_costs()
    assert read_costs().shift.further == 1.2


def test_every_number_names_where_it_comes_from() -> None:
    costs, _, preferences = TEXT.partition("# `--prefer`")
    lines = [line for line in costs.splitlines() if "=" in line and not line.startswith("#")]

    assert len(lines) == 41
    assert all("own choice" in line or "common practice" in line for line in lines)
    assert "own choice" in preferences.splitlines()[0]


@pytest.mark.parametrize(
    ("was", "becomes", "told"),
    [
        ("half_step = 0.8", "half_step = -1", "shift.half_step: Expected `float` >= 0.0"),
        ("slide = 0.6", "slides = 0.6", "finger: it knows no value `slides`"),
        ("bar = 0.6", "", "sound: it lacks the value `bar`"),
        ("open_string = 0.5", "open_string = 1.5", "cover.open_string: Expected `float` <= 1.0"),
        ("grace = 1.3", "grace = 0.3", "cover.grace: Expected `float` >= 1.0"),
        ("[prefer.low]", "[prefer.lowest]", "Invalid enum value 'lowest'"),
        ("[prefer.few-shifts]\nshift = 3.0", "", "prefer: its preferences"),
        ("place = 6.0", "placing = 6.0", "prefer: low names 'placing'"),
        ("half = 0.4", "half = ", "fingering.toml: "),
    ],
)
def test_damage_is_told_with_its_place_and_mend(was: str, becomes: str, told: str) -> None:
    assert was in TEXT

    with pytest.raises(BookgenError) as caught:
        parse_costs(TEXT.replace(was, becomes, 1), "fingering.toml")
    (finding,) = caught.value.findings
    assert told in ENGLISH.line(finding)
    assert ENGLISH.line(finding).startswith("fingering.toml")
    assert ENGLISH.line(finding).endswith("mend the file; its comments explain every value.")
