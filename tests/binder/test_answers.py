"""Answers, by number."""

from booklets import a_month, furniture, music_for
from paper import Recorder

from bookgen.binder.answers import answer_leaves, answer_words, places_of
from bookgen.binder.leaf import side_of

PLAN = a_month(7)
DRILLS = [planned for day in PLAN.days for planned in day.drills]


def test_a_drill_that_comes_again_has_one_answer_with_all_its_numbers() -> None:
    first = DRILLS[0]
    again = [planned for planned in DRILLS if planned.drill == first.drill]
    words = answer_words(again)

    assert len(again) > 1
    assert words.numbers == ", ".join(str(planned.number) for planned in again)
    assert places_of(DRILLS)[first.drill] == [p.number - 1 for p in again]


def test_every_drill_is_placed_once_inside_its_page() -> None:
    for paper in ("a5", "a4"):
        around = furniture(PLAN, paper)
        leaves = answer_leaves(PLAN, music_for(PLAN, paper).drills, around)
        places = [
            place
            for number, leaf in enumerate(leaves)
            for place in leaf.draw(Recorder(), side_of(number, "1", around.desk.sheet))
        ]
        assert len(places) == len({planned.drill for planned in DRILLS})
        assert leaves[0].marks[0].title == "Answers"


def test_titles_stand_beside_narrow_music() -> None:
    def lefts(paper: str) -> set[float]:
        around = furniture(PLAN, paper)
        leaf = answer_leaves(PLAN, music_for(PLAN, paper).drills, around)[0]
        return {place.left for place in leaf.draw(Recorder(), side_of(0, "1", around.desk.sheet))}

    assert min(lefts("a4")) > min(lefts("a5"))
