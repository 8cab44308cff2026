"""What an instrument and its hand take, and why they refuse the rest."""

from dataclasses import replace
from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.refusing import refused
from kit.shorthand import VIOLA, VIOLIN, frame, hands, pair, pitch, specimen, strings

from bookgen.model.hand import Hand, Reach, Span
from bookgen.model.instrument import ClefChoice, Instrument
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones, StringNumber
from bookgen.readers.instrument import read_instrument
from bookgen.words.speech import ENGLISH

BASS = specimen("double_bass")
CELLO = specimen("cello")
REAL_CELLO = read_instrument("cello")
FIVE_STRINGS = specimen("five_strings")
WHOLE_12 = pair("12", Spacing.WHOLE)
CELLO_HAND = "hand of the cello in the neck: common practice, from memory"
BASS_HAND = "hand of the double bass after Simandl, from memory"


@pytest.mark.parametrize(
    ("instrument", "hand", "place", "run", "reason"),
    [
        (VIOLIN, WHOLE_12, 0, "43", "finger 1 stands 1 or more semitones above the nut"),
        (VIOLIN, pair("34", Spacing.HALF), 2, "43", "finger 3 stands 3 or more semitones above"),
        (VIOLIN, WHOLE_12, 23, "43", "finger 2 at 25 semitones lies past the fingerboard's last"),
        (VIOLIN, frame("WWW"), 20, "43", "finger 4 at 26 semitones lies past"),
        (VIOLIN, frame("AAW"), 2, "43", "8 semitones are wider than this hand, 7"),
        (VIOLIN, pair("12", Spacing.MINOR_THIRD), 2, "43",
         "the violin hand takes no minor-third spacing between fingers 1 and 2 with finger 1 at 2"),
        (REAL_CELLO, Frame((1, 2, 3), (Spacing.WHOLE,) * 2), 7, "43",
         "the cello hand does not set fingers 1 and 3 4 semitones apart with finger 1 at 7"),
        (VIOLIN, pair("14", Spacing.MAJOR_THIRD), 2, "43", "no major-third spacing between"),
        (VIOLIN, WHOLE_12, 2, "54", "the violin has no string 5"),
        (VIOLIN, WHOLE_12, 2, "10", "the violin has no string 0"),
        (VIOLIN, WHOLE_12, 2, "421", "are not two or more neighbours from low to high"),
        (VIOLIN, WHOLE_12, 2, "34", "are not two or more neighbours from low to high"),
        (VIOLIN, WHOLE_12, 2, "33", "are not two or more neighbours from low to high"),
        (BASS, WHOLE_12, 2, "43", "the double_bass hand takes no whole spacing between"),
        (BASS, pair("24", Spacing.WHOLE), 2, "43", "no whole spacing between fingers 2 and 4"),
        (BASS, pair("34", Spacing.HALF), 3, "43", "no half spacing between fingers 3 and 4"),
        (BASS, frame("HHH"), 1, "43", "3 semitones are wider than this hand, 2"),
        (CELLO, pair("23", Spacing.WHOLE), 3, "43", "no whole spacing between fingers 2 and 3"),
        (CELLO, pair("34", Spacing.WHOLE), 3, "43", "no whole spacing between fingers 3 and 4"),
        (CELLO, pair("34", Spacing.HALF), 12, "43", "between fingers 3 and 4 with finger 3 at 12"),
        (CELLO, WHOLE_12, 2, "54", "the cello has no string 5"),
    ],
)  # fmt: skip
def test_a_refusal_says_why(
    instrument: Instrument, hand: Frame, place: int, run: str, reason: str
) -> None:
    refusal = instrument.refusal(hand, Semitones(place), strings(run))

    assert refusal is not None
    assert reason in ENGLISH.line(refusal)


def in_first_position(instrument: Instrument, fingers: tuple[int, int]) -> set[str]:
    """The spacings that a pair takes low in the neck."""
    return {
        hand.spacings[0].word
        for hand in hands(instrument, fingers)
        if instrument.refused_place(hand, Semitones(fingers[0] + 1)) is None
    }


@pytest.mark.published(CELLO_HAND)
@pytest.mark.parametrize(
    ("fingers", "words"),
    [
        ((1, 2), {"half", "whole"}),
        ((2, 3), {"half"}),
        ((3, 4), {"half"}),
        ((1, 3), {"whole", "minor-third"}),
        ((2, 4), {"whole"}),
        ((1, 4), {"minor-third", "major-third"}),
    ],
)
def test_the_cello_takes_no_whole_step_between_2_3_or_3_4_in_the_neck(
    fingers: tuple[int, int], words: set[str]
) -> None:
    assert in_first_position(CELLO, fingers) == words


