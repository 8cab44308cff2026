"""The words of one drill: what block.j2 may say."""

from dataclasses import dataclass
from typing import Final

from bookgen.binder.ear import Ear, hear
from bookgen.binder.english import hand_name, minutes_name, strings_name
from bookgen.model.drill import Drill
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.route import STAGES
from bookgen.plan.document import PlannedDrill

BLOCK_PARTS: Final = frozenset(
    {"title", "link", "text", "unsure", "played", "secure", "not-yet", "pencil", "minutes", "wide"}
)
"""What block.j2 may print."""


@dataclass(frozen=True, slots=True)
class DrillWords:
    """What block.j2 may say of a drill.

    hand: fingers and spacings; fingers: in the order of play.
    strings_count: how many strings are crossed; top_string: numeral of the highest;
        low_strings: of the two lowest.
    close: on a small page; hints are short.
    brief: how it is played has been said before, or is not said in a test.
    only_if: number of the drill that must be secure first, or None.
    back_to: number of the drill to return to, or None; known: a secure drill in words, or None.
    """

    number: int
    kind: str
    hand: str
    position: str
    stage: int
    stage_name: str
    fingers: tuple[str, ...]
    rising: bool
    falling: bool
    back: str
    strings: str
    strings_count: int
    top_string: str
    low_strings: tuple[str, ...]
    stretch: bool
    minutes: str
    close: bool
    brief: bool
    only_if: int | None
    link: str
    back_to: int | None
    known: str | None
    ear: Ear
    cents: bool


def drill_words(
    planned: PlannedDrill,
    instrument: Instrument,
    *,
    cents: bool,
    brief: bool = False,
    close: bool = False,
) -> DrillWords:
    """Say what a planned drill is.

    cents: grown players get figures for their double stops; brief: how it is played is known;
        close: on a small page.
    """
    drill, to = planned.drill, planned.link.to
    return DrillWords(
        number=planned.number,
        kind=planned.kind.value,
        hand=hand_name(drill),
        position=f"{planned.position} position",
        stage=drill.stage,
        stage_name=STAGES[drill.stage],
        fingers=tuple(map(str, drill.order)),
        rising=drill.order == drill.frame.fingers,
        falling=drill.order == drill.frame.fingers[::-1],
        back=drill.back.value,
        strings=strings_name(drill.strings, instrument),
        strings_count=len(drill.strings),
        top_string=NUMERALS[drill.strings[-1]],
        low_strings=tuple(NUMERALS[string] for string in drill.strings[:2]),
        stretch=instrument.stretches(drill.frame, drill.place),
        minutes=minutes_name(planned.minutes),
        close=close,
        brief=brief,
        only_if=planned.only_if,
        link=planned.link.text,
        back_to=to if isinstance(to, int) else None,
        known=known_drill(to) if isinstance(to, str) else None,
        ear=hear(planned.events, instrument),
        cents=cents,
    )


def known_drill(key: str) -> str:
    """A secure drill of an earlier day in words."""
    drill = Drill.parse_key(key)
    name = hand_name(drill)
    return f"{name[:1].lower()}{name[1:]}, {STAGES[drill.stage]}"
