"""What the reader of studio.toml accepts, and how it says what it does not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookgen.errors import BookgenError
from bookgen.readers.studio import Player, parse_studio

HARBOUR_LANE = """
name = "Harbour Lane Strings"
paper = "letter"

[players.Ines]
instrument = "viola"
minutes = 20

[players."Jo 'Bow' Lind"]
size = "3/4"
"""


def test_a_roster_is_read() -> None:
    studio = parse_studio(HARBOUR_LANE, "studio.toml")

    assert studio.name == "Harbour Lane Strings"
    assert studio.paper == "letter"
    assert studio.player("Ines", "studio.toml") == Player("Ines", "viola", None, 20)
    assert studio.players["Jo 'Bow' Lind"] == Player("Jo 'Bow' Lind", "violin", "3/4", 10)


def test_an_unknown_player_is_told_with_the_nearest() -> None:
    studio = parse_studio(HARBOUR_LANE, "studio.toml")

    with pytest.raises(BookgenError) as stopped:
        studio.player("ines", "studio.toml")
    assert str(stopped.value) == "studio.toml: no player 'ines'; perhaps 'Ines'."


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("[players.Ines]\nminutes = 0", 'studio.toml, player "Ines", minutes: Expected `int` >= 3'),
        ("[players.Ines]\ncolour = 1", "unknown field `colour`"),
        ("colour = 1", "studio.toml: Object contains unknown field `colour`"),
        ("name = ", "studio.toml: "),
        ("players = 3", "studio.toml, players: no table"),
    ],
)
def test_what_is_wrong_is_told_with_its_place(text: str, told: str) -> None:
    with pytest.raises(BookgenError) as stopped:
        parse_studio(text, "studio.toml")

    assert told in str(stopped.value)


@given(st.text())
def test_no_text_makes_the_reader_stumble(text: str) -> None:
    told = ["studio.toml"]
    try:
        parse_studio(text, "studio.toml")
    except BookgenError as error:
        told = [finding.place for finding in error.findings]

    assert all(place.startswith("studio.toml") for place in told)
