"""A passage's first pages: title, music, what cannot be played, and frames."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Mark, Piece, Slot
from bookgen.binder.page.placed import Placed, placed
from bookgen.binder.page.prose import Look, piece_of, pieces_of, words_of
from bookgen.binder.page.signs import Sign
from bookgen.binder.page.typeset import MM_PER_POINT, shorten
from bookgen.binder.parts.passage.frames import frame_pieces
from bookgen.binder.structure.tag import Role, Tag, head
from bookgen.errors import told
from bookgen.model.finger import THUMB
from bookgen.notation.bar_count import bars_of_lines
from bookgen.notation.engraved import EngravedDrill
from bookgen.plan.passage import Passage
from bookgen.words import passage as words
from bookgen.words.passage_source import source_line
from bookgen.words.pictures import bars_words
from bookgen.words.speech import Speech

TITLE_BELOW_MM: Final = 2.0
BULLET_MM_PER_POINT: Final = 0.36


def front_pieces(
    passage: Passage,
    lines: Sequence[tuple[int, EngravedDrill]],
    drills: int,
    desk: Desk,
) -> Iterator[Piece]:
    """Everything before the hard spots, from top to bottom.

    lines: the music of the passage, line by line: which of the engraving's, and its ink.
    drills: how many there are.
    """
    speech, measures = desk.speech, desk.layout.passage
    yield title_of(passage, drills, desk)
    signs = frozenset({"frame", *(["arrow"] if passage.best.placed else []), *thumb_in(passage)})
    tags = tags_of([line for _, line in lines], passage, speech)
    for at, ((index, line), tag) in enumerate(zip(lines, tags, strict=True)):
        piece = music_of(index, line, tag)
        yield replace(piece, above=measures.music_gap_mm * (at > 0), signs=signs)
    yield from section("unplayable", [*words.unplayable(passage, speech)], desk)
    yield from frame_pieces(passage, desk)


def thumb_in(passage: Passage) -> Iterator[str]:
    """The sign of the thumb, where it stops a note."""
    stops = (stop for placed in passage.best.placed for stop in placed.stops)
    if any(stop is not None and stop.finger == THUMB for stop in stops):
        yield Sign.THUMB


def tags_of(lines: Sequence[EngravedDrill], passage: Passage, speech: Speech) -> Sequence[Tag]:
    """As what each line of music is read: its bars; all lines as one where these are not known."""
    bars = bars_of_lines(lines, len(passage.phrase.bars))
    if bars is None:
        every = range(len(passage.phrase.bars))
        return [Tag(Role.FIGURE, alt=lambda: line_words(every, passage, speech))] * len(lines)
    return [Tag(Role.FIGURE, alt=partial(line_words, own, passage, speech)) for own in bars]


def line_words(bars: range, passage: Passage, speech: Speech) -> str:
    """Some bars of a passage in words."""
    sounds = [at for at, placed in enumerate(passage.best.placed) if placed.bar in bars]
    first, last = (sounds[0], sounds[-1]) if sounds else (0, -1)
    return bars_words(passage.best, passage.phrase, first, last, passage.title, speech)


def title_of(passage: Passage, drills: int, desk: Desk) -> Piece:
    """The title, and the facts below it."""
    sizes, column = desk.layout.text, desk.sheet.column
    style = Style(Face.BOLD, sizes.name_pt)
    title = shorten(passage.title, column, style, desk.fonts)
    of_pages = words.facts(passage, desk.instrument, drills, desk.speech)
    facts = " · ".join(filter(None, (of_pages, desk.clean(source_line(passage)))))
    lines = [
        words_of(title, Look(sizes.name_pt, Face.BOLD), column, desk, head(1)),
        words_of(facts, Look(sizes.link_pt), column, desk),
    ]
    over = words.headings(desk.speech)["passage"]
    return replace(
        piece_of(lines, TITLE_BELOW_MM), keeps=True, marks=(Mark(over, 0),), running=over
    )


def music_of(index: int, engraved: EngravedDrill, tag: Tag) -> Piece:
    """One line of music: which of the engraving's; tag: as what it is read."""

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        del canvas
        yield placed(slot.page, index, (slot.left, slot.top), tag)

    called = told("line {number} of the music", number=index + 1)
    return Piece(engraved.box.height * MM_PER_POINT, draw, called=called)


def section(part: str, items: Sequence[str], desk: Desk) -> Iterator[Piece]:
    """A heading with its items below it; nothing without items."""
    if not items:
        return
    text, measures = words.headings(desk.speech)[part], desk.layout.passage
    look = Look(desk.layout.text.title_pt, Face.BOLD, above=measures.text_above_mm)
    title = piece_of([words_of(text, look, desk.sheet.column, desk, head())])
    yield replace(title, keeps=True, marks=(Mark(text, 0),), running=text)
    size = desk.layout.text.body_pt
    look = Look(size, above=0.6, indent=BULLET_MM_PER_POINT * size, bullet="•")
    yield from pieces_of(items, look, desk.sheet.column, desk)


def printable(passage: Passage, desk: Desk) -> Passage:
    """A passage whose words, which come from a file of the user's, can be printed."""
    bars = tuple(replace(bar, number=desk.clean(bar.number)) for bar in passage.phrase.bars)
    unplayable = tuple((desk.clean(bar), problem) for bar, problem in passage.best.unplayable)
    return replace(
        passage,
        title=desk.clean(passage.title),
        phrase=replace(passage.phrase, bars=bars),
        best=replace(passage.best, unplayable=unplayable),
    )
