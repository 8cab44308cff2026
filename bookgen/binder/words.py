"""The words on a page: facts of a plan go into a layout's templates, paragraphs come out."""

from collections.abc import Mapping
from dataclasses import dataclass
from traceback import walk_tb
from typing import Final

from jinja2 import StrictUndefined, TemplateError, TemplateSyntaxError
from jinja2 import Template as Compiled
from jinja2.sandbox import SandboxedEnvironment

from bookgen.binder.ear import Ear, hear
from bookgen.binder.english import (
    date_name,
    hand_name,
    listed,
    minutes_name,
    positions_name,
    strings_name,
)
from bookgen.binder.layout import Layout, Template
from bookgen.binder.typeset import MarkupError, Paragraph, paragraphs
from bookgen.errors import BookgenError, Finding
from bookgen.model.drill import Drill
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.interval import Interval, interval_words
from bookgen.model.position import PositionRule, TableRule
from bookgen.model.route import STAGES, Return
from bookgen.notation.label import printed_interval
from bookgen.plan.document import Day, PlannedDrill

BLOCK_PARTS: Final = frozenset(
    {"title", "link", "text", "unsure", "played", "secure", "not-yet", "pencil", "minutes", "wide"}
)
SHEET_PARTS: Final = frozenset(
    {
        "name",
        "date",
        "today",
        "total",
        "studio",
        "caution",
        "page",
        "running",
        "pencil",
        "own",
        "key",
    }
)


STEP_MARKS: Final = {"half": {"m2", "A1"}, "whole": {"M2"}}
"""Interval labels of the spacings that have a mark of their own on the staff."""


@dataclass(frozen=True, slots=True)
class DrillWords:
    """What block.j2 may say of a drill.

    hand: fingers and spacings; fingers: in the order of play.
    strings_count: how many strings are crossed; top_string: numeral of the highest;
        low_strings: of the two lowest.
    back_to: number of the drill to return to, or None; known: a secure drill in words, or None.
    """

    number: int
    kind: str
    hand: str
    position: str
    stage: int
    stage_name: str
    fingers: tuple[str, ...]
    rising: bool
    falling: bool
    back: str
    strings: str
    strings_count: int
    top_string: str
    low_strings: tuple[str, ...]
    stretch: bool
    minutes: str
    link: str
    back_to: int | None
    known: str | None
    ear: Ear
    cents: bool


@dataclass(frozen=True, slots=True)
class SheetWords:
    """What sheet.j2 may say of a day.

    player, studio: as they can be printed; None where nobody is named.
    scale: of the day's charts, in words.
    steps: spacings that the staves mark, `half` and `whole`.
    intervals: marks of the other intervals on the staves with their names in words.
    dashed: some drill's way back is not its way up backwards.
    """

    player: str | None
    studio: str | None
    instrument: str
    size: str
    date: str
    total: str
    positions: str
    strings: str
    page: int
    pages: int
    scale: str
    steps: tuple[str, ...]
    intervals: tuple[tuple[str, str], ...]
    dashed: bool


def drill_words(planned: PlannedDrill, instrument: Instrument, *, cents: bool) -> DrillWords:
    """Say what a planned drill is.

    cents: grown players get figures for their double stops.
    """
    drill, to = planned.drill, planned.link.to
    return DrillWords(
        number=planned.number,
        kind=planned.kind.value,
        hand=hand_name(drill),
        position=f"{planned.position} position",
        stage=drill.stage,
        stage_name=STAGES[drill.stage],
        fingers=tuple(map(str, drill.order)),
        rising=drill.order == drill.frame.fingers,
        falling=drill.order == drill.frame.fingers[::-1],
        back=drill.back.value,
        strings=strings_name(drill.strings, instrument),
        strings_count=len(drill.strings),
        top_string=NUMERALS[drill.strings[-1]],
        low_strings=tuple(NUMERALS[string] for string in drill.strings[:2]),
        stretch=instrument.stretches(drill.frame, drill.place),
        minutes=minutes_name(planned.minutes),
        link=planned.link.text,
        back_to=to if isinstance(to, int) else None,
        known=known_drill(to) if isinstance(to, str) else None,
        ear=hear(planned.events, instrument),
        cents=cents,
    )


def known_drill(key: str) -> str:
    """A secure drill of an earlier day in words."""
    drill = Drill.parse_key(key)
    return f"{hand_name(drill)}, {STAGES[drill.stage]}"


