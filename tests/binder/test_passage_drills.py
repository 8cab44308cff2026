"""The drills of a passage under their headings."""

from dataclasses import replace

from paper import Recorder, stand_in
from passage_pages import WIDEST, desk, text, with_ladders
from passages import passage

from bookgen.binder.leaf import side_of
from bookgen.binder.passage_drills import drill_things, planned_drills, sections_of
from bookgen.binder.passage_flow import Thing
from bookgen.plan.passage import Passage
from bookgen.plan.passage_excerpt import excerpts_of


def things(one: Passage | None = None, first: int = 4) -> list[Thing]:
    chosen = one or with_ladders()
    count = len(planned_drills(chosen)) + len(excerpts_of(chosen))
    music = stand_in(max(count, 1), width_mm=WIDEST["a4"]).drills[:count]
    return list(drill_things(text(chosen), desk(), music, first))


def test_headings_lead_to_groups_and_drills_stand_under_their_own() -> None:
    found = [mark.title for thing in things() for mark in thing.marks]
    letters = [group.letter for group in with_ladders().best.groups]

    assert found[0] == "The drills"
    assert found[1].startswith(f"Towards {letters[0]}")
    assert [title[:3] for title in found[2:4]] == ["1 \N{MIDDLE DOT}", "2 \N{MIDDLE DOT}"]
    assert found[4].startswith(f"Towards {letters[1]}")
    assert found[5].startswith("3 ")
    assert found[6].startswith(f"Towards {letters[2]}")


def test_drills_that_stand_above_are_told_and_where_there_are_none_too() -> None:
    canvas = Recorder()
    for thing in things():
        if not thing.pencil:
            list(thing.draw(canvas, side_of(0, "1", desk().sheet), 200.0, 0.0))
    found = " ".join(canvas.words)

    assert "First No. 1, above." in found
    assert "What this placement needs is secure" in found


def test_the_music_of_each_drill_is_its_own() -> None:
    side = side_of(0, "1", desk().sheet)
    placed = [one.drill for thing in things() for one in thing.draw(Recorder(), side, 250.0, 0.0)]

    assert sorted(placed) == list(range(4, 4 + len(placed)))
    assert placed[:2] == [4, 5]


def test_the_own_notes_of_a_group_stand_below_its_drills() -> None:
    canvas, one = Recorder(), with_ladders()
    side = side_of(0, "1", desk().sheet)
    placed = [one.drill for thing in things() for one in thing.draw(canvas, side, 200.0, 0.0)]
    letter = one.best.groups[0].letter
    found = " ".join(canvas.words)

    assert excerpts_of(one)[0].letter == letter
    assert placed[2:4] == [7, 8], "after the three drills come the excerpts of the first group"
    assert "in order, each as long as the others:" in found
    assert "The same notes in their rhythm" in found


def test_a_drill_that_no_ladder_has_stays_with_the_one_before_it() -> None:
    one = with_ladders()
    ladders = (replace(one.ladders[0], drills=one.ladders[0].drills[:1]), *one.ladders[1:])
    shorter = replace(one, ladders=ladders)
    loose = replace(one, ladders=())
    drills = planned_drills(one)

    assert [section.drills for section in sections_of(shorter, drills)] == [[0, 1], [2], []]
    assert [section.drills for section in sections_of(loose, drills)] == [[0, 1, 2]]
    assert [thing.pencil for thing in things(loose)] == [False, False, True, True, True]


def test_a_ladder_to_a_group_that_is_not_there_has_no_heading() -> None:
    one = with_ladders()
    strange = replace(one, ladders=(replace(one.ladders[0], group="ZZZ"),))

    assert not [mark for thing in things(strange) for mark in thing.marks if mark.level == 1]


def test_without_a_plan_there_are_no_drills() -> None:
    assert planned_drills(passage()) == []
    assert things(passage()) == []
