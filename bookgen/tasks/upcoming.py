"""What is next for a player: the coming day's drills, as they are printed or would be planned."""

from datetime import timedelta
from typing import Final

from bookgen.plan.document import DrillEntry, Role
from bookgen.plan.fared import Fared
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.plans import fresh, goals_for, kept_days, known_of
from bookgen.tasks.span import Span
from bookgen.tasks.wish import Asked
from bookgen.words.lesson import Coming

LOOK_AHEAD: Final = timedelta(60)
"""How far the next day to practise is looked for; who is away for longer has none (own choice)."""

NEWEST_FIRST: Final = (
    Role.NEW,
    Role.PASSAGE,
    Role.OTHER_WAY,
    Role.STEP_BACK,
    Role.AGAIN,
    Role.COLD,
    Role.START,
)
"""Which of a day's drills says best where it leads."""


def upcoming(asked: Asked, fared: Fared, log: PracticeLog) -> Coming | None:
    """The next day on which the player practises; nothing is kept in the log.

    That is the day itself unless it has results already. None where no day comes.

    Raises:
        BookgenError: a day in the log is damaged, or a passage on the roster cannot be read.
    """
    first = fared.day + timedelta(fared.logged == fared.day)
    span = Span(first, fared.day + LOOK_AHEAD, month=False)
    days = span.days(asked.player.practice_days, asked.player.calendar)
    dates = sorted({*days, *(day for day in fared.printed if first <= day <= span.last)})[:1]
    if not dates or asked.name is None:
        return None
    kept = kept_days(asked, dates, log).get(dates[0])
    known = known_of(log, asked.name)
    plan = kept or fresh(asked, dates, known, goals_for(asked, dates, known))
    return Coming(
        date=dates[0],
        items=tuple((item, entry) for _, item, entry in plan.items()),
        is_printed=kept is not None,
        numbers=frozenset(known.numbers.values()),
    )


def leads_to(coming: Coming) -> DrillEntry:
    """The drill of a day that is new, or else the one that comes nearest to it."""
    by_role = {item.role: entry for item, entry in reversed(coming.items)}
    return next(by_role[role] for role in NEWEST_FIRST if role in by_role)