def sheet_words(
    day: Day,
    played: tuple[Instrument, str],
    names: tuple[str | None, str | None],
    page: tuple[int, int],
    scale: str,
) -> SheetWords:
    """Say what a day's page is.

    played: the instrument and the name of its size.
    names: player and studio, as they can be printed.
    page: its number within the day and how many there are.
    scale: of the day's charts, in words.
    """
    instrument, size = played
    labels = sorted(
        {planned.position for planned in day.drills},
        key=lambda label: position_order(label, instrument.position_rule),
    )
    strings = [string for planned in day.drills for string in planned.drill.strings]
    return SheetWords(
        player=names[0],
        studio=names[1],
        instrument=instrument.name,
        size=size,
        date=date_name(day.date),
        total=minutes_name(sum(planned.minutes for planned in day.drills)),
        positions=positions_name(labels),
        strings=strings_name(strings, instrument),
        page=page[0],
        pages=page[1],
        scale=scale,
        steps=steps_of(day),
        intervals=intervals_of(day),
        dashed=any(planned.drill.back is Return.SAME for planned in day.drills),
    )


def steps_of(day: Day) -> tuple[str, ...]:
    """The half and whole steps that the day's staves mark on one string."""
    moves = {
        event.from_previous
        for planned in day.drills
        for event in planned.events
        if not event.crosses and event.within is None
    }
    return tuple(word for word, labels in STEP_MARKS.items() if moves & labels)


def intervals_of(day: Day) -> tuple[tuple[str, str], ...]:
    """The other intervals that the day's staves mark, from the narrowest, in words."""
    events = [event for planned in day.drills for event in planned.events]
    found = {event.within for event in events} | {
        event.from_previous for event in events if event.crosses and event.within is None
    }
    labels = sorted(
        (label for label in found if label), key=lambda label: Interval.parse(label).semitones
    )
    return tuple((printed_interval(label), interval_words(label)) for label in labels)


def position_order(label: str, rule: PositionRule) -> int:
    """Sorts positions from the nut up."""
    if isinstance(rule, TableRule):
        return rule.labels.index(label)
    return int(label.rstrip("sthndr")) if label[0].isdigit() else 0


class Words:
    """A layout's templates, ready to be filled."""

    def __init__(self, layout: Layout) -> None:
        """Compile the templates.

        Raises:
            BookgenError: a template cannot be read.
        """
        environment = SandboxedEnvironment(
            autoescape=True, undefined=StrictUndefined, keep_trailing_newline=False
        )
        environment.filters["listed"] = listed
        self.templates = {
            template.file: compiled(environment, template)
            for template in (layout.block_template, layout.sheet_template)
        }
        self.block_file = layout.block_template.file
        self.sheet_file = layout.sheet_template.file

    def block(self, facts: DrillWords) -> list[Paragraph]:
        """The words of a drill's block.

        Raises:
            BookgenError: the template says something that we do not know or cannot print.
        """
        return self.fill(self.block_file, {"drill": facts}, BLOCK_PARTS)

    def sheet(self, facts: SheetWords) -> Mapping[str, Paragraph]:
        """The words of a page around its blocks, by part.

        Raises:
            BookgenError: the template says something that we do not know or cannot print.
        """
        found = self.fill(self.sheet_file, {"sheet": facts}, SHEET_PARTS)
        return {paragraph.part: paragraph for paragraph in found}

    def fill(
        self, file: str, facts: Mapping[str, DrillWords | SheetWords], parts: frozenset[str]
    ) -> list[Paragraph]:
        """Fill a template and read what comes out.

        Raises:
            BookgenError: the template says something that we do not know or cannot print.
        """
        mend = "compare it with the template of the ordinary layout"
        try:
            return paragraphs(self.templates[file].render(facts), parts)
        except (TemplateError, MarkupError, TypeError, ValueError, ArithmeticError) as error:
            problem = " ".join(str(error).split())
            raise BookgenError(Finding(f"{file}{line_of(error)}", problem, mend)) from error


def line_of(error: BaseException) -> str:
    """In which line of a template it failed, as far as Python knows."""
    frames = walk_tb(error.__traceback__)
    lines = [line for frame, line in frames if frame.f_code.co_filename == "<template>"]
    return f", line {lines[-1]}" if lines else ""


def compiled(environment: SandboxedEnvironment, template: Template) -> Compiled:
    """Compile one template.

    Raises:
        BookgenError: it is no template.
    """
    try:
        return environment.from_string(template.text)
    except TemplateSyntaxError as error:
        place = f"{template.file}, line {error.lineno}"
        mend = "mend the line; Jinja's documentation explains the braces"
        raise BookgenError(Finding(place, str(error.message), mend)) from error
