"""What a player is to cover, checked against the instrument: pairs, spacings, places, start."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

from bookgen.errors import Finding, Message, Said, open_sentence, told, within
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.place import place_label
from bookgen.model.ring import ear_check
from bookgen.model.route import Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones, StringNumber
from bookgen.readers.studio_tables import PlayerTable, StartTable, shown, unknown

FIRST: Final = "1st"
ORDINARY: Final = ("half", "whole")

NO_PAIR: Final = open_sentence("no {instrument} finger pair {name}")
NO_SPACING: Final = open_sentence("no {instrument} spacing {name}")
NO_POSITION: Final = open_sentence("no {instrument} position {name}")

Pair = tuple[int, int]


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
    fewest_strings: the drills cross that many strings or more.
    """

    positions: tuple[str, ...]
    pairs: tuple[Pair, ...]
    spacings: tuple[Spacing, ...]
    fewest_strings: int
    highest_stage: int
    start: Start


def cover_of(
    table: PlayerTable, start: StartTable, instrument: Instrument, place: Said
) -> Cover | list[Finding]:
    """What a player's table asks for, or everything in it that the instrument does not have.

    place: file and player as the user knows them.
    """
    known = positions_of(instrument)
    usual = (FIRST,) if FIRST in known else known[1:2] or known
    choices = (
        Choice("pairs", NO_PAIR, table.pairs, pairs_of(instrument)),
        Choice("spacings", NO_SPACING, table.spacings, spacings_of(instrument)),
        Choice("positions", NO_POSITION, table.positions, known),
    )
    findings = [finding for choice in choices for finding in choice.findings(instrument, place)]
    count = len(instrument.strings)
    if table.fewest_strings > count:
        problem = told(
            "the {instrument} has {count} strings", instrument=instrument.key, count=count
        )
        mend = told("give 2 to {count}", count=count)
        findings.append(Finding(within(place, "fewest_strings"), problem, mend))
    if findings:
        return findings
    spacings = tuple(map(Spacing.parse, table.spacings or ORDINARY))
    pairs = tuple(map(fingers_of, table.pairs or usual_pairs(instrument)))
    begin = start_of(start, pairs, spacings, table.positions or usual, instrument)
    cover = Cover(
        positions=tuple(dict.fromkeys(table.positions or usual)),
        pairs=tuple(dict.fromkeys(pairs)),
        spacings=tuple(dict.fromkeys(spacings)),
        fewest_strings=table.fewest_strings,
        highest_stage=table.highest_stage,
        start=begin,
    )
    return [*idle_pairs(cover, instrument, place), *start_faults(cover, instrument, place)] or cover


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
) -> Start:
    """Where a player begins; what the table leaves open is taken from the area."""
    fingers = pairs[0] if table.fingers is None else fingers_of(table.fingers)
    taken = [spacing for spacing in spacings if takes(instrument, fingers, spacing)]
    usual = Spacing.WHOLE if Spacing.WHOLE in taken else (*taken, *spacings)[0]
    return Start(
        fingers=fingers,
        spacing=usual if table.spacing is None else Spacing.parse(table.spacing),
        position=table.position or (FIRST if FIRST in positions else positions[0]),
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


def hands(
    frame: Frame, strings: tuple[StringNumber, ...], instrument: Instrument
) -> Iterator[Drill]:
    """A pair at every place where the hand takes it without a stretch, as drills of stage 1."""
    for place in map(Semitones, range(1, instrument.highest_stop + 1)):
        if instrument.refused_place(frame, place) is None and not instrument.stretches(
            frame, place
        ):
            yield Drill(instrument.key, frame, frame.fingers, place, strings, 1, Return.MIRROR)


def takes(instrument: Instrument, pair: Pair, spacing: Spacing) -> bool:
    """Whether two fingers take a spacing somewhere without a stretch."""
    return any(
        (reach.low, reach.high, reach.spacing) == (*pair, spacing) and not reach.stretch
        for reach in instrument.hand.reaches
    )


def pairs_of(instrument: Instrument) -> tuple[str, ...]:
    """Finger pairs that take some spacing without a stretch."""
    reaches = (reach for reach in instrument.hand.reaches if not reach.stretch)
    return tuple(sorted({join((reach.low, reach.high)) for reach in reaches}))


def usual_pairs(instrument: Instrument) -> tuple[str, ...]:
    """Finger pairs that take a half or a whole step without a stretch."""
    return tuple(
        pair
        for pair in pairs_of(instrument)
        if any(takes(instrument, fingers_of(pair), Spacing.parse(word)) for word in ORDINARY)
    )


def spacings_of(instrument: Instrument) -> tuple[str, ...]:
    """Spacings that some pair takes without a stretch, the closest first."""
    found = {reach.spacing for reach in instrument.hand.reaches if not reach.stretch}
    return tuple(spacing.word for spacing in Spacing if spacing in found)


@cache
def positions_of(instrument: Instrument) -> tuple[str, ...]:
    """Every position of the instrument by its label, from the nut up."""
    strings = instrument.string_numbers()
    frames = (
        Frame.pair(reach.low, reach.high, reach.spacing)
        for reach in instrument.hand.reaches
        if not reach.stretch
    )
    lowest: dict[str, int] = {}
    for frame in frames:
        room = instrument.hand.room_below(frame.fingers[0])
        for drill in hands(frame, strings, instrument):
            label, height = place_label(drill, instrument), drill.place - room
            lowest[label] = min(height, lowest.get(label, height))
    return tuple(sorted(lowest, key=lambda label: lowest[label]))


def fingers_of(pair: str) -> Pair:
    """A pair from its two digits."""
    return int(pair[0]), int(pair[1])


def join(pair: Pair) -> str:
    """A pair as it is written."""
    return f"{pair[0]}{pair[1]}"
