"""Drills that a document names but does not hold."""

from collections.abc import Iterable, Iterator, Mapping

from bookgen.model.drill import Drill
from bookgen.plan.document import Day, DrillEntry, Earlier


def earlier_of(
    drills: Iterable[DrillEntry], days: Iterable[Day], known: Mapping[int, Drill]
) -> tuple[Earlier, ...]:
    """The drills of earlier pages that links, echoes, gates and goals name, by their numbers.

    known: drills by their numbers; what is not there cannot be told.
    """
    entries = list(drills)
    here = {entry.number for entry in entries}
    named = {*numbers_of_links(entries), *numbers_of_items(days)} - here
    return tuple(
        Earlier(number=number, key=known[number].key) for number in sorted(named & known.keys())
    )


def numbers_of_links(entries: Iterable[DrillEntry]) -> Iterator[int]:
    """Every number that a link or an echo names."""
    for entry in entries:
        if isinstance(entry.link.to, int):
            yield entry.link.to
        if entry.link.echo is not None:
            yield entry.link.echo.number


def numbers_of_items(days: Iterable[Day]) -> Iterator[int]:
    """Every number of a drill for which an item waits, or to which it leads."""
    for day in days:
        for item in day.items:
            if item.only_if is not None:
                yield item.only_if
            if item.towards is not None and item.towards.number is not None:
                yield item.towards.number
