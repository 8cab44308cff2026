"""Divisions, key, meter and transposition of a score, and what cannot be used of them."""

from fractions import Fraction

import pytest
from kit.scores import element

from bookgen.readers.score.attributes import Attributes, meter_of

WHERE = "<attributes>{}</attributes>"


def read(inside: str, staff: int = 1) -> tuple[Attributes, list[str]]:
    state = Attributes(staff)
    problems = [str(problem) for problem, _ in state.read(element(WHERE.format(inside)))]
    return state, problems


@pytest.mark.parametrize(
    ("beats", "beat", "meter"),
    [
        ("4", "4", (4, 4)),
        ("3+2", "8", (5, 8)),
        (" 3 + 2 + 3 ", "8", (8, 8)),
        ("64", "128", (64, 128)),
        ("65", "4", None),
        ("0", "4", None),
        ("4", "3", None),
        ("4", "256", None),
        ("", "", None),
        ("1+" * 99 + "1", "4", None),
    ],
)
def test_a_meter(beats: str, beat: str, meter: tuple[int, int] | None) -> None:
    assert meter_of(beats, beat) == meter


def test_added_meters_are_one() -> None:
    pairs = "<beats>3</beats><beat-type>8</beat-type><beats>2</beats><beat-type>4</beat-type>"
    state, problems = read(f"<time>{pairs}</time>")

    assert state.meter == (7, 8)
    assert state.bar == Fraction(7, 2)
    assert problems == []


@pytest.mark.parametrize(
    ("inside", "problem"),
    [
        ("<time><senza-misura/></time>", "this meter is left out"),
        ("<time><beats>4</beats></time>", "this meter is left out"),
        ("<key><fifths>8</fifths></key>", "this key signature is left out"),
        ("<key><key-step>F</key-step></key>", "this key signature is left out"),
        ("<divisions>0</divisions>",
         "'0' are no divisions of a quarter note; those before are kept"),
        ("<divisions>99999999</divisions>",
         "'99999999' are no divisions of a quarter note; those before are kept"),
    ],
)  # fmt: skip
def test_what_cannot_be_used_leaves_all_as_it_was(inside: str, problem: str) -> None:
    state, problems = read(inside)

    assert problems == [problem]
    assert (state.meter, state.sharps) == (None, None)
    assert state.divisions == 1


def test_another_staffs_key_is_not_ours() -> None:
    keys = "<key number='1'><fifths>1</fifths></key><key number='2'><fifths>2</fifths></key>"

    assert read(keys, staff=1)[0].sharps == 1
    assert read(keys, staff=2)[0].sharps == 2
