"""What a user typed becomes something a page can hold."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from bookgen.binder.names import clean, in_visual_order, shape


def latin(character: str) -> bool:
    return ord(character) < 0x250


@given(some.text(max_size=700))
def test_any_text_becomes_one_line_of_known_characters(text: str) -> None:
    line = clean(text, latin)

    assert all(latin(character) or character == "□" for character in line)
    assert all(character.isprintable() for character in line)
    assert line == " ".join(line.split())
    assert len(line) <= 501


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("Ines", "Ines"),
        ("In\x00es\n\tM.", "In es M."),
        ("#(system) {\\x}", "#(system) {\\x}"),
        ("Jose\u0301", "José"),
        ("Ines 漢", "Ines □"),
        ("a\u200b\u202eb", "ab"),
        ("  \n ", ""),
    ],
)
def test_names_stay_as_near_as_can_be(typed: str, printed: str) -> None:
    assert clean(typed, latin) == printed


@pytest.mark.published("Unicode Standard Annex #9, Bidirectional Algorithm; examples by hand")
@pytest.mark.parametrize(
    ("logical", "visual"),
    [
        ("Ines", "Ines"),
        ("אבג", "גבא"),
        ("Ines אבג", "Ines גבא"),
        ("אבג Ines", "Ines גבא"),
        ("אב 12 גד", "דג 12 בא"),
        ("א(ב)ג", "ג(ב)א"),
    ],
)
def test_right_to_left_letters_are_in_order(logical: str, visual: str) -> None:
    assert in_visual_order(logical) == visual


@pytest.mark.published("The Unicode Standard, Arabic Presentation Forms-B")
def test_arabic_letters_join() -> None:
    assert shape("سعد") == "\ufeb3\ufecc\ufeaa"
    assert shape("دار") == "\ufea9\ufe8d\ufead"
