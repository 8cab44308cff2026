"""Clefs, by the instrument's rule."""

from dataclasses import replace

import pytest
from drills import VIOLA, VIOLIN, entry

from bookgen.model.instrument import ClefChoice
from bookgen.model.pitch import Pitch
from bookgen.notation.clef import clef_name


@pytest.mark.parametrize(
    ("place", "strings", "clef"), [(2, "4321", "alto"), (7, "21", "treble"), (12, "43", "alto")]
)
def test_a_viola_climbs_from_alto_to_treble(place: int, strings: str, clef: str) -> None:
    drill = entry(f"12-whole-place{place}-strings{strings}-stage1-low-same", instrument=VIOLA)

    assert clef_name(drill, VIOLA) == clef


def test_a_violin_stays_in_treble() -> None:
    assert clef_name(entry("12-whole-place22-strings21-stage1-low-same"), VIOLIN) == "treble"


def test_the_limit_itself_still_belongs_to_the_clef() -> None:
    drill = entry("12-whole-place2-strings21-stage1-low-same")  # up to G#5
    last = ClefChoice("treble", None)
    reaching = replace(VIOLIN, clefs=(ClefChoice("alto", Pitch.parse("G#5")), last))
    short = replace(VIOLIN, clefs=(ClefChoice("alto", Pitch.parse("G5")), last))

    assert (clef_name(drill, reaching), clef_name(drill, short)) == ("alto", "treble")
