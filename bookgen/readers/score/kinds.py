"""A passage of a real piece: a file of a kind we read becomes a phrase for one instrument."""

from collections.abc import Callable
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.instrument import Instrument
from bookgen.readers.score.file import MOST_BYTES, file_bytes, shown_name
from bookgen.readers.score.midi import midi_passage
from bookgen.readers.score.midi_file import MOST_BYTES as MOST_MIDI_BYTES
from bookgen.readers.score.musicxml import musicxml_passage
from bookgen.readers.score.passage import PassageFile, Wanted
from bookgen.readers.score.text import MOST_BYTES as MOST_TEXT_BYTES
from bookgen.readers.score.text import text_passage

Reader = Callable[[bytes, Wanted], PassageFile]

READERS: Final[dict[str, tuple[Reader, int]]] = {
    ".musicxml": (musicxml_passage, MOST_BYTES),
    ".xml": (musicxml_passage, MOST_BYTES),
    ".mxl": (musicxml_passage, MOST_BYTES),
    ".mid": (midi_passage, MOST_MIDI_BYTES),
    ".midi": (midi_passage, MOST_MIDI_BYTES),
    ".passage": (text_passage, MOST_TEXT_BYTES),
    ".txt": (text_passage, MOST_TEXT_BYTES),
}
"""By the ending of a file's name: who reads it, and how many bytes at most."""


def read_passage(
    path: Path,
    instrument: Instrument,
    *,
    part: str | None = None,
    bars: tuple[str, str] | None = None,
) -> PassageFile:
    """Read some bars of a piece as the player of an instrument sees them.

    part: by its name in the file, or by its number from 1; None takes the one for the instrument.
    bars: first and last printed number; None takes them all.

    Raises:
        BookgenError: the file cannot be read, goes beyond the limits, or has no such part or
            bars, or several parts for the instrument.
    """
    name = shown_name(path)
    found = READERS.get(path.suffix.lower())
    if found is None:
        problem = told("the ending of its name tells no kind of music file")
        mend = told("give a file ending in one of {endings}", endings=", ".join(READERS))
        raise BookgenError(Finding(name, problem, mend))
    reader, most = found
    return reader(file_bytes(path, most), Wanted(name, path.stem, instrument, part, bars))
