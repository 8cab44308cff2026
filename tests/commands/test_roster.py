"""Who plays in the working folder."""

from pathlib import Path

import pytest

from bookgen.commands.roster import (
    NO_STUDIO,
    NOBODY,
    chosen_player,
    instrument_of,
    minutes_of_day,
    player_of,
    read_studio,
    size_of,
)
from bookgen.errors import BookgenError
from bookgen.readers.instrument import read_instrument
from bookgen.readers.studio import plain_player


def write(text: str) -> None:
    Path("studio.toml").write_text(text, encoding="utf-8")


def test_without_a_file_anyone_may_play() -> None:
    studio = read_studio()

    assert studio is NO_STUDIO
    assert player_of(studio, None) is NOBODY
    assert chosen_player(studio, None) is NOBODY
    assert player_of(studio, "Ines").cover == NOBODY.cover


def test_with_a_roster_only_those_on_it_play() -> None:
    write("\ufeff[players.Ines]\nminutes = 20")
    studio = read_studio()

    assert player_of(studio, "Ines").minutes == 20
    assert chosen_player(studio, None).name == "Ines"
    with pytest.raises(BookgenError, match="no player 'Inez'; perhaps 'Ines'"):
        player_of(studio, "Inez")


def test_of_several_players_one_is_named() -> None:
    write("[players.Ines]\n[players.Jo]")

    with pytest.raises(BookgenError, match="2 players are on the roster; name one of Ines, Jo"):
        chosen_player(read_studio(), None)


@pytest.mark.parametrize("name", ["", "  ", "bad\udcff"])
def test_what_is_no_name_is_told(name: str) -> None:
    with pytest.raises(BookgenError, match="the name is empty or no text in UTF-8"):
        player_of(NO_STUDIO, name)


def test_a_file_that_is_no_text_is_told() -> None:
    Path("studio.toml").write_bytes(b"\xff")
    with pytest.raises(BookgenError, match=r"studio\.toml: cannot be read"):
        read_studio()


def test_the_command_line_goes_before_the_player() -> None:
    player = plain_player(read_instrument("viola"), "Ines")

    assert instrument_of(None, player).key == "viola"
    assert instrument_of("violin", player).key == "violin"
    assert size_of(read_instrument("viola"), None, player) == "4/4"
    assert size_of(read_instrument("viola"), "short", player) == "short"
    assert minutes_of_day(None, player) == 10
    assert minutes_of_day("25", player) == 25


def test_nobody_plays_what_a_violin_has() -> None:
    violin = read_instrument("violin")
    assert NOBODY.start(violin).refusal(violin) is None
    assert len(NOBODY.frames(violin)) == 6
