"""A typed passage while it is read, line by line."""

import pytest

from bookgen.errors import BookgenError
from bookgen.readers.score.passage import MOST_SOUNDS
from bookgen.readers.score.text_draft import MOST_FAULTS, Draft


def draft(*lines: str) -> Draft:
    result = Draft("bars.passage", strings=4)
    for number, line in enumerate(lines, start=1):
        result.read_line(number, line)
    return result


def numbers(*lines: str) -> str:
    return " ".join(bar.number for bar in draft(*lines).phrase().bars)


@pytest.mark.parametrize(
    ("lines", "found"),
    [
        (("D4:1 | E4 |",), "1 2"),
        (("D4:4 | E4:1 |",), "0 1"),
        (("D4:4 |",), "1"),
        (("bar: 12", "D4:1 | E4"), "12 13"),
        (("bar: 12a", "D4:1 | E4"), "12a 13"),
        (("D4:1 |", "bar: 1", "E4 | F4"), "1 1 2"),
        (("meter: 3/4", "A4:4 | D4:2. |"), "0 1"),
    ],
)  # fmt: skip
def test_bars_count_on_from_the_last_number(lines: tuple[str, ...], found: str) -> None:
    assert numbers(*lines) == found


def test_a_bar_line_with_nothing_before_it_means_nothing() -> None:
    assert numbers("| D4:1 || E4 |", "|", "| F4") == "1 2 3"


def test_lengths_go_on_and_grace_notes_do_not_change_them() -> None:
    (bar,) = draft("D4:8 (C5) E4 r F4:2").phrase().bars

    assert [str(sound.duration) for sound in bar.sounds] == ["1/8", "0", "1/8", "1/8", "1/2"]
    assert [str(sound.at) for sound in bar.sounds] == ["0", "1/8", "1/8", "1/4", "3/8"]


def test_a_tie_goes_over_the_bar_line_and_from_a_grace_note() -> None:
    assert not draft("D4:1 | ~D4+F4:1 | (~D4) ~F4:1").faults


@pytest.mark.parametrize("line", ["D4:4 r ~D4", "D4 E4 ~D4", "~D4", "Eb4 ~E4"])
def test_a_tie_from_no_note(line: str) -> None:
    assert "before it" in str(draft(line).faults[0])


def test_faults_stop_at_twenty() -> None:
    with pytest.raises(BookgenError) as caught:
        draft("H4 " * 99)

    assert len(caught.value.findings) == MOST_FAULTS


def test_sounds_stop_at_ten_thousand() -> None:
    with pytest.raises(BookgenError, match="more than 10000 sounds"):
        draft("D4 " * (MOST_SOUNDS + 1))
