"""What a chapter asks for, beside a plain loop over every drill that could be."""

from itertools import product

import pytest
from kit.drills import VIOLIN

from bookgen.model.drill import Drill, Lead
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.place import place_label
from bookgen.model.route import Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones, StringNumber
from bookgen.planner.area import Area
from bookgen.planner.selection import By, Query, chosen, in_order
from bookgen.readers.instrument import read_instrument

CELLO = read_instrument("cello")
FRAMES = (
    Frame.pair(1, 2, Spacing.HALF),
    Frame.pair(1, 2, Spacing.WHOLE),
    Frame.pair(3, 4, Spacing.HALF),
    Frame((1, 2, 3), (Spacing.WHOLE, Spacing.HALF)),
)
RUNS = tuple(tuple(map(StringNumber, run)) for run in ((4, 3, 2, 1), (3, 2), (2, 1)))
QUERIES = {
    "all": Query(
        Area(FRAMES, None, RUNS, 5), frozenset(range(1, 6)), frozenset(Lead), frozenset(Return)
    ),
    "some": Query(
        Area(FRAMES, frozenset({"1st", "3rd"}), RUNS[:2], 5),
        frozenset({1, 3, 5}),
        frozenset({Lead.LOW}),
        frozenset({Return.MIRROR}),
    ),
}


def plainly(query: Query, instrument: Instrument) -> dict[str, list[str]]:
    """Drills by the notes they play, found without the planner."""
    found: dict[str, list[str]] = {}
    for frame, strings, place, stage, high, back in product(
        query.area.frames, query.area.strings, range(40), query.stages, (False, True), Return
    ):
        order = frame.fingers[::-1] if high else frame.fingers
        drill = Drill(instrument.key, frame, order, Semitones(place), strings, stage, back)
        if place < 1 or drill.refusal(instrument) or drill.for_passages:
            continue
        if instrument.stretches(frame, Semitones(place)):
            continue
        label = place_label(drill, instrument)
        if query.area.positions is not None and label not in query.area.positions:
            continue
        if (Lead.HIGH if high else Lead.LOW) not in query.leads:
            continue
        found.setdefault(str(play(drill, instrument)), []).append(drill.key)
    return found


@pytest.mark.parametrize("instrument", [VIOLIN, CELLO], ids=lambda one: one.key)
@pytest.mark.parametrize("query", QUERIES.values(), ids=QUERIES.keys())
def test_a_query_finds_what_a_plain_loop_finds(query: Query, instrument: Instrument) -> None:
    plain = plainly(query, instrument)
    found = [*chosen(query, instrument)]
    music = {str(play(drill, instrument)) for drill in found}

    assert len(music) == len(found), "no two drills are the same notes"
    assert found
    for sound in music:
        assert sound in plain
    wanted = {
        sound
        for sound, keys in plain.items()
        for drill in map(Drill.parse_key, keys)
        if drill.back in query.backs or drill.turns_alike
    }
    if 3 in query.stages:
        assert music == wanted


def test_the_order_is_by_what_is_named_first() -> None:
    found = [*chosen(QUERIES["all"], VIOLIN)]
    by_stage = in_order(found[::-1], (By.STAGE, By.POSITION), lambda _: 0.0)
    keys = [(drill.stage, drill.place, len(drill.frame.fingers)) for drill in by_stage]

    assert keys == sorted(keys)
    assert in_order(found, (By.STAGE, By.POSITION), lambda _: 0.0) == by_stage


def test_the_easiest_comes_first() -> None:
    found = [*chosen(QUERIES["some"], VIOLIN)]
    effort = {drill: float(hash(drill.key) % 7) for drill in found}
    sorted_by = in_order(found, (By.EASIEST,), effort.__getitem__)

    assert [effort[drill] for drill in sorted_by] == sorted(effort.values())
