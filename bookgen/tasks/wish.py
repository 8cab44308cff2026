"""What is wished for a player, and what the planner is asked for it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date as Date  # noqa: N812
from pathlib import Path

from bookgen.model.costs import Preference
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.plan.record import Record
from bookgen.plan.scope import Scope
from bookgen.plan.wished import Wished
from bookgen.planner.area import Area, string_sets
from bookgen.planner.request import Goal, Request
from bookgen.planner.start import first_start, starts
from bookgen.readers.studio.file import Player, plain_player
from bookgen.readers.weights import read_weights
from bookgen.tasks.known import hand_name, known_drills, known_name
from bookgen.tasks.roster import NOBODY, instrument_of, minutes_of_day, size_of, stranger
from bookgen.tasks.wishes import NOTHING_WISHED, ForToday, refuse_nothing, widened, wished_of


@dataclass(frozen=True, slots=True)
class Wish:
    """What the user says of what is to be planned; None where that is left open.

    anew: plan again what was printed already.
    today: which drills the days are to have.
    """

    instrument: str | None = None
    size: str | None = None
    minutes: str | None = None
    seed: int = 0
    player: str | None = None
    anew: bool = False
    today: ForToday = NOTHING_WISHED

    @property
    def says(self) -> dict[str, str | int]:
        """The options that were given, by their names on the command line."""
        given = {
            "--instrument": self.instrument,
            "--size": self.size,
            "--minutes": self.minutes,
            "--seed": self.seed or None,
        }
        said = {name: value for name, value in given.items() if value is not None}
        return {**said, **self.today.says}


@dataclass(frozen=True, slots=True)
class Taste:
    """What the player would rather have of a passage, and how much.

    spots: how many hard spots; None takes as many as suit the length.
    all_hands: drills for every frame of the passage besides.
    """

    prefer: Preference | None = None
    spots: int | None = None
    all_hands: bool = False


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of a player's past.

    records: every drill that was printed; numbers: of every drill that has one.
    first_number: of the first drill that has none.
    """

    records: Sequence[Record] = ()
    numbers: Mapping[Drill, int] = field(default_factory=dict)
    first_number: int = 1


NOTHING_KNOWN = Known()


@dataclass(frozen=True, slots=True)
class Asked:
    """Who plays what, and for how long.

    roster: the player as the roster has them; `player` may be on another instrument for once.
    folder: where the files lie that the roster names.
    wished: which drills the days are to have.
    """

    player: Player
    instrument: Instrument
    size: str
    minutes: int
    seed: int
    roster: Player
    folder: Path = Path()
    wished: Wished | None = None

    @property
    def name(self) -> str | None:
        """The player's name, or None where nobody is named."""
        return self.player.name or None

    @property
    def is_stranger(self) -> bool:
        """No file says anything of the player."""
        return not self.player.name

    @property
    def area(self) -> Area:
        """What the player is to cover."""
        player = self.player
        if self.is_stranger and self.wished is not None:
            player = replace(player, cover=widened(player.cover, self.wished, self.instrument))
        cover = player.cover
        fewest = min(cover.fewest_strings, len(self.instrument.strings))
        return Area(
            player.frames(self.instrument),
            frozenset(cover.positions),
            string_sets(self.instrument, fewest),
            cover.highest_stage,
            stretches=cover.extensions,
        )

    @property
    def scope(self) -> Scope | None:
        """What the roster says of the player; None where no file says anything."""
        player, cover = self.roster, self.roster.cover
        if self.is_stranger:
            return None
        instrument = player.plays
        return Scope(
            instrument=player.instrument,
            size=player.size,
            minutes=player.minutes,
            positions=cover.positions,
            hands=tuple(map(hand_name, player.frames(instrument))),
            fewest_strings=cover.fewest_strings,
            highest_stage=cover.highest_stage,
            start=player.start(instrument).key,
            secure_to_stage=cover.start.secure_to_stage,
            known=tuple(known_name(one) for one in player.known),
        )

    def request(
        self, first: Date, known: Known = NOTHING_KNOWN, goals: tuple[Goal, ...] = ()
    ) -> Request:
        """What the planner is told about a run of days that begins on a date.

        Someone of whom no file says anything starts elsewhere each day.
        """
        area = self.area
        at = self.wished.begins_at if self.wished is not None else None
        start = (
            first_start(self.instrument, self.starts_in(area, at), first, self.seed, at)
            if self.is_stranger
            else self.player.start(self.instrument)
        )
        return Request(
            instrument=self.instrument,
            size=self.size,
            area=area,
            minutes=self.minutes,
            practice_days=frozenset() if self.is_stranger else self.player.practice_days,
            start=start,
            weights=read_weights(),
            secure=tuple(dict.fromkeys(self.secure(start))),
            records=tuple(known.records),
            numbers=known.numbers,
            first_number=known.first_number,
            player=self.name,
            seed=self.seed,
            goals=goals,
            stranger=self.is_stranger,
            calendar=self.player.calendar,
            wished=self.wished,
        )

    def starts_in(self, area: Area, position: str | None) -> Area:
        """Where a stranger begins: with fingers that are wished, where any can begin there."""
        hands = self.wished.hands if self.wished is not None else ()
        own = replace(area, frames=tuple(one for one in area.frames if one.fingers in hands))
        return own if starts(self.instrument, own, position) else area

    def secure(self, start: Drill) -> Iterator[Drill]:
        """What counts as secure from the beginning: the start's hand, and all that is known."""
        area = self.area
        for stage in range(1, self.player.cover.start.secure_to_stage + 1):
            drill = replace(start, stage=stage)
            if area.holds(drill, self.instrument):
                yield drill
        for known in self.player.known:
            yield from known_drills(known, area, self.instrument)


def asked_of(player: Player, wish: Wish, folder: Path = Path()) -> Asked:
    """What a player plays, where the wish does not say otherwise.

    Raises:
        BookgenError: there is no such instrument or size, no such practice time, or what is
            wished for the day is nothing of the player's.
    """
    instrument = instrument_of(wish.instrument, player, folder)
    own = instrument.key == player.instrument
    size = size_of(instrument, wish.size, player if own else NOBODY)
    minutes = minutes_of_day(wish.minutes, player)
    plays = player if own else other_hand(player, instrument)
    wished = wished_of(wish.today, plays, instrument, free=not plays.name)
    asked = Asked(plays, instrument, size, minutes, wish.seed, player, folder, wished)
    if wished is not None:
        refuse_nothing(wished, asked.area, instrument)
    return asked


def other_hand(player: Player, instrument: Instrument) -> Player:
    """A player on an instrument that is not theirs: the area in the roster is of no use."""
    if not player.name:
        return stranger(instrument)
    plain = plain_player(instrument, player.name)
    return replace(
        plain,
        minutes=player.minutes,
        practice_days=player.practice_days,
        calendar=player.calendar,
    )
