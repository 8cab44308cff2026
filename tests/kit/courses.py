"""What became of a simulated player: how soon each stage came, and what never moved on."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from kit.learners import Lesson

from bookgen.model.drill import Drill
from bookgen.model.move import moves_of
from bookgen.model.route import Return
from bookgen.plan.document import Role
from bookgen.planner.pool import pool
from bookgen.planner.progress import Hand, hand_of
from bookgen.planner.request import Request

if TYPE_CHECKING:
    from datetime import date

WEEK = 7
SETTLED = 8
"""The first day on which something known can fill half of the time."""


@dataclass(frozen=True)
class Course:
    """All practice days of a player, and the area they are to cover.

    Days are counted as the player practises, from 1.
    """

    request: Request
    lessons: Sequence[Lesson]

    @cached_property
    def pool(self) -> list[Drill]:
        return list(pool(self.request.instrument, self.request.area))

    @cached_property
    def first(self) -> dict[int, int]:
        """The day of each stage's first drill."""
        return firsts((drill.stage, lesson.number) for lesson, drill in self.played())

    @cached_property
    def stages(self) -> dict[tuple[Hand, int], int]:
        """The day on which each hand first met each stage."""
        return firsts(
            ((hand_of(drill), drill.stage), lesson.number) for lesson, drill in self.played()
        )

    @cached_property
    def ways(self) -> dict[tuple[Hand, tuple[int, ...], Return], int]:
        """The day on which each hand first met each order of fingers with each way back."""
        return firsts(
            ((hand_of(drill), drill.order, drill.back), lesson.number)
            for lesson, drill in self.played()
        )

    def played(self) -> Iterable[tuple[Lesson, Drill]]:
        return ((lesson, drill) for lesson in self.lessons for drill in lesson.drills)

    @cached_property
    def moves(self) -> int:
        return len({move for _, drill in self.played() for move in moves_of(drill)})

    def all_at(self, stage: int) -> int | None:
        """The day by which every frame of the area had that stage, at whatever place."""
        found = firsts(
            ((drill.frame, drill.stage), lesson.number) for lesson, drill in self.played()
        )
        days = [found.get((frame, stage)) for frame in {drill.frame for drill in self.pool}]
        return None if None in days else max(day for day in days if day)

    def hands_at(self, stage: int) -> int:
        return sum(reached == stage for _, reached in self.stages)

    @cached_property
    def hands(self) -> int:
        return len({hand for hand, _ in self.stages})

    @cached_property
    def plateau(self) -> int:
        """The most days in a row that bring no move, stage or order, while there is any left."""
        left = {thing for drill in self.pool for thing in novelties(drill)}
        idle = longest = 0
        for lesson in self.lessons:
            met = {thing for drill in lesson.drills for thing in novelties(drill)} & left
            idle = 0 if met or not left else idle + 1
            left -= met
            longest = max(longest, idle)
        return longest

    @cached_property
    def answered(self) -> tuple[int, int]:
        """Hands that met both leads and both ways back within seven days, and of how many.

        Hands whose week the days do not hold are left out.
        """
        has: dict[Hand, set[tuple[tuple[int, ...], Return]]] = {}
        for drill in self.pool:
            has.setdefault(hand_of(drill), set()).add((drill.order, drill.back))
        begun = firsts((hand, day) for (hand, _), day in self.stages.items())
        asked = [hand for hand, day in begun.items() if day + WEEK <= len(self.lessons)]
        return sum(self.answers(hand, begun[hand] + WEEK, has[hand]) for hand in asked), len(asked)

    def answers(self, hand: Hand, by: int, has: Iterable[tuple[tuple[int, ...], Return]]) -> bool:
        """By a day a hand has met every lead and every way back that there is."""
        met = [
            (order, back)
            for (one, order, back), day in self.ways.items()
            if one == hand and day <= by
        ]
        return all({way[at] for way in met} >= {way[at] for way in has} for at in (0, 1))

    @cached_property
    def over_half(self) -> int:
        """Days, from the second week on, that are more than half first times."""
        met: set[Drill] = set()
        found = 0
        for lesson in self.lessons:
            first = sum(item.minutes for item, drill in lesson.items if drill not in met)
            found += lesson.number >= SETTLED and first > lesson.day.minutes / 2
            met.update(lesson.drills)
        return found

    @cached_property
    def shares(self) -> dict[Role, float]:
        """Part of all minutes by role."""
        spent: Counter[Role] = Counter()
        for lesson in self.lessons:
            for item, _ in lesson.items:
                spent[item.role] += item.minutes  # type: ignore[assignment]
        total = sum(spent.values())
        return {role: minutes / total for role, minutes in spent.items()}

    @cached_property
    def most_often(self) -> int:
        return max(Counter(drill for _, drill in self.played()).values())

    @cached_property
    def most_new(self) -> int:
        """How often one drill was called new."""
        return max(
            Counter(
                d for one in self.lessons for item, d in one.items if item.role is Role.NEW
            ).values(),
            default=0,
        )

    @cached_property
    def most_stages_a_week(self) -> int:
        """The most stages by which a hand goes on within seven days of the calendar."""
        dates = {lesson.number: lesson.day.date for lesson in self.lessons}
        by_hand: dict[Hand, list[tuple[int, date]]] = {}
        for (hand, stage), number in self.stages.items():
            by_hand.setdefault(hand, []).append((stage, dates[number]))
        return max(
            other - stage
            for steps in by_hand.values()
            for stage, day in steps
            for other, later in steps
            if 0 <= (later - day).days < WEEK
        )


def novelties(drill: Drill) -> Iterable[object]:
    """What a drill may bring for the first time: its moves, a stage and an order of its hand."""
    hand = hand_of(drill)
    return (*moves_of(drill), (hand, drill.stage), (hand, drill.order, drill.back))


def firsts[Key](found: Iterable[tuple[Key, int]]) -> dict[Key, int]:
    """The least day of each."""
    least: dict[Key, int] = {}
    for key, day in found:
        least[key] = min(day, least.get(key, day))
    return least
