"""How a player gets through hands and stages: simulated players, measured.

Run by hand from the top folder: `.venv/bin/python -m tests.benchmarks.pace`. Words choose areas
by their names (first, third, seventh, frames, books, seeds); a number says how many days.
"""

import sys
import time
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import product
from typing import Final

from kit.courses import Course
from kit.learners import PLAYERS, practise
from kit.planning import area_of, request_for
from kit.shorthand import VIOLIN

from bookgen.model.spacing import Frame, Spacing
from bookgen.plan.document import Role
from bookgen.planner.request import Request

HALF, WHOLE = Spacing.HALF, Spacing.WHOLE
POSITIONS: Final = {
    "first": ("1st",),
    "third": ("half", "1st", "2nd", "3rd"),
    "seventh": ("1st", "2nd", "3rd", "4th", "5th", "6th", "7th"),
}
FRAMES: Final = (
    *(Frame((1, 2, 3), way) for way in ((WHOLE, HALF), (HALF, WHOLE), (WHOLE, WHOLE))),
    *(
        Frame((1, 2, 3, 4), way)
        for way in ((WHOLE, HALF, WHOLE), (HALF, WHOLE, WHOLE), (WHOLE, WHOLE, HALF))
    ),
)
EVERY_DAY: Final = frozenset(range(7))
COLUMNS: Final = (
    "player",
    "stages 2 3 4 5 first on day",
    "all at 5",
    "hands, at 5",
    "moves",
    "plateau",
    "both ways in a week",
    "new / other way / known / step back, %",
    "days over half",
    "drills, most often",
    "ms a day",
)
NEVER: Final = "\N{EN DASH}"
SEEDS: Final = range(5)


def request(area: str, minutes: int) -> Request:
    """A violin player of whom nothing is known but area and minutes."""
    whole = area_of(VIOLIN, frozenset(POSITIONS.get(area, ("1st",))))
    if area == "frames":
        whole = replace(whole, frames=(*whole.frames, *FRAMES))
    return request_for(VIOLIN, whole, minutes=minutes, practice_days=EVERY_DAY)


def course(asked: Request, player: str, days: int, **how: int) -> tuple[Course, float]:
    """A player's days, and the milliseconds of CPU that a day took."""
    began = time.process_time()
    lessons = list(practise(asked, player, days, **how))
    spent = 1000 * (time.process_time() - began) / len(lessons)
    return Course(asked, lessons), spent


def row(name: str, found: Course, spent: float) -> list[str]:
    """A line of the table."""
    shares = found.shares
    known = sum(shares.get(role, 0) for role in (Role.START, Role.AGAIN, Role.COLD))
    parts = (shares.get(Role.NEW, 0), shares.get(Role.OTHER_WAY, 0), known)
    good, asked = found.answered
    return [
        name,
        " ".join(str(found.first.get(stage, NEVER)) for stage in range(2, 6)),
        str(found.all_at(5) or NEVER),
        f"{found.hands}, {found.hands_at(5)}",
        str(found.moves),
        str(found.plateau),
        f"{good} of {asked}",
        " / ".join(f"{100 * part:.0f}" for part in (*parts, shares.get(Role.STEP_BACK, 0))),
        str(found.over_half),
        f"{len({drill for _, drill in found.played()})}, {found.most_often}",
        f"{spent:.0f}",
    ]


def say(cells: Iterable[str]) -> None:
    """A line of a table, at once."""
    sys.stdout.write(f"| {' | '.join(cells)} |\n")
    sys.stdout.flush()


def table(area: str, minutes: int, days: int) -> None:
    """All players in an area."""
    asked = request(area, minutes)
    sys.stdout.write(f"\n{area} position, {minutes} minutes, {days} days\n\n")
    say(COLUMNS)
    say("---" for _ in COLUMNS)
    for player in PLAYERS:
        say(row(player, *course(asked, player, days)))


def seeds(days: int) -> None:
    """First days of the stages, all at stage 5, and the plateau, over five seeds."""
    asked = request("first", 10)
    sys.stdout.write("\n1st position, 10 minutes: stages 2 3 4 5; all at 5; plateau; both ways\n\n")
    say(("seed", *PLAYERS))
    say("---" for _ in range(len(PLAYERS) + 1))
    for seed in SEEDS:
        cells = [str(seed)]
        for player in PLAYERS:
            _, stages, every, _, _, plateau, both, *_ = row(
                player, *course(asked, player, days, seed=seed)
            )
            cells.append(f"{stages}; {every}; {plateau}; {both}")
        say(cells)


def books(days: int) -> None:
    """Books of a month and of a week."""
    asked = request("first", 10)
    sys.stdout.write("\n1st position, 10 minutes, in books\n\n")
    say(COLUMNS)
    say("---" for _ in COLUMNS)
    for player, span in product(("always", "learns", "never logs"), (7, 31)):
        found, spent = course(asked, player, days, span=span)
        ahead = f"{player}, {span} days, {found.most_stages_a_week} a week"
        say(row(ahead, found, spent))


def cases(words: Sequence[str]) -> Iterator[tuple[str, int]]:
    """The areas asked for, with their days."""
    number = next((int(word) for word in words if word.isdigit()), 0)
    areas = [word for word in words if not word.isdigit()]
    for area in areas or ("first", "third", "seventh", "frames"):
        for days in [number] if number else (90, 365):
            yield area, days


def main() -> None:
    """Print the tables."""
    for area, days in cases(sys.argv[1:]):
        match area:
            case "seeds":
                seeds(days)
            case "books":
                books(days)
            case _:
                for minutes in (10, 20):
                    table(area, minutes, days)


if __name__ == "__main__":
    main()
