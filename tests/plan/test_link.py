"""What ties two drills."""

import pytest
from kit.drills import VIOLIN, entry

from bookgen.errors import RefusedError
from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.music import play
from bookgen.plan.link import change, crossings, kept, named

BASE = "12-whole-place2-strings4321-stage1-low-same"
FRAME = "123-whole.half-place2-strings4321-stage1-low-same"


def drill(key: str) -> Drill:
    return entry(key).drill


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("key", "changes", "keeps", "up", "back"),
    [
        (BASE.replace("same", "mirror"), "return", ("fingers", "place"), "P4", "P4"),
        (BASE.replace("whole", "half"), "spacing", ("fingers", "place"), "A4", "m6"),
        (BASE.replace("place2", "place4"), "place", ("fingers", "spacing"), "P4", "M6"),
        (BASE.replace("place2", "place14"), "octave", ("fingers", "spacing"), "P4", "M6"),
        (BASE.replace("12-", "23-"), "pair", ("spacing", "notes"), "P4", "M6"),
        (
            BASE.replace("12-", "23-").replace("place2", "place4"),
            "pair",
            ("spacing", "finger"),
            "P4",
            "M6",
        ),
        (BASE.replace("4321", "432"), "strings", ("fingers", "place"), "P4", "M6"),
        (BASE.replace("low", "high"), "lead", ("fingers", "place"), "M6", "P4"),
        (BASE.replace("stage1", "stage2"), "stage", ("fingers", "place"), "M6", "P4"),
    ],
)
def test_a_link_changes_one_thing_keeps_two_and_has_its_sound(
    key: str, changes: Dimension, keeps: tuple[str, ...], up: str, back: str
) -> None:
    after = drill(key)

    assert change(drill(BASE), after) == changes
    assert kept(drill(BASE), after) == keeps
    assert crossings(play(after, VIOLIN)) == (frozenset({up}), frozenset({back}))


def test_the_finger_that_stays_is_one_that_both_hands_have_at_one_place() -> None:
    for key in ("234-whole.half-place4", "234-whole.half-place3"):
        assert kept(drill(FRAME), drill(f"{key}-strings4321-stage1-low-same")) == (
            "spacing",
            "finger",
        )


def test_crossings_of_a_frame_have_no_one_name() -> None:
    key = "1234-whole.half.whole-place2-strings4321-stage3-low-mirror"

    assert not named(crossings(play(drill(key), VIOLIN)))


@pytest.mark.parametrize(
    ("key", "changed"),
    [(BASE, "null"), ("12-half-place3-strings4321-stage1-low-same", "spacing, place")],
)
def test_nothing_and_two_changes_are_no_link(key: str, changed: str) -> None:
    with pytest.raises(RefusedError, match=f"plan-link-drills .*changes='{changed}'"):
        kept(drill(BASE), drill(key))
