"""What follows from a fingered passage."""

from kit.fingered import solved
from kit.passages import by_hand, laid_in_first
from kit.phrases import phrase

from bookgen.plan.passage_facts import bars_of, changes_of, notes_at


def test_some_sounds_have_their_bars() -> None:
    one = by_hand("A4 B4 | A4 B4", "II0 II1 II0 II1", [(0, 2), (3, 3)])

    assert bars_of(0, 2, one.best, one.phrase) == ("33", "34")
    assert bars_of(3, 3, one.best, one.phrase) == ("34",)


def test_a_finger_goes_high_and_low_on_whatever_string() -> None:
    best = laid_in_first("C5 C#5 A4 F#4 F4", "II2 II2 II0 III2 III2").best
    changes = {
        at: [(one.now.finger, one.by, one.same_string, one.since) for one in some]
        for at, some in changes_of(best).items()
    }

    assert changes == {1: [(2, 1, True, 0)], 4: [(2, -1, True, 3)]}


def test_a_finger_at_the_same_height_on_another_string_has_not_changed() -> None:
    assert changes_of(laid_in_first("C5 F4", "II2 III2").best) == {}


def test_where_the_hand_has_moved_nothing_is_compared() -> None:
    best = solved(phrase("B4:1@II C5:2 D5:1@II F5:2")).best
    places = {one.hand.place for one in best.placed if one.hand}

    assert len(places) == 2
    assert changes_of(best) == {}


def test_what_cannot_be_played_has_no_note() -> None:
    one = by_hand("D4+B4 F#3", "III0+II1 -")

    assert [str(note.pitch) for note in notes_at(one.best.placed[0], one.phrase)] == ["D4", "B4"]
    assert notes_at(one.best.placed[1], one.phrase) == ()
