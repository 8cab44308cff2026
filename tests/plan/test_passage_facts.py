"""What follows from a fingered passage."""

from dataclasses import replace

from kit.passages import by_hand, passage

from bookgen.model.interval import Interval
from bookgen.model.units import Semitones
from bookgen.plan.passage import Fingering, Group, Passage
from bookgen.plan.passage_facts import (
    bars_of,
    differing,
    lowest_of,
    moves_of_group,
    named,
    notes_at,
    notes_of,
    stops_of_group,
)


def first_group(one: Passage) -> Group:
    return one.best.groups[0]


def test_a_group_has_its_bars_and_each_stop_once() -> None:
    one = by_hand("A4 B4 | A4 B4", "II0 II1 II0 II1", [(0, 2), (3, 3)])

    assert bars_of(first_group(one), one.best, one.phrase) == ("33", "34")
    notes = notes_of(first_group(one), one.best, one.phrase)
    assert [str(note.pitch) for note in notes] == ["A4", "B4"]


def test_the_lowest_finger_names_the_hand_with_its_note_at_the_place() -> None:
    one = by_hand("D5 C5 C#5 A4", "II3 II2 II2 II0", [(0, 3)])
    group = replace(first_group(one), place=Semitones(4))
    found = lowest_of(group, one.best, one.phrase)
    opens = by_hand("A4 E5", "II0 I0", [(0, 1)])

    assert found is not None
    assert (found.stop.finger, str(found.pitch)) == (2, "C#5")
    assert lowest_of(first_group(opens), opens.best, opens.phrase) is None


def test_moves_are_counted_along_the_string_and_across() -> None:
    one = by_hand("A4 B4 B4 F#5 D4+B4 E5", "II0 II1 II1 I1 III0+II1 I0", [(0, 5)])

    assert moves_of_group(first_group(one), one.best, one.phrase) == {
        ("M2", False): 1,
        ("P5", True): 1,
        ("P4", True): 1,
    }
    assert stops_of_group(first_group(one), one.best, one.phrase) == {"M6": 1}


def test_a_tied_note_makes_no_move_and_what_cannot_be_played_no_note() -> None:
    one = by_hand("D4+B4 ~D4+C5 F#3", "III0+II1 III0+II2 -", [(0, 2)])
    placed = one.best.placed

    assert [str(note.pitch) for note in notes_at(placed[1], one.phrase, struck=True)] == ["C5"]
    assert notes_at(placed[2], one.phrase) == ()
    assert moves_of_group(first_group(one), one.best, one.phrase) == {("m2", False): 1}


def test_an_interval_without_a_name_is_left_out() -> None:
    assert named(Interval(0, Semitones(2)))
    assert not named(Interval(1, Semitones(5)))


def test_where_two_fingerings_differ() -> None:
    one = by_hand("A4 B4 C5 D5 E5", "II0 II1 II2 II3 I0").best
    other = by_hand("A4 B4 C5 D5 E5", "III4 II1 II1 II2 I0").best

    assert list(differing(one, other)) == [(0, 0), (2, 3)]
    assert list(differing(one, one)) == []
    assert list(differing(Fingering((), (), 0.0, ()), Fingering((), (), 0.0, ()))) == []


def test_the_next_best_of_a_solved_passage_differs() -> None:
    one = passage()

    assert one.other is not None
    assert list(differing(one.best, one.other))
