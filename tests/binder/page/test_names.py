"""What a user typed becomes something a page can hold."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from bookgen.binder.page.canvas import Face
from bookgen.binder.page.names import clean
from bookgen.binder.page.order import bare
from bookgen.binder.page.typeset import cut


def latin(character: str) -> bool:
    return ord(character) < 0x250


@given(some.text(max_size=700))
def test_any_text_becomes_one_line_of_known_characters(text: str) -> None:
    line = bare(clean(text, latin))

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


def test_a_name_that_runs_left_is_isolated() -> None:
    assert clean("אבג", lambda _: True) == "\N{FIRST STRONG ISOLATE}אבג\N{POP DIRECTIONAL ISOLATE}"


@pytest.mark.parametrize("typed", ["<b>Jo", "Jo</i>", "<b><i>Jo</i></b>"])
def test_what_looks_like_a_mark_of_the_cut_is_printed(typed: str) -> None:
    cleaned = clean(typed, latin)
    assert cut(cleaned) == ((cleaned, Face.REGULAR),)
    assert bare(cleaned) == typed
