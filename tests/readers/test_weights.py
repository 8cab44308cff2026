"""The planner's numbers from their file."""

from importlib import resources

import pytest

from bookgen.errors import BookgenError
from bookgen.model.spacing import Spacing
from bookgen.readers.weights import parse_weights, read_weights
from bookgen.words.speech import ENGLISH

TEXT = (resources.files("bookgen") / "data" / "weights.toml").read_text(encoding="utf-8")


def test_the_file_of_the_package_is_sound_and_read_once() -> None:
    weights = read_weights()

    assert weights is read_weights()
    assert weights.effort.stage[1] == 0.0
    assert weights.effort.fingers.of(1, 2, Spacing.WHOLE) == 0.0
    assert weights.shares.test_items == 4


def test_every_number_names_where_it_comes_from() -> None:
    lines = [line.strip() for line in (*TEXT.splitlines(), "", "")]
    stages = lines[lines.index("[effort.stage]") :][:6]
    for index, line in enumerate(lines):
        if "=" in line and not line.startswith("#") and line not in stages:
            told = f"{line} {lines[index + 1]} {lines[index + 2]}"
            assert any(
                word in told for word in ("own choice", "common practice", "memory", "rule")
            ), line


@pytest.mark.parametrize(
    ("was", "becomes", "told"),
    [
        ("home = 2.0", "home = -2.0", "effort.place.home: Expected `float` >= 0.0"),
        ("mirror = 0.2", "mirrors = 0.2", "effort.route: it knows no value `mirrors`"),
        ("test_items = 4", "", "shares: it lacks the value `test_items`"),
        ("5 = 3.0", "6 = 3.0", "effort: its stages are 1, 2, 3, 4 and 6, but"),
        ("1-3 =", "1-5 =", "a key of effort.fingers.pairs: Expected `str` matching"),
        ("{ half = 0.2, whole = 0.0", "{ hal = 0.2, whole = 0.0", "effort: 'hal' is no spacing"),
        ("retention = 0.97", "retention = 1.5", "retention: Expected `float` < 1.0"),
        ("retention = 0.97", "retention = ", "weights.toml: "),
    ],
)
def test_damage_is_told_with_its_place_and_mend(was: str, becomes: str, told: str) -> None:
    assert was in TEXT

    with pytest.raises(BookgenError) as caught:
        parse_weights(TEXT.replace(was, becomes, 1), "weights.toml")
    (finding,) = caught.value.findings
    assert told in ENGLISH.line(finding)
    assert ENGLISH.line(finding).startswith("weights.toml")
    assert ENGLISH.line(finding).endswith("mend the file; its comments explain every value.")
