"""Fingers, string numerals and brackets over a passage."""

from kit.passages import by_hand, passage

from bookgen.notation.fingered import Mark, brackets_of, marks_of, stops_of


def numerals(text: str, stops: str) -> list[str]:
    """The numerals that stand over the sounds of a passage."""
    one = by_hand(text, stops)
    return [mark.strings for mark in marks_of(one.phrase, one.best).values()]


def fingers(mark: Mark) -> dict[int, int]:
    """The fingers over the notes of a sound."""
    return {index: stop.finger for index, stop in mark.stops.items()}


def test_a_numeral_stands_where_the_string_changes() -> None:
    assert numerals("A4 B4 E5 F5 A4", "II0 II1 I0 I1 III4") == ["II", "", "I", "", "III"]


def test_chords_tell_their_strings_and_three_or_more_the_outer_ones() -> None:
    found = numerals(
        "D4+B4 E4+C5 G3+D4+B4 G3+D4+B4+G5 A4", "III0+II1 III1+II2 IV0+III0+II1 IV0+III0+II1+I2 II0"
    )

    assert found == ["III+II", "", "IV\N{EN DASH}II", "IV\N{EN DASH}I", "II"]


def test_a_tied_note_has_no_finger_and_no_numeral() -> None:
    one = by_hand("D4+B4 ~D4+C5", "III0+II1 III0+II2")
    first, second = marks_of(one.phrase, one.best).values()

    assert (fingers(first), first.strings) == ({0: 0, 1: 1}, "III+II")
    assert (fingers(second), second.strings) == ({1: 2}, "II")


def test_a_tied_note_that_is_stopped_anew_has_its_finger() -> None:
    broken = by_hand("D4+B4 ~D4+C5", "III0+II1 IV4+II2")
    excerpt = by_hand("~A4+E5 B4", "II0+I0 II1")

    assert [dict(found) for found in stops_of(broken.phrase, broken.best).values()] == [
        {0: broken.best.placed[0].stops[0], 1: broken.best.placed[0].stops[1]},
        {0: broken.best.placed[1].stops[0], 1: broken.best.placed[1].stops[1]},
    ]
    assert len(stops_of(excerpt.phrase, excerpt.best)[0, 0]) == 2


def test_what_cannot_be_played_has_no_finger() -> None:
    one = by_hand("F#3+B4 A4", "-+II1 II0")
    mark = marks_of(one.phrase, one.best)[0, 0]

    assert (fingers(mark), mark.unplayable) == ({1: 1}, frozenset({0}))


def test_a_group_reaches_to_the_end_of_its_last_tie() -> None:
    one = by_hand("A4 B4=1/2 | ~B4=1/4 r C5=1/2", "II0 II1 II2", [(0, 1), (2, 2)])

    assert [
        (found.letter, found.first, found.last) for found in brackets_of(one.phrase, one.best)
    ] == [
        ("A", (0, 0), (1, 0)),
        ("B", (1, 2), (1, 2)),
    ]


def test_brackets_follow_each_other_in_a_solved_passage() -> None:
    one = passage()
    found = list(brackets_of(one.phrase, one.best))

    assert [bracket.letter for bracket in found] == [group.letter for group in one.best.groups]
    ends = [place for bracket in found for place in (bracket.first, bracket.last)]
    assert ends == sorted(ends)