@pytest.mark.published("cello teachers' pages, 5th to 7th position: fingers 1 to 3, four shapes")
def test_from_5th_position_up_the_cello_has_three_fingers_in_half_and_whole_steps() -> None:
    for place in range(8, 13):
        shapes = {
            tuple(spacing.word for spacing in hand.spacings)
            for hand in hands(CELLO, (1, 2, 3))
            if CELLO.refused_place(hand, Semitones(place)) is None
            and not CELLO.stretches(hand, Semitones(place))
        }
        assert shapes == {*product(("half", "whole"), repeat=2)}
        assert not any(
            CELLO.refused_place(hand, Semitones(place)) is None for hand in hands(CELLO, (1, 4))
        )


@pytest.mark.published(CELLO_HAND)
@pytest.mark.parametrize(
    ("spacings", "stretch"), [("HHH", False), ("WHH", True)], ids=["closed", "extended"]
)
def test_the_cellos_closed_and_extended_hand(spacings: str, stretch: bool) -> None:  # noqa: FBT001
    assert CELLO.refused_place(frame(spacings), Semitones(2)) is None
    assert CELLO.stretches(frame(spacings), Semitones(2)) is stretch


@pytest.mark.published("1 to 3 in the neck: closed 2, extended 3 half steps; cello teachers")
def test_no_finger_between_sets_1_and_3_farther_apart_in_the_cellos_neck() -> None:
    widest = {
        place: max(
            hand.span
            for hand in hands(REAL_CELLO, (1, 2, 3))
            if REAL_CELLO.refused_place(hand, Semitones(place)) is None
        )
        for place in range(1, 13)
    }
    assert widest == {place: 3 if place <= 7 else 4 for place in range(1, 13)}


@pytest.mark.published(BASS_HAND)
@pytest.mark.parametrize(
    ("fingers", "words"),
    [((1, 2), {"half"}), ((2, 4), {"half"}), ((1, 4), {"whole"}), ((2, 3), set()), ((1, 3), set())],
)
def test_the_bass_takes_a_whole_step_only_between_1_and_4(
    fingers: tuple[int, int], words: set[str]
) -> None:
    assert in_first_position(BASS, fingers) == words


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA, FIVE_STRINGS], ids=lambda one: one.key)
def test_violin_and_viola_neighbours_take_half_or_whole_and_stretch_for_more(
    instrument: Instrument,
) -> None:
    for low in (1, 2, 3):
        for spacing, stretch in (
            (Spacing.HALF, False),
            (Spacing.WHOLE, False),
            (Spacing.AUGMENTED, True),
        ):
            hand = Frame.pair(low, low + 1, spacing)
            assert instrument.refused_place(hand, Semitones(5)) is None
            assert instrument.stretches(hand, Semitones(5)) is stretch


@pytest.mark.published("ordinary frame a perfect fourth: Galamian, Principles, 1962 (from memory)")
@pytest.mark.parametrize(
    ("spacings", "stretch"), [("WHW", False), ("HHH", False), ("WWW", True), ("HAH", True)]
)
def test_a_frame_wider_than_a_fourth_is_a_stretch(spacings: str, stretch: bool) -> None:  # noqa: FBT001
    assert VIOLIN.stretches(frame(spacings), Semitones(2)) is stretch


@pytest.mark.parametrize(
    ("instrument", "rooms"), [(VIOLIN, [1, 2, 3, 4]), (CELLO, [1, 2, 3, 4]), (BASS, [1, 2, 3, 3])]
)
def test_fingers_below_need_room_above_the_nut(instrument: Instrument, rooms: list[int]) -> None:
    assert [instrument.hand.room_below(finger) for finger in (1, 2, 3, 4)] == rooms


@given(st.sampled_from([VIOLIN, CELLO, BASS]), st.integers(0, 30), st.integers(1, 3), st.data())
def test_a_frame_is_taken_exactly_where_every_two_neighbours_are(
    instrument: Instrument, place: int, low: int, data: st.DataObject
) -> None:
    spacings = data.draw(st.lists(st.sampled_from(Spacing), min_size=4 - low, max_size=4 - low))
    hand = Frame(tuple(range(low, 5)), tuple(spacings))
    pairs = [
        instrument.refused_place(
            Frame.pair(finger, finger + 1, spacing), Semitones(place + hand.offset(finger))
        )
        is None
        for finger, spacing in zip(hand.fingers[:-1], spacings, strict=True)
    ]
    taken_whole = instrument.refused_place(hand, Semitones(place)) is None

    assert taken_whole == (all(pairs) and hand.span <= instrument.hand.widest_span)


