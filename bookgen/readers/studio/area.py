"""What a player is to cover, checked against the instrument: pairs, spacings, places, start."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

from bookgen.errors import Finding, Message, Said, open_sentence, told, within
from bookgen.model.drill import Drill
from bookgen.model.finger import fingers_in
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.place import place_label
from bookgen.model.ring import ear_check
from bookgen.model.spacing import Frame, Spacing
from bookgen.readers.hands import (
    ORDINARY,
    PAIR,
    Pair,
    crowded,
    every_hand,
    extended,
    fingers_of,
    first_position,
    hands,
    join,
    pairs_of,
    positions_of,
    spacings_in,
    spacings_of,
    takes,
    takes_all,
    usual_pairs,
)
from bookgen.readers.shown import shown, unknown
from bookgen.readers.studio.tables import PlayerTable, StartTable

FEWEST_STRINGS: Final = 3
"""That a drill crosses, where the table does not say."""

NO_PAIR: Final = open_sentence("no {instrument} finger pair {name}")
NO_HAND: Final = open_sentence("no {instrument} hand {name}")
NO_SPACING: Final = open_sentence("no {instrument} spacing {name}")
NO_POSITION: Final = open_sentence("no {instrument} position {name}")


@dataclass(frozen=True, slots=True)
class Start:
    """The hand with which a player begins.

    position: the trade's label.
    secure_to_stage: up to this stage it counts as secure; 0 says that nothing does.
    """

    fingers: Pair
    spacing: Spacing
    position: str
    secure_to_stage: int

    @property
    def frame(self) -> Frame:
        """The pair and its spacing."""
        return Frame(self.fingers, (self.spacing,))


@dataclass(frozen=True, slots=True)
class Cover:
    """What a player is to cover, and where it begins.

    positions: the trade's labels, as they were given.
    pairs: lower and higher finger.
    more: frames of three and four fingers, rising; each has its pairs' spacings.
    extensions: the hand is to be extended too.
    fewest_strings: the drills cross that many strings or more.
    """

    positions: tuple[str, ...]
    pairs: tuple[Pair, ...]
    spacings: tuple[Spacing, ...]
    fewest_strings: int
    highest_stage: int
    start: Start
    more: tuple[tuple[int, ...], ...] = ()
    extensions: bool = False

    def frames(self, instrument: Instrument) -> Iterator[Frame]:
        """Every chosen hand with every chosen spacing that it takes without a stretch.

        Where extensions are to be covered too, those hands besides.
        """
        for fingers in (*self.pairs, *self.more):
            for spacings in product(self.spacings, repeat=len(fingers) - 1):
                frame = Frame(fingers, spacings)
                plain = takes_all(instrument, frame) and not crowded(instrument, frame)
                opened = extended(frame, instrument) if self.extensions else ()
                yield from dict.fromkeys((*[frame] * plain, *opened))


def cover_of(
    table: PlayerTable, start: StartTable, instrument: Instrument, place: Said
) -> Cover | list[Finding]:
    """What a player's table asks for, or everything in it that the instrument does not have.

    place: file and player as the user knows them.
    """
    positions = table.positions or tuple(filter(None, [first_position(instrument)]))
    choices = (
        Choice("pairs", NO_PAIR, table.pairs, pairs_of(instrument)),
        Choice("hands", NO_HAND, table.hands, every_hand(instrument)),
        Choice("spacings", NO_SPACING, table.spacings, spacings_of(instrument)),
        Choice("positions", NO_POSITION, table.positions, positions_of(instrument)),
    )
    findings = [finding for choice in choices for finding in choice.findings(instrument, place)]
    count = len(instrument.strings)
    if table.fewest_strings is not None and table.fewest_strings > count:
        problem = told(
            "the {instrument} has {count} strings", instrument=instrument.key, count=count
        )
        mend = told("give 2 to {count}", count=count)
        findings.append(Finding(within(place, "fewest_strings"), problem, mend))
    hands = table.hands or table.pairs or usual_pairs(instrument, positions)
    findings += hand_faults(table, place)
    if findings:
        return findings
    spacings = tuple(map(Spacing.parse, table.spacings or ORDINARY))
    pairs = tuple(fingers_of(hand) for hand in hands if len(hand) == PAIR)
    own = bool(table.hands or table.pairs)
    cover = Cover(
        positions=tuple(dict.fromkeys(positions)),
        pairs=tuple(dict.fromkeys(pairs)),
        spacings=tuple(dict.fromkeys(spacings)),
        fewest_strings=table.fewest_strings or min(FEWEST_STRINGS, count),
        highest_stage=table.highest_stage,
        start=start_of(start, pairs, spacings, positions, instrument, chosen=own),
        extensions=table.extensions,
        more=tuple(fingers_in(hand) for hand in dict.fromkeys(hands) if len(hand) > PAIR),
    )
    return [*idle_pairs(cover, instrument, place), *start_faults(cover, instrument, place)] or cover


def hand_faults(table: PlayerTable, place: Said) -> Iterator[Finding]:
    """Findings where hands and pairs are both given, or the hands have no pair to begin with."""
    if table.hands and table.pairs:
        problem = told("the pairs are among the hands already")
        yield Finding(within(place, "pairs"), problem, told("keep one of pairs and hands"))
    if table.hands and not any(len(hand) == PAIR for hand in table.hands):
        problem = told("there is no pair to begin with")
        yield Finding(within(place, "hands"), problem, told('add one, e.g. "12"'))


@dataclass(frozen=True, slots=True)
class Choice:
    """A list of names in a player's table.

    problem: of a name that is none. given: None where the table does not say; known: those
        that the instrument has.
    """

    key: str
    problem: Message
    given: tuple[str, ...] | None
    known: tuple[str, ...]

    def findings(self, instrument: Instrument, place: Said) -> list[Finding]:
        """Those names that the instrument does not have."""
        return [
            unknown(
                within(place, self.key),
                self.problem.about(instrument=instrument.key, name=shown(name)),
                name,
                self.known,
            )
            for name in self.given or ()
            if name not in self.known
        ]


def start_of(
    table: StartTable,
    pairs: Sequence[Pair],
    spacings: Sequence[Spacing],
    positions: Sequence[str],
    instrument: Instrument,
    *,
    chosen: bool = False,
) -> Start:
    """Where a player begins; what the table leaves open is taken from the area.

    A whole step in first position is the usual start, with the first pair.

    chosen: the pairs are the player's own; of the usual ones the first that takes a whole step.
    """
    first = first_position(instrument)
    position = table.position or (first if first and first in positions else positions[0])
    taken = {
        pair: [one for one in spacings_in(instrument, pair, (position,)) if one in spacings]
        for pair in pairs
    }
    begin = [pair for pair in pairs if taken[pair]] or pairs
    if not chosen:
        begin = [pair for pair in begin if Spacing.WHOLE in taken[pair]] or begin
    fingers = begin[0] if table.fingers is None else fingers_of(table.fingers)
    steps = taken.get(fingers) or spacings
    usual = Spacing.WHOLE if Spacing.WHOLE in steps else steps[0]
    return Start(
        fingers=fingers,
        spacing=usual if table.spacing is None else Spacing.parse(table.spacing),
        position=position,
        secure_to_stage=table.secure_to_stage,
    )


def idle_pairs(cover: Cover, instrument: Instrument, place: Said) -> Iterator[Finding]:
    """Findings for pairs that take none of the chosen spacings."""
    for pair in cover.pairs:
        if not any(takes(instrument, pair, spacing) for spacing in cover.spacings):
            words = ", ".join(s.word for s in Spacing if takes(instrument, pair, s))
            low, high = pair
            problem = told(
                "fingers {low} and {high} take none of the chosen spacings", low=low, high=high
            )
            mend = told(
                "add one of {spacings} to the spacings, or leave the pair out", spacings=words
            )
            yield Finding(within(place, "pairs"), problem, mend)


def start_faults(cover: Cover, instrument: Instrument, place: Said) -> Iterator[Finding]:
    """Findings for a start that lies outside the area."""
    start = cover.start
    inside = (
        ("fingers", start.fingers in cover.pairs, join(start.fingers), "pairs"),
        ("spacing", start.spacing in cover.spacings, start.spacing.word, "spacings"),
        ("position", start.position in cover.positions, start.position, "positions"),
    )
    outside = [
        Finding(
            within(place, f"start.{key}"),
            told("{value} is not among the player's {key}", value=repr(value), key=area),
            told("choose one of them, or add it to {key}", key=area),
        )
        for key, good, value, area in inside
        if not good
    ]
    yield from outside
    if start.secure_to_stage > cover.highest_stage:
        highest = cover.highest_stage
        problem = told(
            "{stage} lies above the highest stage, {highest}",
            stage=start.secure_to_stage,
            highest=highest,
        )
        mend = told("give 0 to {highest}", highest=highest)
        yield Finding(within(place, "start.secure_to_stage"), problem, mend)
    if not outside and not start_drills(cover, instrument):
        problem = told(
            "the hand does not take fingers {fingers}, {spacing} step, in {position} position",
            fingers=join(start.fingers),
            spacing=start.spacing.word,
            position=start.position,
        )
        mend = told("choose other fingers or another position")
        yield Finding(within(place, "start"), problem, mend)


def start_drills(cover: Cover, instrument: Instrument) -> tuple[Drill, ...]:
    """Stage 1 of the start's hand on the most strings; the places that ring best come first."""
    start = cover.start
    if not takes(instrument, start.fingers, start.spacing):
        return ()
    strings = instrument.string_numbers()
    drills = [
        drill
        for drill in hands(start.frame, strings, instrument)
        if place_label(drill, instrument) == start.position
    ]
    return tuple(sorted(drills, key=lambda drill: (-rings(drill, instrument), drill.place)))


def rings(drill: Drill, instrument: Instrument) -> int:
    """How many of a drill's notes make an open string sound along."""
    notes = {note.stop: note for event in play(drill, instrument) for note in event.notes}
    checks = (ear_check(note, instrument) for note in notes.values())
    return sum(check is not None and check.rings for check in checks)
