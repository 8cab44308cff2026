"""Ties from note to note, and ties from what is not there."""

from hypothesis import given, settings
from hypothesis import strategies as st
from kit.passages import random_phrase
from kit.phrases import phrase

from bookgen.notation.sounds import Place
from bookgen.notation.tie import Ties, ties_of


def ties(text: str) -> dict[Place, Ties]:
    return ties_of(phrase(text))


def test_a_tie_leads_to_the_same_note_beside_it() -> None:
    assert ties("A4 ~A4 B4") == {
        (0, 0): Ties(on=frozenset({0})),
        (0, 1): Ties(back=frozenset({0})),
    }


def test_one_note_of_a_chord_may_be_tied() -> None:
    assert ties("D4+B4 ~D4+C5") == {
        (0, 0): Ties(on=frozenset({0})),
        (0, 1): Ties(back=frozenset({0})),
    }


def test_a_tie_goes_over_the_bar_and_over_grace_notes() -> None:
    found = ties("A4=1 | gB4 ~A4=1")

    assert found == {(0, 0): Ties(on=frozenset({0})), (1, 1): Ties(back=frozenset({0}))}


def test_a_tie_from_nothing_from_a_rest_or_from_another_spelling_is_over() -> None:
    over = Ties(over=frozenset({0}))

    assert ties("~A4 B4") == {(0, 0): over}
    assert ties("A4 r ~A4") == {(0, 2): over}
    assert ties("G#4 ~Ab4") == {(0, 1): over}


@settings(max_examples=40)
@given(st.integers(0, 10**6))
def test_every_tied_note_comes_from_somewhere_or_is_over(seed: int) -> None:
    given_phrase = random_phrase(seed, 4)
    found = ties_of(given_phrase)

    for (bar, at), one in found.items():
        notes = given_phrase.bars[bar].sounds[at].notes
        assert one.back | one.over == {index for index, note in enumerate(notes) if note.tied}
        assert not one.back & one.over
    assert sum(len(one.on) for one in found.values()) <= sum(
        len(one.back) for one in found.values()
    )
