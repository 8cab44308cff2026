"""Where another fingering has to differ from the best one."""

from hypothesis import given, settings
from hypothesis import strategies as st
from kit.fingered import places, solved, stops
from kit.lattices import laid

from bookgen.passage.cheapest import search
from bookgen.passage.elsewhere import Window, choices
from bookgen.passage.window import windows_of

SOME_NOTES = "G3 A3 C4 D4 F4 A4 B4 C5 E5 F#5 A5 C6"
TONES = st.sampled_from([*SOME_NOTES.split(), "|"])


def windows(text: str) -> tuple[list[Window], list[bool]]:
    """The windows, and which events count in them."""
    steps, columns = laid(text)
    best = search(steps, columns).best()
    counts = [not all(choices(column, node)) for column, node in zip(columns, best, strict=True)]
    return windows_of(columns, best, steps), counts


def test_a_short_phrase_is_one_window() -> None:
    assert windows("B4 C5 D5")[0] == [Window(0, 2)]


def test_a_long_placement_is_cut_at_bars() -> None:
    assert windows("B4 C5 D5 B4 | C5 B4 D5 C5 | B4 D5")[0] == [Window(0, 3), Window(4, 9)]


def test_a_new_placement_begins_a_window() -> None:
    found, _ = windows("B3 C4 B3 C4 C#4 E6 F#6 G6 E6")

    assert found == [Window(0, 4), Window(5, 8)]


def test_open_strings_and_notes_without_another_stop_do_not_count() -> None:
    assert windows("G3 D4:0 G3")[0] == []
    assert windows("B4:1@II C5 B4 C5 D5")[1] == [False, True, True, True, True]


def test_a_long_phrase_asks_for_an_eighth_of_it_but_no_more_than_sixteen() -> None:
    bar = "B4 C5 D5 B4"

    assert [one.last - one.first + 1 for one in windows(" | ".join([bar] * 12))[0]] == [8] * 6
    assert [one.last - one.first + 1 for one in windows(" | ".join([bar] * 40))[0]] == [16] * 10


@settings(max_examples=25)
@given(st.lists(TONES, min_size=1, max_size=24))
def test_windows_cover_the_phrase_in_order_and_hold_enough(words: list[str]) -> None:
    if all(word == "|" for word in words):
        return
    found, counts = windows(" ".join(words))
    if not any(counts):
        assert found == []
        return
    assert [one.first for one in found] == [0, *(one.last + 1 for one in found[:-1])]
    assert found[-1].last == len(counts) - 1
    for one in found:
        held = sum(counts[one.first : one.last + 1])
        assert held >= min(sum(counts), max(4, sum(counts) / 8), 16)


def test_the_other_way_lies_elsewhere_for_a_whole_window() -> None:
    solutions = solved("C5 D5 E5 F5 G5 A5 B5 C6")

    assert solutions.other is not None
    assert not set(places(solutions.best)) & set(places(solutions.other))
    best, other = stops(solutions.best).split(), stops(solutions.other).split()
    assert all(one != two for one, two in zip(best, other, strict=True))
