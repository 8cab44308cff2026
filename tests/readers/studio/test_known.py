"""Hands that a player knows at the start, in studio.toml."""

import pytest
from kit.shorthand import VIOLIN

from bookgen.errors import BookgenError
from bookgen.model.spacing import Frame, Spacing
from bookgen.readers.hands import usual_pairs
from bookgen.readers.studio.file import parse_studio
from bookgen.readers.studio.known import KnownHands

PLAYER = 'studio.toml, player "Ines"'


def known(text: str) -> tuple[KnownHands, ...]:
    return parse_studio(f"[players.Ines]\n{text}", "studio.toml").players["Ines"].known


def told(text: str) -> list[str]:
    with pytest.raises(BookgenError) as stopped:
        known(f"[[players.Ines.known]]\n{text}\n")
    return str(stopped.value).splitlines()


def test_what_is_left_out_is_all_that_is_to_be_covered() -> None:
    (found,) = known('positions = ["1st", "3rd"]\n[[players.Ines.known]]\nstage = 3\n')

    assert found.positions == ("1st", "3rd")
    assert {frame.fingers for frame in found.frames} == {(1, 2), (2, 3), (3, 4)}
    assert (found.strings, found.stage) == (None, 3)


def test_several_hands_are_known_each_to_its_stage() -> None:
    found = known(
        "[[players.Ines.known]]\n"
        'positions = ["1st"]\npairs = ["23"]\nspacings = ["half"]\nstage = 5\n'
        "[[players.Ines.known]]\n"
        'positions = ["7th"]\npairs = ["12"]\nstrings = ["II", "I"]\nstage = 1\n'
    )

    assert found[0] == KnownHands(("1st",), (Frame.pair(2, 3, Spacing.HALF),), None, 5)
    assert (found[1].positions, found[1].strings, found[1].stage) == (("7th",), (2, 1), 1)
    assert len(usual_pairs(VIOLIN, ("1st",))) == 3


def test_without_one_nothing_is_known() -> None:
    assert known("minutes = 10") == ()


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ('pairs = ["12"]', "stage: is missing; write stage = 3."),
        ("stage = 6", "stage: 6 is no stage; give 1 to 5."),
        ('stage = 2\npositions = ["frist"]', "positions: no violin position 'frist'; choose half"),
        ('stage = 2\npairs = ["14"]', "pairs: no violin finger pair '14'; "),
        ('stage = 2\nspacings = ["wide"]', "spacings: 'wide' is no spacing; "),
        (
            'stage = 2\nstrings = ["I", "II"]',
            "strings: 'I', 'II' are no neighbouring strings of the violin; write the lowest first",
        ),
        ('stage = 2\nstrings = ["I"]', "strings: a list is no list of strings; write two or more"),
        (
            'stage = 2\npositions = ["half"]\npairs = ["34"]\nspacings = ["minor-third"]',
            "positions: the hand takes none of these pairs in half; choose other fingers",
        ),
        ("stage = 2\nposition = 1", "position: there is no such key; perhaps positions."),
    ],
)
def test_what_is_wrong_is_told_with_file_place_and_mend(text: str, line: str) -> None:
    (only,) = told(text)

    assert only.startswith(f"{PLAYER}, known 1, {line}")
