"""Instrument files: what they become, and one clear line for what is wrong in them."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.shorthand import SPECIMEN_KEYS, VIOLIN, specimen
from kit.sources import published, published_words

from bookgen.errors import BookgenError
from bookgen.model.position import LetterRule, TableRule
from bookgen.readers.instrument import (
    instrument_folder,
    instrument_keys,
    parse_instrument,
    read_instrument,
)
from bookgen.words.names import instrument_name
from bookgen.words.speech import ENGLISH

SIZES = "makers' tables of vibrating string lengths; 1/8 from memory"
GOOD = (instrument_folder() / "violin.toml").read_text(encoding="utf-8")
MEND = "; mend the file; docs/reference/instruments.md explains every value."


@pytest.mark.parametrize("key", instrument_keys())
def test_every_instrument_of_the_package_is_read(key: str) -> None:
    instrument = read_instrument(key)

    assert instrument.key == key
    assert instrument.sizes[0].name == ("3/4" if instrument.family == "bass" else "4/4")
    assert len(instrument_name(instrument, ENGLISH)) > len("viol")
    assert instrument_name(instrument, ENGLISH) == instrument.name


OPEN_STRINGS = published_words("open_strings", "written")


@pytest.mark.published(OPEN_STRINGS.title)
@pytest.mark.parametrize(("key", "written"), OPEN_STRINGS.values.items())
def test_open_strings_and_what_they_sound(key: str, written: str) -> None:
    instrument = read_instrument(key)
    low = published("open_strings", "lowest_hz").values[key]

    assert [str(pitch) for pitch in instrument.strings] == written.split()
    assert 440 * 2 ** ((instrument.strings[-1].midi + instrument.sounding - 69) / 12) == (
        pytest.approx(low, abs=0.005)
    )


def test_every_instrument_of_the_package_has_its_strings_checked() -> None:
    assert {*OPEN_STRINGS.values} == {*instrument_keys()}


def test_a_file_that_is_like_another_says_only_what_differs() -> None:
    text = 'like = "cello"\nname = "Low cello"\nstrings = ["G3", "C3", "F2", "Bb1"]\n'
    text += "[position]\nfingers = [0, 1, 2, 4]\n[sizes]\nsmall = 600\n"
    cello, found = read_instrument("cello"), parse_instrument("low", text, "low.toml")

    assert found.hand == cello.hand
    assert [size.name for size in found.sizes] == ["small"]
    assert isinstance(cello.position_rule, TableRule)
    assert found.position_rule == replace(cello.position_rule, fingers=(0, 1, 2, 4))
    with pytest.raises(BookgenError, match=r"low.toml, like: no instrument 'lute'; choose cello, "):
        parse_instrument("low", text.replace('"cello"', '"lute"'), "low.toml")


@pytest.mark.parametrize("key", SPECIMEN_KEYS)
def test_a_new_instrument_takes_a_file_and_no_code(key: str) -> None:
    assert specimen(key).key == key


@pytest.mark.published(SIZES)
@pytest.mark.parametrize(
    ("name", "shortest", "longest"),
    [
        ("4/4", 325, 328),
        ("7/8", 317, 317),
        ("3/4", 307, 307),
        ("1/2", 287, 287),
        ("1/4", 267, 267),
        ("1/8", 235, 235),
    ],
)
def test_string_lengths_of_the_violins(name: str, shortest: float, longest: float) -> None:
    assert shortest <= VIOLIN.size(name).string_length_mm <= longest


def test_the_rule_of_positions_is_the_files() -> None:
    assert isinstance(VIOLIN.position_rule, LetterRule)
    assert isinstance(specimen("cello").position_rule, TableRule)


@pytest.mark.parametrize(
    ("old", "new", "rest"),
    [
        ('name = "Violin"', "", ": it lacks the value `name`"),
        ('name = "Violin"', 'name = "V"\ncolour = "red"',
         ": it knows no value `colour`"),
        ('name = "Violin"', "name = ", ": Invalid value (at line 4, column 8)"),
        ('"E5", "A4"', '"H5", "A4"', ", strings: 'H5' is no pitch name;"),
        ('"E5", "A4"', '5, "A4"', ", strings[0]: Expected `str`, got `int`"),
        ('"E5", "A4"', '"A4", "E5"', ": string 1 is the highest;"),
        ("sounding = 0", 'sounding = "low"', ", sounding: Expected `int`, got `str`"),
        ("highest_stop = 24", "highest_stop = 99", ", highest_stop: Expected `int` <= 36"),
        ('octave_sign_from = "B6"', 'octave_sign_from = "A66"',
         ", octave_sign_from: 'A66' is no pitch name;"),
        ('clef = "treble"', 'clef = "violin"', ", clefs[0].clef: Invalid enum value 'violin'"),
        ('clef = "treble"', 'clef = "treble"\nup_to = ""', ", clefs: '' is no pitch name;"),
        ('clef = "treble"', 'clef = "treble"\nup_to = "A5"',
         ": every clef but the last needs a highest note"),
        ('"4/4" = 328', '"4/4" = 0', ", sizes[...]: Expected `float` > 0.0"),
        ('"4/4" = 328', '"4/4" = nan', ", sizes[...]: Expected `float` > 0.0"),
        ('"4/4" = 328', '"4/4" = inf', ", sizes[...]: Expected `float` <= 2000.0"),
        ('rule = "letters"', 'rule = "table"', ", position: a table of positions needs labels"),
        ('rule = "letters"', 'rule = "table"\nlabels = ["half"]',
         ", position: [] are not the semitones of four fingers"),
        ('rule = "letters"', 'rule = "ear"', ", position.rule: Invalid enum value 'ear'"),
        ("[1, 2], [2, 3]", "[1, 5], [2, 3]", ", hand.reach[0].pairs[0][1]: Expected `int` <= 4"),
        ("[1, 2], [2, 3]", "[2, 1], [2, 3]", ", hand.reach: fingers 2 and 1 do not rise"),
        ('"half", "whole"', '"half", "broad"', ", hand.reach: 'broad' is no spacing;"),
        ("places = [1, 23]", "places = [23, 1]", ", hand.reach: places 23 to 1 do not rise"),
        ("places = [1, 23]", "places = [1]", ", hand.reach[0].places: Expected `array`"),
        ("stretch = false", "stretch = 1", ", hand.reach[0].stretch: Expected `bool`, got `int`"),
        ("widest_span = 7", "", ", hand: it lacks the value `widest_span`"),
    ],
)  # fmt: skip
def test_one_line_names_place_problem_and_mend(old: str, new: str, rest: str) -> None:
    assert old in GOOD
    with pytest.raises(BookgenError) as refused:
        parse_instrument("violin", GOOD.replace(old, new, 1), "violin.toml")

    (finding,) = refused.value.findings
    assert ENGLISH.line(finding).startswith(f"violin.toml{rest}")
    assert ENGLISH.line(finding).endswith(MEND)
    assert len(ENGLISH.line(finding).splitlines()) == 1
    assert refused.value.exit_code == 2


@pytest.mark.parametrize("key", ["", "kazoo", "../violin", "violin.toml", "Violin"])
def test_an_unknown_instrument_is_answered_with_the_known_ones(key: str) -> None:
    with pytest.raises(BookgenError) as refused:
        read_instrument(key)

    (finding,) = refused.value.findings
    assert finding.place == "--instrument"
    assert ENGLISH.line(finding.problem) == f"no instrument {key!r}"
    assert ENGLISH.line(finding.mend) == f"choose {', '.join(instrument_keys())}"


@given(st.text(max_size=80))
def test_any_text_that_is_no_instrument_is_a_finding(text: str) -> None:
    with pytest.raises(BookgenError) as refused:
        parse_instrument("violin", text, "violin.toml")

    assert len(refused.value.findings) == 1


@given(
    st.integers(0, len(GOOD) - 1), st.sampled_from(['"', "[", "]", "=", "9", "x", "\n", "#", "-"])
)
def test_a_file_with_one_wrong_character_is_read_or_is_a_finding(at: int, wrong: str) -> None:
    text = GOOD[:at] + wrong + GOOD[at + 1 :]
    try:
        instrument = parse_instrument("violin", text, "violin.toml")
    except BookgenError as refused:
        assert str(refused).startswith("violin.toml")  # noqa: PT017
    else:
        assert instrument.key == "violin"


def test_finger_1_is_drawn_back_only_where_the_file_says_so() -> None:
    assert VIOLIN.hand.drawn_back == specimen("cello").hand.drawn_back == 1
    assert specimen("double_bass").hand.drawn_back == 0
