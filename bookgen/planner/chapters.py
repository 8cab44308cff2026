"""The chapters of parallel books: which drill has which number on every instrument."""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.naming import Names
from bookgen.model.weights import Effort
from bookgen.plan.document import DrillEntry
from bookgen.plan.entry import entry_of
from bookgen.planner.difficulty import difficulty
from bookgen.planner.linked import links_of, way_through
from bookgen.planner.selection import By, in_order


@dataclass(frozen=True, slots=True)
class Asked:
    """What a chapter asks for.

    found: the drills of each instrument by its key, the instruments in the book's order.
    order: by what they are sorted; None leaves those of each instrument as they stand.
    way: they follow from each other, with as few jumps as can be.
    limit: drills of one instrument at most, or None.
    """

    found: Mapping[str, Sequence[Drill]]
    order: tuple[By, ...] | None = ()
    way: bool = False
    limit: int | None = None


@dataclass(frozen=True, slots=True)
class Exercise:
    """One exercise under its number, as the drill that each instrument has of it."""

    number: int
    drills: Mapping[str, Drill]


def numbered(
    chapters: Sequence[Asked], instruments: Mapping[str, Instrument], effort: Effort
) -> list[list[Exercise]]:
    """Number the exercises of all chapters throughout.

    What is the same but for the instrument has one number within a chapter. In the book of an
    instrument an exercise stands in the first chapter that asks for it, and in no later one.
    """

    @cache
    def hard(drill: Drill) -> float:
        return difficulty(drill, instruments[drill.instrument], effort)

    taken: set[tuple[str, str]] = set()
    found: list[list[Exercise]] = []
    for asked in chapters:
        alike = left_of(by_shape(asked.found), taken)
        first = {next(iter(one.values())): shape for shape, one in alike.items()}
        if asked.way:
            shapes = [first[drill] for drill in shared_way(alike, hard)]
        elif asked.order is None:
            own = [[shape_of(drill) for drill in drills] for drills in asked.found.values()]
            shapes = [shape for shape in in_each_order(own) if shape in alike]
        else:
            shapes = [first[drill] for drill in in_order([*first], asked.order, hard)]
        kept = limited([alike[shape] for shape in shapes], asked.limit)
        start = 1 + sum(map(len, found))
        found.append([Exercise(start + place, one) for place, one in enumerate(kept)])
        taken |= {(shape_of(drill), key) for one in kept for key, drill in one.items()}
    return found


def left_of(
    alike: Mapping[str, Mapping[str, Drill]], taken: Collection[tuple[str, str]]
) -> dict[str, dict[str, Drill]]:
    """Exercises without the drills that earlier chapters have; taken: by shape and instrument."""
    left = {
        shape: {key: drill for key, drill in one.items() if (shape, key) not in taken}
        for shape, one in alike.items()
    }
    return {shape: one for shape, one in left.items() if one}


def shape_of(drill: Drill) -> str:
    """A drill's key without its instrument."""
    return drill.key.removeprefix(f"{drill.instrument}-")


def by_shape(found: Mapping[str, Sequence[Drill]]) -> dict[str, dict[str, Drill]]:
    """Exercises with the drill that each instrument has of them."""
    alike: dict[str, dict[str, Drill]] = {}
    for instrument, drills in found.items():
        for drill in drills:
            alike.setdefault(shape_of(drill), {})[instrument] = drill
    return alike


def in_each_order(rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """All of some rows, each once: what two rows have in one order keeps it, as in every row.

    Where two rows contradict each other the earlier one counts.
    """
    left = [[*dict.fromkeys(row)] for row in rows]
    while left := [row for row in left if row]:
        behind = {one for row in left for one in row[1:]}
        found = next((row[0] for row in left if row[0] not in behind), left[0][0])
        yield found
        left = [[one for one in row if one != found] for row in left]


def shared_way(
    alike: Mapping[str, Mapping[str, Drill]], hard: Callable[[Drill], float]
) -> Iterator[Drill]:
    """A way through exercises: first those that most instruments have, then the others.

    So each instrument's own way is one without the holes of another.
    """
    groups: dict[frozenset[str], list[Drill]] = {}
    for one in alike.values():
        groups.setdefault(frozenset(one), []).append(next(iter(one.values())))
    done: list[Drill] = []
    for held in sorted(groups, key=lambda who: (-len(who), sorted(who))):
        done += way_through(groups[held], hard, done)
    yield from done


def limited(exercises: Sequence[Mapping[str, Drill]], limit: int | None) -> list[dict[str, Drill]]:
    """The first of each instrument, as many as the limit says."""
    counts: dict[str, int] = {}
    kept: list[dict[str, Drill]] = []
    for one in exercises:
        own = {
            who: drill for who, drill in one.items() if limit is None or counts.get(who, 0) < limit
        }
        for who in own:
            counts[who] = counts.get(who, 0) + 1
        if own:
            kept.append(own)
    return kept


def entries_of(
    chapters: Sequence[Sequence[Exercise]],
    instrument: Instrument,
    names: Sequence[Mapping[Drill, Names | None]],
) -> list[list[DrillEntry]]:
    """The drills of one instrument, chapter by chapter, each with its number and its link.

    names: of the notes of a chapter's drills, where a piece names them.
    """
    key = instrument.key
    own = [
        [(one.number, one.drills[key]) for one in each if key in one.drills] for each in chapters
    ]
    links = links_of({drill: number for each in own for number, drill in each})
    return [
        [
            entry_of(drill, instrument, number, links[drill], called.get(drill))
            for number, drill in each
        ]
        for each, called in zip(own, names, strict=True)
    ]
