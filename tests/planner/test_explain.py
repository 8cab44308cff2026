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
                "As in No. 3: the whole step with fingers 1 and 2, the same place. New: the way back "
                "is the way up backwards. Listen: the crossings are now perfect fourths, up and back."
            ),
        ),
        (
            BASE.replace("whole", "half"),
            (
                "As in No. 3: the same fingers, the same place. New: a half step instead; finger 2 "
                "moves closer. Listen: now augmented fourths going up and minor sixths coming back."
            ),
        ),
        (
            BASE.replace("place2", "place4"),
            (
                "As in No. 3: the whole step with fingers 1 and 2. New: the whole hand goes a whole "
                "step higher. Each crossing sounds the same interval as before."
            ),
        ),
        (
            BASE.replace("place2", "place14"),
            (
                "As in No. 3: the whole step with fingers 1 and 2. New: the whole hand goes an octave "
                "higher. Each crossing sounds the same interval as before."
            ),
        ),
        (
            BASE.replace("12-", "23-"),
            (
                "As in No. 3: the whole step, the same place on the string. New: fingers 2 and 3 do "
                "it. Each crossing sounds the same interval as before."
            ),
        ),
        (
            BASE.replace("4321", "432"),
            (
                "As in No. 3: the whole step with fingers 1 and 2, the same place. New: only strings "
                "IV to II. Each crossing sounds the same interval as before."
            ),
        ),
        (
            BASE.replace("low", "high"),
            (
                "As in No. 3: the whole step with fingers 1 and 2, the same place. New: finger 2 "
                "begins. Listen: now major sixths going up and perfect fourths coming back."
            ),
        ),
        (
            BASE.replace("stage1", "stage2"),
            (
                "As in No. 3: the whole step with fingers 1 and 2, the same place. New: you cross to "
                "the next string on the second note. Listen: now major sixths going up and perfect "
                "fourths coming back."
            ),
        ),
    ],
)
def test_a_link_says_what_stays_what_is_new_and_what_to_hear(key: str, text: str) -> None:
    assert line(key) == text


def test_two_changes_are_no_link() -> None:
    with pytest.raises(ValueError, match="differ in 2 dimensions"):
        line("12-half-place3-strings4321-stage1-low-same")
