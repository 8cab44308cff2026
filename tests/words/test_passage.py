"""What is said of a passage, of its frames, its hard spots and its drills."""

from dataclasses import replace

import pytest
from kit.knowing import short
from kit.passage_pages import with_ladders
from kit.passages import by_hand, laid_in_first, passage
from kit.shorthand import VIOLIN

from bookgen.model.units import Semitones
from bookgen.plan.document import Link
from bookgen.plan.passage import Group, Ladder, Passage, Spot
from bookgen.plan.passage_other import Instead
from bookgen.words import passage as words
from bookgen.words import passage_ladders, passage_other, passage_spots
from bookgen.words.speech import ENGLISH

DASH = "\N{EN DASH}"


@pytest.mark.parametrize(
    ("bars", "name", "where"),
    [
        (["33"], "33", "bar 33"),
        (["33", "33"], "33", "bar 33"),
        (["33", "34", "35"], f"33{DASH}35", f"bars 33{DASH}35"),
        (["0"], "upbeat", "upbeat"),
        (["0", "1", "2"], "upbeat to 2", "upbeat to 2"),
        (["", "", ""], "", ""),
        ([], "", ""),
    ],
)
def test_bars_in_words(bars: list[str], name: str, where: str) -> None:
    assert words.bars_name(bars, ENGLISH) == name
    assert words.where_name(bars, ENGLISH) == where


def test_a_passage_counts_its_frames_spots_and_drills() -> None:
    one = with_ladders()
    frames = len({group.letter for group in one.best.groups if group.stops})
    assert words.facts(one, VIOLIN, 7, ENGLISH) == (
        f"Violin 4/4 · bars 33{DASH}38 · {frames} frames · {len(one.spots)} hard spots · 7 drills"
    )
    assert words.facts(by_hand("A4", "II0"), VIOLIN, 0, ENGLISH) == "Violin 4/4 · bar 33"


def frames(one: Passage) -> list[Group]:
    return list(one.best.groups)


def test_a_frame_is_told_by_its_position_and_as_many_bars_as_there_is_room_for() -> None:
    one = by_hand("B4 | C5 | B4", "II1 II2 II1", [(0, 0), (2, 2)])
    assert list(words.frame_words(frames(one), one, ENGLISH)) == [
        "1st pos. · 33, 35",
        "1st pos. · 33 …",
    ]


def test_what_changes_from_frame_to_frame() -> None:
    one = by_hand("C5 F4 | C#5 F4", "II2 III2 II2 III2", [(0, 1), (2, 3)])
    before, now = frames(one)

    assert words.difference(now, before, ENGLISH) == "2 higher on II"
    assert words.difference(before, now, ENGLISH) == "2 lower on II"
    assert words.difference(now, now, ENGLISH) == ""
    up = replace(now, place=Semitones(5))
    assert words.difference(up, before, ENGLISH) == "hand 3 half steps up"
    assert words.difference(before, replace(now, place=Semitones(3)), ENGLISH) == (
        "hand 1 half step down"
    )


def test_a_note_that_cannot_be_played_is_told_by_its_bar() -> None:
    cross, told = words.unplayable(passage(), ENGLISH)
    assert cross.startswith("A note with a cross")
    assert told.startswith("Bar 36: ")
    assert list(words.unplayable(by_hand("A4", "II0"), ENGLISH)) == []


def test_what_is_left_out_is_told_with_the_option_that_prints_it() -> None:
    one = replace(with_ladders(player=None), easier=3)
    told = " ".join(words.left_out(one, 2, ENGLISH))

    assert f"3 easier spots are left out; <b>--spots {len(one.spots) + 3}</b>" in told
    assert "2 frames have no chart" in told
    assert "--all-hands" in told
    assert "Drills have letters" in told
    everything = replace(with_ladders(all_hands=True), easier=0)
    assert list(words.left_out(everything, 0, ENGLISH)) == []


def reasons(one: Passage, peak: int, **parts: float) -> list[str]:
    first = max(0, peak - 1)
    return passage_spots.reasons(Spot(1, first, peak, peak, parts, 1.0), one, ENGLISH)


@pytest.mark.parametrize(
    ("text", "stops", "part", "said"),
    [
        ("B5 C#5", "I4 II2", "cross", "cross I to II, 4 to 2 (m7)"),
        ("G3 A4", "IV0 II0", "cross", "skip from IV to II, 0 to 0"),
        ("E5 C5", "II4 II2", "pair", "4 to 2 (M3)"),
        ("A4 E4+C#5", "II0 III1+II2", "together", f"M6 together, fingers 1{DASH}2"),
        ("A4 G3+D4+B4", "II0 IV0+III0+II1", "together", f"chord, fingers 0{DASH}0{DASH}1"),
        ("C5 C#5", "II2 II2", "hop", "finger 2 slides"),
        ("A5 E5", "I3 II3", "hop", "finger 3 hops"),
        ("G5 C5", "I2 II2", "hop", "finger 2 over two strings"),
        ("B4 F5", "II1 I1", "stretch", "stretch"),
        ("B4 F5", "II1 I1", "high", "high up"),
    ],
)
def test_why_a_spot_is_hard(text: str, stops: str, part: str, said: str) -> None:
    assert reasons(by_hand(text, stops, [(0, 1)]), 1, **{part: 1.0}) == [said]


