"""Strings that are tuned otherwise than an instrument's own: said by how they sound."""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from bookgen.errors import BookgenError, Finding, Said, told, why
from bookgen.model.instrument import Instrument
from bookgen.model.pitch import Pitch

NOTE: Final = r"[A-Ga-g](?:##?|ss?|bb?)?\d"
TUNED: Final = re.compile(rf"(?P<base>\S.*?)(?P<notes>(?:[ _]+{NOTE}){{2,6}})")
"""An instrument with the notes of its strings behind it."""

FLAT: Final = "b"
SHARP: Final = "#"
IN_KEY: Final = "s"
"""A sharp in the key of a drill, which has letters and digits only."""


def tuned_apart(name: str) -> tuple[str, tuple[str, ...]] | None:
    """An instrument and the notes of its strings, as a user or a drill's key names them.

    >>> tuned_apart("cello G3 D3 G2 C2"), tuned_apart("cello_a3_d3_fs2_b1")
    (('cello', ('G3', 'D3', 'G2', 'C2')), ('cello', ('A3', 'D3', 'F#2', 'B1')))
    >>> tuned_apart("double_bass_low_b")
    """
    found = TUNED.fullmatch(name.strip())
    if found is None:
        return None
    notes = re.split(r"[ _]+", found["notes"])[1:]
    return found["base"].strip(), tuple(
        note[0].upper() + note[1:].replace(IN_KEY, SHARP) for note in notes
    )


def tuned_key(base: str, sounding: Sequence[Pitch]) -> str:
    """The key of an instrument whose strings sound so.

    >>> tuned_key("cello", [Pitch.parse(name) for name in ("A3", "D3", "F#2", "B1")])
    'cello_a3_d3_fs2_b1'
    """
    notes = (str(pitch).lower().replace(SHARP, IN_KEY) for pitch in sounding)
    return "_".join((base, *notes))


def retuned(instrument: Instrument, notes: Sequence[str], place: Said) -> Instrument:
    """The instrument with strings that sound so; its key says it, and hands and chart stay.

    notes: of the strings from I, as they sound. place: where they were given.

    Raises:
        BookgenError: they are no notes, too few or too many, or do not fall from I.
    """
    tuned = with_strings(instrument, notes, place)
    if tuned.ordinary is None:
        return instrument
    sounding = [tuned.sounding_pitch(one) for one in tuned.strings]
    return replace(tuned, key=tuned_key(instrument.key, sounding))


def with_strings(instrument: Instrument, notes: Sequence[str], place: Said) -> Instrument:
    """The instrument with strings that sound so, under its own key.

    Raises:
        BookgenError: they are no notes, too few or too many, or do not fall from I.
    """
    mend = told("give the notes of the open strings as they sound, from I to the lowest")
    refuse_count(instrument, notes, place, mend)
    try:
        written = tuple(instrument.written_pitch(Pitch.parse(note)) for note in notes)
        if written == instrument.strings:
            return instrument
        return replace(instrument, strings=written, ordinary=instrument)
    except ValueError as error:
        raise BookgenError(Finding(place, why(error), mend)) from error


def with_reading(instrument: Instrument, notes: Sequence[str], place: Said) -> Instrument:
    """The instrument whose passages are written as fingered on these open strings.

    Raises:
        BookgenError: they are no notes, too few or too many, or do not fall from I.
    """
    mend = told("give the notes of the open strings as they are written, from I to the lowest")
    refuse_count(instrument, notes, place, mend)
    try:
        strings = tuple(map(Pitch.parse, notes))
        replace(instrument, strings=strings)  # refused where they make no instrument
        return replace(instrument, written=None if strings == instrument.strings else strings)
    except ValueError as error:
        raise BookgenError(Finding(place, why(error), mend)) from error


def refuse_count(instrument: Instrument, notes: Sequence[str], place: Said, mend: Said) -> None:
    """Refuse too few or too many strings.

    Raises:
        BookgenError: the instrument has another number of them.
    """
    count = len(instrument.strings)
    if len(notes) != count:
        problem = told(
            "{given} strings are tuned, but the {instrument} has {count}",
            given=len(notes),
            instrument=instrument.key,
            count=count,
        )
        raise BookgenError(Finding(place, problem, mend))
