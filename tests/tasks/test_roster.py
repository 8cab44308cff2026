"""Who plays in the working folder."""

import re
from pathlib import Path

import pytest

from bookgen.errors import BookgenError
from bookgen.readers.instrument import read_instrument
from bookgen.readers.studio.file import plain_player
from bookgen.tasks.roster import (
    NOBODY,
    chosen_player,
    file_stem,
    instrument_of,
    minutes_of_day,
    player_of,
    player_stem,
    size_of,
)
from bookgen.tasks.studio_folder import StudioFolder


def studio(text: str) -> StudioFolder:
    Path("studio.toml").write_text(text, encoding="utf-8")
    return StudioFolder(Path())


def test_without_a_studio_nobody_in_particular_plays(here: Path) -> None:
    folder = StudioFolder(here)

    assert not folder.has_studio
    assert player_of(folder, None) is NOBODY
    assert chosen_player(folder, None) is NOBODY


def test_a_name_that_no_studio_knows_is_no_players(here: Path) -> None:
    expected = (
        "--player: there is no studio here that knows 'Ins'; go to the folder with studio.toml,"
        " write one with `bookgen new-studio`, or leave --player out."
    )
    with pytest.raises(BookgenError) as stopped:
        player_of(StudioFolder(here), "Ins")
    assert str(stopped.value) == expected


def test_with_a_roster_only_those_on_it_play() -> None:
    folder = studio("\ufeff[players.Ines]\nminutes = 20")

    assert player_of(folder, "Ines").minutes == 20
    assert chosen_player(folder, None).name == "Ines"
    with pytest.raises(BookgenError, match="no player 'Inez'; perhaps 'Ines'"):
        player_of(folder, "Inez")


def test_of_several_players_one_is_named() -> None:
    folder = studio("[players.Ines]\n[players.Jo]")

    with pytest.raises(BookgenError, match="2 players are on the roster; name one of Ines, Jo"):
        chosen_player(folder, None)


@pytest.mark.parametrize("name", ["", "  ", "bad\udcff"])
def test_what_is_no_name_is_told(name: str) -> None:
    with pytest.raises(BookgenError, match="the name is empty or no text in UTF-8"):
        player_of(StudioFolder(Path()), name)


def test_a_file_that_is_no_text_is_told() -> None:
    Path("studio.toml").write_bytes(b"\xff")
    with pytest.raises(BookgenError, match=r"studio\.toml: cannot be read"):
        StudioFolder(Path()).has_studio  # noqa: B018  reading it is what fails


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


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("Ines", "ines"),
        ("Jörg & Zoë", "jörg-zoë"),
        ("../../etc/passwd", "etc-passwd"),
        ('"}{#(system "x")\\', "system-x"),
        ("🎻", "player"),
        ("ينس", "ينس"),
        ("x" * 500, "x" * 40),
        ("", "player"),
    ],
)
def test_a_file_name_holds_only_letters_digits_and_hyphens(name: str, stem: str) -> None:
    assert file_stem(name) == stem


ALIKE = ("Anna Maria", "Anna-Maria", "ANNA  MARIA.", "Anna Mária")


def test_players_whose_names_make_one_file_name_get_one_each() -> None:
    folder = studio("\n".join(f'[players."{name}"]' for name in ALIKE))
    stems = [player_stem(player, folder.studio) for player in folder.studio.players.values()]

    assert len(set(stems)) == len(ALIKE)
    assert stems[3] == "anna-mária", "a name of its own stays plain"
    assert all(re.fullmatch("anna-maria-[0-9a-f]{4}", stem) for stem in stems[:3])
    turned = studio("\n".join(f'[players."{name}"]' for name in reversed(ALIKE)))
    again = [player_stem(turned.studio.players[name], turned.studio) for name in ALIKE]
    assert again == stems, "the order of the roster does not matter"


def test_a_file_name_that_another_player_has_is_not_taken() -> None:
    plain = studio('[players."Jo!"]\n[players."Jo?"]')
    mark = player_stem(plain.studio.players["Jo!"], plain.studio)
    folder = studio(f'[players."Jo!"]\n[players."Jo?"]\n[players."{mark}"]')

    stems = {player_stem(player, folder.studio) for player in folder.studio.players.values()}
    assert len(stems) == 3


@pytest.mark.parametrize("names", [("!!!", "???"), ("x" * 50, "x" * 51)])
def test_names_without_letters_and_long_names_are_kept_apart(names: tuple[str, str]) -> None:
    folder = studio("\n".join(f'[players."{name}"]' for name in names))
    one, other = (player_stem(player, folder.studio) for player in folder.studio.players.values())
    assert one != other
