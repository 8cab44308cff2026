"""A day to be filled: what it has room for, and what is chosen for it."""

from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from bookgen.model.drill import Drill
from bookgen.plan.document import Character, Role, Towards
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.sparing import spared


@dataclass(frozen=True, slots=True)
class Pick:
    """A drill for the day, why it is there, and the minutes it needs.

    goal: the drill that was not yet secure and to which a ladder leads.
    aim: bars of a piece to which it leads.
    """

    drill: Drill
    role: Role
    minutes: float
    goal: Drill | None = None
    aim: Towards | None = None


@dataclass(frozen=True, slots=True)
class Aim:
    """What the day does towards something that is to be ready.

    towards: bars of a piece; drills: those not yet met, in their order.
    steps: how many of them the day should have, so that all come in time.
    """

    towards: Towards
    drills: tuple[Drill, ...]
    steps: int


@dataclass(frozen=True, slots=True)
class Outline:
    """A date and what its day has room for.

    minutes: of practice.
    new_minutes: the most of them for drills that bring moves.
    new_hands: the most frames at a place that the player has not met.
    aims: what is worked towards, the most pressing first.
    stranger: nobody can say what is new, so new drills may take the whole day.
    """

    date: Date
    character: Character
    minutes: float
    new_minutes: float
    new_hands: int
    aims: tuple[Aim, ...] = ()
    stranger: bool = False


def most_minutes(pick: Pick, outline: Outline, knowledge: Knowledge) -> float:
    """What a drill gets at most: first times and those of a test keep to their own time.

    Where new drills may take the whole day, they may also take longer.
    """
    graph = knowledge.graph
    stretched = spared(graph.weights.shares.stretch * pick.minutes, pick.drill, graph.instrument)
    if pick.role is Role.COLD:
        return pick.minutes
    first = pick.role is not Role.START and pick.drill not in knowledge.met
    return pick.minutes if first and not outline.stranger else stretched
