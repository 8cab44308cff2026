"""The words of a booklet as a whole and of its days: what its templates may say."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date as Date  # noqa: N812

from bookgen.binder.desk import Desk
from bookgen.binder.english import date_name, minutes_name, numbers_name
from bookgen.binder.layout import Arrangement
from bookgen.binder.names import clean
from bookgen.binder.sheet_words import intervals_of, steps_of
from bookgen.model.move import Move
from bookgen.model.route import Return
from bookgen.plan.document import Character, Day, Plan
from bookgen.plan.record import Standing


@dataclass(frozen=True, slots=True)
class BookletFacts:
    """What a booklet says beside its plan.

    title: e.g. "December 2026"; note: of the teacher, for the cover.
    before: the moves that the player has met, before the first day; area: the moves that the
        player is to learn.
    from_memory: charts and words on the days' pages, the notation at the end.
    span: first and last day for which the booklet is meant; None takes those of the plan.
    """

    title: str
    note: str | None = None
    before: Mapping[Move, Standing] = field(default_factory=dict)
    area: frozenset[Move] = frozenset()
    from_memory: bool = False
    span: tuple[Date, Date] | None = None


@dataclass(frozen=True, slots=True)
class BookWords:
    """What every template of a booklet may say of it, as `book`.

    player, studio, note: as they can be printed; None where there is none.
    minutes: of the days, from the shortest to the longest; rest: days without practice.
    numbers: of the drills; kinds, characters, stages: those that come in it.
    steps, intervals, dashed: signs on its staves and charts, as on a sheet.
    scale: of all its charts, in words; close: its pages are small.
    """

    title: str
    player: str | None
    studio: str | None
    note: str | None
    instrument: str
    size: str
    days: int
    rest: int
    minutes: str
    numbers: str
    kinds: frozenset[str]
    characters: frozenset[str]
    stages: frozenset[int]
    from_memory: bool
    steps: tuple[str, ...]
    intervals: tuple[tuple[str, str], ...]
    dashed: bool
    scale: str
    close: bool


@dataclass(frozen=True, slots=True)
class DayWords:
    """What a template may say of a day, as `day`.

    character: ordinary, light or test.
    """

    date: str
    minutes: str
    character: str


def day_words(day: Day) -> DayWords:
    """Say what a day is."""
    minutes = minutes_name(sum(planned.minutes for planned in day.drills))
    return DayWords(date_name(day.date).rpartition(" ")[0], minutes, day.character.value)


def span_of(plan: Plan, facts: BookletFacts) -> tuple[Date, Date]:
    """First and last day of a booklet."""
    return facts.span or (plan.days[0].date, plan.days[-1].date)


def book_words(plan: Plan, facts: BookletFacts, desk: Desk, scale: str) -> BookWords:
    """Say what a booklet is.

    scale: of its charts, in words.
    """
    drills = [planned for day in plan.days for planned in day.drills]
    whole = replace(plan.days[0], drills=tuple(drills))
    totals = [sum(planned.minutes for planned in day.drills) for day in plan.days]
    first, last = span_of(plan, facts)
    has = desk.fonts.has
    return BookWords(
        title=clean(facts.title, has),
        player=(clean(plan.player, has) or None) if plan.player else None,
        studio=(clean(desk.options.studio, has) or None) if desk.options.studio else None,
        note=(clean(facts.note, has) or None) if facts.note else None,
        instrument=desk.instrument.name,
        size=desk.size,
        days=len(plan.days),
        rest=(last - first).days + 1 - len(plan.days),
        minutes=from_to(min(totals), max(totals)),
        numbers=numbers_name([planned.number for planned in drills]),
        kinds=frozenset(planned.kind.value for planned in drills),
        characters=frozenset(
            day.character.value for day in plan.days if day.character is not Character.ORDINARY
        ),
        stages=frozenset(planned.drill.stage for planned in drills),
        from_memory=facts.from_memory,
        steps=steps_of(whole),
        intervals=intervals_of(whole),
        dashed=any(planned.drill.back is Return.SAME for planned in drills),
        scale=scale,
        close=desk.arrangement is Arrangement.COMPACT,
    )


def from_to(least: float, most: float) -> str:
    """Minutes of the shortest and of the longest day.

    >>> from_to(8.0, 12.0), from_to(10.0, 10.0)
    ('8 to 12 minutes', '10 minutes')
    """
    if least == most:
        return minutes_name(most)
    return f"{minutes_name(least).partition(' ')[0]} to {minutes_name(most)}"
