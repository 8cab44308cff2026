"""What is said of a passage, of its placements and of its ladders."""

from collections.abc import Sequence
from dataclasses import replace

import pytest
from kit.passages import by_hand, passage
from kit.shorthand import VIOLIN, frame

from bookgen.model.costs import PARTS
from bookgen.model.units import Semitones
from bookgen.plan.passage import Fingering, Group, Passage
from bookgen.words import passage as words
from bookgen.words import passage_ladders, passage_other
from bookgen.words.speech import ENGLISH

DASH = "\N{EN DASH}"
SPACE = "\N{NO-BREAK SPACE}"


def cells(one: Passage, at: int = 0) -> tuple[Sequence[str], ...]:
    return words.cells(one.best.groups[at], one, VIOLIN, ENGLISH)


def with_group(one: Passage, group: Group) -> Passage:
    return replace(one, best=replace(one.best, groups=(group,)))


def test_a_placement_is_named_by_its_lowest_finger_and_the_note_under_it() -> None:
    one = by_hand("A4 B4 C#5 D5 | E5 F#5", "II0 II1 II2 II3 I0 I1", [(0, 5)])
    group = replace(one.best.groups[0], frame=frame("WHW"), place=Semitones(2))
    letter, bars, hand, spacings, moves = cells(with_group(one, group))

    assert (letter, bars) == (["<b>A</b>"], [f"33{DASH}34"])
    assert hand == ["1st position, strings II and I", "finger 1 on B4 (II)"]
    assert spacings == [
        f"1{DASH}2{SPACE}whole, 2{DASH}3{SPACE}half, 3{DASH}4{SPACE}whole",
    ]
    assert moves == ["on a string: m2, M2", "over strings: M2"]


def test_open_strings_alone_have_no_finger() -> None:
    _, _, hand, spacings, _ = cells(by_hand("A4 E5", "II0 I0", [(0, 1)]))
    assert (hand, spacings) == (["open A and E"], [])


def test_equal_hands_know_of_each_other() -> None:
    one = by_hand("B4 C#5 E5 F#5", "II1 II2 II1 II2", [(0, 1), (2, 3)])
    first, second = one.best.groups
    second = replace(second, same_as="A", higher=5)
    one = replace(one, best=replace(one.best, groups=(first, second)))

    assert words.same_hands(first, one, ENGLISH) == "The same hand: <b>B</b>, 5 half steps higher"
    assert "<i>the hand of A, 5 half steps higher</i>" in cells(one, 1)[3]


def test_a_finger_that_stands_otherwise_on_another_string_is_told() -> None:
    one = by_hand("B4 C#5 F5", "II1 II2 I1", [(0, 2)])
    group = replace(one.best.groups[0], frame=frame("WHW"), others=(frame("HWW"),))
    also = cells(with_group(one, group))[3][1]
    assert also == f"also 1{DASH}2{SPACE}half, 2{DASH}3{SPACE}whole, 3{DASH}4{SPACE}whole"


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
    assert words.bars_name(bars, ENGLISH) == name
    assert words.where_name(bars, ENGLISH) == where


@pytest.mark.parametrize(
    ("semitones", "said"),
    [
        (1, "1 half step higher"),
        (-4, "4 half steps lower"),
        (0, "in the same place"),
    ],
)
def test_how_much_higher_a_hand_lies(semitones: int, said: str) -> None:
    group = Group("B", 0, 0, None, Semitones(2), "1st", "A", semitones)
    assert words.higher(group, ENGLISH) == said


def test_intervals_are_told_from_the_narrowest_and_never_like_notes() -> None:
    assert words.labels({"P8", "A4", "m2"}, ENGLISH) == "m2, aug4, P8"


def test_the_marks_of_the_table_are_explained() -> None:
    one = passage()
    told = words.marks(one, ENGLISH)
    assert "M2 major second" in told
    for at in range(len(one.best.groups)):
        for line in cells(one, at)[4]:
            for mark in line.partition(": ")[2].split(", "):
                assert f"{mark} " in told


