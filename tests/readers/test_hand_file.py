"""What an instrument file says of hands: the thumb, regions, extensions, notes behind the nut."""

import pytest

from bookgen.errors import BookgenError
from bookgen.model.finger import THUMB
from bookgen.model.hand import Extension
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones
from bookgen.readers.instrument import parse_instrument, read_instrument
from bookgen.words.speech import ENGLISH

CELLO = 'like = "cello"\nname = "Mine"\n'
REACH = "reach = [{{ pairs = [{pair}], spacings = ['whole'], places = [1, 7], {more} }}]\n"


def told(text: str) -> str:
    with pytest.raises(BookgenError) as caught:
        parse_instrument("mine", text, "mine.toml")
    [finding] = caught.value.findings
    return ENGLISH.line(finding)


def test_the_spans_of_a_region_hold_from_its_place_up() -> None:
    hand = read_instrument("cello").hand

    assert [hand.span(place).widest for place in (1, 7, 11, 12, 20)] == [4, 4, 4, 6, 6]
    assert THUMB in hand.fingers
    assert THUMB not in read_instrument("violin").hand.fingers


def test_regions_rise_from_the_nut() -> None:
    text = (
        CELLO
        + "[hand]\n"
        + (
            "above = [{ place = 9, ordinary_span = 5, widest_span = 5 },"
            " { place = 9, ordinary_span = 6, widest_span = 6 }]\n"
        )
    )

    assert "the regions of the hand do not rise from the nut" in told(text)


@pytest.mark.parametrize(
    ("pair", "more", "reason"),
    [
        ("[1, 2]", "stretch = false, extends = 'forward'", "only a stretch extends the hand"),
        ("[2, 3]", "stretch = true, extends = 'back'", "extended back by finger 1"),
        ("[1, 'thumb']", "stretch = false", "fingers 1 and t do not rise"),
        ("[1, 'nose']", "stretch = false", "mine.toml, hand.reach"),
    ],
)
def test_what_is_no_hand_is_told_with_its_place(pair: str, more: str, reason: str) -> None:
    assert reason in told(CELLO + "[hand]\n" + REACH.format(pair=pair, more=more))


def test_an_extension_of_a_string_goes_below_it() -> None:
    assert "mine.toml" in told('like = "double_bass"\nname = "Mine"\nextension_to = "F2"\n')
    assert "extension_to" in told('like = "double_bass"\nname = "Mine"\nextension_to = "H1"\n')


@pytest.mark.published("four fingers from place 5 up, below as a stretch (Dragonetti, Sperger)")
def test_four_fingers_of_the_bass_are_a_choice_and_a_stretch_low_down() -> None:
    bass, four = read_instrument("double_bass"), read_instrument("double_bass_four_finger")
    frame = Frame((1, 2, 3, 4), (Spacing.HALF,) * 3)
    places = [Semitones(place) for place in range(1, 13)]

    assert all(bass.refused_place(frame, place) for place in places)
    taken = [place for place in places if not four.refused_place(frame, place)]
    assert taken == [1, 2, 3, 4, 5, 6, 7, 8]
    assert [place for place in taken if four.stretches(frame, place)] == [1, 2, 3, 4]


def test_an_extension_has_its_name_and_other_stretches_have_none() -> None:
    cello, violin = read_instrument("cello"), read_instrument("violin")
    whole, wide = Frame.pair(1, 2, Spacing.WHOLE), Frame.pair(1, 2, Spacing.AUGMENTED)

    assert cello.extension(whole, Semitones(2)) is Extension.FORWARD
    assert cello.extension(whole, Semitones(9)) is None
    assert violin.stretches(wide, Semitones(2))
    assert violin.extension(wide, Semitones(2)) is None
    assert not violin.tires(wide, Semitones(2))
