"""Note values, dots, ties within a sound, tuplets, gaps and grace notes of a bar."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.passages import random_phrase

from bookgen.model.phrase import Bar, Sound, WrittenNote
from bookgen.model.pitch import Pitch
from bookgen.notation.rhythm import Span, silent, values, written_bar

A4 = (WrittenNote(Pitch.parse("A4")),)


def bar(lengths: str, length: Fraction | None = None) -> Bar:
    """Read lengths one behind the other: `1/4 r1/8 g`, r for a rest, g for a grace note."""
    sounds: list[Sound] = []
    at = Fraction(0)
    for word in lengths.split():
        if word == "g":
            sounds.append(Sound(at, Fraction(0), A4, grace=True))
            continue
        lasts = Fraction(word.removeprefix("r"))
        sounds.append(Sound(at, lasts, () if word.startswith("r") else A4))
        at += lasts
    return Bar("1", tuple(sounds), at if length is None else length)


def shown(span: Span) -> str:
    """A span as `1/8.+1/32 1/16`, with its ratio where it is a tuplet."""
    words = " ".join(
        "+".join(f"{value.base}{'.' * value.dots}" for value in piece.values)
        for piece in span.pieces
    )
    return words if span.actual == 1 else f"{span.actual}:{span.normal}({words})"


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("lengths", "written"),
    [
        ("1/4 1/8", "1/4 1/8"),
        ("3/8", "1/4."),
        ("7/16", "1/4.."),
        ("5/8", "1/2+1/8"),
        ("1/8 5/8", "1/8 1/8+1/2"),
        ("5/16", "1/4+1/16"),
        ("2", "2"),
        ("1/12 1/12 1/12", "3:2(1/8 1/8 1/8)"),
        ("1/6 1/12", "3:2(1/4 1/8)"),
        ("1/6 1/6 1/6", "3:2(1/4 1/4 1/4)"),
        ("1/24 1/24 1/24 1/8", "3:2(1/16 1/16 1/16) 1/8"),
        ("1/20 1/20 1/20 1/20 1/20", "5:4(1/16 1/16 1/16 1/16 1/16)"),
        ("1/28 1/28 1/28 1/28 1/28 1/28 1/28", "7:4(1/16 1/16 1/16 1/16 1/16 1/16 1/16)"),
        ("1/12 r1/12 1/12 1/4", "3:2(1/8 1/8 1/8) 1/4"),
    ],
)
def test_lengths_become_note_values(lengths: str, written: str) -> None:
    assert " ".join(map(shown, written_bar(bar(lengths)))) == written


def test_what_no_value_writes_keeps_its_length() -> None:
    (span,) = written_bar(bar("17/1000 83/1000", Fraction(1, 10)))

    assert [value.length for piece in span.pieces for value in piece.values] == [
        Fraction(17, 1000),
        Fraction(83, 1000),
    ]


def test_gaps_are_filled_and_overlaps_cut() -> None:
    late = Sound(Fraction(1, 4), Fraction(1, 2), A4)
    over = Sound(Fraction(1, 2), Fraction(1, 4), A4)
    spans = written_bar(Bar("1", (late, over), Fraction(1)))

    pieces = [piece for span in spans for piece in span.pieces]
    assert [piece.sound for piece in pieces] == [None, 0, 1, None]
    assert [sum(value.length for value in piece.values) for piece in pieces] == [Fraction(1, 4)] * 4


def test_grace_notes_go_with_the_next_sound_or_after_the_last() -> None:
    spans = written_bar(bar("g g 1/4 g 1/4 g"))
    pieces = [piece for span in spans for piece in span.pieces]

    assert [(piece.graces, piece.after) for piece in pieces] == [((0, 1), ()), ((3,), (5,))]


@pytest.mark.parametrize(
    ("lengths", "still"), [("r1/2 r1/2", True), ("", True), ("r1/2 1/2", False)]
)
def test_a_bar_is_silent_when_nothing_sounds(lengths: str, *, still: bool) -> None:
    assert silent(bar(lengths, Fraction(1))) is still


@given(st.integers(1, 512), st.integers(0, 64))
def test_values_add_up_and_most_is_in_one(parts: int, start: int) -> None:
    length = Fraction(parts, 128)
    found = values(Fraction(start, 128), length, Fraction(1))

    assert sum(value.length for value in found) == length
    assert all(value.length == value.written for value in found)
    assert max(value.length for value in found) * 2 > length or length > 4


@settings(max_examples=40)
@given(st.integers(0, 10**6))
def test_everything_in_a_bar_is_written_once_and_lasts_as_long(seed: int) -> None:
    for one in random_phrase(seed, 3).bars:
        pieces = [piece for span in written_bar(one) for piece in span.pieces]
        told = [at for p in pieces for at in (*p.graces, p.sound, *p.after) if at is not None]

        assert told == list(range(len(one.sounds)))
        assert sum(value.length for piece in pieces for value in piece.values) == one.length
        for piece in pieces:
            if piece.sound is not None:
                lasts = sum(value.length for value in piece.values)
                assert lasts == one.sounds[piece.sound].duration


def test_a_bar_with_nothing_but_grace_notes_is_written() -> None:
    small = Sound(Fraction(0), Fraction(0), (WrittenNote(Pitch.parse("A4")),), grace=True)
    (span,) = written_bar(Bar("1", (small,), Fraction(1, 4)))

    assert [(piece.sound, piece.after) for piece in span.pieces] == [(None, (0,))]
