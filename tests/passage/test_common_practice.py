"""What string players have always done, without a source, against what is found."""

import pytest
from kit.fingered import BASS, CELLO, places, solved, stops
from kit.shorthand import VIOLA

COMMON = "common practice, no source"


@pytest.mark.published(COMMON)
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("A4 B4 C#5 D5 E5 F#5 G#5 A5", "II0 II1 II2 II3 I0 I1 I2 I3"),
        ("D4 E4 F#4 G4 A4 B4 C#5 D5", "III0 III1 III2 III3 II0 II1 II2 II3"),
        ("G3 A3 B3 C4 D4 E4 F#4 G4", "IV0 IV1 IV2 IV3 III0 III1 III2 III3"),
        (
            "G3 A3 B3 C4 D4 E4 F#4 G4 A4 B4 C5 D5 E5 F#5 G5",
            "IV0 IV1 IV2 IV3 III0 III1 III2 III3 II0 II1 II2 II3 I0 I1 I2",
        ),
        (
            "A3 B3 C#4 D4 E4 F#4 G#4 A4 B4 C#5 D5 E5 F#5 G#5 A5",
            "IV1 IV2 IV3 III0 III1 III2 III3 II0 II1 II2 II3 I0 I1 I2 I3",
        ),
    ],
)
def test_the_first_scales_of_the_violin_are_one_placement_without_a_shift(
    text: str, expected: str
) -> None:
    best = solved(text).best

    assert stops(best) == expected
    assert places(best) == [2]
    assert not any("shift" in one.cost for one in best.placed)


@pytest.mark.published(COMMON)
def test_third_position_begins_with_c_on_the_g_string() -> None:
    best = solved("C4:1@IV D4:2 E4 F4 G4 A4 B4 C5").best

    assert stops(best) == "IV1 IV2 IV3 IV4 III1 III2 III3 III4"
    assert places(best) == [5]


@pytest.mark.published(COMMON)
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("A3+A4", "IV1+III4"),
        ("E4+E5:4", "III1+II4"),
        ("B3+B4", "IV1+III4"),
        ("G4+B4", "III3+II1"),
        ("G4+B4 A4+C5", "III3+II1 III4+II2"),
        ("D5+F#5", "II3+I1"),
        ("E4+C#5", "III1+II2"),
        ("E4+C5 F#4+D5", "III1+II2 III2+II3"),
        ("B4+G5 C#5+A5", "II1+I2 II2+I3"),
    ],
)
def test_double_stops_of_the_first_position(text: str, expected: str) -> None:
    """Octaves 1-4, thirds 3-1 and 4-2, sixths 1-2 and 2-3."""
    best = solved(text).best

    assert stops(best) == expected
    assert len(places(best)) == 1


@pytest.mark.published(COMMON)
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("C3 D3 E3 F3 G3 A3 B3 C4", "IV0 IV1 IV2 IV3 III0 III1 III2 III3"),
        ("G3 A3 B3 C4 D4 E4 F#4 G4", "III0 III1 III2 III3 II0 II1 II2 II3"),
        ("D4 E4 F#4 G4 A4 B4 C#5 D5", "II0 II1 II2 II3 I0 I1 I2 I3"),
    ],
)
def test_the_first_scales_of_the_viola(text: str, expected: str) -> None:
    best = solved(text, VIOLA).best

    assert stops(best) == expected
    assert places(best) == [2]


@pytest.mark.published(COMMON)
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("D3 E3 F#3 G3 A3 B3 C#4 D4", "II0 II1 II3 II4 I0 I1 I3 I4"),
        ("G2 A2 B2 C3 D3 E3 F#3 G3", "III0 III1 III3 III4 II0 II1 II3 II4"),
        (
            "C2 D2 E2 F2 G2 A2 B2 C3 D3 E3 F3 G3 A3",
            "IV0 IV1 IV3 IV4 III0 III1 III3 III4 II0 II1 II2 II4 I0",
        ),
    ],
)
def test_the_first_scales_of_the_cello_lie_in_the_closed_hand(text: str, expected: str) -> None:
    best = solved(text, CELLO).best

    assert stops(best) == expected
    assert places(best) == [2]
    assert not any("stretch" in one.cost for one in best.placed)


@pytest.mark.published(COMMON)
def test_the_cello_takes_a_major_third_on_one_string_with_the_extended_hand() -> None:
    best = solved("E3:1@II F#3:2 G#3", CELLO).best

    assert stops(best) == "II1 II2 II4"
    assert sum(one.cost.get("stretch", 0.0) for one in best.placed) > 0


@pytest.mark.published(COMMON)
def test_the_bass_plays_whole_steps_with_1_and_4_and_never_with_3() -> None:
    assert stops(solved("A2 B2 C3 D3 E3 F3 G3", BASS).best) == "III0 III1 III2 II0 II1 II2 I0"
    assert "3" not in stops(solved("F2 G2 A2 Bb2 C3 D3 Eb3 F3 G3 A3 Bb3", BASS).best)
