"""All players of a studio in a table: how much of each one's area is secure."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, piece_of, words_of
from bookgen.binder.parts.figures import (
    GAP_MM,
    LINE_MM,
    WHITE_MM,
    Columns,
    columns_of,
    row_height,
    row_of,
)
from bookgen.words import coverage as words

BAR_MM: Final = 3.4
BAR_WHITE_MM: Final = 1.0
HATCH_MM: Final = 0.9


@dataclass(frozen=True, slots=True)
class PlayerStanding:
    """How a player's moves stand.

    plays: instrument and size, as printed; last: the last day on which a result was marked.
    """

    name: str
    plays: str
    secure: int
    practised: int
    new: int
    last: Date | None

    @property
    def total(self) -> int:
        """All moves of the area."""
        return self.secure + self.practised + self.new


def standing_pieces(players: Sequence[PlayerStanding], desk: Desk) -> Iterator[Piece]:
    """The table, whose head stands again on every page; lines where it would be too wide."""
    heads = words.heads(desk.speech)
    rows = [cells_of(player, desk) for player in players]
    columns = columns_of([heads, *rows], desk)
    if columns is None:
        yield from (in_lines(player, desk) for player in players)
        return
    head = replace(row_of(heads, columns, desk, (Face.ITALIC, Face.ITALIC)), keeps=True)
    yield head
    for player, cells in zip(players, rows, strict=True):
        yield replace(with_bar(cells, player, columns, desk), again=head)


def in_lines(player: PlayerStanding, desk: Desk) -> Piece:
    """A player, how all moves stand, and the bar below, as wide as the page."""
    width, size = desk.sheet.column, desk.layout.text.body_pt
    standing = words.in_a_line(
        player.secure, player.practised, player.new, player.last, desk.speech
    )
    said = [
        words_of(text, Look(size, face), width, desk)
        for text, face in (
            (words.whose(desk.clean(player.name), player.plays), Face.BOLD),
            (standing, Face.REGULAR),
        )
    ]
    piece = piece_of(said, below=BAR_MM + 2 * WHITE_MM)

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        corner = (slot.left, slot.top - piece.height + 2 * WHITE_MM)
        draw_bar(canvas, corner, slot.width, player)
        yield from piece.draw(canvas, slot)

    return replace(piece, draw=draw)


def cells_of(player: PlayerStanding, desk: Desk) -> tuple[str, ...]:
    """The words of a player's row."""
    return (
        desk.clean(player.name),
        player.plays,
        *map(str, (player.secure, player.practised, player.new)),
        words.last_played(player.last, desk.speech),
    )


def with_bar(cells: Sequence[str], player: PlayerStanding, columns: Columns, desk: Desk) -> Piece:
    """A player's row with the bar below what the player plays."""
    row = row_of(cells, columns, desk, (Face.BOLD, Face.REGULAR), BAR_MM)

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        y = slot.top - row_height(desk) + WHITE_MM - BAR_MM
        draw_bar(canvas, (slot.left + columns.first, y), columns.second - GAP_MM, player)
        yield from row.draw(canvas, slot)

    return replace(row, draw=draw)


def draw_bar(
    canvas: Canvas, corner: tuple[float, float], width: float, player: PlayerStanding
) -> None:
    """A bar: black for secure, hatched for practised, the rest white."""
    (x, y), total = corner, max(player.total, 1)
    black = width * player.secure / total
    hatched = black + width * player.practised / total
    high = BAR_MM - BAR_WHITE_MM
    if black:
        canvas.shape([(x, y), (x + black, y), (x + black, y + high), (x, y + high)])
    at = black + HATCH_MM
    while at < hatched:
        canvas.line((x + at, y), (x + at, y + high), width=LINE_MM)
        at += HATCH_MM
    canvas.box((x, y), (width, high), width=LINE_MM)