@pytest.mark.published("open strings a fifth apart, a fourth on the bass: common practice")
@pytest.mark.parametrize(
    ("instrument", "labels"),
    [
        (VIOLIN, ["P5", "P5", "P5"]),
        (VIOLA, ["P5", "P5", "P5"]),
        (CELLO, ["P5", "P5", "P5"]),
        (BASS, ["P4", "P4", "P4"]),
        (FIVE_STRINGS, ["P5", "P5", "P5", "P5"]),
        (specimen("six_string_viol"), ["P4", "P4", "M3", "P4", "P4"]),
    ],
    ids=lambda value: value.key if isinstance(value, Instrument) else "",
)
def test_open_strings(instrument: Instrument, labels: list[str]) -> None:
    numbers = instrument.string_numbers()
    found = [instrument.between_open(low, high).label for low, high in pairwise(numbers)]

    assert found == labels


def test_the_bass_sounds_an_octave_lower_than_it_is_written() -> None:
    assert [str(BASS.sounding_pitch(written)) for written in BASS.strings] == [
        "G2", "D2", "A1", "E1",
    ]  # fmt: skip


@pytest.mark.parametrize("string", [0, 5, -1])
def test_a_string_that_there_is_not(string: int) -> None:
    with refused(f"the violin has no string {string}; its strings are 1 to 4"):
        VIOLIN.open_pitch(StringNumber(string))


def test_an_unknown_size_is_answered_with_the_known_ones() -> None:
    assert VIOLIN.size("1/2").string_length_mm == pytest.approx(287.0)
    with refused("'5/4' is no size of the violin; its sizes are 4/4, 7/8"):
        VIOLIN.size("5/4")


def test_instruments_without_strings_sizes_or_order_are_refused() -> None:
    with refused("1 strings; give two to 6"):
        replace(VIOLIN, strings=VIOLIN.strings[:1])
    with refused("its notes must lie between C0 and G9"):
        replace(VIOLIN, sounding=Semitones(60))
    with refused("7 strings; give two to 6"):
        replace(VIOLIN, strings=tuple(pitch(f"C{octave}") for octave in range(8, 1, -1)))
    with refused("each next string is lower"):
        replace(VIOLIN, strings=VIOLIN.strings[::-1])
    with refused("needs a size and a clef"):
        replace(VIOLIN, sizes=())
    with refused("needs a size and a clef"):
        replace(VIOLIN, clefs=())


@pytest.mark.parametrize(
    "clefs",
    [
        (ClefChoice("treble", pitch("A5")),),
        (ClefChoice("alto", None), ClefChoice("treble", None)),
    ],
)
def test_the_last_clef_takes_every_note_and_no_other_does(clefs: tuple[ClefChoice, ...]) -> None:
    with refused("the last one takes the rest"):
        replace(VIOLA, clefs=clefs)


@pytest.mark.parametrize(
    ("low", "high", "lowest", "highest", "reason"),
    [
        (2, 1, 1, 5, "fingers 2 and 1 do not rise"),
        (2, 2, 1, 5, "fingers 2 and 2 do not rise"),
        (1, 2, 5, 4, "places 5 to 4 do not rise"),
    ],
)
def test_a_reach_that_no_hand_uses(
    low: int, high: int, lowest: int, highest: int, reason: str
) -> None:
    with refused(reason):
        Reach(low, high, Spacing.HALF, Semitones(lowest), Semitones(highest), stretch=False)


def test_a_hand_takes_a_spacing_only_in_its_region() -> None:
    reach = Reach(1, 2, Spacing.WHOLE, Semitones(3), Semitones(5), stretch=True)
    hand = Hand((reach,), (Span(Semitones(2), Semitones(2)),))

    taken_at = [place for place in range(9) if hand.reach(1, 2, Spacing.WHOLE, place) is reach]
    assert taken_at == [3, 4, 5]
    assert hand.reach(1, 2, Spacing.HALF, 4) is None
    assert hand.reach(2, 3, Spacing.WHOLE, 4) is None
