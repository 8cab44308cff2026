"""Passages on their way to the planner and the page."""

from datetime import date
from pathlib import Path

import pytest
from music21 import converter
from music21.articulations import Fingering

from bookgen.errors import BookgenError
from bookgen.model.costs import Preference
from bookgen.plan.document import Role
from bookgen.readers.score.kinds import read_passage
from bookgen.readers.studio.file import parse_studio
from bookgen.tasks.deadlines import close_deadlines
from bookgen.tasks.pieces import comes_from, goals_of, passage_in, passage_of
from bookgen.tasks.plans import Printing, planned
from bookgen.tasks.roster import NOBODY
from bookgen.tasks.wish import NOTHING_KNOWN, Asked, Taste, Wish, asked_of

FIRST = date(2026, 12, 7)
HIGH = "title: Harbour air\nkey: A major\nbar: 5\nE6 F#6 G#6 A6 | A6 G#6 F#6 E6 |\n"
ROSTER = """
[players.Ines]
minutes = 15
[players.Ines.start]
secure_to_stage = 1
[[players.Ines.passage]]
file = "air.passage"
bars = "5-6"
ready_by = 2026-12-19
"""


def ines(text: str = ROSTER) -> Asked:
    return asked_of(parse_studio(text, "studio.toml").players["Ines"], Wish())


@pytest.fixture
def air(here: Path) -> Path:
    path = here / "air.passage"
    path.write_text(HIGH, encoding="utf-8")
    return path


@pytest.mark.usefixtures("air")
def test_a_passage_on_the_roster_is_worked_into_the_days_before_its_own() -> None:
    asked = ines()
    (goal,) = goals_of(asked, NOTHING_KNOWN, FIRST)
    days = [FIRST.replace(day=day) for day in range(7, 20)]
    plan = planned(asked, days, None, Wish()).plan
    steps = [(item, entry) for _, item, entry in plan.items() if entry.drill in goal.drills]

    assert (goal.title, goal.bars) == ("Harbour air", ("5", "6"))
    assert goal.ready_by == date(2026, 12, 19)
    assert {entry.drill for _, entry in steps} == set(goal.drills)
    ladder = [item.towards for item, _ in steps if item.role is Role.PASSAGE]
    assert ladder
    assert all(to is not None and (to.title, to.bars) == (goal.title, goal.bars) for to in ladder)


@pytest.mark.usefixtures("air")
def test_the_bars_come_out_of_a_plan_with_the_fingers_that_went_in() -> None:
    asked = ines()
    (goal,) = goals_of(asked, NOTHING_KNOWN, FIRST)
    plan = planned(asked, [date(2026, 12, 19)], None, Wish()).plan
    (close,) = close_deadlines(Printing(plan, goals=(goal,)), date(2026, 12, 19), asked.instrument)
    notes = [*converter.parse(close.music, format="musicxml").recurse().notes]
    up = ["E6", "F#6", "G#6", "A6"]
    back = passage_in(close, asked.instrument, asked.size)

    assert [note.nameWithOctave for note in notes] == [*up, *up[::-1]]
    assert goal.passage is not None
    placed = goal.passage.best.placed
    fingers = [[stop.finger for stop in one.stops if stop] for one in placed]
    assert [
        [a.fingerNumber for a in note.articulations if isinstance(a, Fingering)] for note in notes
    ] == fingers
    assert [one.stops for one in back.best.placed] == [one.stops for one in placed]
    assert [group.letter for group in back.best.groups] == ["A"]


@pytest.mark.usefixtures("air")
def test_after_its_day_a_passage_is_left_alone() -> None:
    assert goals_of(ines(), NOTHING_KNOWN, date(2026, 12, 20)) == ()


def test_a_file_that_is_missing_is_told_with_player_and_passage() -> None:
    with pytest.raises(BookgenError) as stopped:
        goals_of(ines(), NOTHING_KNOWN, FIRST)

    (line,) = str(stopped.value).splitlines()
    assert line.startswith('studio.toml, player "Ines", passage 1, air.passage: ')


def test_whoever_nobody_knows_comes_from_the_hand_of_most_beginners() -> None:
    nobody = asked_of(NOBODY, Wish())
    (start,) = comes_from(nobody, NOTHING_KNOWN, FIRST).secure

    assert start.key == "violin-12-whole-place2-strings4321-stage1-low-mirror"
    assert comes_from(nobody, NOTHING_KNOWN, FIRST.replace(day=8)).secure == (start,)


def test_a_passage_has_fingering_groups_and_drills(air: Path) -> None:
    asked = ines()
    file = read_passage(air, asked.instrument)
    passage = passage_of(file, asked, NOTHING_KNOWN, FIRST, Taste(Preference.FEW_SHIFTS))

    assert passage.title == "Harbour air"
    assert [group.letter for group in passage.best.groups] == ["A"]
    assert passage.plan is not None
    drills = [entry.drill for _, _, entry in passage.plan.items()]
    assert drills == [drill for ladder in passage.ladders for drill in ladder.drills]
    assert passage.plan.player == "Ines"
