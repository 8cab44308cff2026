"""What is said of a passage's groups and ladders."""

from dataclasses import replace

import pytest
from passages import by_hand, passage
from shorthand import VIOLIN, frame

from bookgen.binder.passage_words import (
    GroupWords,
    bars_name,
    counted,
    group_words,
    higher_name,
    ladder_words,
    marks_of,
    spacings_of,
    where_name,
)
from bookgen.model.units import Semitones
from bookgen.plan.passage import Group, Passage

DASH = "\N{EN DASH}"


def words_of(one: Passage, at: int = 0) -> GroupWords:
    return group_words(one.best.groups[at], one, VIOLIN, str)


def with_group(one: Passage, group: Group) -> Passage:
    return replace(one, best=replace(one.best, groups=(group,)))


def test_a_group_is_named_by_its_lowest_finger_and_the_note_under_it() -> None:
    one = by_hand("A4 B4 C#5 D5 | E5 F#5", "II0 II1 II2 II3 I0 I1", [(0, 5)])
    group = replace(one.best.groups[0], frame=frame("WHW"), place=Semitones(2))
    found = words_of(with_group(one, group))

    assert (found.finger, found.note, found.string, found.position) == (1, "B4", "II", "1st")
    assert (found.bars, found.where) == (f"33{DASH}34", f"bars 33{DASH}34")
    assert found.strings == ("II", "I")
    assert found.opens == ("A", "E")
    assert found.spacings == ((f"1{DASH}2", "whole"), (f"2{DASH}3", "half"), (f"3{DASH}4", "whole"))
    assert dict(found.steps) == {"M2": 3, "m2": 1}
    assert dict(found.crossings) == {"M2": 1}


def test_open_strings_alone_have_no_finger() -> None:
    found = words_of(by_hand("A4 E5", "II0 I0", [(0, 1)]))

    assert (found.finger, found.note, found.opens) == (None, "", ("A", "E"))


def test_equal_hands_know_of_each_other() -> None:
    one = by_hand("B4 C#5 E5 F#5", "II1 II2 II1 II2", [(0, 1), (2, 3)])
    first, second = one.best.groups
    second = replace(second, same_as="A", higher=5)
    one = replace(one, best=replace(one.best, groups=(first, second)))

    assert words_of(one).also == (("B", "five half steps higher"),)
    assert (words_of(one, 1).same_as, words_of(one, 1).higher) == ("A", "five half steps higher")


def test_a_finger_that_stands_otherwise_on_another_string_is_told() -> None:
    one = by_hand("B4 C#5 F5", "II1 II2 I1", [(0, 2)])
    group = replace(one.best.groups[0], frame=frame("WHW"), others=(frame("HWW"),))
    found = words_of(with_group(one, group))

    assert [[words for _, words in other] for other in found.others] == [["half", "whole", "whole"]]


@pytest.mark.parametrize(
    ("bars", "name", "where"),
    [
        (["33"], "33", "bar 33"),
        (["33", "34", "35"], f"33{DASH}35", f"bars 33{DASH}35"),
        (["0"], "upbeat", "upbeat"),
        (["0", "1", "2"], "upbeat to 2", "upbeat to 2"),
        (["", "", ""], "", ""),
        ([], "", ""),
    ],
)
def test_bars_in_words(bars: list[str], name: str, where: str) -> None:
    assert (bars_name(bars), where_name(bars)) == (name, where)


@pytest.mark.parametrize(
    ("semitones", "words"),
    [
        (1, "one half step higher"),
        (-4, "four half steps lower"),
        (9, "9 half steps higher"),
        (0, "in the same place"),
    ],
)
def test_how_much_higher_a_hand_lies(semitones: int, words: str) -> None:
    assert higher_name(semitones) == words


def test_intervals_are_told_from_the_narrowest_and_never_like_notes() -> None:
    assert counted({"P8": 1, "A4": 2, "m2": 3}) == (("m2", 3), ("aug4", 2), ("P8", 1))


def test_the_marks_of_the_table_are_explained() -> None:
    found = dict(marks_of(passage()))

    assert found["M2"] == "major second"
    shown = [words_of(passage(), at) for at in range(len(passage().best.groups))]
    told = {mark for one in shown for mark, _ in (*one.steps, *one.crossings, *one.together)}
    assert told == set(found)


def test_a_ladder_tells_its_numbers_and_what_stands_above() -> None:
    group = words_of(by_hand("A4", "II0", [(0, 0)]))
    found = ladder_words(group, [4, 5, 6], [1, 3])

    assert (found.numbers, found.shared) == (f"4{DASH}6", "1 and 3")


def test_spacings_stand_between_neighbours() -> None:
    assert spacings_of(frame("WAH")) == (
        (f"1{DASH}2", "whole"),
        (f"2{DASH}3", "three half steps"),
        (f"3{DASH}4", "half"),
    )
