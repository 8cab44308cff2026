"""An editor's table: every drill of a book with its page, stops and intervals, to mark by hand."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from bookgen.binder.page.bind import bind_leaves
from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.frame import frame_of
from bookgen.binder.page.imprint import CREATOR, Imprint
from bookgen.binder.page.piece import Piece
from bookgen.binder.page.prose import Look, heading, piece_of, words_of
from bookgen.binder.parts.index import listed_leaves
from bookgen.binder.parts.table import table_row
from bookgen.model.finger import sign_of
from bookgen.model.instrument import NUMERALS
from bookgen.model.pitch import Pitch
from bookgen.model.units import StringNumber
from bookgen.notation.engraved import Engraving
from bookgen.plan.document import DrillEntry, Plan
from bookgen.plan.moments import Moment, moments_of
from bookgen.words import proof as words
from bookgen.words.drill_title import drill_title
from bookgen.words.names import interval_label, played_name
from bookgen.words.supplement import subject

SHARES: Final = (0.12, 0.22, 0.14, 0.2, 0.16, 0.16)
"""Of a column's width: bar, strings, fingers, notes, interval together, interval from before."""

DRILL_WHITE_MM: Final = 4.0
JOINED: Final = "+"
CUT_COST: Final = 0.3
"""Of a drill that goes on in another column (own choice)."""


def bind_proof_table(plan: Plan, pages: Mapping[int, str], desk: Desk) -> bytes:
    """Bind the table: the whole PDF.

    pages: of the drills as they are printed, by their numbers.
    """
    title = desk.clean(plan.title) or ""
    played = played_name(desk.instrument, desk.size, desk.speech)
    frame = frame_of(desk, f"{title} · {played}", "", {}, mirrored=False)

    def pieces(width: float) -> Iterator[Piece]:
        for entry in plan.drills:
            yield from drill_pieces(entry, pages[entry.number], width, desk)

    name = words.title(desk.speech)
    leaves = listed_leaves(name, words.intro(desk.speech), pieces, frame)
    imprint = Imprint(f"{title}, {name}", CREATOR, subject(played, desk.speech))
    return bind_leaves([], leaves, frame, Engraving((), ()), imprint)


def drill_pieces(entry: DrillEntry, page: str, width: float, desk: Desk) -> Iterator[Piece]:
    """A drill: what it is, where it stands, its key, and a line for each of its moments.

    width: of a column, in millimetres.
    """
    sizes, speech = desk.layout.text, desk.speech
    over = Look(sizes.body_pt, Face.BOLD, above=DRILL_WHITE_MM)
    small = Look(sizes.small_pt, Face.ITALIC)
    head = heading(drill_title(entry, speech), over, width, desk, 0.0)
    yield head
    told = f"{words.on_page(page, speech)} · {entry.key}"
    lines = [words_of(line, small, width, desk) for line in broken(told, small, width, desk)]
    yield replace(piece_of(lines), keeps=True)
    widths = [share * width for share in SHARES]
    for at, moment in enumerate(moments_of(entry)):
        if moment.event.begins == "turn":
            back = words_of(words.way(back=True, speech=speech), small, width, desk)
            yield replace(piece_of([back]), keeps=True, again=head, tied=CUT_COST)
        row = table_row(cells_of(moment, desk), widths, [Face.REGULAR] * len(widths), desk)
        yield replace(row, again=head, tied=CUT_COST) if at else row


def broken(told: str, look: Look, width: float, desk: Desk) -> Iterator[str]:
    """Words with a key in lines of that width, in millimetres: a key is broken at its hyphens."""
    line = ""
    style = Style(look.face, look.size)
    for part in PARTS.findall(told):
        if line and desk.fonts.width(line + part.rstrip(), style) > width:
            yield line.strip()
            line = ""
        line += part
    yield line.strip()


PARTS: Final = re.compile(r"[^- ]+[- ]*")


def cells_of(moment: Moment, desk: Desk) -> Sequence[str]:
    """A moment in words: the lower string first, as it is read from the staff."""
    stops = sorted(moment.event.stops, key=lambda stop: -stop.string)
    together, before = moment.event.within, moment.event.from_previous
    return (
        str(moment.bar),
        JOINED.join(NUMERALS[StringNumber(stop.string)] for stop in stops),
        JOINED.join(sign_of(stop.finger) for stop in stops),
        JOINED.join(desk.speech.note(Pitch.parse(stop.pitch)) for stop in stops),
        interval_label(together, desk.speech) if together else "",
        interval_label(before, desk.speech) if before else "",
    )
