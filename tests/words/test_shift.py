"""What is said of drills for passages: each sentence is what its notes show."""

import pytest
from kit.drills import VIOLIN, drill_of, entry

from bookgen.binder.parts.block.words import asked_for_words
from bookgen.model.music import play
from bookgen.plan.document import Link
from bookgen.words.drill import hand_name, link_line, way_name
from bookgen.words.drill_title import place_name
from bookgen.words.speech import ENGLISH

REST = "strings43-stage1-low-same"


ONE_FINGER = "<b>Ear</b> One finger stops both strings: turn it until the perfect fifth is at rest."


@pytest.mark.parametrize(
    ("key", "title"),
    [
        (
            f"12-whole-place2to5-{REST}",
            "1 and 2, whole step · 1st to 3rd position · shift once on each string",
        ),
        (
            "1-place1to2-strings43-stage3-low-same",
            "finger 1 alone · half to 1st position · shift as you cross",
        ),
        (
            f"12-half-place2to3-{REST}",
            "1 and 2, half step · 1st to 2nd position · shift once on each string",
        ),
        (
            "12-whole-place2to5-strings43-stage2-low-same",
            "1 and 2, whole step · 1st to 3rd position · shift on 2nd note",
        ),
        ("3-place5-strings43-stage5-low-same", "finger 3 alone · 1st position · double stops"),
        (
            "12-whole-place2-strings42-stage3-low-same",
            "1 and 2, whole step · 1st position · cross on every note, skip III",
        ),
        (
            "12-whole-place2-strings41-stage1-low-same",
            "1 and 2, whole step · 1st position · string by string, skip III and II",
        ),
    ],
)
def test_the_title_tells_fingers_places_and_way(key: str, title: str) -> None:
    one = entry(key)
    parts = hand_name(one.drill, ENGLISH), place_name(one, ENGLISH), way_name(one.drill, ENGLISH)

    assert " · ".join(parts) == title


@pytest.mark.parametrize(
    ("key", "said"),
    [
        (
            f"12-whole-place2to5-{REST}",
            ["<b>Ear</b> Sing C4 before the hand shifts (minor second above B3)."],
        ),
        (
            f"12-whole-place2to3-{REST}",
            ["<b>Ear</b> Sing B♭3 before the hand shifts (minor second below B3)."],
        ),
        (
            f"12-whole-place2to4-{REST}",
            ["<b>Ear</b> B3 stays as the hand shifts: finger 1 comes to the spot of finger 2."],
        ),
        (
            "1-place2-strings43-stage3-low-same",
            [ONE_FINGER],
        ),
        (
            "1-place2-strings43-stage5-low-same",
            [ONE_FINGER],
        ),
        (
            "12-whole-place2-strings41-stage3-low-same",
            ["<b>Bow</b> Pass over strings III and II without a sound."],
        ),
        (
            "1-place2-strings42-stage3-low-same",
            ["<b>Bow</b> Pass over string III without a sound."],
        ),
        (f"12-whole-place2-{REST}", []),
    ],
)
def test_ear_and_bow_are_told_what_comes(key: str, said: list[str]) -> None:
    assert list(asked_for_words(entry(key), ENGLISH)) == said


def test_what_is_to_be_sung_is_the_note_after_the_first_shift() -> None:
    for shift in range(1, 13):
        one = entry(f"23-half-place4to{4 + shift}-{REST}")
        events = play(one.drill, VIOLIN)
        at = next(number for number, event in enumerate(events) if event.shifts)
        here, there = (events[number].notes[0].pitch for number in (at - 1, at))
        (line,) = asked_for_words(one, ENGLISH)
        word = "above" if there.midi > here.midi else "below"

        assert ENGLISH.pitch(there) in line
        assert word in line or there.midi == here.midi


@pytest.mark.parametrize(
    ("before", "after", "line"),
    [
        ("12-whole-place2", "12-whole-place2to5", "now shift"),
        ("12-whole-place2to5", "12-whole-place2to9", "shift farther"),
        ("12-whole-place2to5", "12-whole-place2to4", "shift less far"),
        ("12-whole-place2to5", "12-whole-place2", "hand stays"),
        ("12-whole-place2to5", "2-place4to7", "finger 2 alone"),
        ("2-place4to7", "12-whole-place2to5", "one finger joins"),
        ("2-place4to7", "1-place4to7", "same notes, other fingers"),
        ("12-whole-place2to5", "12-whole-place3to6", "half step higher"),
    ],
)
def test_a_link_names_the_one_change(before: str, after: str, line: str) -> None:
    one, other = (drill_of(f"{key}-{REST}") for key in (before, after))
    (change,) = one.changes_to(other)

    assert link_line(Link(to=9, changes=change), other, one, ENGLISH) == f"Like 9, {line}"


def test_a_skipped_string_is_a_change_of_strings() -> None:
    one, other = (drill_of(f"12-whole-place2-strings{run}-stage3-low-same") for run in ("43", "42"))

    assert link_line(Link(to=9, changes=one.changes_to(other)[0]), other, one, ENGLISH) == (
        "Like 9, strings IV and II, skip what lies between"
    )
