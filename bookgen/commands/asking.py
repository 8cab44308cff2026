"""What the planner is asked for a player: from the roster and the practice log."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from bookgen.commands.roster import NOBODY, instrument_of, minutes_of_day, size_of
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.plan.record import Record
from bookgen.planner.area import Area, string_sets
from bookgen.planner.request import Request
from bookgen.planner.start import first_start
from bookgen.readers.studio import Player, plain_player
from bookgen.readers.weights import read_weights


@dataclass(frozen=True, slots=True)
class Wish:
    """What the command line says besides the player; None where it leaves that open."""

    instrument: str | None = None
    size: str | None = None
    minutes: str | None = None
    seed: int = 0

    @property
    def says(self) -> dict[str, str | int]:
        """The options that were given, by their names on the command line."""
        given = {
            "--instrument": self.instrument,
            "--size": self.size,
            "--minutes": self.minutes,
            "--seed": self.seed or None,
        }
        return {name: value for name, value in given.items() if value is not None}


@dataclass(frozen=True, slots=True)
class Asked:
    """Who plays what, and for how long."""

    player: Player
    instrument: Instrument
    size: str
    minutes: int
    seed: int

    @property
    def name(self) -> str | None:
        """The player's name, or None where nobody is named."""
        return self.player.name or None

    @property
    def area(self) -> Area:
        """What the player is to cover."""
        cover = self.player.cover
        fewest = min(cover.fewest_strings, len(self.instrument.strings))
        return Area(
            self.player.frames(self.instrument),
            frozenset(cover.positions),
            string_sets(self.instrument, fewest),
            cover.highest_stage,
        )

    def request(self, first: date, records: tuple[Record, ...], first_number: int) -> Request:
        """What the planner is told about a run of days that begins on a date.

        Someone of whom no file says anything starts elsewhere each day.
        """
        area, nobody = self.area, self.player.cover is NOBODY.cover
        start = (
            first_start(self.instrument, area, first, self.seed)
            if nobody
            else self.player.start(self.instrument)
        )
        return Request(
            instrument=self.instrument,
            area=area,
            minutes=self.minutes,
            practice_days=frozenset() if nobody else self.player.practice_days,
            start=start,
            weights=read_weights(),
            secure=tuple(self.secure(start)),
            records=records,
            player=self.name,
            seed=self.seed,
            first_number=first_number,
            stranger=nobody,
        )

    def secure(self, start: Drill) -> Iterator[Drill]:
        """The start's hand up to the stage to which the roster calls it secure."""
        area = self.area
        for stage in range(1, self.player.cover.start.secure_to_stage + 1):
            drill = replace(start, stage=stage)
            if area.holds(drill, self.instrument):
                yield drill


def asked_of(player: Player, wish: Wish) -> Asked:
    """What a player plays, where the command line does not say otherwise.

    Raises:
        BookgenError: there is no such instrument or size, or no such practice time.
    """
    instrument = instrument_of(wish.instrument, player)
    own = instrument.key == player.instrument
    size = size_of(instrument, wish.size, player if own else NOBODY)
    minutes = minutes_of_day(wish.minutes, player)
    if not own:
        player = other_hand(player, instrument)
    return Asked(player, instrument, size, minutes, wish.seed)


def other_hand(player: Player, instrument: Instrument) -> Player:
    """A player on an instrument that is not theirs: the area in the roster is of no use."""
    if player.cover is NOBODY.cover:
        return replace(player, instrument=instrument.key)
    plain = plain_player(instrument, player.name)
    return replace(plain, minutes=player.minutes, practice_days=player.practice_days)