def test_a_changed_finger_tells_what_it_was_in_the_same_bar() -> None:
    one = laid_in_first("C5 C#5 F4 | F#4", "II2 II2 III2 III2")

    assert reasons(one, 1, change=1.0) == ["2 high, just low"]
    assert reasons(one, 2, change=1.0) == ["2 low on III, just high on II"]
    assert reasons(one, 3, change=1.0) == ["2 high on III"]


def test_a_shift_tells_where_the_hand_goes() -> None:
    one = by_hand("B4 D5", "II1 II1", [(0, 0), (1, 1)])
    first, second = one.best.groups
    groups = first, replace(second, place=Semitones(5), position="3rd")
    moved = replace(one, best=replace(one.best, groups=groups))

    assert reasons(moved, 1, shift=1.0) == ["shift to 3rd"]
    assert reasons(one, 1, shift=1.0) == ["hand laid anew"]


def test_a_reason_has_nine_words_at_most_and_tells_the_largest_parts() -> None:
    one = by_hand("B5 C#5", "I4 II2", [(0, 1)])

    assert reasons(one, 1, cross=1.0, stretch=0.5, high=0.1)[0] == (
        "cross I to II, 4 to 2 (m7); stretch"
    )
    assert reasons(one, 1, cross=1.0, stretch=0.9, high=0.8)[-1] == "cross I to II, 4 to 2 (m7)"
    found = with_ladders()
    for spot in found.spots:
        said = passage_spots.reasons(spot, found, ENGLISH)
        assert all(len(way.split()) <= 9 for way in said)


def test_where_a_spot_lies_and_comes_again() -> None:
    one = by_hand("A4 B4 | A4 B4 | A4 B4", "II0 II1 II0 II1 II0 II1", [(0, 3), (4, 5)])
    spot = Spot(1, 0, 1, 1, {"pair": 1.0}, 1.0, (2, 4))
    over = replace(spot, first=3, last=4, others=())

    assert list(passage_spots.where(spot, one, ENGLISH)) == [
        "bar 33 · also 34, 35 · frame A",
        "bar 33 · also 34 … · frame A",
        "bar 33 · frame A",
    ]
    assert list(passage_spots.where(over, one, ENGLISH)) == [f"bars 34{DASH}35 · frame A to B"]


def test_what_comes_before_a_spot() -> None:
    none, all_met = Ladder(1, ()), Ladder(1, (short("12H2 4321 1"),))
    need = next(
        need for ladder in with_ladders().ladders for need in ladder.missing + ladder.crowded
    )

    assert list(passage_spots.first_drills(none, [], ENGLISH)) == ["all secure"]
    assert next(passage_spots.first_drills(all_met, ["4"], ENGLISH)) == "first 4"
    some = replace(all_met, missing=(need,))
    assert next(passage_spots.first_drills(some, ["4"], ENGLISH)) == "first 4, not all met"
    assert list(passage_spots.first_drills(replace(some, drills=()), [], ENGLISH)) == [
        "no drill has it yet"
    ]


def test_what_a_drill_is_like_is_told_by_letters_where_there_are_no_numbers() -> None:
    one, other = short("12H2 4321 1"), short("12H2 4321 2")
    link = Link(to=1, changes=None)

    def said(link: Link, *, known: bool = True) -> str:
        to = one if known else None
        return passage_ladders.link_words(link, other, to, {1: "a"}, ENGLISH)

    assert said(link) == "Like a, cross sooner"
    assert said(Link(to=7, changes=None)) == "Like 7, cross sooner"
    assert said(Link(to=one.key, changes=None)) == "Known: cross sooner"
    assert said(Link(to=None, changes=None), known=False) == "New hand"
    assert passage_ladders.same_hand("a", one, other, ENGLISH) == "Hand of a, cross sooner"


def test_the_frame_that_is_met_is_told() -> None:
    whole = Ladder(0, (short("12H2 4321 1"),), letter="B")

    assert passage_ladders.frame_title(whole, ["4"], ENGLISH) == "<b>Frame B</b> · 4 · all of B met"
    assert passage_ladders.frame_title(replace(whole, drills=()), [], ENGLISH) == (
        "<b>Frame B</b> · all of it is secure"
    )


def test_another_way_tells_what_it_saves_and_costs() -> None:
    def said(saved: dict[str, int], more: dict[str, int]) -> str:
        return passage_other.compared(Instead(0, 1, saved, more), ENGLISH)

    assert said({"fourth": 2, "open": 1}, {}) == "Saves 2 fourth fingers and 1 open string."
    assert said({"crossing": 1}, {"shift": 2}) == "Saves 1 crossing; costs 2 shifts."
