"""Wrong values are told in the studio's words, whatever they are."""

from typing import TYPE_CHECKING

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookgen.readers.studio.known import KnownTable
from bookgen.readers.studio.passages import PassageTable
from bookgen.readers.studio.tables import WORDS, PlayerTable, StartTable, StudioTable
from bookgen.readers.table import converted

if TYPE_CHECKING:
    from bookgen.errors import Finding

TABLES = (PlayerTable, StartTable, StudioTable, PassageTable, KnownTable)
VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text()
    | st.sampled_from(["1st", "12"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=4,
)


def read(value: object) -> tuple[PlayerTable, list[str]]:
    findings: list[Finding] = []
    table = converted(value, PlayerTable, "here", findings, words=WORDS)
    return table, [str(finding) for finding in findings]


def test_what_is_good_is_kept_where_other_things_are_wrong() -> None:
    table, told = read({"minutes": 20, "highest_stage": 9, "practice_days": ["Mon", "Moon", "Tue"]})

    assert (table.minutes, table.highest_stage) == (20, 5)
    assert table.practice_days == ("Mon", "Tue")
    assert len(told) == 2


@pytest.mark.parametrize(
    ("key", "value", "line"),
    [
        ("minutes", True, "true is no practice time; give 3 to 120."),
        ("minutes", "ten", "'ten' is no practice time; give 3 to 120."),
        ("minutes", 3.5, "3.5 is no practice time; give 3 to 120."),
        ("positions", [], "an empty list is no list of positions; "),
        ("positions", "1st", "'1st' is no list of positions; "),
        ("pairs", ["12", 12], "12 is no finger pair; "),
        ("pairs", ["21"], "'21' is no finger pair; "),
        ("pairs", ["12\n"], "'12\\n' is no finger pair; "),
        ("spacings", {"a": 1}, "a table is no list of spacings; "),
        ("fewest_strings", 1, "1 is no number of strings; give 2 or more."),
        ("note", "x" * 301, f"'{'x' * 40} …' is no note; write 1 to 300 letters in quotes."),
    ],
)
def test_a_wrong_value_is_told_with_its_mend(key: str, value: object, line: str) -> None:
    _, (told,) = read({key: value})
    assert told.startswith(f"here, {key}: {line}")


def test_every_value_has_words_of_its_own() -> None:
    fields = {name for table in TABLES for name in table.__struct_fields__}
    assert fields == WORDS.keys()


def test_an_unknown_key_is_told_with_the_nearest_or_with_all() -> None:
    assert read({"Minutes": 3})[1] == ["here, Minutes: there is no such key; perhaps minutes."]
    (line,) = read({"zzz": 3})[1]
    assert line.startswith(
        "here, zzz: there is no such key; the keys here are formerly, instrument"
    )


@given(st.dictionaries(st.sampled_from(PlayerTable.__struct_fields__), VALUES) | VALUES)
def test_no_value_makes_the_reader_stumble(value: object) -> None:
    table, told = read(value)

    assert all(line.startswith("here") and "\n" not in line for line in told)
    assert msgspec.convert(msgspec.to_builtins(table), PlayerTable) == table
