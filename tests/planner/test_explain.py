"""Link lines, read as a player reads them."""

from datetime import date

import pytest
from drills import VIOLIN, entry
from hypothesis import given
from hypothesis import strategies as st
from planning import ordinary_pairs

from bookgen.model.drill import Drill
from bookgen.model.music import play
from bookgen.planner.area import Area, string_sets
from bookgen.planner.echo import Echo
from bookgen.planner.explain import Mention, link_text
from bookgen.planner.graph import Graph
from bookgen.planner.pool import pool
from bookgen.readers.weights import read_weights

BASE = "12-whole-place2-strings4321-stage1-low-same"
AREA = Area(ordinary_pairs(VIOLIN), frozenset({"1st", "3rd"}), string_sets(VIOLIN, 2), 5)
GRAPH = Graph(VIOLIN, AREA, read_weights())
POOL = tuple(pool(VIOLIN, AREA))
LONGEST = 160
"""Characters of two printed lines under a drill's title, or a little more."""


def line(key: str, at: int | Mention | None = 3, echo: str | None = None) -> str:
    before, after = entry(BASE), entry(key)
    met = None if echo is None else Echo(7, entry(echo).drill, entry(echo).position)
    return link_text(at, (before.drill, before.events), (after.drill, after.events), echo=met)


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("key", "text"),
    [
        (
            BASE.replace("same", "mirror"),
            (
                "same fingers, same place. New: the way back is the way up backwards."
                " Hear perfect fourths up and back."
            ),
        ),
        (
            BASE.replace("whole", "half"),
            (
                "same fingers, same place. New: a half step, finger 2 moves closer."
                " Hear augmented fourths up, minor sixths back."
            ),
        ),
        (
            BASE.replace("place2", "place4"),
            (
                "same fingers, same whole step. New: the hand goes a whole step higher."
                " The same perfect fourths up, major sixths back."
            ),
        ),
        (
            BASE.replace("place2", "place14"),
            (
                "same fingers, same whole step. New: the hand goes an octave higher."
                " The same perfect fourths up, major sixths back."
            ),
        ),
        (
            BASE.replace("12-", "23-"),
            (
                "same whole step, same notes. New: fingers 2 and 3, the hand moves down."
                " The same perfect fourths up, major sixths back."
            ),
        ),
        (
            BASE.replace("4321", "432"),
            (
                "same fingers, same place. New: only strings IV to II."
                " The same perfect fourths up, major sixths back."
            ),
        ),
        (
            BASE.replace("low", "high"),
            (
                "same fingers, same place. New: finger 2 begins."
                " Hear major sixths up, perfect fourths back."
            ),
        ),
        (
            BASE.replace("stage1", "stage2"),
            (
                "same fingers, same place. New: cross on the second note."
                " Hear major sixths up, perfect fourths back."
            ),
        ),
    ],
)
def test_a_link_says_what_stays_what_is_new_and_what_to_hear(key: str, text: str) -> None:
    assert line(key) == f"As No. 3: {text}"


@pytest.mark.parametrize(
    ("key", "stays"),
    [("234-whole.half-place4", 2), ("234-whole.half-place3", 3)],
)
def test_the_finger_that_stays_is_the_one_that_both_hands_have_at_one_place(
    key: str, stays: int
) -> None:
    rest = "-strings4321-stage1-low-same"
    before, after = entry(f"123-whole.half-place2{rest}"), entry(f"{key}{rest}")
    text = link_text(3, (before.drill, before.events), (after.drill, after.events))

    assert f"finger {stays} stays where it is" in text


def test_a_link_to_another_day_names_the_day() -> None:
    text = line(BASE.replace("low", "high"), Mention(12, date(2026, 12, 1)))

    assert text.startswith("As No. 12 of 1 Dec: same fingers, same place. New: finger 2 begins.")


def test_a_link_to_what_was_never_printed_names_no_number() -> None:
    assert line(BASE.replace("low", "high"), None).startswith("As you know it: same fingers,")


@pytest.mark.parametrize(
    ("echo", "told"),
    [
        (BASE.replace("12-", "23-").replace("same", "mirror"), "as in No. 7 with fingers 2 and 3."),
        (
            BASE.replace("place2", "place5").replace("same", "mirror"),
            "as in No. 7 in 3rd position.",
        ),
    ],
)
def test_an_echo_tells_where_the_interval_was_met(echo: str, told: str) -> None:
    text = line(BASE.replace("same", "mirror"), echo=echo)

    assert text.endswith(f" Hear perfect fourths up and back, {told}")
    assert len(text) <= LONGEST


def test_a_drill_in_another_hand_is_its_own_echo() -> None:
    assert "No. 7" not in line(BASE.replace("place2", "place4"), echo=BASE.replace("12-", "23-"))
    assert "No. 7" in line(BASE.replace("4321", "432"), echo=BASE.replace("12-", "23-"))


@given(st.sampled_from(POOL), st.data())
def test_links_are_short(drill: Drill, data: st.DataObject) -> None:
    _, other = data.draw(st.sampled_from(GRAPH.neighbours(drill)))
    echo = Echo(1107, data.draw(st.sampled_from(POOL)), "3rd")
    heard, now = play(drill, VIOLIN), play(other, VIOLIN)

    text = link_text(Mention(1112, date(2026, 9, 30)), (drill, heard), (other, now))
    assert len(text) <= LONGEST
    text = link_text(1112, (drill, heard), (other, now), echo=echo)
    assert len(text) <= LONGEST + 10


def test_two_changes_are_no_link() -> None:
    with pytest.raises(ValueError, match="differ in 2 dimensions"):
        line("12-half-place3-strings4321-stage1-low-same")
