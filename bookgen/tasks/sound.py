"""A plan's drills as files that sound, or that a notation program opens."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.instrument import Instrument
from bookgen.notation.played import BEATS_A_MINUTE, Played, Recital
from bookgen.plan.document import Plan
from bookgen.plan.music import music_of
from bookgen.tasks.look import PageWish
from bookgen.words.drill_title import drill_title
from bookgen.words.speech import Speech

Maker = Callable[[Recital, Instrument], bytes]


def as_midi(recital: Recital, instrument: Instrument) -> bytes:
    """To be listened to."""
    from bookgen.notation.midi import drills_midi  # noqa: PLC0415

    return drills_midi(recital, instrument)


def as_musicxml(recital: Recital, instrument: Instrument) -> bytes:
    """For a notation program."""
    from bookgen.notation.musicxml_drills import drills_musicxml  # noqa: PLC0415

    return drills_musicxml(recital, instrument)


def as_wav(recital: Recital, instrument: Instrument) -> bytes:
    """To be listened to at once: pure double stops over the open string that proves a note."""
    from bookgen.notation.waves import drills_wav  # noqa: PLC0415

    return drills_wav(recital, instrument)


SOUNDS: Final[Mapping[str, Maker]] = {
    ".musicxml": as_musicxml,
    ".xml": as_musicxml,
    ".mid": as_midi,
    ".midi": as_midi,
    ".wav": as_wav,
}
"""By the ending of the file."""


def sounding(
    plan: Plan, title: str, instrument: Instrument, speech: Speech, wish: PageWish, path: Path
) -> bytes:
    """The drills of a plan, in the order of play where it has days, in the form of the ending.

    title: of the whole; empty takes that of the first drill.
    """
    turns = [item.number for day in plan.days for item in day.items]
    numbers = dict.fromkeys(turns) or [entry.number for entry in plan.drills]
    entries = [plan.by_number[number] for number in numbers]
    drills = [Played(drill_title(entry, speech), music_of(entry)) for entry in entries]
    recital = Recital(title or drills[0].title, drills, wish.tempo or BEATS_A_MINUTE)
    return SOUNDS[path.suffix.lower()](recital, instrument)


def refuse_tempo(wish: PageWish, path: Path) -> None:
    """Refuse a speed for what does not sound.

    Raises:
        BookgenError: one was asked for.
    """
    if wish.tempo is not None and path.suffix.lower() not in SOUNDS:
        problem = told("{file} does not sound", file=path.name)
        mend = told("leave it out, or let --out end in {endings}", endings=" or ".join(SOUNDS))
        raise BookgenError(Finding("--tempo", problem, mend))
