"""Each hand of a book by its positions: the drills that have it, and on which pages they stand."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from bookgen.binder.page.desk import Desk
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf
from bookgen.binder.page.piece import Piece
from bookgen.binder.page.prose import Look, heading, piece_of, words_of
from bookgen.binder.parts.index import (
    CUT_COST,
    ENTRY_WHITE_MM,
    HANG_MM,
    HEADING_MORE_PT,
    HEADING_WHITE_MM,
    leading,
    listed_leaves,
)
from bookgen.binder.structure.tag import Role, Tag, of_page, paragraph
from bookgen.model.spacing import Frame as HandFrame
from bookgen.model.spacing import Spacing
from bookgen.plan.document import DrillEntry
from bookgen.words import index as index_words
from bookgen.words import made
from bookgen.words import supplement as words
from bookgen.words.names import spacing_name, step_name
from bookgen.words.speech import Speech

PAIR: Final = 2

Hand = tuple[tuple[int, ...], tuple[str, ...]]
"""HandFrame, and the words of the spacings between them."""

Hands = dict[Hand, dict[str, list[int]]]
"""By hand: the positions, rising, with the numbers of their drills."""


def hands_of(entries: Sequence[DrillEntry]) -> Hands:
    """Every hand of the drills, pairs first."""
    found: Hands = {}
    for entry in sorted(entries, key=hand_rank):
        places = found.setdefault((entry.fingers, entry.spacings), {})
        places.setdefault(entry.position, []).append(entry.number)
    return found


def hand_rank(entry: DrillEntry) -> tuple[int, tuple[int, ...], tuple[int, ...], int]:
    """Where a drill's hand stands: few fingers first, close spacings first, low places first."""
    steps = tuple(Spacing.parse(word).semitones for word in entry.spacings)
    return len(entry.fingers), entry.fingers, steps, entry.place


def hand_heading_of(hand: HandFrame, speech: Speech) -> str:
    """A hand by its fingers and the steps between them."""
    name = step_name if len(hand.fingers) == PAIR else spacing_name
    steps = speech.listed([name(spacing, speech) for spacing in hand.spacings])
    return words.hand_heading(hand.fingers, steps, speech)


def hands_pieces(
    hands: Hands, pages: Mapping[int, int], told: Mapping[str, int], width: float, desk: Desk
) -> Iterator[Piece]:
    """The index in pieces of a column; a hand cut in two is named again.

    pages: of the drills by their numbers; told: where everything stands that a hand makes, by
        the hand's heading.
    """
    size, speech = desk.layout.text.body_pt, desk.speech
    over = Look(size + HEADING_MORE_PT, above=HEADING_WHITE_MM)
    look = Look(size, above=ENTRY_WHITE_MM, hang=HANG_MM)
    for (fingers, spacings), places in hands.items():
        shown = hand_heading_of(HandFrame(fingers, tuple(map(Spacing.parse, spacings))), speech)
        head = heading(shown, over, width, desk, 0.0)
        yield head
        page = told[str(head.called)]
        there = Tag(Role.LINK, within=paragraph(), goal=of_page(str(page)))
        at = words_of(made.on_page(page, speech), look, width, desk, there)
        yield replace(piece_of([at]), keeps=True)
        listed = Tag(Role.LIST)
        for row, (position, numbers) in enumerate(places.items()):
            stand = [pages[number] for number in numbers]
            said = index_words.place_pages(position, numbers, stand, speech)
            piece = piece_of([words_of(said, look, width, desk, leading(listed, [numbers]))])
            yield replace(piece, again=head, tied=CUT_COST) if row else piece


def hands_leaves(
    entries: Sequence[DrillEntry], pages: Mapping[int, int], told: Mapping[str, int], frame: Frame
) -> list[Leaf]:
    """The pages of the index of hands; pages, told: see `hands_pieces`."""
    speech = frame.desk.speech
    return listed_leaves(
        words.hands_title(speech),
        words.hands_intro(speech),
        lambda width: hands_pieces(hands_of(entries), pages, told, width, frame.desk),
        frame,
    )
