"""Whose booklet it is, and for which days."""

from datetime import date as Date  # noqa: N812

from bookgen.binder.page.desk import Desk
from bookgen.binder.page.imprint import CREATOR, Imprint
from bookgen.plan.document import Plan
from bookgen.words import front as words
from bookgen.words.days import time_span
from bookgen.words.names import played_name


def span_of(plan: Plan) -> tuple[Date, Date]:
    """First and last day for which a booklet is meant."""
    first = plan.binding.first if plan.binding else None
    last = plan.binding.last if plan.binding else None
    return first or plan.days[0].date, last or plan.days[-1].date


def title_of(plan: Plan, desk: Desk) -> str:
    """Which days."""
    return time_span(*span_of(plan), desk.speech)


def whose_of(plan: Plan, desk: Desk) -> str:
    """Player and days."""
    return " · ".join(filter(None, (desk.clean(plan.player), title_of(plan, desk))))


def imprint_of(plan: Plan, desk: Desk) -> Imprint:
    """What the file says of itself."""
    instrument = played_name(desk.instrument, desk.size, desk.speech)
    return Imprint(
        title=whose_of(plan, desk),
        author=desk.clean(desk.studio) or CREATOR,
        subject=words.subject(instrument, desk.speech),
    )
