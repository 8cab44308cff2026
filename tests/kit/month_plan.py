"""A booklet's plan (version 2) for tests of the binder, without planner and LilyPond."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from functools import cache

import msgspec

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf
from bookgen.binder.page.piece import Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.parts.front import Stages, front_leaves
from bookgen.binder.parts.pictures import Picture
from bookgen.model.drill import Drill
from bookgen.plan.document import Binding, Character, Coverage, Day, Gauge, Item, Link, Plan, Role
from bookgen.plan.entry import entry_of
from bookgen.plan.scope import Scope
from bookgen.readers.instrument import read_instrument
from bookgen.words import front as words

FIRST = date(2026, 12, 1)
LAST = date(2026, 12, 31)
STUDIO = "Harbour Lane Strings"
SUNDAY = 6
CROSSING = 3
"""From this stage on both ways back over three strings are one, and the key says `same`."""

KEYS = tuple(
    f"{fingers}-{spacing}-place{place}-strings{strings}-stage{stage}-{lead}-"
    f"{'mirror' if strings == '4321' or stage < CROSSING else 'same'}"
    for stage in range(1, 6)
    for fingers, place in (("12", 2), ("23", 4), ("34", 5))
    for spacing in ("half", "whole")
    for strings in ("4321", "321")
    for lead in ("low", "high")
)
SCOPE = Scope(
    instrument="violin",
    size="4/4",
    minutes=10,
    positions=("1st",),
    hands=("12-half",),
    fewest_strings=3,
    highest_stage=5,
    start=f"violin-{KEYS[0]}",
    secure_to_stage=0,
)
"""What a roster says of a player."""

ROLES = (Role.START, Role.NEW, Role.OTHER_WAY, Role.AGAIN, Role.AGAIN)


@cache
def a_month(
    drills: int = 20,
    days: int = 31,
    instrument: str = "violin",
    player: str | None = "Ines",
) -> Plan:
    """Days from Tuesday, 1 December 2026: Sundays free, Wednesdays light, Saturdays with a test."""
    played = read_instrument(instrument)
    link = Link(to=None, changes=None)
    entries = tuple(
        entry_of(Drill.parse_key(f"{instrument}-{key}"), played, number, link)
        for number, key in enumerate(KEYS[:drills], start=1)
    )
    found: list[Day] = []
    for on in (FIRST + timedelta(days=offset) for offset in range(days)):
        if on.weekday() == SUNDAY:
            continue
        character = {2: Character.LIGHT, 5: Character.TEST}.get(on.weekday(), Character.ORDINARY)
        start = len(found) * 3
        items = tuple(
            Item(
                number=(start + place) % drills + 1,
                role=Role.COLD if character is Character.TEST else role,
                minutes=2.0,
                only_if=(start + place - 1) % drills + 1 if role is Role.NEW else None,
            )
            for place, role in enumerate(ROLES)
        )
        found.append(Day(date=on, minutes=10.0, items=items, character=character))
    binding = Binding(book="booklet", first=FIRST, last=FIRST + timedelta(days - 1), studio=STUDIO)
    return Plan(
        instrument=instrument,
        size=played.sizes[0].name,
        player=player,
        seed=0,
        drills=entries,
        days=tuple(found),
        binding=binding,
    )


def bound_with(plan: Plan, **changes: object) -> Plan:
    """The plan with other facts of its binding."""
    assert plan.binding is not None
    return msgspec.structs.replace(plan, binding=msgspec.structs.replace(plan.binding, **changes))


def a_coverage(*levels: Sequence[int]) -> Coverage:
    """Gauges of ten moves; for each how many are secure, and how many will be."""
    gauges = tuple(
        Gauge(string=1, semitones=place, secure=secure, practised=0, new=10 - secure, aimed=aimed)
        for place, (secure, aimed) in enumerate(levels, start=1)
    )
    secure = sum(gauge.secure for gauge in gauges)
    return Coverage(
        secure=secure,
        practised=0,
        new=10 * len(gauges) - secure,
        aimed=sum(gauge.aimed for gauge in gauges),
        gauges=gauges,
    )


STAGES = ("string by string", "cross on 2nd note", "cross on every note", "overlap", "double stops")


def a_picture(width: float, height: float) -> Picture:
    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        canvas.box((slot.left, slot.top - height), (width, height), width=0.3)
        return iter(())

    return Picture(width, height, draw)


def named_stages(plan: Plan, pictures: list[Picture]) -> dict[int, tuple[str, list[Picture]]]:
    stages = {entry.stage for entry in plan.drills}
    return {stage: (STAGES[stage - 1], pictures) for stage in stages}


def booklet_front(plan: Plan, stages: Stages, frame: Frame) -> list[Leaf]:
    """How to use a booklet, as its pages have it."""
    speech = frame.desk.speech
    care = words.care(words.advice(speech), speech)
    use = [*words.use(plan, speech)]
    return front_leaves(words.how_title(speech), use, care, plan.drills, stages, frame)
