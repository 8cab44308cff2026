"""The drills that lead to a passage's groups, under headings by group."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.block import Block
from bookgen.binder.block_drawing import draw_block
from bookgen.binder.canvas import Canvas
from bookgen.binder.desk import Desk
from bookgen.binder.leaf import Mark, Side
from bookgen.binder.overlay import Placed, placed
from bookgen.binder.passage_flow import Thing
from bookgen.binder.passage_front import TEXT_ABOVE_MM, Music, Words, heading, text_things
from bookgen.binder.passage_text import PassageText, fill
from bookgen.binder.passage_words import ladder_words
from bookgen.binder.prose import Look, set_prose
from bookgen.model.drill import Drill
from bookgen.notation.engraved import EngravedDrill
from bookgen.plan.document import PlannedDrill
from bookgen.plan.passage import Ladder, Passage
from bookgen.plan.passage_excerpt import excerpts_of

LADDER_ABOVE_MM: Final = 5.0


@dataclass(frozen=True, slots=True)
class Section:
    """A group's ladder with its drills, by their index in the plan; None before any ladder."""

    ladder: Ladder | None
    drills: list[int]


@dataclass(frozen=True, slots=True)
class DrillBlock:
    """A drill's block, and which music of the engraving is its own."""

    block: Block
    music: int

    def draw(self, canvas: Canvas, side: Side, top: float, pencil: float) -> Iterator[Placed]:
        """Draw the block with room for the pencil."""
        corner = draw_block(canvas, self.block, side.left, top, pencil)
        yield placed(side.page, self.music, corner)


def planned_drills(passage: Passage) -> list[PlannedDrill]:
    """The drills of a passage's plan in their order."""
    days = passage.plan.days if passage.plan else ()
    return [planned for day in days for planned in day.drills]


def sections_of(passage: Passage, drills: Sequence[PlannedDrill]) -> list[Section]:
    """Share the drills out among the ladders, in the plan's order.

    A drill goes to the first ladder that has it; one that none has stays with the one before it.
    """
    homes: dict[Drill, int] = {}
    for index, ladder in enumerate(passage.ladders):
        for drill in ladder.drills:
            homes.setdefault(drill, index)
    sections = [Section(ladder, []) for ladder in passage.ladders]
    loose = Section(None, [])
    here = loose
    for index, planned in enumerate(drills):
        home = homes.get(planned.drill)
        here = here if home is None else sections[home]
        here.drills.append(index)
    return [loose, *sections] if loose.drills else sections


def drill_things(
    text: PassageText, desk: Desk, music: Sequence[EngravedDrill], first: int
) -> Iterator[Thing]:
    """Headings and blocks.

    music: of the drills, in the plan's order, then of the excerpts; first: index of the first
        one's music in the whole engraving.
    """
    drills = planned_drills(text.passage)
    if not music:
        return
    blocks = blocks_of(drills, desk, music[: len(drills)], first)
    excerpts = excerpt_things(text, desk, music[len(drills) :], first + len(drills))
    numbers = {planned.drill: planned.number for planned in reversed(drills)}
    yield from drills_heading(text, desk)
    for section in sections_of(text.passage, drills):
        running = text.plain("drills")
        if section.ladder is not None:
            own = [drills[index].number for index in section.drills]
            for thing in ladder_heading(text, desk, section.ladder, (own, numbers)):
                yield thing
                running = thing.running
        for order, index in enumerate(section.drills):
            block = blocks[index]
            title = f"{drills[index].number} · {block.block.outline}"
            yield Thing(
                block.block.height,
                block.draw,
                running,
                above=desk.layout.block.between,
                pencil=True,
                ruled=order > 0,
                marks=(Mark(title, 2),),
            )
        if section.ladder is not None:
            yield from excerpts.get(section.ladder.group, ())


def blocks_of(
    drills: Sequence[PlannedDrill], desk: Desk, music: Sequence[EngravedDrill], first: int
) -> list[DrillBlock]:
    """The blocks of the drills, their charts at one scale."""
    if not drills:
        return []
    views = desk.views(drills)
    return [
        DrillBlock(desk.block(planned, engraved, view), first + index)
        for index, (planned, engraved, view) in enumerate(zip(drills, music, views, strict=True))
    ]


def excerpt_things(
    text: PassageText, desk: Desk, music: Sequence[EngravedDrill], first: int
) -> dict[str, list[Thing]]:
    """By the letter of its group: the group's own notes, evenly and in rhythm.

    music: of the excerpts in their order; first: index of the first one's in the engraving.
    """
    found: dict[str, list[Thing]] = {}
    by_letter = {words.letter: words for words, _ in text.groups}
    excerpts = excerpts_of(text.passage)
    for index, (excerpt, engraved) in enumerate(zip(excerpts, music, strict=True)):
        part = "rhythm" if index % 2 else "even"
        words = ladder_words(by_letter[excerpt.letter], (), ())
        looks = {part: Look(desk.layout.text.body)}
        leading = desk.layout.text.leading
        sets = set_prose(fill(desk, ladder=words), looks, desk.sheet.column, leading, desk.fonts)
        caption, line = Words(sets), Music(first + index, engraved)
        running = f"Towards {excerpt.letter}"
        found.setdefault(excerpt.letter, []).extend(
            [
                Thing(caption.height, caption.draw, running, above=LADDER_ABOVE_MM, keeps=True),
                Thing(line.height, line.draw, running, above=TEXT_ABOVE_MM),
            ]
        )
    return found


def drills_heading(text: PassageText, desk: Desk) -> Iterator[Thing]:
    """The heading over all drills, with the key of their signs."""
    yield from heading(text, desk, "drills")
    for thing in text_things(text, desk, "drills", "drills-text"):
        yield replace(thing, keeps=True, above=0.0)


def ladder_heading(
    text: PassageText,
    desk: Desk,
    ladder: Ladder,
    numbers: tuple[Sequence[int], Mapping[Drill, int]],
) -> Iterator[Thing]:
    """The heading of a ladder, with what is said below it.

    numbers: of its own drills, and of all drills.
    """
    own, every = numbers
    by_letter = {words.letter: words for words, _ in text.groups}
    if ladder.group not in by_letter:
        return
    shared = sorted(every[drill] for drill in ladder.shared if drill in every)
    words = ladder_words(by_letter[ladder.group], own, shared)
    sizes = desk.layout.text
    looks = {"ladder": Look(sizes.title, heads=True), "ladder-text": Look(sizes.body, above=0.6)}
    found = fill(desk, ladder=words)
    sets = set_prose(found, looks, desk.sheet.column, sizes.leading, desk.fonts)
    title = " ".join(one.plain for one in found if one.part == "ladder")
    if not sets:
        return
    thing = Words(sets, below=TEXT_ABOVE_MM)
    yield Thing(
        thing.height,
        thing.draw,
        title,
        above=LADDER_ABOVE_MM,
        keeps=bool(own),
        marks=(Mark(title, 1),),
    )
