"""Half a page for the teacher at the end: what was planned, the tests, and what comes next."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.binder.coverage import Coverage
from bookgen.binder.english import DASH, SHORT_STEPS, crossing_name, listed, short_date
from bookgen.binder.furniture import Furniture
from bookgen.binder.leaf import Side
from bookgen.binder.pencil import Room, draw_rules
from bookgen.binder.prose import Look, Set, draw_prose, height_of, set_prose
from bookgen.binder.sheet_words import position_order
from bookgen.binder.typeset import ASCENT, MM_PER_POINT, Paragraph
from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Frame
from bookgen.plan.document import Character, Kind, Plan

LOG: Final = "log.j2"
SUMMARY_PARTS: Final = frozenset(
    {"summary-outline", "summary-running", "heading", "line", "tests", "pencil"}
)
"""What log.j2 prints for the summary."""

TEST_GAP_MM: Final = 2.0
DATE_MM: Final = 20.0
ITEM_MM: Final = 21.0
"""Room for a test's date, and for the number and the box of one of its items."""

LINES: Final = 2
"""Ruled lines to write, at least."""

MOST_NAMED: Final = 3


@dataclass(frozen=True, slots=True)
class SummaryWords:
    """What log.j2 may say, as `summary`.

    kinds: how many drills of each kind; drills: how many in all, different: apart from repeats.
    hands: pairs and frames with their spacings; positions: labels.
    secure, aimed, total: moves before, as aimed at, and of the area.
    missing: moves that will still be new; most: the strings and crossings with the most of them.
    tests: how many days have a cold test.
    """

    kinds: tuple[tuple[str, int], ...]
    drills: int
    different: int
    hands: tuple[str, ...]
    positions: tuple[str, ...]
    secure: int
    aimed: int
    total: int
    missing: int
    most: tuple[tuple[str, int], ...]
    tests: int


@dataclass(frozen=True, slots=True)
class Test:
    """A day with a cold test: its date, and the numbers to tick."""

    date: str
    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Summary:
    """The summary, filled."""

    furniture: Furniture
    outline: str
    running: str
    sets: list[Set]
    tests: tuple[Test, ...]
    pencil: str

    @property
    def row(self) -> float:
        """Height of a test's row."""
        return self.furniture.desk.layout.booklet.tick + TEST_GAP_MM

    @property
    def height(self) -> float:
        """The least height, with lines to write."""
        line = self.furniture.desk.layout.pencil.line
        return height_of(self.sets) + len(self.tests) * self.row + (LINES + 1) * line


def summary_words(plan: Plan, after: Coverage, before: Coverage, rule: Instrument) -> SummaryWords:
    """Say what a booklet held and what it leaves."""
    drills = [planned for day in plan.days for planned in day.drills]
    kinds = Counter(planned.kind for planned in drills)
    frames = dict.fromkeys(planned.drill.frame for planned in drills)
    labels = sorted(
        {planned.position for planned in drills},
        key=lambda label: position_order(label, rule.position_rule),
    )
    missing = {strings: tally.new for strings, tally in after.by_strings().items() if tally.new}
    most = sorted(missing, key=lambda strings: -missing[strings])[:MOST_NAMED]
    return SummaryWords(
        kinds=tuple((kind.value, kinds[kind]) for kind in Kind if kind in kinds),
        drills=len(drills),
        different=len({planned.drill for planned in drills}),
        hands=tuple(map(frame_name, sorted(frames, key=frame_order))),
        positions=tuple(labels),
        secure=before.tally.secure,
        aimed=after.tally.secure,
        total=before.tally.total,
        missing=after.tally.new,
        most=tuple((crossing_name(strings), missing[strings]) for strings in most),
        tests=sum(day.character is Character.TEST for day in plan.days),
    )


def frame_name(frame: Frame) -> str:
    """A pair or a frame, as short as it is clear."""
    fingers = DASH.join(map(str, frame.fingers))
    return f"{fingers} {listed([SHORT_STEPS[spacing] for spacing in frame.spacings])}"


def frame_order(frame: Frame) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Sorts frames by fingers, then from the narrowest."""
    return frame.fingers, tuple(spacing.semitones for spacing in frame.spacings)


def summary_of(
    plan: Plan, sets: Sequence[Set], plain: dict[str, str], furniture: Furniture
) -> Summary:
    """The summary's parts."""
    tests = tuple(
        Test(
            short_date(day.date),
            tuple(p.number for p in day.drills if p.kind is Kind.TEST),
        )
        for day in plan.days
        if any(p.kind is Kind.TEST for p in day.drills)
    )
    return Summary(
        furniture=furniture,
        outline=plain.get("summary-outline", ""),
        running=plain.get("summary-running", ""),
        sets=list(sets),
        tests=tests,
        pencil=plain.get("pencil", ""),
    )


def draw_summary(canvas: Canvas, side: Side, found: Summary, top: float, bottom: float) -> None:
    """Draw words, tests with their boxes, and ruled lines down to there."""
    desk = found.furniture.desk
    size, tick = desk.layout.text.body, desk.layout.booklet.tick
    y = draw_prose(canvas, found.sets, side.left, top) - 1.5
    style, bold = Style(Face.REGULAR, size), Style(Face.BOLD, size)
    for test in found.tests:
        baseline = y - tick / 2 - size * ASCENT * MM_PER_POINT / 2
        canvas.text((side.left, baseline), test.date, style)
        for place, number in enumerate(test.numbers, start=1):
            x = side.left + DATE_MM + place * ITEM_MM - tick
            words = str(number)
            canvas.text((x - 1.5 - canvas.width(words, bold), baseline), words, bold)
            canvas.box((x, y - tick), (tick, tick), width=0.3)
        y -= found.row
    rest = Room(side.left, y, side.right - side.left, y - bottom)
    draw_rules(canvas, rest, desk.layout, found.pencil)


def summary_sets(found: Sequence[Paragraph], furniture: Furniture) -> list[Set]:
    """The summary's words in lines."""
    desk = furniture.desk
    sizes = desk.layout.text
    looks = {
        "heading": Look(sizes.title, heads=True),
        "line": Look(sizes.body, above=0.9),
        "tests": Look(sizes.body, above=1.8),
    }
    return set_prose(found, looks, desk.sheet.column, sizes.leading, desk.fonts)
