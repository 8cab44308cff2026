"""A passage's groups and the drills that lead to them."""

from datetime import date

from kit.knowing import short
from kit.scores import wanted
from kit.shorthand import VIOLIN

from bookgen.model.phrase import Phrase
from bookgen.passage.groups import grouped
from bookgen.passage.program import Comes, drill_plan, ladders_to, needs_of, sounding_together
from bookgen.passage.solve import solve
from bookgen.plan.document import Role
from bookgen.plan.passage import Fingering
from bookgen.plan.record import Played, Printed, Record, Result
from bookgen.readers.fingering import read_costs
from bookgen.readers.score_text import text_passage
from bookgen.readers.weights import read_weights

TUESDAY = date(2026, 12, 1)
KNOWN = short("12W2 4321 1")
COMES = Comes((KNOWN,), (), TUESDAY, read_weights())


def phrase_of(text: str) -> Phrase:
    return text_passage(text.encode(), wanted(file="bars.passage")).phrase


def fingered(text: str) -> tuple[Fingering, Phrase]:
    phrase = phrase_of(text)
    return grouped(solve(phrase, VIOLIN, read_costs()).best, phrase, VIOLIN), phrase


def test_a_run_in_one_placement_has_a_ladder_to_its_pairs() -> None:
    best, phrase = fingered("key: D major\nE4 F#4 G4 A4 | B4 C#5 D5 E5 |")
    needs = needs_of(best, phrase, VIOLIN)
    (ladder,) = ladders_to(needs, VIOLIN, COMES)

    assert needs["A"]
    assert {drill for drill in needs["A"] if drill != KNOWN} <= set(ladder.drills)
    assert KNOWN not in ladder.drills


def test_double_stops_are_seen() -> None:
    line, _ = fingered("E4 F#4 G4 B4 |")
    thirds, _ = fingered("G4+B4:2 F#4+A4:2 |")

    assert sounding_together(line.groups[0], line) == set()
    assert sounding_together(thirds.groups[0], thirds) == {(1, 3)}


def test_the_drills_are_planned_in_order_and_each_is_linked() -> None:
    best, phrase = fingered("key: G major\nB4 C5 D5 E5 | F#5 G5 A5 B5 |")
    found = ladders_to(needs_of(best, phrase, VIOLIN), VIOLIN, COMES)
    plan = drill_plan(found, VIOLIN, "4/4", COMES)

    assert plan is not None
    entries = plan.drills
    assert [entry.drill for entry in entries] == [d for one in found for d in one.drills]
    assert [entry.number for entry in entries] == list(range(1, len(entries) + 1))
    assert {item.role for item in plan.days[0].items} <= {Role.NEW, Role.OTHER_WAY}
    assert entries[0].link.to == KNOWN.key
    assert all(isinstance(entry.link.to, int | str) for entry in entries)


def test_where_all_is_secure_there_is_nothing_to_drill() -> None:
    best, phrase = fingered("key: D major\nE4 F#4 G4 A4 |")
    needs = needs_of(best, phrase, VIOLIN)
    records = tuple(
        Record(number, drill, (Printed(TUESDAY, Role.NEW),), (Played(TUESDAY, Result.SECURE),))
        for number, drill in enumerate(needs["A"], start=1)
    )
    comes = Comes((KNOWN,), records, date(2026, 12, 2), read_weights())
    found = ladders_to(needs, VIOLIN, comes)

    assert [ladder.drills for ladder in found] == [()]
    assert drill_plan(found, VIOLIN, "4/4", comes) is None
