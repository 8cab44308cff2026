"""What a passage's pages say of the next best fingering: where it differs, and what it costs."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from bookgen.model.instrument import NUMERALS
from bookgen.model.phrase import Phrase
from bookgen.plan.passage import Fingering, Passage
from bookgen.plan.passage_facts import differing, notes_at
from bookgen.words.names import position_name
from bookgen.words.passage import DASH, at_bars, where_name
from bookgen.words.speech import Speech

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


def differences(passage: Passage, speech: Speech) -> Iterator[str]:
    """Where the next best fingering differs, run by run."""
    best, other, phrase = passage.best, passage.other, passage.phrase
    if other is None:
        return
    for first, last in [*differing(best, other)][:MOST_DIFFERENCES]:
        bars = dict.fromkeys(best.placed[index].bar for index in range(first, last + 1))
        where = where_name([phrase.bars[bar].number for bar in bars], speech)
        instead = speech.say(
            "<b>{other}</b>, instead of {best}",
            other=played(other, phrase, first, last, speech),
            best=played(best, phrase, first, last, speech),
        )
        yield at_bars(where, instead, speech)


def played(fingering: Fingering, phrase: Phrase, first: int, last: int, speech: Speech) -> str:
    """How a run of sounds is played: its positions, then its fingers by their strings."""
    runs: list[tuple[str, list[str]]] = []
    told = 0
    for placed in fingering.placed[first : last + 1][:LONGEST_RUN]:
        notes = notes_at(placed, phrase)
        strings = "+".join(NUMERALS[note.stop.string] for note in notes)
        fingers = "+".join(str(note.stop.finger) for note in notes) or DASH
        if not runs or runs[-1][0] != strings:
            if len(runs) == MOST_RUNS:
                break
            runs.append((strings, []))
        runs[-1][1].append(fingers)
        told += 1
    groups = (g for g in fingering.groups if g.first <= last and g.last >= first)
    positions = dict.fromkeys(position_name(g.position, speech) for g in groups if g.position)
    words = [
        speech.say("{fingers} on {strings}", fingers=" ".join(fingers), strings=strings)
        if strings
        else speech.say("{fingers} on no string", fingers=" ".join(fingers))
        for strings, fingers in runs
    ]
    more = " …" if told <= last - first else ""
    return ", ".join([*positions, *words]) + more


def dearer(passage: Passage, speech: Speech) -> str:
    """By how much the next best fingering costs more, and through what; empty without one."""
    best, other = passage.best, passage.other
    if other is None or not [*differing(best, other)]:
        return ""
    by = round(100 * (other.cost - best.cost) / best.cost) if best.cost else 0
    first = (
        speech.say("By our table it costs {hundredths} % more.", hundredths=by)
        if by
        else speech.say("By our table it costs hardly more.")
    )
    apart = costs_apart(best, other)
    more = [part for part, cost in apart.items() if cost > 0][:TOLD_PARTS]
    less = [part for part, cost in apart.items() if cost < 0][:TOLD_PARTS]
    sentences = [
        first,
        speech.say("It has more of: {parts}.", parts=parts(more, speech)) if more else "",
        speech.say("It spares: {parts}.", parts=parts(less, speech)) if less else "",
    ]
    return " ".join(filter(None, sentences))


def parts(found: Iterable[str], speech: Speech) -> str:
    """Parts of a cost in a sentence."""
    names = {
        "shift": speech.say("shifts"),
        "stretch": speech.say("stretches"),
        "finger": speech.say("one finger twice running"),
        "string": speech.say("changes of string"),
        "timbre": speech.say("changes of sound within the line"),
        "fourth": speech.say("notes with finger 4"),
        "open": speech.say("open strings"),
        "place": speech.say("higher positions"),
        "high": speech.say("high places on low strings"),
        "beyond": speech.say("positions that are not yours"),
        "double": speech.say("double stops"),
    }
    return speech.listed([names[part] for part in found])


def costs_apart(best: Fingering, other: Fingering) -> Mapping[str, float]:
    """By how much another fingering costs more in each part, the greatest difference first."""
    apart: dict[str, float] = {}
    for sign, fingering in ((-1, best), (1, other)):
        for placed in fingering.placed:
            for part, cost in placed.cost.items():
                apart[part] = apart.get(part, 0.0) + sign * cost
    order = sorted(apart, key=lambda part: (-abs(apart[part]), part))
    return {part: apart[part] for part in order if abs(apart[part]) >= LEAST_PART}
