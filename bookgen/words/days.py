"""What a plan of days says: its heading, its days, and the key of its signs."""

import re
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.plan.document import Item, Role
from bookgen.plan.record import Result
from bookgen.words.speech import Speech

HALF = "½"

NOUGHT: Final = re.compile(r"\b0(?=\d\b)")
"""Before the figure of a day."""


def time_span(first: Date, last: Date, speech: Speech) -> str:
    """A whole month by its name, other days by the first and the last.

    >>> from bookgen.words.speech import ENGLISH
    >>> time_span(Date(2026, 12, 1), Date(2026, 12, 31), ENGLISH)
    'December 2026'
    """
    after = Date.fromordinal(last.toordinal() + 1)
    if first.day == after.day == 1 and first.month == last.month and first.year == last.year:
        return speech.skeleton(first, "yMMMM")
    return interval(first, last, "yMMMd", speech)


def interval(first: Date, last: Date, fields: str, speech: Speech) -> str:
    """From one day to another, with these fields of CLDR.

    Without the nought before a day that CLDR has in Italian spans, and nowhere else.

    >>> from bookgen.words.speech import speech_of
    >>> interval(Date(2026, 12, 1), Date(2026, 12, 7), "MMMd", speech_of("it"))
    '1\u20137 dic'
    """
    from babel.dates import format_interval  # noqa: PLC0415  slow to import

    said = str(format_interval(first, last, fields, locale=speech.locale))
    return speech.first_of_month(NOUGHT.sub("", said))


def heading(player: str | None, span: str, speech: Speech) -> str:
    """Whose days they are, and which."""
    if player is None:
        return speech.say_in("heading of a plan of days", "Days · {span}", span=span)
    return speech.say_in("heading of a plan of days", "{player} · {span}", player=player, span=span)


def part(first: Date, last: Date, page: int, pages: int, speech: Speech) -> str:
    """Which of the plan's days are on this page, where it has several."""
    days = interval(first, last, "MMMd", speech)
    return speech.say("{days} · page {page} of {pages}", days=days, page=page, pages=pages)


def minutes_figure(minutes: float) -> str:
    """Minutes as a figure; half minutes are kept.

    >>> minutes_figure(4.5), minutes_figure(0.5), minutes_figure(20.0)
    ('4½', '½', '20')
    """
    whole, half = divmod(round(minutes * 2), 2)
    return f"{whole or '' if half else whole}{HALF * half}"


def minutes_short(minutes: float, speech: Speech) -> str:
    """Minutes in few letters."""
    return speech.say("{number} min", number=minutes_figure(minutes))


def light_day(minutes: str, speech: Speech) -> str:
    """The minutes of a day with little or nothing new."""
    return speech.say("{minutes}, light", minutes=minutes)


def lesson(speech: Speech) -> str:
    """Beside the day of a lesson, and what the ring round its date means."""
    return speech.say("lesson")


def away(first: Date, last: Date, speech: Speech) -> str:
    """In place of days on which nobody practises."""
    if first == last:
        return speech.say("{day}: away", day=speech.skeleton(first, "MMMEd"))
    return speech.say("{days}: away", days=interval(first, last, "MMMEd", speech))


def role_words(role: Role, speech: Speech) -> str:
    """What the sign of a role means."""
    meant = {
        Role.START: speech.say("start here"),
        Role.NEW: speech.say("new"),
        Role.OTHER_WAY: speech.say("known moves"),
        Role.AGAIN: speech.say("once more"),
        Role.STEP_BACK: speech.say("one step easier"),
        Role.COLD: speech.say("cold: the first try counts"),
        Role.PASSAGE: speech.say("leads to your piece"),
    }
    return meant[role]


def item_words(item: Item, speech: Speech) -> str:
    """An item for those who hear it: its number, its role, and what it waits for."""
    role = role_words(item.role, speech)
    if item.only_if is None:
        return speech.say("{number}: {role}", number=item.number, role=role)
    waits = wait(item.only_if, speech)
    return speech.say("{number}: {role}; {waits}", number=item.number, role=role, waits=waits)


def wait(number: int, speech: Speech) -> str:
    """Beside an item: it waits for another drill."""
    return speech.say_in("beside a number", "if {number}", number=number)


def wait_short(number: int | None, speech: Speech) -> str:
    """The same where there is little room; without a number it is the one the drill names."""
    if number is None:
        return speech.say_in("beside a number", "?")
    return speech.say_in("beside a number", "?{number}", number=number)


def wait_words(number: int, speech: Speech) -> str:
    """What `if 9` or `?9` means."""
    return speech.say("only if {number} is secure", number=number)


def wait_short_words(speech: Speech) -> str:
    """What `?` means: the drill's own page names the other one."""
    return speech.say("only if the drill it names is secure")


def result_words(result: Result, speech: Speech) -> str:
    """What a ticked box means."""
    match result:
        case Result.SECURE:
            return speech.say("secure")
        case Result.NOT_YET:
            return speech.say("not yet")


def leave_squares(speech: Speech) -> str:
    """At the foot, between the squares by which a photo is judged."""
    return speech.say("Leave these squares as they are.")


def plan_of_days(speech: Speech) -> str:
    """The part's name in the outline and in the contents."""
    return speech.say("Plan of days")


def plan_of_some_days(first: Date, last: Date, speech: Speech) -> str:
    """The same for a section of a booklet, which has only some of its days."""
    return speech.say("Plan of days, {days}", days=interval(first, last, "MMMd", speech))
