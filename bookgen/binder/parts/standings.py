"""All players of a studio in a table: who printed, who logged, what is secure, what is next."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, heading, piece_of, words_of
from bookgen.binder.parts.table import first_baseline, table_row, widths_of
from bookgen.words import roster as words
from bookgen.words.roster import Standing

BAR_MM: Final = 2.2
BAR_WIDE_MM: Final = 18.0
HATCH_MM: Final = 0.9
LINE_MM: Final = 0.2
WHITE_MM: Final = 1.6
GROUP_ABOVE_MM: Final = 2.0
PLAYER_MM: Final = 4.0

NAME: Final = 0
BAR: Final = 1
"""Index of the columns with the name and with the bar."""

NAME_SHARE: Final = 0.17
"""Most of the width for names (own choice); longer ones break, their longest words are cut."""

NEXT_SHARE: Final = 0.2
"""Least of the width for what is next (own choice)."""


def standing_pieces(players: Sequence[Standing], desk: Desk) -> Iterator[Piece]:
    """The table by days of lessons, whose head stands again on every page.

    Lines where it would be too wide.
    """
    heads = head_cells(desk)
    widths = columns_of(heads, players, desk)
    head = None
    if widths is not None:
        head = replace(table_row(heads, widths, (Face.ITALIC,) * len(heads), desk), keeps=True)
        yield head
    for lesson, group in words.by_lesson(players, desk.speech):
        if lesson:
            over = Look(desk.layout.text.small_pt, Face.ITALIC, above=GROUP_ABOVE_MM)
            yield heading(lesson, over, desk.sheet.column, desk, 0.0)
        for player in group:
            if widths is None:
                yield in_lines(player, desk)
                continue
            row = table_row(cells_of(player, desk), widths, faces_of(player), desk)
            yield replace(with_bar(row, widths[0], player, desk), again=head)


def columns_of(
    heads: Sequence[str], players: Sequence[Standing], desk: Desk
) -> tuple[float, ...] | None:
    """The widths of the columns, or None where too little is left for what is next."""
    rows, whole = [cells_of(player, desk) for player in players], desk.sheet.column
    names = {NAME: whole * NAME_SHARE}
    widths = widths_of([heads, *rows], desk, drawn={BAR: BAR_WIDE_MM}, typed=names)
    return None if widths is None or widths[-1] < whole * NEXT_SHARE else widths


def head_cells(desk: Desk) -> tuple[str, ...]:
    """What stands over the columns; over bar and figures once."""
    name, moves, *others = words.heads(desk.speech)
    return (name, moves, "", *others)


def cells_of(player: Standing, desk: Desk) -> tuple[str, ...]:
    """A player's row in words that can be printed, an empty cell where the bar stands."""
    name, *others = words.cells(player, desk.speech)
    return (desk.clean(name), "", *others)


def faces_of(player: Standing) -> tuple[Face, ...]:
    """The cut of a row's cells: bold are the name and what asks for the teacher."""
    asks = (Face.BOLD if one else Face.REGULAR for one in player.asks)
    return (Face.BOLD, Face.REGULAR, Face.REGULAR, *asks, Face.REGULAR)


def in_lines(player: Standing, desk: Desk) -> Piece:
    """A player, how all stands, and the bar below, as wide as the page."""
    width, size = desk.sheet.column, desk.layout.text.small_pt
    said = [words_of(desk.clean(player.name), Look(size, Face.BOLD), width, desk)]
    said += [
        words_of(line, Look(size), width, desk) for line in words.in_lines(player, desk.speech)
    ]
    piece = piece_of(said, below=WHITE_MM + BAR_MM + PLAYER_MM)

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        corner = (slot.left, slot.top - piece.height + PLAYER_MM)
        draw_bar(canvas, corner, slot.width, player)
        yield from piece.draw(canvas, slot)

    return replace(piece, draw=draw)


def with_bar(row: Piece, left: float, player: Standing, desk: Desk) -> Piece:
    """A player's row with the bar in its column, which begins so far from the row's left edge."""

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        corner = (slot.left + left, first_baseline(slot.top, desk))
        draw_bar(canvas, corner, BAR_WIDE_MM, player)
        yield from row.draw(canvas, slot)

    return replace(row, draw=draw)


def draw_bar(canvas: Canvas, corner: tuple[float, float], width: float, player: Standing) -> None:
    """A bar: black for secure, hatched for practised, the rest white."""
    (x, y), total = corner, max(player.total, 1)
    black = width * player.secure / total
    hatched = black + width * player.practised / total
    if black:
        canvas.shape([(x, y), (x + black, y), (x + black, y + BAR_MM), (x, y + BAR_MM)])
    at = black + HATCH_MM
    while at < hatched:
        canvas.line((x + at, y), (x + at, y + BAR_MM), width=LINE_MM)
        at += HATCH_MM
    canvas.box((x, y), (width, BAR_MM), width=LINE_MM)
