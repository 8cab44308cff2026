"""What passage.j2 may say of a whole passage: what it is, what fails, and the next best way."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.english import DASH, pitch_name, positions_name
from bookgen.binder.passage_words import Clean, bars_name, marks_of, where_name
from bookgen.binder.sheet_words import intervals_of, steps_of
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.phrase import Phrase
from bookgen.model.pitch import Pitch
from bookgen.model.route import Return
from bookgen.plan.document import Day
from bookgen.plan.passage import Fingering, Passage
from bookgen.plan.passage_facts import differing, notes_at

LONGEST_RUN: Final = 10
"""Fingers that are told one by one where another fingering differs; own choice."""

MOST_RUNS: Final = 4
"""Changes of string among them; own choice."""

TOLD_PARTS: Final = 3
"""Parts of a cost that are named; own choice."""

LEAST_PART: Final = 0.05
"""A difference in cost that is worth a word; own choice."""

MOST_DIFFERENCES: Final = 8
"""Places where another fingering differs that are told; own choice."""

PITCH: Final = re.compile(r"\b[A-G](?:##?|bb?)-?\d\b")
"""Altered pitch names in what the solver says."""


@dataclass(frozen=True, slots=True)
class Difference:
    """Where the next best fingering differs.

    where: its bars in words; best, other: how it is played there, and how it would be.
    """

    where: str
    best: str
    other: str


@dataclass(frozen=True, slots=True)
class PassageWords:
    """What passage.j2 may say of a passage, as `passage`.

    bars: their numbers, empty where they have none; where: the same in words.
    groups, hands: how many there are, and how many of them differ.
    crosses: some note cannot be played. scale, drill_scale: of the charts, in words.
    marks: of the intervals in the table, with their names.
    unplayable: where and what. differences: of the next best fingering; dearer, cheaper: the
        parts of the cost that make it so; by: how much more it costs, in hundredths.
    steps, intervals, dashed: what the drills' staves and charts show, as on a sheet.
    """

    title: str
    instrument: str
    size: str
    studio: str | None
    bars: str
    where: str
    groups: int
    hands: int
    crosses: bool
    scale: str
    drill_scale: str
    marks: tuple[tuple[str, str], ...]
    unplayable: tuple[tuple[str, str], ...]
    differences: tuple[Difference, ...]
    dearer: tuple[str, ...]
    cheaper: tuple[str, ...]
    by: int
    steps: tuple[str, ...]
    intervals: tuple[tuple[str, str], ...]
    dashed: bool


def passage_words(
    passage: Passage,
    instrument: Instrument,
    names: tuple[str, str | None],
    scales: tuple[str, str],
    clean: Clean,
) -> PassageWords:
    """Say what a passage is.

    names: title and studio as they can be printed.
    scales: of the hands' charts and of the drills', in words.
    """
    best, other = passage.best, passage.other
    bars = [bar.number for bar in passage.phrase.bars]
    apart = costs_apart(best, other) if other else {}
    drills = drills_as_one_day(passage)
    return PassageWords(
        title=names[0],
        instrument=instrument.name,
        size=passage.size,
        studio=names[1],
        bars=clean(bars_name(bars)),
        where=clean(where_name(bars)),
        groups=len(best.groups),
        hands=sum(group.same_as is None for group in best.groups),
        crosses=any(None in placed.stops for placed in best.placed),
        scale=scales[0],
        drill_scale=scales[1],
        marks=marks_of(passage),
        unplayable=tuple(
            (clean(where_name([bar])), clean(with_signs(text))) for bar, text in best.unplayable
        ),
        differences=tuple(differences(passage, clean))[:MOST_DIFFERENCES],
        dearer=tuple(part for part, cost in apart.items() if cost > 0)[:TOLD_PARTS],
        cheaper=tuple(part for part, cost in apart.items() if cost < 0)[:TOLD_PARTS],
        by=round(100 * (other.cost - best.cost) / best.cost) if other and best.cost else 0,
        steps=steps_of(drills) if drills else (),
        intervals=intervals_of(drills) if drills else (),
        dashed=drills is not None and any(p.drill.back is Return.SAME for p in drills.drills),
    )


def drills_as_one_day(passage: Passage) -> Day | None:
    """All drills of a passage's plan as if they were for one day; None without any."""
    days = passage.plan.days if passage.plan else ()
    drills = tuple(planned for day in days for planned in day.drills)
    return replace(days[0], drills=drills) if drills else None


def with_signs(text: str) -> str:
    """A text in which altered pitches are written as on the page.

    >>> with_signs("F#3 lies below the lowest string, G3")
    'F♯3 lies below the lowest string, G3'
    """
    return PITCH.sub(lambda found: pitch_name(Pitch.parse(found[0])), text)


def differences(passage: Passage, clean: Clean) -> Iterator[Difference]:
    """Where the next best fingering differs, run by run."""
    best, other, phrase = passage.best, passage.other, passage.phrase
    if other is None:
        return
    for first, last in differing(best, other):
        bars = dict.fromkeys(best.placed[index].bar for index in range(first, last + 1))
        yield Difference(
            where=clean(where_name([phrase.bars[bar].number for bar in bars])),
            best=played(best, phrase, first, last),
            other=played(other, phrase, first, last),
        )


def played(fingering: Fingering, phrase: Phrase, first: int, last: int) -> str:
    """How a run of sounds is played: its positions, then its fingers by their strings."""
    runs: list[tuple[str, list[str]]] = []
    told = 0
    for placed in fingering.placed[first : last + 1][:LONGEST_RUN]:
        notes = notes_at(placed, phrase)
        strings = "+".join(NUMERALS[note.stop.string] for note in notes) or "no string"
        fingers = "+".join(str(note.stop.finger) for note in notes) or DASH
        if not runs or runs[-1][0] != strings:
            if len(runs) == MOST_RUNS:
                break
            runs.append((strings, []))
        runs[-1][1].append(fingers)
        told += 1
    words = ", ".join(f"{' '.join(fingers)} on {strings}" for strings, fingers in runs)
    groups = (g for g in fingering.groups if g.first <= last and g.last >= first)
    labels = [group.position for group in groups if group.position]
    more = " …" if told <= last - first else ""
    return f"{positions_name(labels)}, {words}{more}" if labels else words + more


def costs_apart(best: Fingering, other: Fingering) -> Mapping[str, float]:
    """By how much another fingering costs more in each part, the greatest difference first."""
    apart: dict[str, float] = {}
    for sign, fingering in ((-1, best), (1, other)):
        for placed in fingering.placed:
            for part, cost in placed.cost.items():
                apart[part] = apart.get(part, 0.0) + sign * cost
    order = sorted(apart, key=lambda part: (-abs(apart[part]), part))
    return {part: apart[part] for part in order if abs(apart[part]) >= LEAST_PART}
