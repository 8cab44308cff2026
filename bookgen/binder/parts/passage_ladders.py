"""The drills that lead to a passage's placements, under headings by placement."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from bookgen.binder.page.canvas import Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Mark, Piece
from bookgen.binder.page.prose import Look, piece_of, words_of
from bookgen.binder.parts.passage_front import heading_of
from bookgen.model.drill import Drill
from bookgen.plan.document import DrillEntry
from bookgen.plan.passage import Ladder, Passage
from bookgen.plan.passage_excerpt import excerpts_of
from bookgen.words import passage_ladders


@dataclass(frozen=True, slots=True)
class LadderDrills:
    """A placement's ladder with the drills that stand under it; None before any ladder."""

    ladder: Ladder | None
    drills: list[DrillEntry] = field(default_factory=list)


def planned_drills(passage: Passage) -> list[DrillEntry]:
    """The drills of a passage's plan in the order of play."""
    return [entry for _, _, entry in passage.plan.items()] if passage.plan else []


def sections_of(passage: Passage) -> list[LadderDrills]:
    """Share the drills out among the ladders, in the plan's order.

    A drill goes to the first ladder that has it; one that none has stays with the one before it.
    """
    homes: dict[Drill, int] = {}
    for index, ladder in enumerate(passage.ladders):
        for drill in ladder.drills:
            homes.setdefault(drill, index)
    sections = [LadderDrills(ladder) for ladder in passage.ladders]
    loose = LadderDrills(None)
    here = loose
    for entry in planned_drills(passage):
        home = homes.get(entry.drill)
        here = here if home is None else sections[home]
        here.drills.append(entry)
    return [loose, *sections] if loose.drills else sections


def ladder_pieces(
    passage: Passage,
    blocks: Mapping[int, Piece],
    excerpts: Sequence[Piece],
    desk: Desk,
    width: float,
) -> Iterator[Piece]:
    """Headings, drills and excerpts.

    blocks: of the drills, by number; excerpts: the music of `excerpts_of`, in its order.
    width: of their column, in millimetres.
    """
    if not passage.ladders:
        return
    yield heading_of("drills", desk, width)
    text = passage_ladders.drills_text(desk.speech)
    body = Look(desk.layout.text.body_pt)
    yield replace(piece_of([words_of(text, body, width, desk)]), keeps=True)
    numbers = {entry.drill: entry.number for entry in planned_drills(passage)}
    by_letter = excerpts_by_letter(passage, excerpts, desk, width)
    for section in sections_of(passage):
        if section.ladder is not None:
            yield ladder_heading(section.ladder, section.drills, numbers, passage, desk, width)
        for order, entry in enumerate(section.drills):
            yield replace(blocks[entry.number], ruled=order > 0)
        if section.ladder is not None:
            yield from by_letter.get(section.ladder.group, ())


def ladder_heading(
    ladder: Ladder,
    own: Sequence[DrillEntry],
    numbers: Mapping[Drill, int],
    passage: Passage,
    desk: Desk,
    width: float,
) -> Piece:
    """The heading of a ladder, with what is said below it.

    own: the drills that stand under it; numbers: of all drills.
    """
    sizes, measures = desk.layout.text, desk.layout.passage
    title = passage_ladders.ladder_title(ladder, passage, desk.speech)
    shared = sorted(numbers[drill] for drill in ladder.shared if drill in numbers)
    text = passage_ladders.ladder_text([entry.number for entry in own], shared, desk.speech)
    over = Look(sizes.title_pt, above=measures.heading_above_mm)
    head = words_of(title, over, width, desk)
    below = words_of(text, Look(sizes.body_pt, above=0.6), width, desk)
    said = [head, below] if text else [head]
    plain = head.plain
    piece = piece_of(said, measures.text_above_mm)
    return replace(piece, keeps=bool(own), marks=(Mark(plain, 1),), running=plain)


def excerpts_by_letter(
    passage: Passage, excerpts: Sequence[Piece], desk: Desk, width: float
) -> dict[str, list[Piece]]:
    """By the letter of its placement: the placement's own notes, evenly and in rhythm."""
    found: dict[str, list[Piece]] = {}
    look = Look(desk.layout.text.body_pt, Face.REGULAR, above=desk.layout.passage.heading_above_mm)
    for index, (excerpt, music) in enumerate(zip(excerpts_of(passage), excerpts, strict=True)):
        text = (
            passage_ladders.in_rhythm(desk.speech)
            if index % 2
            else passage_ladders.even(excerpt.letter, desk.speech)
        )
        caption = piece_of([words_of(text, look, width, desk)])
        above = desk.layout.passage.text_above_mm
        found.setdefault(excerpt.letter, []).extend(
            [replace(caption, keeps=True), replace(music, above=above)]
        )
    return found
