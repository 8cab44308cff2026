"""Passages of a player in studio.toml."""

from datetime import date

import pytest

from bookgen.errors import BookgenError
from bookgen.model.costs import Preference
from bookgen.readers.studio.file import parse_studio
from bookgen.readers.studio.passages import Piece

PLAYER = 'studio.toml, player "Ines"'


def pieces(text: str) -> tuple[Piece, ...]:
    return parse_studio(f"[players.Ines]\n{text}", "studio.toml").players["Ines"].pieces


def told(text: str) -> list[str]:
    with pytest.raises(BookgenError) as stopped:
        pieces(text)
    return str(stopped.value).splitlines()


def test_a_passage_has_a_file_and_a_day() -> None:
    found = pieces(
        "[[players.Ines.passage]]\n"
        'file = "minuet.musicxml"\nready_by = 2026-12-20\n'
        "[[players.Ines.passage]]\n"
        'file = "air.mxl"\nready_by = 2027-01-10\nbars = "5-8"\npart = "2"\nprefer = "low"\n'
    )

    assert found == (
        Piece("minuet.musicxml", date(2026, 12, 20)),
        Piece("air.mxl", date(2027, 1, 10), ("5", "8"), "2", Preference.LOW),
    )


def test_without_one_there_is_none() -> None:
    assert pieces("minutes = 10") == ()


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("ready_by = 2026-12-20", f"{PLAYER}, passage 1, file: is missing; write file = "),
        ('file = "a.mxl"', f"{PLAYER}, passage 1, ready_by: is missing; write ready_by = "),
        (
            'file = "a.mxl"\nready_by = "Christmas"',
            f"{PLAYER}, passage 1, ready_by: 'Christmas' is no date; write year-month-day",
        ),
        (
            'file = "a.mxl"\nready_by = 2026-12-20\nprefer = "lo"',
            f"{PLAYER}, passage 1, prefer: no preference 'lo'; perhaps low; choose low, ",
        ),
        (
            'file = "a.mxl"\nready_by = 2026-12-20\nbar = "5"',
            f"{PLAYER}, passage 1, bar: there is no such key; perhaps bars.",
        ),
        (
            'file = "a.mxl"\nready_by = 2026-12-20\nbars = "5-6-7"',
            f"{PLAYER}, passage 1, bars: '5-6-7' is no run of bars; ",
        ),
    ],
)
def test_what_is_wrong_is_told_with_player_and_passage(text: str, line: str) -> None:
    (only,) = told(f"[[players.Ines.passage]]\n{text}\n")

    assert only.startswith(line)


def test_a_passage_that_is_no_table_is_told() -> None:
    (only,) = told('passage = ["air.mxl"]')

    assert only.startswith(f"{PLAYER}")
