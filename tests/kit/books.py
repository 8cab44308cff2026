"""A book of each kind with stand-in music, as the tests of whole pages bind them."""

from collections.abc import Callable, Sequence
from datetime import timedelta

import msgspec
from kit.faring import DAY, a_lesson_of, a_standing
from kit.month_plan import a_month
from kit.paper import stand_in
from kit.passage_pages import bind, with_ladders

from bookgen.binder.books import booklet, sheet
from bookgen.binder.books.coverage import CellStanding, bind_player_coverage, bind_roster
from bookgen.binder.books.lesson import bind_lesson
from bookgen.binder.page.desk import Desk
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import Engraving
from bookgen.plan.document import Coverage, Gauge


def a_passage(desk: Desk, name: str) -> bytes:
    music = stand_in(3, width_mm=desk.sheet.column - 1, height_mm=30.0)
    return bind(with_ladders(name or "A hard passage"), desk, music)


def a_roster(desk: Desk, name: str) -> bytes:
    day, holidays = timedelta(1), [None, DAY]
    players = [
        a_standing(name or "Jo", lesson=DAY + day * (at // 8), away=holidays[at % 2])
        for at in range(30)
    ]
    return bind_roster(players, DAY, desk)


def a_lesson(desk: Desk, name: str) -> bytes:
    return bind_lesson([*a_lesson_of(40).sections(desk.speech)], name or "Jo", DAY, desk)


def a_player(desk: Desk, name: str) -> bytes:
    gauges = tuple(
        Gauge(string=string, semitones=place, secure=2, practised=1, new=3, aimed=2)
        for string in range(1, 5)
        for place in range(1, 19)
    )
    coverage = Coverage(secure=64, practised=32, new=96, aimed=64, gauges=gauges)
    cells = [CellStanding("half", (1, 2, 3, 4), 300, 20, 444, DAY) for _ in range(30)]
    return bind_player_coverage(coverage, cells, name or None, DAY, desk)


def music_for(scores: Sequence[DrillScore]) -> Engraving:
    """Stand-in music that has room."""
    width = min(score.width_mm for score in scores) - 0.5
    return stand_in(len(scores), width_mm=width, height_mm=26.0)


def a_sheet(desk: Desk, name: str) -> bytes:
    plan = msgspec.structs.replace(a_month(4, days=2), player=name or None)
    return sheet.bind_sheet(plan, music_for(sheet.scores_of(plan, desk)), desk)


def a_booklet(desk: Desk, name: str) -> bytes:
    plan = msgspec.structs.replace(a_month(12, days=9), player=name or None)
    return booklet.bind_booklet(plan, music_for(booklet.scores_of(plan, desk)), desk)


def a_summary(desk: Desk, name: str) -> bytes:
    plan = msgspec.structs.replace(a_month(12, days=9), player=name or None)
    return booklet.bind_summary(plan, desk)


BOOKS: list[Callable[[Desk, str], bytes]] = [
    a_passage,
    a_roster,
    a_lesson,
    a_player,
    a_sheet,
    a_booklet,
    a_summary,
]
