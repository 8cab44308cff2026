"""What players know: the fingerboard of one of them, or all of a studio on a page."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from functools import partial
from typing import Final

import msgspec

from bookgen.binder.page.bind import bind_leaves
from bookgen.binder.page.canvas import Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import FULL, Piece, flow
from bookgen.binder.page.frame import frame_of
from bookgen.binder.page.imprint import CREATOR, Imprint
from bookgen.binder.page.leaf import leaves_of
from bookgen.binder.page.prose import Look, piece_of, words_of
from bookgen.binder.parts.figures import columns_of, row_of
from bookgen.binder.parts.map import Map, map_piece
from bookgen.binder.parts.standings import standing_pieces
from bookgen.notation.engraved import Engraving
from bookgen.plan.document import Coverage
from bookgen.words import coverage as words
from bookgen.words import roster
from bookgen.words.names import fingers_name, played_name, position_name, position_short
from bookgen.words.roster import Standing

WHITE_MM: Final = 3.0
TABLE_ABOVE_MM: Final = 5.0


@dataclass(frozen=True, slots=True)
class CellStanding:
    """How the moves of a pair of fingers stand in a position.

    position: as the plan document has it; last: the last day on which any of them was played.
    """

    position: str
    fingers: tuple[int, ...]
    secure: int
    practised: int
    new: int
    last: Date | None


def bind_roster(players: Sequence[Standing], day: Date, desk: Desk) -> bytes:
    """A table of all players: the whole PDF."""
    sizes, column, speech = desk.layout.text, desk.sheet.column, desk.speech
    title = [
        words_of(roster.title(speech), Look(sizes.heading_pt, Face.BOLD), column, desk),
        words_of(roster.meaning(speech), Look(sizes.small_pt, above=1.0), column, desk),
    ]
    head = replace(piece_of(title, below=WHITE_MM), keeps=True)
    return bound([head, *standing_pieces(players, desk)], words.on_day(day, speech), desk)


def bind_player_coverage(
    coverage: Coverage,
    cells: Sequence[CellStanding],
    player: str | None,
    day: Date,
    desk: Desk,
) -> bytes:
    """The map of a player's fingerboard and a table of positions and fingers: the whole PDF.

    Raises:
        NoRoomError: the map does not fit the page.
    """
    plays = played_name(desk.instrument, desk.size, desk.speech)
    whose = words.whose(desk.clean(player) or None, plays)
    pieces = [
        piece_of(
            [words_of(whose, Look(desk.layout.text.heading_pt, Face.BOLD), desk.sheet.column, desk)]
        ),
        replace(map_piece(map_of(coverage, desk)), above=WHITE_MM),
        *cell_pieces(cells, desk),
    ]
    return bound(pieces, words.on_day(day, desk.speech), desk)


def map_of(coverage: Coverage, desk: Desk) -> Map:
    """The map; what is practised stands hatched above what is secure."""
    width, speech = desk.sheet.column, desk.speech
    intro = words.known(coverage.secure, coverage.practised, coverage.new, speech)
    gauges = [
        msgspec.structs.replace(gauge, aimed=gauge.secure + gauge.practised)
        for gauge in coverage.gauges
    ]
    look = Look(desk.layout.text.body_pt)
    return Map(desk, gauges, width, words_of(intro, look, width, desk), words.gauges(speech))


def cell_pieces(cells: Sequence[CellStanding], desk: Desk) -> Iterator[Piece]:
    """The table of positions and fingers, whose head stands again on every page.

    Where it would be too wide, a line for each.
    """
    heads = words.cell_heads(desk.speech)
    rows = [
        (
            position_short(cell.position, desk.speech),
            fingers_name(cell.fingers, desk.speech),
            *map(str, (cell.secure, cell.practised, cell.new)),
            words.last_played(cell.last, desk.speech),
        )
        for cell in cells
    ]
    columns = columns_of([heads, *rows], desk)
    if columns is None:
        yield from map(partial(in_lines, desk=desk), cells)
        return
    head = replace(
        row_of(heads, columns, desk, (Face.ITALIC, Face.ITALIC)), keeps=True, above=TABLE_ABOVE_MM
    )
    yield head
    for row in rows:
        yield replace(row_of(row, columns, desk, (Face.BOLD, Face.REGULAR)), again=head)


def in_lines(cell: CellStanding, desk: Desk) -> Piece:
    """A pair of fingers in a position, and how its moves stand."""
    width, size = desk.sheet.column, desk.layout.text.body_pt
    place = position_name(cell.position, desk.speech)
    over = words.whose(place, fingers_name(cell.fingers, desk.speech))
    standing = words.in_a_line(cell.secure, cell.practised, cell.new, cell.last, desk.speech)
    look = Look(size, Face.BOLD, above=WHITE_MM)
    said = [words_of(over, look, width, desk), words_of(standing, Look(size), width, desk)]
    return piece_of(said)


def bound(pieces: Sequence[Piece], running: str, desk: Desk) -> bytes:
    """Pieces below each other as a whole PDF."""
    studio = desk.clean(desk.studio)
    frame = frame_of(desk, studio, "", {})
    pages = flow(pieces, lambda _: frame.columns(), FULL)
    imprint = Imprint(title=running, author=studio or CREATOR, subject=words.subject(desk.speech))
    leaves = leaves_of(pages, frame.top, lambda _: running)
    return bind_leaves([], leaves, frame, Engraving((), ()), imprint)
