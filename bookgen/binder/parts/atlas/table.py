"""As what a page of the fingerboard is read: a table with a row for each stop."""

from collections.abc import Sequence
from dataclasses import dataclass

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.structure.tag import Role, Tag
from bookgen.model.units import StringNumber


@dataclass(frozen=True, slots=True)
class AtlasTable:
    """The cells of a page of the fingerboard.

    over: of each string, its name; away: millimetres, by stops; positions: by their first stops.
    cells: the names of a stop, by itself and its string.
    """

    over: dict[StringNumber, Tag]
    away: dict[int, Tag]
    positions: dict[int, Tag]
    cells: dict[tuple[int, StringNumber], Tag]


def table_of(
    canvas: Canvas,
    strings: Sequence[StringNumber],
    stops: range,
    positions: Sequence[tuple[str, int, int]],
) -> AtlasTable:
    """Lay the table of a page: position, names from the lowest string up, millimetres.

    strings: from the lowest up; positions: each with its first and its last stop.
    """
    whole = Tag(Role.TABLE)
    head = Tag(Role.ROW, within=whole)
    over = {string: Tag(Role.OVER, within=head) for string in strings}
    first, last = (Tag(Role.OVER, within=head) for _ in range(2))
    canvas.reading(first, *over.values(), last)
    rows = {stop: Tag(Role.ROW, within=whole) for stop in stops}
    places = {
        first: Tag(Role.CELL, within=rows[first], rows=last - first + 1)
        for _, first, last in positions
    }
    found = AtlasTable(over, {}, places, {})
    for stop, row in rows.items():
        canvas.reading(*([places[stop]] if stop in places else []))
        for string in strings:
            found.cells[stop, string] = Tag(Role.CELL, within=row)
        found.away[stop] = Tag(Role.CELL, within=row)
        canvas.reading(*(found.cells[stop, string] for string in strings), found.away[stop])
    return found
