"""What is struck in a phrase, and the time around it."""

from fractions import Fraction

from kit.phrases import phrase

from bookgen.passage.event import events_of


def told(text: str) -> str:
    """Events as `bar.sound lasts silence`."""
    return ", ".join(
        f"{one.bar}.{one.sound} {one.lasts} {one.silence}" for one in events_of(phrase(text))
    )


def test_rests_become_the_silence_before_a_note() -> None:
    assert told("C4 r r=1/4 D4 | r E4=1/2") == "0.0 1/8 0, 0.3 1/8 3/8, 1.1 1/2 1/8"


def test_a_tie_goes_on_with_the_note_before_it() -> None:
    assert told("C4=1/4 | ~C4=1/2 D4") == "0.0 3/4 0, 1.1 1/8 0"


def test_a_double_stop_of_which_one_note_is_tied_is_struck() -> None:
    first, then = events_of(phrase("C4+G4 ~C4+A4"))

    assert first.held == (None, None)
    assert then.held == (0, None)


def test_a_tie_from_nothing_is_struck() -> None:
    assert told("~C4 r ~C4") == "0.0 1/8 0, 0.2 1/8 1/8"


def test_a_grace_note_has_no_time() -> None:
    grace, note = events_of(phrase("gD4 C4"))

    assert grace.quick
    assert grace.lasts == Fraction(0)
    assert not note.quick


def test_what_a_slur_leads_to_is_slurred_and_its_first_note_is_not() -> None:
    slurred = [one.slurred for one in events_of(phrase("C4 {D4 E4 {F4} G4} A4"))]

    assert slurred == [False, False, True, True, True, False]


def test_a_group_keeps_the_hand_after_its_first_note_over_rests_and_ties() -> None:
    kept = [one.kept for one in events_of(phrase("C4 [D4 ~D4 r E4] F4"))]

    assert kept == [False, False, True, False]


def test_a_tie_finds_its_note_by_its_sound() -> None:
    (only,) = events_of(phrase("C#4=1/4 ~Db4=1/4"))

    assert only.lasts == Fraction(1, 2)
