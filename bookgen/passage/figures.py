"""Groups of the player's own that are the same figure: they get the same fingers."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from bookgen.passage.cheapest import Searched, Way, search
from bookgen.passage.lattice import Bundle, Column, Steps

Run = tuple[int, int]
"""The first and the last column of a group, both included."""

Fingers = tuple[tuple[int, ...], ...]
"""The fingers of each sound of a group."""


def alike(steps: Steps, searched: Searched) -> Searched:
    """The same search with equal fingers wherever the player's groups are the same figure.

    Of the fingers that the members of a figure have by themselves those are taken with which
    the whole is cheapest; where none of them goes with every member, all stay as they are.
    """
    for members in figures(searched.columns):
        best = searched.best()
        ways = dict.fromkeys(fingers_in(best, run) for run in members)
        if len(ways) == 1:
            continue
        tried = [
            found for fingers in ways for found in with_fingers(steps, searched, members, fingers)
        ]
        if tried:
            searched = min(tried, key=lambda one: one.least)
    return searched


def with_fingers(
    steps: Steps, searched: Searched, members: Sequence[Run], fingers: Fingers
) -> Iterator[Searched]:
    """The search with these fingers for all members of a figure; nothing where one has none."""
    columns = list(searched.columns)
    for first, _ in members:
        for index, wanted in enumerate(fingers, start=first):
            narrow = narrowed(columns[index], wanted)
            if not narrow.nodes:
                return
            columns[index] = narrow
    found = search(steps, columns)
    if not found.broken:
        yield replace(found, broken=searched.broken)


def narrowed(column: Column, fingers: tuple[int, ...]) -> Column:
    """A column with the nodes alone that have these fingers."""
    kept = [
        index
        for index, node in enumerate(column.nodes)
        if tuple(stop.finger for stop in node.pose.stops) == fingers
    ]
    bundle = Bundle.of(tuple(column.nodes[index] for index in kept))
    return replace(column, bundle=bundle, own=tuple(column.own[index] for index in kept))


def fingers_in(way: Way, run: Run) -> Fingers:
    """The fingers of a group."""
    nodes = way[run[0] : run[1] + 1]
    return tuple(tuple(stop.finger for stop in node.pose.stops) for node in nodes)


def figures(columns: Sequence[Column]) -> list[list[Run]]:
    """The groups that are the same figure, the first of each in the order of time.

    A figure is the same where its notes rise and fall by as many letters in the same rhythm.
    """
    found: dict[tuple[object, ...], list[Run]] = {}
    for run in groups(columns):
        found.setdefault(figure(columns, run), []).append(run)
    return [members for members in found.values() if len(members) > 1]


def groups(columns: Sequence[Column]) -> Iterator[Run]:
    """The groups that one hand takes; those that share a sound are one."""
    first: int | None = None
    for index, column in enumerate(columns):
        if column.kept and first is None:
            first = index - 1
        if first is not None and not column.kept:
            yield first, index - 1
            first = None
    if first is not None:
        yield first, len(columns) - 1


def figure(columns: Sequence[Column], run: Run) -> tuple[object, ...]:
    """What makes a group the figure that it is."""
    events = [column.event for column in columns[run[0] : run[1] + 1]]
    lowest = events[0].notes[0].pitch.degree
    heights = [tuple(note.pitch.degree - lowest for note in event.notes) for event in events]
    lasts = [event.lasts for event in events[:-1]]
    return (*heights, *lasts, *(event.silence for event in events[1:]))
