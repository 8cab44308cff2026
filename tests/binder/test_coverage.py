"""Moves counted by place and by string."""

from hypothesis import given
from hypothesis import strategies as some
from paper import a_drill

from bookgen.binder.coverage import Coverage, Tally, coverage_of
from bookgen.model.move import Move, moves_of
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.plan.record import Standing

DRILL = a_drill("12-whole-place2-strings43-stage1-low-same").drill
MOVES = sorted(moves_of(DRILL))
STANDINGS = some.lists(some.sampled_from(Standing), min_size=len(MOVES), max_size=len(MOVES)).map(
    lambda found: Coverage(dict(zip(MOVES, found, strict=True)))
)


def stop(string: int, finger: int, semitones: int) -> Stop:
    return Stop(StringNumber(string), finger, Semitones(semitones))


def test_what_was_never_met_is_new() -> None:
    before = {MOVES[0]: Standing.SECURE, MOVES[1]: Standing.PRACTISED}

    assert coverage_of(before, MOVES).tally == Tally(1, 1, len(MOVES) - 2)


def test_moves_outside_the_area_do_not_count() -> None:
    other = Move(stop(1, 1, 2), stop(1, 2, 4))

    assert coverage_of({other: Standing.SECURE}, MOVES).tally == Tally(new=len(MOVES))


@given(STANDINGS)
def test_every_move_lies_on_one_string_or_one_crossing(found: Coverage) -> None:
    parts = found.by_strings()

    assert set(parts) == {(4,), (4, 3), (3,)}
    assert list(parts) == [(4,), (4, 3), (3,)], "from the lowest string up"
    for field in ("secure", "practised", "new"):
        assert sum(getattr(part, field) for part in parts.values()) == getattr(found.tally, field)


@given(STANDINGS)
def test_every_move_has_two_ends_on_the_map(found: Coverage) -> None:
    places = found.by_place()

    assert set(places) == {(4, 2), (4, 4), (3, 2), (3, 4)}
    assert sum(tally.total for tally in places.values()) == 2 * len(MOVES)


@given(STANDINGS, some.sets(some.sampled_from(MOVES)))
def test_what_is_aimed_at_becomes_secure_and_nothing_else_changes(
    found: Coverage, aim: set[Move]
) -> None:
    after = found.aimed(aim)

    for move, standing in found.standings.items():
        assert after.standings[move] == (Standing.SECURE if move in aim else standing)
