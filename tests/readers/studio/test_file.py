"""What the reader of studio.toml accepts, and how it says what it does not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.shorthand import SPECIMEN_KEYS, VIOLA, VIOLIN, specimen

from bookgen.errors import BookgenError
from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Frame, Spacing
from bookgen.readers.studio.area import Cover, Start
from bookgen.readers.studio.file import Player, Studio, parse_studio, plain_player

HARBOUR_LANE = """
name = "Harbour Lane Strings"
paper = "letter"
layout = "ordinary"

[players.Ines]
instrument = "viola"
size = "short"
minutes = 20
practice_days = ["Mon", "Sat"]
positions = ["1st", "3rd"]
pairs = ["23", "34"]
spacings = ["half", "whole"]
fewest_strings = 3
highest_stage = 4
note = "Listen before you move."

[players.Ines.start]
fingers = "34"
spacing = "half"
position = "3rd"
secure_to_stage = 2

[players."Jo 'Bow' Lind"]
size = "3/4"
"""


def read(text: str) -> Studio:
    return parse_studio(text, "studio.toml")


def told(text: str) -> list[str]:
    with pytest.raises(BookgenError) as stopped:
        read(text)
    return str(stopped.value).splitlines()


def test_every_field_is_read() -> None:
    studio = read(HARBOUR_LANE)

    assert (studio.name, studio.paper, studio.layout) == (
        "Harbour Lane Strings",
        "letter",
        "ordinary",
    )
    assert studio.player("Ines", "studio.toml") == Player(
        name="Ines",
        instrument="viola",
        size="short",
        minutes=20,
        practice_days=frozenset({0, 5}),
        note="Listen before you move.",
        cover=Cover(
            positions=("1st", "3rd"),
            pairs=((2, 3), (3, 4)),
            spacings=(Spacing.HALF, Spacing.WHOLE),
            fewest_strings=3,
            highest_stage=4,
            start=Start((3, 4), Spacing.HALF, "3rd", 2),
        ),
    )


def test_all_but_the_name_can_be_left_out() -> None:
    assert read("[players.Jo]").players["Jo"] == plain_player(VIOLIN, "Jo")

    player = read(HARBOUR_LANE).players["Jo 'Bow' Lind"]
    assert (player.instrument, player.size, player.minutes) == ("violin", "3/4", 10)
    assert player.practice_days == frozenset(range(7))
    assert player.note is None


def test_an_empty_file_is_an_empty_studio() -> None:
    assert read("") == Studio()


@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA, *map(specimen, SPECIMEN_KEYS)])
def test_on_every_instrument_a_plain_player_can_begin(instrument: Instrument) -> None:
    player = plain_player(instrument)
    start = player.start(instrument)

    assert start.refusal(instrument) is None
    assert start.frame in player.frames(instrument)
    assert not instrument.stretches(start.frame, start.place)


def test_frames_are_the_pairs_with_the_spacings_that_they_take() -> None:
    text = '[players.Jo]\npairs = ["12", "13"]\nspacings = ["whole", "minor-third"]'

    assert read(text).players["Jo"].frames(VIOLIN) == (
        Frame.pair(1, 2, Spacing.WHOLE),
        Frame.pair(1, 3, Spacing.MINOR_THIRD),
    )


def test_an_unknown_player_is_told_with_the_nearest() -> None:
    with pytest.raises(BookgenError) as stopped:
        read(HARBOUR_LANE).player("Ine", "studio.toml")
    assert str(stopped.value) == "studio.toml: no player 'Ine'; perhaps 'Ines'."


def test_a_name_is_found_however_its_letters_are_composed() -> None:
    written, typed = "Inés", "Ine\u0301s"

    assert read(f'[players."{written}"]').player(typed, "studio.toml").name == written
    assert read(f'[players."{typed}"]').player(written, "studio.toml").name == written


PLAYER = 'studio.toml, player "Ines"'


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (
            "[players.Ines]\nminutes = 0",
            f"{PLAYER}, minutes: 0 is no practice time; give 3 to 120.",
        ),
        ("[players.Ines]\nminuts = 9", f"{PLAYER}, minuts: there is no such key; perhaps minutes."),
        ("player = 3", "studio.toml, player: there is no such key; perhaps players."),
        (
            "players = 3",
            "studio.toml, players: 3 is no table; write a table [players.NAME] for each.",
        ),
        ("[players]\nInes = 3", f"{PLAYER}: 3 is no table; write a table."),
        ('paper = "a3"', "studio.toml, paper: no paper 'a3'; "),
        ("[players.Ines]\nstart = 1", f"{PLAYER}, start: 1 is no table; "),
        ("[players.Ines.start]\nfinger = 1", f"{PLAYER}, start.finger: there is no such key; "),
        (
            '[players.Ines]\ninstrument = "kazoo"',
            f"{PLAYER}, instrument: no instrument 'kazoo'; choose ",
        ),
        ('[players.Ines]\nsize = "9/9"', f"{PLAYER}, size: no violin size '9/9'; choose 4/4, "),
        ('[players.Ines]\npairs = ["14"]', f"{PLAYER}, pairs: no violin finger pair '14'; choose "),
        ('[players." "]', "studio.toml, players: ' ' is no name; give a name."),
        (
            "[players.Ines]\n[players.INES]",
            "studio.toml, players: 'Ines' and 'INES' are the same name; let them differ",
        ),
        ("name = ", "studio.toml: no TOML ("),
    ],
)
def test_what_is_wrong_is_told_with_place_value_and_mend(text: str, line: str) -> None:
    (only,) = told(text)
    assert only.startswith(line)


def test_all_findings_come_at_once() -> None:
    ines = '[players.Ines]\nminutes = 0\nsize = "9/9"\npairs = ["14"]'
    found = told(f"colour = 1\n{ines}\n[players.Jo]\nnote = 3")

    assert [line.split(":")[0] for line in found] == [
        "studio.toml, colour",
        f"{PLAYER}, minutes",
        f"{PLAYER}, size",
        f"{PLAYER}, pairs",
        'studio.toml, player "Jo", note',
    ]


@given(st.text())
def test_no_text_makes_the_reader_stumble(text: str) -> None:
    places = ["studio.toml"]
    try:
        read(text)
    except BookgenError as error:
        places = [str(finding.place) for finding in error.findings]

    assert all(place.startswith("studio.toml") for place in places)


@pytest.mark.parametrize(
    ("line", "good"),
    [
        ("[players.Jürgen]", '[players."Jürgen"]'),
        ("[players.Anna Maria]  # viola", '[players."Anna Maria"]'),
        ("[players.Zoë.start]", '[players."Zoë".start]'),
        ("[[players.O'Hara.passage]]", '[[players."O\'Hara".passage]]'),
    ],
)
def test_a_name_without_its_quotes_is_answered_with_them(line: str, good: str) -> None:
    """TOML 1.0.0, keys: a bare one has only ASCII letters, digits, hyphens and underscores."""
    (said,) = told(f"[players.Jo]\n{line}\n")
    assert said.startswith("studio.toml, line 2: the name ")
    assert said.endswith(f"needs quotes; write {good}.")


def test_large_and_small_letters_are_alike() -> None:
    studio = read('paper = "A4"\n[players.Anna]\ninstrument = "Viola"\n[players."Jürgen"]')
    assert (studio.paper, studio.players["Anna"].instrument) == ("a4", "viola")
    assert studio.player("anna", "studio.toml").name == "Anna"
    assert studio.player("JÜRGEN", "studio.toml").name == "Jürgen"
