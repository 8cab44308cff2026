"""What a player needs for a passage, as planned drills."""

from datetime import date

import pytest
from kit.knowing import short
from kit.scores import wanted
from kit.shorthand import VIOLIN

from bookgen.model.phrase import Phrase
from bookgen.model.spelled_like import Spelling, spelling_of
from bookgen.passage.groups import grouped
from bookgen.passage.program import Comes, Way, climbs, drill_plan, way_there
from bookgen.passage.solve import solve
from bookgen.plan.document import Role
from bookgen.plan.record import Played, Printed, Record, Result
from bookgen.readers.fingering import read_costs
from bookgen.readers.score.text import text_passage
from bookgen.readers.spots import read_spots
from bookgen.readers.weights import read_weights

TUESDAY = date(2026, 12, 1)
KNOWN = short("12W2 4321 1")
COMES = Comes((KNOWN,), (), TUESDAY, read_weights())
HARD = "key: G major\nmeter: 2/4\nB4:8 C5 D5 F#5 | G5 D5 E4 C5 | B4 G5 C#5 D5 | G4+B4:2 |"


def phrase_of(text: str) -> Phrase:
    return text_passage(text.encode(), wanted(file="bars.passage")).phrase


def way_of(text: str, comes: Comes = COMES, *, all_hands: bool = False) -> Way:
    phrase = phrase_of(text)
    best = grouped(solve(phrase, VIOLIN, read_costs()).best, phrase, VIOLIN)
    return way_there(best, phrase, VIOLIN, comes, read_spots(), all_hands=all_hands)


def test_every_spot_has_its_ladder_in_the_order_of_the_passage() -> None:
    way = way_of(HARD)

    assert way.spots
    assert [ladder.spot for ladder in way.ladders] == [spot.number for spot in way.spots]
    assert any(ladder.drills for ladder in way.ladders)


def test_all_hands_have_ladders_of_their_own() -> None:
    few, all_of_them = way_of(HARD), way_of(HARD, all_hands=True)
    letters = [ladder.letter for ladder in all_of_them.ladders if ladder.letter]

    assert all_of_them.ladders[: len(few.ladders)] == few.ladders
    assert letters == sorted(set(letters))
    assert letters


KEYS = {
    "Gb major": "Gb4:8 Ab4 Bb4 Cb5 | Db5 Eb5 F5 Bb4 | Cb5 Gb5 Eb5 Ab4 | Bb4 F5 Gb5 Db5 |",
    "B major": "B4:8 C#5 D#5 E5 | F#5 G#5 A#5 D#5 | B4 G#5 C#5 A#4 | F#4 D#5 B4 F#5 |",
}


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(("key", "bars"), KEYS.items())
def test_drills_to_a_passage_have_its_names_of_notes(key: str, bars: str) -> None:
    text = f"key: {key}\nmeter: 2/4\n{bars}"
    spelling = spelling_of(phrase_of(text))

    def otherwise(names: Spelling) -> set[str]:
        """Notes of the passage's heights that the drills name otherwise than it does."""
        plan = drill_plan(way_of(text).ladders, VIOLIN, "4/4", COMES, spelling=names)
        assert plan is not None
        stops = [stop for entry in plan.drills for event in entry.events for stop in event.stops]
        here = {stop.pitch for stop in stops if stop.midi in spelling}
        return here - {str(spelling[stop.midi]) for stop in stops if stop.midi in spelling}

    assert otherwise(spelling) == set()
    assert otherwise({}) != set(), "by themselves they are named otherwise"


def test_the_drills_are_planned_once_in_the_order_of_the_ladders() -> None:
    found = way_of(HARD).ladders
    plan = drill_plan(found, VIOLIN, "4/4", COMES)

    assert plan is not None
    drills = list(dict.fromkeys(drill for one in found for drill in one.drills))
    assert [entry.drill for _, _, entry in plan.items()] == drills
    assert [entry.number for entry in plan.drills] == list(range(1, len(drills) + 1))
    assert {item.role for item in plan.days[0].items} <= {Role.NEW, Role.OTHER_WAY}


def test_each_link_is_to_what_stands_before_or_is_secure_and_changes_one_thing() -> None:
    plan = drill_plan(way_of(HARD).ladders, VIOLIN, "4/4", COMES)

    assert plan is not None
    before = {KNOWN.key: KNOWN}
    linked = 0
    for _, _, entry in plan.items():
        to = plan.linked(entry)
        if entry.link.to is not None:
            assert to is not None
            assert to.key in before
            assert to.changes_to(entry.drill) == (entry.link.changes,)
            linked += 1
        before[entry.key] = entry.drill
    assert linked


def test_where_all_is_secure_there_is_nothing_to_drill() -> None:
    drills = [drill for one in way_of(HARD).ladders for drill in one.drills]
    records = tuple(
        Record(number, drill, (Printed(TUESDAY, Role.NEW),), (Played(TUESDAY, Result.SECURE),))
        for number, drill in enumerate(dict.fromkeys(drills), start=1)
    )
    comes = Comes((KNOWN,), records, date(2026, 12, 2), read_weights())
    (known, fresh) = (
        sum(len(ladder.drills) for ladder in way_of(HARD, one).ladders) for one in (comes, COMES)
    )

    assert known < fresh
    assert drill_plan((), VIOLIN, "4/4", comes) is None


def test_a_booklet_climbs_to_the_drills_by_single_changes() -> None:
    found = way_of(HARD).ladders
    steps = climbs(found, VIOLIN, COMES)
    known = [KNOWN]

    assert steps
    for step in steps:
        assert any(len(step.changes_to(other)) == 1 for other in known)
        known.append(step)
