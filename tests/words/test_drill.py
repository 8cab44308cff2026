"""What a drill's block says is so: each link line names the one change that the notes show."""

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest
from kit.shorthand import NEIGHBOURS, VIOLA, VIOLIN, string_sets

from bookgen.model.drill import Drill
from bookgen.model.event import Begins, Event
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.music import play
from bookgen.model.route import Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones
from bookgen.plan.document import Link
from bookgen.words.drill import hand_name, link_line, scale_words
from bookgen.words.speech import ENGLISH

FRAMES = [
    *NEIGHBOURS,
    *(Frame.pair(1, 3, Spacing.parse(word)) for word in ("minor-third", "major-third")),
    *(Frame((1, 2, 3), (one, other)) for one in NEIGHBOURS[0].spacings for other in Spacing),
    Frame((1, 2, 3, 4), (Spacing.WHOLE, Spacing.HALF, Spacing.WHOLE)),
    Frame((1, 2, 3, 4), (Spacing.HALF, Spacing.WHOLE, Spacing.WHOLE)),
]
HALF_STEPS = {
    "half step": 1,
    "whole step": 2,
    "minor third": 3,
    "major third": 4,
    "fourth": 5,
    "tritone": 6,
    "fifth": 7,
    "minor sixth": 8,
    "major sixth": 9,
    "minor seventh": 10,
    "major seventh": 11,
    "octave": 12,
}


def linked(count: int) -> Iterator[tuple[Drill, Drill, Instrument]]:
    """Pairs of drills of one instrument of which the second differs in one thing."""
    dice = Random(7)
    while count:
        instrument = dice.choice([VIOLIN, VIOLA])
        frame = dice.choice(FRAMES)
        before = Drill(
            instrument=instrument.key,
            frame=frame,
            order=tuple(dice.sample(frame.fingers, len(frame.fingers))),
            place=Semitones(dice.randint(1, 14)),
            strings=dice.choice(string_sets(instrument)),
            stage=dice.randint(1, 5),
            back=dice.choice([*Return]),
        )
        after = changed(before, dice, instrument)
        if len(before.changes_to(after)) != 1:
            continue
        if before.refusal(instrument) is not None or after.refusal(instrument) is not None:
            continue
        # on two strings a pair's stage 2 is its stage 3, note for note: nothing has changed
        if stops(play(before, instrument)) == stops(play(after, instrument)):
            continue
        yield before, after, instrument
        count -= 1


def changed(drill: Drill, dice: Random, instrument: Instrument) -> Drill:
    """A drill with one of its parts drawn anew."""
    frame = dice.choice([one for one in FRAMES if len(one.fingers) == len(drill.frame.fingers)])
    order = tuple(frame.fingers[rank] for rank in drill.ranks())
    near = Semitones(max(drill.place + dice.randint(-3, 3), 0))
    return dice.choice(
        [
            replace(drill, place=Semitones(dice.randint(1, 26))),
            replace(drill, stage=dice.randint(1, 5)),
            replace(drill, strings=dice.choice(string_sets(instrument))),
            replace(drill, back=dice.choice([*Return])),
            replace(drill, order=tuple(dice.sample(drill.order, len(drill.order)))),
            replace(drill, frame=frame, order=order),
            replace(drill, frame=frame, order=order, place=near),
        ]
    )


def stops(events: tuple[Event, ...]) -> list[list[Stop]]:
    return [[note.stop for note in moment.notes] for moment in events]


def places(events: tuple[Event, ...]) -> set[tuple[int, int]]:
    return {(note.stop.string, note.stop.semitones) for moment in events for note in moment.notes}


def heights(events: tuple[Event, ...]) -> set[tuple[int, int]]:
    return {(note.stop.finger, note.stop.semitones) for moment in events for note in moment.notes}


def fingers(events: tuple[Event, ...]) -> list[int]:
    return [note.stop.finger for moment in events for note in moment.notes]


def way_up(events: tuple[Event, ...]) -> tuple[Event, ...]:
    turn = next(at for at, moment in enumerate(events) if moment.begins is Begins.TURN)
    return events[:turn]


def crossings_a_note(events: tuple[Event, ...]) -> float:
    up = way_up(events)
    return sum(moment.crosses for moment in up) / len(up)


def moved(events: tuple[Event, ...]) -> list[int]:
    return sorted({note.stop.semitones for moment in events for note in moment.notes})


