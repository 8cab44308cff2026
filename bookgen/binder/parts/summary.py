"""A page for the teacher: what was planned, week by week, the cold tests, and what comes next."""

from collections import Counter
from collections.abc import Iterator
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, heading, pieces_of
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, line_height
from bookgen.binder.parts.summary_weeks import week_pieces
from bookgen.model.spacing import Spacing
from bookgen.plan.document import DrillEntry, Plan, Role
from bookgen.words import summary as words
from bookgen.words.index import place_words
from bookgen.words.reach import not_reached

HEAD_WHITE_MM: Final = 4.0
LINE_WHITE_MM: Final = 0.9
RULE_MM: Final = 0.2
WRITE_MM: Final = 8.0
WRITE_GRAY: Final = 0.6
LINES: Final = 2
MOST_LINES: Final = 16
HANG_MM: Final = 4.0

Hand = tuple[tuple[int, ...], tuple[Spacing, ...]]
"""Fingers and the spacings between them."""


def summary_pieces(plan: Plan, desk: Desk) -> Iterator[Piece]:
    """The summary in pieces of the paper's column."""
    width, size = desk.sheet.column, desk.layout.text.body_pt
    look = Look(size, above=LINE_WHITE_MM)
    yield from pieces_of([*lines_of(plan, desk)], look, width, desk)
    hang = Look(size, above=LINE_WHITE_MM, hang=HANG_MM)
    over = Look(desk.layout.text.title_pt, Face.BOLD, above=HEAD_WHITE_MM)
    yield heading(words.by_hand_head(desk.speech), over, width, desk, 0.0)
    yield from pieces_of([*by_hand(plan, desk)], hang, width, desk)
    yield from week_pieces(plan, desk)
    yield write_piece(desk)


def lines_of(plan: Plan, desk: Desk) -> Iterator[str]:
    """What was planned, in sentences."""
    speech = desk.speech
    roles = Counter(item.role for _, item, _ in plan.items())
    sorted_roles = {role: roles[role] for role in Role if role in roles}
    yield words.planned(len(plan.drills), roles.total(), sorted_roles, speech)
    hands = dict.fromkeys(map(hand_of, sorted(plan.drills, key=hand_order)))
    named = [words.hand(*hand, speech) for hand in hands]
    positions = sorted({entry.position for entry in plan.drills}, key=position_order)
    yield words.hands(named, positions, speech)
    coverage = plan.binding.coverage if plan.binding else None
    further = plan.binding.further if plan.binding else None
    if coverage:
        yield words.moves(coverage, speech)
        yield words.following(coverage, further, speech)
    if plan.binding:
        yield from not_reached(plan.binding.unreached, speech)


def position_order(label: str) -> tuple[int, str]:
    """Sorts labels of positions from the lowest; half comes first."""
    return int("".join(filter(str.isdigit, label)) or 0), label


def by_hand(plan: Plan, desk: Desk) -> Iterator[str]:
    """For each hand the numbers of its drills, position by position."""
    found: dict[Hand, dict[str, list[int]]] = {}
    for entry in sorted(plan.drills, key=hand_order):
        places = found.setdefault(hand_of(entry), {})
        places.setdefault(entry.position, []).append(entry.number)
    for hand, places in found.items():
        told = [
            place_words(place, places[place], desk.speech)
            for place in sorted(places, key=position_order)
        ]
        yield words.hand_drills(words.hand(*hand, desk.speech), told, desk.speech)


def hand_of(entry: DrillEntry) -> Hand:
    """The hand of a drill."""
    return entry.fingers, tuple(map(Spacing.parse, entry.spacings))


def hand_order(entry: DrillEntry) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Sorts hands by fingers, then from the narrowest."""
    fingers, spacings = hand_of(entry)
    return fingers, tuple(spacing.semitones for spacing in spacings)


def write_piece(desk: Desk) -> Piece:
    """Ruled lines for the teacher."""
    style = Style(Face.ITALIC, desk.layout.text.small_pt)
    label = words.to_write(desk.speech)
    height = LINES * WRITE_MM + line_height(style.size, desk.layout.text.leading)

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        first = slot.top - style.size * ASCENT * MM_PER_POINT
        canvas.text((slot.left, first), label, style)
        lines = int((height + slot.extra) // WRITE_MM)
        for row in range(1, lines):
            y = first - row * WRITE_MM
            end = (slot.left + slot.width, y)
            canvas.line((slot.left, y), end, width=RULE_MM, gray=WRITE_GRAY)
        return iter(())

    return Piece(height, draw, above=HEAD_WHITE_MM, most_extra=MOST_LINES * WRITE_MM)
