"""Link lines, read as a player reads them."""

import pytest
from drills import entry

from bookgen.planner.explain import link_text

BASE = "12-whole-place2-strings4321-stage1-low-same"


def line(key: str) -> str:
    before, after = entry(BASE), entry(key)
    return link_text(3, before.drill, after.drill, before.events, after.events)


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("key", "text"),
    [
        (
            BASE.replace("same", "mirror"),
            (
                "same fingers, same place. New: the way back is the way up backwards."
                " Hear perfect fourths, up and back."
            ),
        ),
        (
            BASE.replace("whole", "half"),
            (
                "same fingers, same place. New: a half step instead; finger 2 moves closer."
                " Hear augmented fourths going up and minor sixths coming back."
            ),
        ),
        (
            BASE.replace("place2", "place4"),
            (
                "same fingers, same whole step. New: the whole hand goes a whole step higher."
                " The crossings sound the same."
            ),
        ),
        (
            BASE.replace("place2", "place14"),
            (
                "same fingers, same whole step. New: the whole hand goes an octave higher."
                " The crossings sound the same."
            ),
        ),
        (
            BASE.replace("12-", "23-"),
            (
                "same whole step, same notes. New: fingers 2 and 3 play them, so the hand moves"
                " down. The crossings sound the same."
            ),
        ),
        (
            BASE.replace("4321", "432"),
            ("same fingers, same place. New: only strings IV to II. The crossings sound the same."),
        ),
        (
            BASE.replace("low", "high"),
            (
                "same fingers, same place. New: finger 2 begins."
                " Hear major sixths going up and perfect fourths coming back."
            ),
        ),
        (
            BASE.replace("stage1", "stage2"),
            (
                "same fingers, same place. New: you cross to the next string on the second note."
                " Hear major sixths going up and perfect fourths coming back."
            ),
        ),
    ],
)
def test_a_link_says_what_stays_what_is_new_and_what_to_hear(key: str, text: str) -> None:
    assert line(key) == f"As No. 3: {text}"


def test_two_changes_are_no_link() -> None:
    with pytest.raises(ValueError, match="differ in 2 dimensions"):
        line("12-half-place3-strings4321-stage1-low-same")
