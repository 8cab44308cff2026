"""The teacher's summary."""

from booklets import a_month
from paper import violin

from bookgen.binder.coverage import Coverage, coverage_of
from bookgen.binder.summary import frame_name, frame_order, summary_words
from bookgen.model.move import Move, moves_of
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.plan.record import Standing

PLAN = a_month()
MOVES = {m for day in PLAN.days for planned in day.drills for m in moves_of(planned.drill)}
FAR = Move(Stop(StringNumber(1), 1, Semitones(9)), Stop(StringNumber(1), 2, Semitones(11)))


def before() -> Coverage:
    return coverage_of({min(MOVES): Standing.SECURE}, {*MOVES, FAR})


def test_what_was_planned_is_counted() -> None:
    found = summary_words(PLAN, before().aimed(MOVES), before(), violin())
    drills = [planned for day in PLAN.days for planned in day.drills]

    assert found.drills == len(drills)
    assert sum(count for _, count in found.kinds) == len(drills)
    assert found.different == len({planned.drill for planned in drills})
    assert found.tests == 4
    assert found.positions == ("1st",)


def test_hands_are_named_once_from_the_lowest_finger() -> None:
    found = summary_words(PLAN, before().aimed(MOVES), before(), violin())

    assert found.hands == (
        "1\N{EN DASH}2 half",
        "1\N{EN DASH}2 whole",
        "2\N{EN DASH}3 half",
        "2\N{EN DASH}3 whole",
    )


def test_moves_before_aimed_at_and_left() -> None:
    found = summary_words(PLAN, before().aimed(MOVES), before(), violin())

    assert (found.secure, found.aimed, found.total) == (1, len(MOVES), len(MOVES) + 1)
    assert (found.missing, found.most) == (1, (("I", 1),))


def test_a_frame_is_named_with_its_spacings() -> None:
    frame = Frame((1, 2, 3), (Spacing.WHOLE, Spacing.HALF))

    assert frame_name(frame) == "1\N{EN DASH}2\N{EN DASH}3 whole and half"
    assert frame_order(frame) == ((1, 2, 3), (2, 1))
