"""For the teacher: how everyone on a roster stands, and a page for one player's lesson."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from bookgen.plan.ahead import Further
from bookgen.plan.calendar import days_between
from bookgen.plan.fared import Fared
from bookgen.planner.coverage import Count
from bookgen.readers.studio.file import Player
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.coverage import covered_by, write_page
from bookgen.tasks.further import further_of, records_of
from bookgen.tasks.look import Look, Made, PageWish
from bookgen.tasks.roster import chosen_player, player_stem, roster_of
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.upcoming import LOOK_AHEAD, leads_to, upcoming
from bookgen.tasks.wish import Asked, Wish, asked_of
from bookgen.words.lesson import Coming, Section, sections
from bookgen.words.roster import Standing
from bookgen.words.speech import Speech


@dataclass(frozen=True, slots=True)
class Lesson:
    """What is known of a player for a lesson on a day."""

    asked: Asked
    fared: Fared
    coming: Coming | None
    further: Further | None

    def sections(self, speech: Speech) -> list[Section]:
        """The parts of the page, in words."""
        return [*sections(self.fared, self.asked.instrument, self.coming, self.further, speech)]


def lesson_of(folder: StudioFolder, name: str | None, instrument: str | None, day: Date) -> Lesson:
    """What the log says of a player, and what is next.

    Raises:
        BookgenError: there is no such player, or the practice log is damaged.
    """
    roster_of(folder)
    player = chosen_player(folder, name, instrument)
    asked = asked_of(player, Wish(instrument=instrument), folder.path)
    with folder.log(make=False) as log:
        fared = fared_of(asked, log, day)
        standing = covered_by(asked, log, day).facts
        further = further_of(fared.records, asked, standing, day)
        return Lesson(asked, fared, upcoming(asked, fared, log), further)


def fared_of(asked: Asked, log: PracticeLog, day: Date) -> Fared:
    """How a player has fared on their instrument."""
    return Fared(records_of(log, asked), day)


def standings(folder: StudioFolder, day: Date) -> list[Standing]:
    """How everyone on the roster stands on a day; whose lesson comes first stands first.

    Raises:
        BookgenError: there is no roster, or the practice log is damaged.
    """
    players = roster_of(folder)
    with folder.log(make=False) as log:
        found = [standing(asked_of(one, Wish(), folder.path), log, day) for one in players]
    return sorted(found, key=lambda one: one.lesson or Date.max)


def standing(asked: Asked, log: PracticeLog, day: Date) -> Standing:
    """How a player stands on a day."""
    fared = fared_of(asked, log, day)
    coming, away = upcoming(asked, fared, log), asked.player.calendar.away_on(day)
    moves = sum(covered_by(asked, log, day).counts.values(), Count())
    return Standing(
        name=asked.name or "",
        day=day,
        lesson=next_lesson(asked.player, day),
        away=None if away is None else away.last,
        secure=moves.secure,
        practised=moves.practised,
        new=moves.new,
        printed_to=fared.printed_to,
        logged=fared.logged,
        gained=fared.gained,
        still_since=fared.still_since,
        leads_to=None if coming is None else leads_to(coming),
    )


def next_lesson(player: Player, day: Date) -> Date | None:
    """The day of a player's next lesson, which may be this one; None where none comes."""
    days = days_between(day, day + LOOK_AHEAD)
    return next((one for one in days if player.calendar.is_lesson(one)), None)


def make_roster(
    folder: StudioFolder, found: Sequence[Standing], pages: PageWish, day: Date
) -> Made:
    """The table of everyone as a page.

    Raises:
        BookgenError: the layout is damaged, or the page cannot be written.
    """

    def page(wanted: Look) -> bytes:
        from bookgen.binder.books.coverage import bind_roster  # noqa: PLC0415  slow to import

        asked = asked_of(roster_of(folder)[0], Wish(), folder.path)
        return bind_roster(found, day, wanted.desk(asked.instrument, asked.size))

    return write_page(folder, pages, f"coverage-{day.isoformat()}.pdf", None, page)


def make_lesson(folder: StudioFolder, lesson: Lesson, pages: PageWish, day: Date) -> Made:
    """The page for a lesson; the teacher's, in the layout and the language of the studio.

    Raises:
        BookgenError: the layout is damaged, or the page cannot be written.
    """
    asked = lesson.asked

    def page(wanted: Look) -> bytes:
        from bookgen.binder.books.lesson import bind_lesson  # noqa: PLC0415  slow to import

        desk = wanted.desk(asked.instrument, asked.size)
        return bind_lesson(lesson.sections(desk.speech), asked.player.name, day, desk)

    stem = player_stem(asked.player, folder.studio)
    name = f"{stem}-lesson-{day.isoformat()}.pdf"
    return write_page(folder, pages, name, None, page)