@pytest.mark.parametrize(
    ("own", "shared", "said"),
    [
        ([4], [1], "First drill 1, above."),
        ([4, 5], [1, 3], "First drills 1 and 3, above."),
        ([], [1, 3], "Its drills stand above: 1 and 3."),
        ([], [], "What this placement needs is secure, or no drill has it."),
        ([4], [], ""),
    ],
)
def test_a_ladder_tells_what_stands_above(own: list[int], shared: list[int], said: str) -> None:
    assert passage_ladders.ladder_text(own, shared, ENGLISH) == said


def test_a_passage_counts_its_placements_and_its_hands() -> None:
    one = passage()
    assert words.facts(one, VIOLIN, ENGLISH) == (
        f"Violin 4/4 · bars 33{DASH}38 · {len(one.best.groups)} placements of the hand"
    )
    equal = replace(one.best.groups[1], same_as="A", higher=2)
    other = replace(one, best=replace(one.best, groups=(one.best.groups[0], equal)))
    assert "2 placements of the hand · all of one shape" in words.facts(other, VIOLIN, ENGLISH)


def test_a_note_that_cannot_be_played_is_in_the_key_and_told_by_its_bar() -> None:
    assert "A note with a cross" in " ".join(words.key(passage(), ENGLISH))
    assert "A note with a cross" not in " ".join(words.key(by_hand("A4", "II0"), ENGLISH))
    (told,) = words.unplayable(passage(), ENGLISH)
    assert told.startswith("Bar 36: ")


def test_where_the_next_best_differs_is_told_by_fingers_and_strings() -> None:
    one = by_hand("A4 B4 C5 D5 | E5 F5", "II0 II1 II2 II3 I0 I1")
    other = by_hand("A4 B4 C5 D5 | E5 F5", "III4 II1 II2 II3 II4 I1")

    assert list(passage_other.differences(replace(one, other=other.best), ENGLISH)) == [
        "Bar 33: <b>4 on III</b>, instead of 0 on II",
        "Bar 34: <b>4 on II</b>, instead of 0 on I",
    ]


def told(one: Passage, last: int) -> str:
    return passage_other.played(one.best, one.phrase, 0, last, ENGLISH)


def test_positions_are_told_where_groups_have_them_and_long_runs_are_cut() -> None:
    grouped = by_hand("A4 B4 C5 D5", "II0 II1 II2 II3", [(0, 3)])
    long = by_hand("A4 " * 16, "II0 " * 16)
    zigzag = by_hand("A4 E5 A4 E5 A4 E5", "II0 I0 II0 I0 II0 I0")
    chord = by_hand("D4+B4 F#3", "III0+II1 -")

    assert told(grouped, 3) == "1st position, 0 1 2 3 on II"
    assert told(long, 15) == "0 0 0 0 0 0 0 0 0 0 on II …"
    assert told(zigzag, 5) == "0 on II, 0 on I, 0 on II, 0 on I …"
    assert told(chord, 1) == f"0+1 on III+II, {DASH} on no string"


def test_the_parts_of_the_cost_are_named_from_the_greatest() -> None:
    one = by_hand("A4 B4", "II0 II1").best

    def priced(*costs: dict[str, float]) -> Fingering:
        placed = (replace(each, cost=cost) for each, cost in zip(one.placed, costs, strict=True))
        return replace(one, placed=tuple(placed))

    best = priced({"shift": 1.0, "open": 0.5}, {"string": 0.2})
    other = priced({"shift": 1.5}, {"string": 0.22, "high": 2.0})

    found = passage_other.costs_apart(best, other)
    assert list(found) == ["high", "open", "shift"]
    assert list(found.values()) == pytest.approx([2.0, -0.5, 0.5])


def test_the_next_best_of_a_solved_passage_costs_more_for_a_reason() -> None:
    said = passage_other.dearer(passage(), ENGLISH)
    assert said.startswith("By our table it costs")
    assert "It has more of: " in said


def test_without_another_fingering_nothing_is_said_of_it() -> None:
    one = replace(passage(), other=None)
    assert (list(passage_other.differences(one, ENGLISH)), passage_other.dearer(one, ENGLISH)) == (
        [],
        "",
    )


def test_every_part_of_a_cost_has_a_name() -> None:
    assert len(passage_other.parts(PARTS, ENGLISH).split(", ")) == len(PARTS) - 1
