"""Who does not practise in a span of days, and how that is told."""

from collections.abc import Iterator
from datetime import date as Date  # noqa: N812

from bookgen.errors import BookgenError, Finding, Message, told
from bookgen.readers.studio.file import Player, Studio
from bookgen.tasks.roster import place_of
from bookgen.tasks.span import Span


def rests(span: Span, player: Player) -> bool:
    """Whether a player who has days to practise is away on all of them."""
    days = span.days(player.practice_days)
    return bool(days) and not span.days(player.practice_days, player.calendar)


def no_day(span: Span, player: Player) -> Finding:
    """That a player has no day to practise in a span."""
    problem = told("no day to practise in {span}", span=span.name)
    if rests(span, player):
        mend = told("choose other days, or change away")
        return Finding(place_of(player, "away"), problem, mend)
    mend = told("choose other days, or change practice_days")
    return Finding(place_of(player, "practice_days"), problem, mend)


def resting_lines(studio: Studio, span: Span) -> Iterator[Message]:
    """Who of the roster has no booklet because they are away."""
    for player in studio.players.values():
        if rests(span, player):
            yield told("{player}: away in {span}, no booklet", player=player.name, span=span.name)


def refuse_away(player: Player, day: Date) -> None:
    """Refuse to plan a day on which the player is away.

    Raises:
        BookgenError: it is one.
    """
    away = player.calendar.away_on(day)
    if away is not None:
        problem = told("{day} lies in {first}/{last}", day=day, first=away.first, last=away.last)
        mend = told("choose another day, or change away")
        raise BookgenError(Finding(place_of(player, "away"), problem, mend))
