"""The day of a class: drills that all its instruments can play together."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from functools import partial

import msgspec

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.drill import Drill
from bookgen.model.place import place_label
from bookgen.plan.document import Plan
from bookgen.plan.part import Part
from bookgen.plan.wished import Wished
from bookgen.planner.area import Area, string_sets
from bookgen.planner.members import Member, once, part_of, shared
from bookgen.planner.month import plan_days
from bookgen.planner.request import Request
from bookgen.planner.start import first_start
from bookgen.planner.together import Together, together
from bookgen.readers.hands import positions_of
from bookgen.readers.studio.file import Player
from bookgen.readers.weights import read_weights
from bookgen.tasks.class_members import OPTION, Seat
from bookgen.tasks.roster import stranger
from bookgen.tasks.wishes import ForToday, refuse_nothing, widened, wished_of
from bookgen.words.speech import Phrase
from bookgen.words.wishes import sort_words

ANY_STAGE = {"stage": None, "interval": None, "double_stops": False}


@dataclass(frozen=True, slots=True)
class Class:
    """Who plays together, and what of the first instrument's is looked through.

    player: whose area the first instrument has; a stranger's where nobody is named.
    seats: the first one's first.
    """

    player: Player
    seats: Sequence[Seat]
    wished: Wished | None

    @property
    def area(self) -> Area:
        """What the first instrument is to cover."""
        first, cover = self.seats[0].instrument, self.player.cover
        if self.wished is not None:
            cover = widened(cover, self.wished, first)
        frames = replace(self.player, cover=cover).frames(first)
        strings = string_sets(first, 2)
        return Area(frames, frozenset(cover.positions), strings, cover.highest_stage)

    @property
    def others(self) -> list[Member]:
        """The other instruments: their lowest positions, and the first one's of the same name."""
        named = self.area.positions or frozenset()
        found = []
        for seat in self.seats[1:]:
            own = stranger(seat.instrument).cover
            begin = (seat.instrument.first_position, own.start.position, *own.positions)
            more = (one for one in positions_of(seat.instrument) if one in named)
            found.append(Member(seat.instrument, tuple(dict.fromkeys((*begin, *more)))))
        return found

    def wants(self, drill: Drill) -> bool:
        """Whether a hand of the first instrument is one that was wished, at whatever stage."""
        if self.wished is None:
            return True
        hands = msgspec.structs.replace(self.wished, **ANY_STAGE)
        return hands.holds(drill, self.seats[0].instrument)


def class_of(player: Player | None, seats: Sequence[Seat], today: ForToday) -> Class:
    """A class; what nobody says is as for a stranger on the first instrument.

    player: whose area counts where it is of that instrument.

    Raises:
        BookgenError: what is wished for the day is nothing of the instrument's.
    """
    first = seats[0].instrument
    known = player if player is not None and player.plays.key == first.key else None
    plays = stranger(first) if known is None else replace(stranger(first), cover=known.cover)
    return Class(plays, seats, wished_of(today, plays, first, free=True))


def planned_class(
    group: Class, minutes: int, day: Date, seed: int
) -> tuple[Plan, tuple[Part, ...]]:
    """Plan the day of a class. Returns the first instrument's plan, and the others' parts of it.

    Raises:
        BookgenError: an instrument cannot play what the others do.
    """
    first, area = group.seats[0], group.area
    if group.wished is not None:
        refuse_nothing(group.wished, area, first.instrument)
    runs = runs_of(group)
    order = sorted(common_hands(group, runs), key=partial(rank, group))
    hands = {(one.frame, one.place, one.strings) for one in once(order)}
    narrow = replace(area, strings=tuple(one.runs[0] for one in runs), only=frozenset(hands))
    wanted = {(one.frame, one.place, one.strings) for one in order if group.wants(one)} & hands
    if not wanted:
        raise BookgenError(left_out(group, runs))
    begins = replace(narrow, only=frozenset(wanted))
    request = Request(
        instrument=first.instrument,
        size=first.size,
        area=narrow,
        minutes=minutes,
        practice_days=frozenset(),
        start=first_start(first.instrument, begins, day, seed),
        weights=read_weights(),
        seed=seed,
        stranger=True,
        wished=group.wished,
    )
    plan = plan_days(request, [day])
    return plan, tuple(parts_of(group, runs, plan))


def common_hands(group: Class, runs: Sequence[Together]) -> list[Drill]:
    """What all can play, in positions of one name where that gives anything that is wanted."""
    first, others, area = group.seats[0].instrument, group.others, group.area
    alike = shared(first, others, runs, area, alike=True)
    if any(group.wants(drill) for drill in alike):
        return alike
    return shared(first, others, runs, area)


def rank(group: Class, drill: Drill) -> tuple[object, ...]:
    """Which of two hands with the same notes is taken: a wished one, else the lowest position."""
    first = group.seats[0].instrument
    label = place_label(drill, first)
    known = positions_of(first)
    wide = tuple(-string for string in drill.strings)
    return (
        not group.wants(drill),
        label != first.first_position,
        known.index(label) if label in known else len(known),
        drill.frame.fingers,
        drill.place,
        wide,
    )


def runs_of(group: Class) -> tuple[Together, ...]:
    """The strings on which the class plays.

    Raises:
        BookgenError: an instrument has no strings that sound well with those before it.
    """
    instruments = [seat.instrument for seat in group.seats]
    fewest = group.player.cover.fewest_strings
    found: tuple[Together, ...] = ()
    for count in range(2, len(instruments) + 1):
        found = together(instruments[:count], fewest)
        if not found:
            raise BookgenError(
                Finding(
                    OPTION,
                    told(
                        "no strings of the {instrument} sound well with those before it",
                        instrument=instruments[count - 1].key,
                    ),
                    told("leave it out of the class"),
                )
            )
    return found


def left_out(group: Class, runs: Sequence[Together]) -> Finding:
    """Which instrument cannot play what is wished, or anything that the first one plays."""
    first, others = group.seats[0].instrument, group.others
    for count in range(1, len(others) + 1):
        some = [Together(one.runs[: count + 1], one.sounds) for one in runs]
        common = shared(first, others[:count], some, group.area)
        if not any(group.wants(drill) for drill in common):
            break
    name = others[count - 1].instrument.key
    if group.wished is None:
        problem = told(
            "the {instrument} has no hand in common with those before it", instrument=name
        )
        return Finding(OPTION, problem, told("leave it out of the class"))
    sort = Phrase(partial(sort_words, group.wished))
    problem = told("the {instrument} cannot play that along: {sort}", instrument=name, sort=sort)
    return Finding(OPTION, problem, told("wish for less, or leave it out of the class"))


def parts_of(group: Class, runs: Sequence[Together], plan: Plan) -> Iterator[Part]:
    """What the other instruments play of a plan.

    Raises:
        ValueError: one of them has no part in a drill, though its hand has one at stage 1.
    """
    first = group.seats[0].instrument
    by_run = {one.runs[0]: one.runs[1:] for one in runs}
    for at, (member, seat) in enumerate(zip(group.others, group.seats[1:], strict=True)):
        keys = []
        for entry in plan.drills:
            drill = entry.drill
            label = place_label(drill, first)
            own = part_of(drill, member, by_run[drill.strings][at], label)
            if own is None:
                msg = f"{drill.key} has no part for the {seat.instrument.key}"
                raise ValueError(msg)
            keys.append(own.key)
        yield Part(instrument=seat.instrument.key, size=seat.size, keys=tuple(keys))
