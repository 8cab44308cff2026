"""Which drills belong together: a drill and the one of which its link line speaks."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from bookgen.binder.parts.drills import DrillPiece

NEAR: Final = 8
"""From a drill to the one that it names, as many as a page may have: one that is further off is
looked up anyhow. Own choice."""


def tied(
    pieces: Sequence[DrillPiece], links: Mapping[int, int | str | None]
) -> Iterator[DrillPiece]:
    """Drills in their order, each tied by as many links as a break before it would cut.

    links: what the link of each drill names, by its number.
    """
    place: dict[int | str | None, int] = {piece.number: at for at, piece in enumerate(pieces)}
    cut = [0] * len(pieces)
    for at, piece in enumerate(pieces):
        to = place.get(links[piece.number], at)
        if at - to <= NEAR:
            for between in range(to + 1, at + 1):
                cut[between] += 1
    for piece, count in zip(pieces, cut, strict=True):
        yield replace(piece, tied=count)
