"""What is wished for a day, from the words of the command line."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise
from typing import Final

from bookgen.errors import BookgenError, Finding, Said, told, why
from bookgen.model.drill import CROSS_ON_EVERY_NOTE
from bookgen.model.finger import fingers_in
from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval
from bookgen.model.route import STAGES
from bookgen.model.spacing import Spacing
from bookgen.plan.wished import Wished
from bookgen.planner.area import Area
from bookgen.planner.pool import pool
from bookgen.readers.hands import PAIR, every_hand, pairs_of, positions_of, takes
from bookgen.readers.studio.area import NO_HAND, Cover
from bookgen.readers.studio.file import Player
from bookgen.tasks.roster import choose, place_of
from bookgen.words.intervals import NAMES
from bookgen.words.marks import marks_of
from bookgen.words.speech import Phrase, languages, speech_of
from bookgen.words.wishes import sort_words

DOUBLE_STOPS: Final = CROSS_ON_EVERY_NOTE + 2
"""The stage at which all notes are struck together."""


@dataclass(frozen=True, slots=True)
class ForToday:
    """What the user says of the drills of a day; None or nothing where that is left open."""

    stage: str | None = None
    position: str | None = None
    pairs: tuple[str, ...] = ()
    interval: str | None = None
    double_stops: bool = False

    @property
    def says(self) -> dict[str, str]:
        """The options that were given, by their names on the command line."""
        given = {
            "--stage": self.stage,
            "--position": self.position,
            "--pairs": " ".join(self.pairs) or None,
            "--interval": self.interval,
            "--double-stops": "" if self.double_stops else None,
        }
        return {name: value for name, value in given.items() if value is not None}


NOTHING_WISHED: Final = ForToday()


def wished_of(
    today: ForToday, player: Player, instrument: Instrument, *, free: bool
) -> Wished | None:
    """The wish, or None where nothing is wished.

    free: nobody has said what the player is to cover.

    Raises:
        BookgenError: there is no such thing, or it lies outside what the player is to cover;
            all of it is told.
    """
    if not today.says:
        return None
    findings = [*unknown(today, instrument)]
    if not findings and not free:
        findings += outside(today, player)
    if findings:
        raise BookgenError(*findings)
    return Wished(
        stage=None if today.stage is None else int(today.stage),
        position=today.position,
        hands=tuple(dict.fromkeys(fingers_in(pair) for pair in today.pairs)),
        interval=None if today.interval is None else label_of(today.interval),
        double_stops=today.double_stops,
    )


def unknown(today: ForToday, instrument: Instrument) -> Iterator[Finding]:
    """Findings for what there is not on the instrument."""
    if today.stage is not None and today.stage not in map(str, STAGES):
        problem = told("{value} is no stage", value=repr(today.stage))
        yield Finding("--stage", problem, told("give 1 to 5"))
    elif today.double_stops and today.stage not in {None, str(DOUBLE_STOPS)}:
        problem = told("stage {stage} has no double stops", stage=today.stage)
        mend = told("give --stage {stage}, or leave one of the two out", stage=DOUBLE_STOPS)
        yield Finding("--double-stops", problem, mend)
    positions, hands = positions_of(instrument), every_hand(instrument)
    if today.position is not None and today.position not in positions:
        problem = told(
            "no {instrument} position {name}", instrument=instrument.key, name=repr(today.position)
        )
        yield Finding("--position", problem, choose(today.position, positions))
    for pair in today.pairs:
        if pair not in hands:
            problem = NO_HAND.about(instrument=instrument.key, name=repr(pair))
            yield Finding("--pairs", problem, choose(pair, hands))
    if today.interval is not None:
        try:
            Interval.parse(label_of(today.interval))
        except ValueError as error:
            yield Finding("--interval", why(error), told("take one that the pages name"))


def outside(today: ForToday, player: Player) -> Iterator[Finding]:
    """Findings for what lies outside of what the roster has the player cover."""
    cover = player.cover
    if today.position is not None and today.position not in cover.positions:
        yield not_among("--position", today.position, "positions", player)
    for pair in today.pairs:
        fingers = fingers_in(pair)
        if fingers not in (*cover.pairs, *cover.more):
            yield not_among("--pairs", pair, "hands" if is_frame(fingers) else "pairs", player)
    stage = int(today.stage or 0) or (DOUBLE_STOPS if today.double_stops else 0)
    if stage > cover.highest_stage:
        problem = told(
            "{stage} lies above the highest stage, {highest}",
            stage=stage,
            highest=cover.highest_stage,
        )
        mend = told("wish for less, or change {place}", place=place_of(player, "highest_stage"))
        yield Finding("--stage" if today.stage else "--double-stops", problem, mend)


def not_among(option: str, value: str, key: str, player: Player) -> Finding:
    """That something wished is not to be covered."""
    problem = told("{value} is not among the player's {key}", value=repr(value), key=key)
    place: Said = place_of(player, key)
    return Finding(option, problem, told("choose one of them, or add it to {place}", place=place))


def widened(cover: Cover, wished: Wished, instrument: Instrument) -> Cover:
    """What a stranger may play who wishes for something: that, and all on the way there."""
    positions = positions_of(instrument)
    highest = positions.index(wished.position) if wished.position else 0
    at_thumb = [position for position in [wished.begins_at] if position]
    over = [(low, high) for low, high in map(fingers_in, pairs_of(instrument)) if at_thumb]
    pairs = [*(pair for hand in wished.hands for pair in pairwise(hand)), *over]
    spacings = [
        spacing
        for pair in pairs
        for spacing in Spacing
        if takes(instrument, pair, spacing) and pair in (*wished.hands, *over)
    ]
    return replace(
        cover,
        positions=tuple(dict.fromkeys((*cover.positions, *positions[: highest + 1], *at_thumb))),
        pairs=tuple(dict.fromkeys((*cover.pairs, *pairs))),
        spacings=tuple(dict.fromkeys((*cover.spacings, *spacings))),
        highest_stage=STAGES[-1],
        more=tuple(
            dict.fromkeys(
                (
                    *cover.more,
                    *filter(is_frame, wished.hands),
                    *((low, 1, high) for low, high in over if low < 1 < high),
                )
            )
        ),
    )


def is_frame(hand: Sequence[int]) -> bool:
    """Three fingers or more."""
    return len(hand) > PAIR


def refuse_nothing(wished: Wished, area: Area, instrument: Instrument) -> None:
    """Refuse a wish that nothing fulfils.

    Raises:
        BookgenError: no drill of the area is of that sort.
    """
    if not any(wished.holds(drill, instrument) for drill in pool(instrument, area)):
        sort = Phrase(partial(sort_words, wished))
        problem = told("no drill of the player's area is that: {sort}", sort=sort)
        raise BookgenError(Finding(told("command line"), problem, told("wish for less")))


def label_of(text: str) -> str:
    """The label of an interval that is written as a label, or as a mark of any language.

    >>> label_of("P4"), label_of("aug4"), label_of("ü4"), label_of("W")
    ('P4', 'A4', 'A4', 'W')
    """
    if text in NAMES:
        return text
    every = [marks_of(speech_of(language)) for language in languages()]
    return {marks.interval(label): label for marks in every for label in NAMES}.get(text, text)
