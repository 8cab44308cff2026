"""The answers of a booklet that is played from memory: the notation of each drill, by number."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Canvas
from bookgen.binder.desk import Desk
from bookgen.binder.english import hand_name, numbers_name
from bookgen.binder.furniture import Furniture
from bookgen.binder.layout import COLUMN_GAP_MM
from bookgen.binder.leaf import Leaf, Mark, Side
from bookgen.binder.overlay import Placed, placed
from bookgen.binder.paging import share_out
from bookgen.binder.typeset import (
    ASCENT,
    MM_PER_POINT,
    Line,
    Paragraph,
    draw_line,
    line_height,
    wrap,
)
from bookgen.model.drill import Drill
from bookgen.model.route import STAGES
from bookgen.notation.engraved import EngravedDrill
from bookgen.plan.document import Plan, PlannedDrill

ANSWERS: Final = "answers.j2"
ANSWER_PARTS: Final = frozenset({"outline", "running", "title"})
"""What answers.j2 may print; a `title` for each answer."""

TITLE_WHITE_MM: Final = 1.2
GAP_MM: Final = 4.0
BESIDE_MM: Final = 38.0
"""Room beside the music from which the title stands there."""


@dataclass(frozen=True, slots=True)
class AnswerWords:
    """What answers.j2 may say of a drill.

    numbers: of all drills of the booklet with this notation.
    """

    numbers: str
    hand: str
    position: str
    stage_name: str


@dataclass(frozen=True, slots=True)
class Answer:
    """The notation of a drill with its title.

    index: of its music in the engraving; music: its height, step: of a line of the title, and
        indent: of the music where the title stands beside it, all in millimetres.
    """

    index: int
    title: tuple[Line, ...]
    music: float
    step: float
    indent: float

    @property
    def above(self) -> float:
        """Height of the title where it stands above the music."""
        return 0.0 if self.indent else len(self.title) * self.step + TITLE_WHITE_MM

    @property
    def height(self) -> float:
        """Height in millimetres."""
        return max(self.above + self.music, len(self.title) * self.step)


def answer_leaves(plan: Plan, music: Sequence[EngravedDrill], furniture: Furniture) -> list[Leaf]:
    """The pages of answers; a drill that comes on many days has one.

    Raises:
        BookgenError: the template is damaged.
        NoRoomError: a drill is higher than a page.
    """
    drills = [planned for day in plan.days for planned in day.drills]
    same = places_of(drills)
    facts = {"answers": [answer_words([drills[i] for i in found]) for found in same.values()]}
    found = furniture.desk.words.fill(ANSWERS, facts, ANSWER_PARTS)
    plain = {paragraph.part: paragraph.plain for paragraph in found}
    titles = [paragraph for paragraph in found if paragraph.part == "title"]
    firsts = [(indices[0], music[indices[0]]) for indices in same.values()]
    answers = answers_of(firsts, titles, furniture.desk)
    room = furniture.room
    counts = share_out([answer.height for answer in answers], lambda _: room, GAP_MM)
    queue = iter(answers)
    marks: tuple[Mark, ...] = (Mark(plain.get("outline", ""), 0),)
    leaves = []
    for number, amount in enumerate(counts):
        page = AnswerPage(furniture, [next(queue) for _ in range(amount)])
        leaves.append(Leaf(plain.get("running", ""), () if number else marks, page.draw))
    return leaves


def places_of(drills: Sequence[PlannedDrill]) -> dict[Drill, list[int]]:
    """Where in a plan each drill stands, counted from 0."""
    found: dict[Drill, list[int]] = {}
    for index, planned in enumerate(drills):
        found.setdefault(planned.drill, []).append(index)
    return found


def answers_of(
    firsts: Sequence[tuple[int, EngravedDrill]], titles: Sequence[Paragraph], desk: Desk
) -> list[Answer]:
    """The answers, measured; titles stand beside the music where all of it leaves them room.

    firsts: the music of each, with its number in the engraving.
    """
    sizes, column = desk.layout.text, desk.sheet.column
    widest = max(engraved.box.width for _, engraved in firsts) * MM_PER_POINT
    free = column - widest
    indent = free if free >= BESIDE_MM else 0.0
    width = indent - COLUMN_GAP_MM if indent else column
    step = line_height(sizes.body, sizes.leading)
    return [
        Answer(
            index,
            tuple(wrap(title.pieces, width, sizes.body, desk.fonts)),
            engraved.box.height * MM_PER_POINT,
            step,
            indent,
        )
        for (index, engraved), title in zip(firsts, titles, strict=True)
    ]


def answer_words(drills: Sequence[PlannedDrill]) -> AnswerWords:
    """Say what the drills are that share a notation."""
    planned = drills[0]
    return AnswerWords(
        numbers=numbers_name([planned.number for planned in drills]),
        hand=hand_name(planned.drill),
        position=f"{planned.position} position",
        stage_name=STAGES[planned.drill.stage],
    )


@dataclass(frozen=True, slots=True)
class AnswerPage:
    """One page of answers."""

    furniture: Furniture
    answers: Sequence[Answer]

    def draw(self, canvas: Canvas, side: Side) -> Iterator[Placed]:
        """Draw the titles, evenly over the page.

        Yields:
            Where the music of each drill goes.
        """
        size = self.furniture.desk.layout.text.body
        used = sum(answer.height for answer in self.answers) + GAP_MM * (len(self.answers) - 1)
        spare = (self.furniture.room - used) / max(len(self.answers), 1)
        gap = GAP_MM + min(spare, 2 * GAP_MM)
        top = self.furniture.top
        for order, answer in enumerate(self.answers):
            if order:
                y = top + gap / 2
                canvas.line((side.left, y), (side.right, y), width=0.2)
            baseline = top - size * ASCENT * MM_PER_POINT
            for row, line in enumerate(answer.title):
                draw_line(canvas, (side.left, baseline - row * answer.step), line, size)
            corner = (side.left + answer.indent, top - answer.above)
            yield placed(side.page, answer.index, corner)
            top -= answer.height + gap
