"""A first sheet for a player of whom nothing is known: linked drills around one opening."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from functools import cache
from random import Random
from typing import Final

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.ring import ear_check
from bookgen.model.route import Return
from bookgen.model.spelling import UNUSUAL
from bookgen.model.units import Semitones
from bookgen.plan.document import Day, Kind, Link, Plan, place_label, planned
from bookgen.planner.area import Area, ordinary_pairs, string_sets
from bookgen.planner.explain import START, link_text
from bookgen.planner.minutes import minutes_of, shared_out

PRACTICE_MINUTES: Final = range(3, 121)
"""Shortest and longest day that a sheet can fill; our own bounds, from trial sheets."""

MINUTES_A_DRILL: Final = 2.0
FEWEST_STRINGS: Final = 3
HIGHEST_HAND: Final = Semitones(6)  # up to 3rd position on violin and viola
HIGHEST_STAGE: Final = 4

WISHES: Final = {
    Dimension.STAGE: 12.0,
    Dimension.RETURN: 3.0,
    Dimension.LEAD: 3.0,
    Dimension.SPACING: 3.0,
    Dimension.PLACE: 2.0,
    Dimension.PAIR: 1.0,
    Dimension.STRINGS: 1.0,
    Dimension.OCTAVE: 0.5,
}
"""How readily a sheet takes a change of each kind; judged from trial sheets."""

EASY_RINGS: Final = frozenset({"P1", "P8"})
"""Unison and octave: what a beginner hears an open string answer to (common practice)."""

SAME_HAND: Final = frozenset({Dimension.STAGE, Dimension.RETURN, Dimension.LEAD, Dimension.STRINGS})
"""Changes that leave the hand where it is; the others begin again at stage 1."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """A drill taken onto the sheet, and the earlier one (by index) that it is linked to."""

    drill: Drill
    to: int | None
    events: tuple[Event, ...]


def first_sheet(
    instrument: Instrument,
    size: str,
    *,
    date: Date,
    minutes: int,
    seed: int,
    player: str | None = None,
) -> Plan:
    """Plan a day without a log: an opening in first position and drills linked to it.

    Each drill after the opening differs from an earlier one on the sheet in one dimension; a
    later stage comes only where the stage before it stands on the sheet; the last two are no
    near-twins. The opening changes from day to day and runs through all openings before one
    comes again. The same arguments give the same plan.

    minutes: 3 to 120.

    Raises:
        ValueError: the minutes are out of bounds, or the instrument has no such size.
    """
    if minutes not in PRACTICE_MINUTES:
        msg = f"{minutes} is no practice time"
        raise ValueError(msg)
    instrument.size(size)
    dice = Random(f"{instrument.key}/{player}/{seed}/{date.isoformat()}")
    area = first_area(instrument)
    sheet = Sheet(instrument, area, dice, float(minutes))
    sheet.take(opening(instrument, area, date, seed), None)
    wanted = drills_for(minutes, dice)
    while len(sheet.chosen) < wanted and sheet.grow(last=len(sheet.chosen) == wanted - 1):
        pass
    return Plan(instrument.key, size, player, seed, (sheet.day(date),))


def first_area(instrument: Instrument) -> Area:
    """What a player of whom nothing is known may meet."""
    fewest = min(FEWEST_STRINGS, len(instrument.strings))
    return Area(
        ordinary_pairs(instrument), HIGHEST_HAND, string_sets(instrument, fewest), HIGHEST_STAGE
    )


def drills_for(minutes: int, dice: Random) -> int:
    """How many drills a day of that length has: five in ten minutes, give or take one."""
    about = max(round(minutes / MINUTES_A_DRILL), 1)
    return about + dice.choice((-1, 0, 1)) if about > 3 else about  # noqa: PLR2004


def opening(instrument: Instrument, area: Area, date: Date, seed: int) -> Drill:
    """The opening of a day: the seed shuffles all openings, the date counts through them."""
    found = list(openings(instrument, area))
    Random(f"{instrument.key}/{seed}").shuffle(found)
    return found[date.toordinal() % len(found)]


@cache
def openings(instrument: Instrument, area: Area) -> tuple[Drill, ...]:
    """Every drill that can open a first sheet: stage 1 in first position."""
    hands = (
        (frame, Semitones(place), strings)
        for frame in area.frames
        for place in range(1, instrument.highest_stop)
        for strings in area.strings
    )
    drills = (
        Drill(instrument.key, frame, frame.fingers, place, strings, 1, Return.SAME)
        for frame, place, strings in hands
    )
    found = [
        drill
        for drill in drills
        if area.holds(drill, instrument)
        and place_label(drill, instrument) == "1st"
        and rings_well(play(drill, instrument), instrument)
    ]
    return tuple(
        replace(drill, order=order, back=back)
        for drill in found
        for order in (drill.order, drill.order[::-1])
        for back in Return
    )


def rings_well(events: Sequence[Event], instrument: Instrument) -> bool:
    """Whether a beginner's ear has a hold: an open string rings, and few notes are altered."""
    notes = {note.stop: note for event in events for note in event.notes}.values()
    altered = sum(note.pitch.accidental != 0 for note in notes)
    checks = [check for note in notes if (check := ear_check(note, instrument))]
    rings = any(check.rings and check.interval in EASY_RINGS for check in checks)
    return rings and 2 * altered <= len(notes) and easily_read(events)