def says_the_truth(change: str, old: tuple[Event, ...], new: tuple[Event, ...]) -> bool:
    """Whether the notes show the change; nothing here knows what kind of change was made."""
    sounding = {len(moment.notes) for moment in new}
    held = any(note.held for moment in new for note in moment.notes)
    up, down = way_up(new), new[len(way_up(new)) :]
    if match := re.fullmatch(r"(.*) (higher|lower)", change):
        by = {new_ - old_ for new_, old_ in zip(moved(new), moved(old), strict=True)}
        size = HALF_STEPS.get(match[1])
        sign = 1 if match[2] == "higher" else -1
        return by == {size * sign} if size else all(abs(one) > 12 and one * sign > 0 for one in by)
    if match := re.fullmatch(r"strings (\w+) to (\w+)", change):
        strings = [note.stop.string for moment in new for note in moment.notes]
        return (NUMERALS[max(strings)], NUMERALS[min(strings)]) == match.groups()
    if match := re.fullmatch(r"now (half|whole|two whole|three half) steps?", change):
        (one,) = {high - low for low, high in [moved(new)]}
        return one == {"half": 1, "whole": 2, "three half": 3, "two whole": 4}[match[1]]
    truths = {
        "cross sooner": crossings_a_note(new) > crossings_a_note(old),
        "cross later": crossings_a_note(new) < crossings_a_note(old),
        "cross later, one note each": sounding == {1} and crossings_a_note(new) < 1,
        "one note at a time": sounding == {1} and max(len(moment.notes) for moment in old) == 2,
        "let notes overlap": held,
        "both notes together": sounding == {2},
        "same notes, other fingers": places(new) == places(old) and fingers(new) != fingers(old),
        "other fingers, one finger stays": bool(heights(new) & heights(old))
        and set(fingers(new)) != set(fingers(old)),
        "lower finger first": fingers(new)[0] == min(fingers(new)),
        "higher finger first": fingers(new)[0] == max(fingers(new)),
        "fingers in another order": fingers(way_up(new)) != fingers(way_up(old)),
        "hand wider": moved(new)[-1] - moved(new)[0] > moved(old)[-1] - moved(old)[0],
        "hand closer": moved(new)[-1] - moved(new)[0] < moved(old)[-1] - moved(old)[0],
        "other spacing, same reach": (moved(new)[0], moved(new)[-1])
        == (moved(old)[0], moved(old)[-1])
        and moved(new) != moved(old),
        "back the same way": [moment.notes[-1].stop for moment in down if len(moment.notes) == 1]
        == [moment.notes[-1].stop for moment in up if len(moment.notes) == 1][::-1],
        "back: lower finger first": down[0].notes[0].stop.finger == min(fingers(new)),
        "back: higher finger first": down[0].notes[0].stop.finger == max(fingers(new)),
        "back with the same finger order": down[0].notes[0].stop.finger
        == up[0].notes[0].stop.finger,
    }
    return truths[change]


def test_every_link_line_is_short_and_true() -> None:
    said = set()
    for number, (before, after, instrument) in enumerate(linked(2500), start=1):
        (dimension,) = before.changes_to(after)
        known = number % 5 == 0
        link = Link(to=before.key if known else number, changes=dimension)
        line = link_line(link, after, before, ENGLISH)
        assert len(line.split()) <= 8
        assert re.findall(r"\d+", line) == ([] if known else [str(number)])
        change = line.removeprefix("Known: " if known else f"Like {number}, ")
        assert change != line
        assert says_the_truth(change, play(before, instrument), play(after, instrument)), line
        said.add(re.sub("strings .*", "strings", change))
    assert len(said) > 40


def test_a_drill_that_hangs_on_nothing_is_where_to_start() -> None:
    drill = Drill.parse_key("violin-12-whole-place2-strings4321-stage1-low-same")
    assert link_line(Link(to=None, changes=None), drill, None, ENGLISH) == "Start here"


@pytest.mark.parametrize(
    ("hand", "words"),
    [
        ("12-whole-place2-strings4321-stage1-low", "1 and 2, whole step"),
        ("23-half-place4-strings4321-stage1-high", "2 and 3, half step"),
        ("13-minor-third-place2-strings4321-stage1-low", "1 and 3, three half steps"),
        ("1234-whole.half.whole-place2-strings4321-stage1-low", "1 2 3 4, whole, half and whole"),
        (
            "1234-half.half.half-place1-strings4321-stage3-order1324",
            "1 3 2 4, half, half and half",
        ),
    ],
)
def test_hands_are_named_by_fingers_and_spacings(hand: str, words: str) -> None:
    assert hand_name(Drill.parse_key(f"violin-{hand}-same"), ENGLISH) == words


def test_scales_are_said_with_one_decimal() -> None:
    assert [scale_words(Fraction(one), ENGLISH) for one in ("1", "5/2", "12")] == [
        "1 : 1",
        "1 : 2.5",
        "1 : 12",
    ]