def easily_read(events: Sequence[Event]) -> bool:
    """No note is an E sharp, B sharp, C flat or F flat, or carries a double accidental."""
    pitches = [note.pitch for event in events for note in event.notes]
    return all(abs(p.accidental) <= 1 and p.name not in UNUSUAL for p in pitches)


@dataclass(frozen=True, slots=True)
class Offer:
    """A link that a sheet can take: from which of its drills, by what, to which."""

    to: int
    dimension: Dimension
    drill: Drill
    minutes: float


class Sheet:
    """A sheet as it grows, one link at a time."""

    def __init__(self, instrument: Instrument, area: Area, dice: Random, minutes: float) -> None:
        self.instrument = instrument
        self.area = area
        self.dice = dice
        self.minutes = minutes
        self.left = minutes
        self.chosen: list[Chosen] = []
        self.offers: list[Offer] = []
        self.used: list[Dimension] = []

    def take(self, drill: Drill, to: int | None) -> None:
        """Put a drill on the sheet, and gather the links that lead on from it."""
        self.left -= minutes_of(drill)
        self.offers.extend(
            Offer(len(self.chosen), dimension, other, minutes_of(other))
            for dimension, other in self.area.neighbours(drill, self.instrument)
            if settled(drill, dimension, other)
        )
        self.chosen.append(Chosen(drill, to, play(drill, self.instrument)))
        known = {entry.drill for entry in self.chosen}
        self.offers = [offer for offer in self.offers if offer.drill not in known]

    def grow(self, *, last: bool) -> bool:
        """Add one linked drill; False where none fits any more.

        last: nothing comes after it. What may be the last, also because time runs out, is no
        near-twin of the one before.
        """
        dearest = max((offer.minutes for offer in self.offers), default=0.0)
        found = [
            offer
            for offer in self.offers
            if offer.minutes <= self.left
            and not ((last or self.left - offer.minutes < dearest) and self.near_twin(offer.drill))
        ]
        while found:
            (offer,) = self.dice.choices(found, [self.wish(offer) for offer in found])
            if self.suits(offer.drill):
                self.used.append(offer.dimension)
                self.take(offer.drill, offer.to)
                return True
            found.remove(offer)
            self.offers.remove(offer)
        return False

    def suits(self, drill: Drill) -> bool:
        """Whether the drill can be read easily, and an open string proves one of its notes."""
        events = play(drill, self.instrument)
        notes = (note for event in events for note in event.notes)
        return easily_read(events) and any(ear_check(note, self.instrument) for note in notes)

    def near_twin(self, drill: Drill) -> bool:
        """Whether the drill differs from a new one just before it in one thing only."""
        previous = self.chosen[-1]
        return previous.to is not None and len(previous.drill.changes_to(drill)) == 1

    def wish(self, offer: Offer) -> float:
        """How welcome a link is: from the drill just played, and by a change not yet made."""
        recent = 1.0 if offer.to == len(self.chosen) - 1 else 0.25
        times = self.used.count(offer.dimension)
        return WISHES[offer.dimension] * recent / (1 + 2 * times)

    def day(self, date: Date) -> Day:
        """The finished sheet, with numbers, minutes and link lines."""
        given = shared_out([minutes_of(entry.drill) for entry in self.chosen], self.minutes)
        return Day(
            date,
            self.minutes,
            tuple(
                planned(
                    entry.drill,
                    self.instrument,
                    number=number,
                    kind=Kind.OPENING if entry.to is None else Kind.NEW,
                    minutes=minutes,
                    link=self.link(entry),
                )
                for number, (entry, minutes) in enumerate(
                    zip(self.chosen, given, strict=True), start=1
                )
            ),
        )

    def link(self, entry: Chosen) -> Link:
        """The link line of a drill on this sheet."""
        if entry.to is None:
            return Link(None, None, START)
        before = self.chosen[entry.to]
        (dimension,) = before.drill.changes_to(entry.drill)
        text = link_text(entry.to + 1, before.drill, entry.drill, before.events, entry.events)
        return Link(entry.to + 1, dimension, text)


def settled(before: Drill, dimension: Dimension, drill: Drill) -> bool:
    """No stage comes back, and a hand that is new to the sheet begins at stage 1."""
    if dimension is Dimension.STAGE:
        return drill.stage > before.stage
    return dimension in SAME_HAND or drill.stage == 1
