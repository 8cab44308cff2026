"""The parts of a score, and which of them is meant for the instrument."""

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.errors import BookgenError, Finding, Said, told
from bookgen.model.instrument import Instrument
from bookgen.readers.shown import shown

MOST_PARTS: Final = 200
MOST_LISTED: Final = 24
LONGEST_NAME: Final = 60

CHOOSE: Final = told("choose one with --part, by name or number")

WORDS: Final = {
    "violin": "violin violins violino violini violine violinen violon violons geige geigen "
    "vln vlns vl vn vni fiddle",
    "viola": "viola violas viole bratsche bratschen vla vlas va",
    "cello": "cello cellos celli violoncello violoncelli violoncelle violoncelles vc vcl vlc",
    "bass": "contrabass contrabasses doublebass contrabasso contrabassi contrebasse "
    "contrebasses kontrabass kontrabaß kontrabässe cb kb db",
}
"""How parts of the instruments are called, in the languages of printed music (common practice)."""

PROGRAMS: Final = {41: "violin", 42: "viola", 43: "cello", 44: "bass"}
"""General MIDI Level 1 sound set, counted from 1 as MusicXML does."""


@dataclass(frozen=True, slots=True)
class PartName:
    """A part as the user can name it.

    name: cleaned; may be empty.
    program: General MIDI, counted from 1, where the file says it.
    lowest, highest: MIDI numbers as they sound, None where the part has no notes.
    """

    name: str
    program: int | None
    lowest: int | None
    highest: int | None


def cleaned(text: str, longest: int = LONGEST_NAME) -> str:
    """A name or a title from a file as it can be printed: one line, nothing invisible."""
    composed = unicodedata.normalize("NFC", text)
    visible = "".join(letter if letter.isprintable() else " " for letter in composed)
    line = " ".join(visible.split())
    return line if len(line) <= longest else f"{line[: longest - 1].rstrip()}…"


def chosen_part(
    parts: Sequence[PartName], wanted: str | None, instrument: Instrument, file: str
) -> int:
    """The index of the part that is wanted, or of the only one for the instrument.

    Without a wish, a file's only part is taken whatever its name; else the only one that is
    called like the instrument, else the only one whose notes all lie on it.

    wanted: a name, or a number counted from 1.

    Raises:
        BookgenError: there is no such part, or there are several.
    """
    with_notes = [index for index, part in enumerate(parts) if part.lowest is not None]
    if not with_notes:
        problem = told("no part has a note that can be played")
        raise BookgenError(Finding(file, problem, told("give a file with notes")))
    if wanted is not None:
        return named_part(parts, wanted, file)
    if len(with_notes) == 1:
        return with_notes[0]
    named = [index for index in with_notes if is_named(parts[index], instrument)]
    fitting = named or [index for index in with_notes if fits(parts[index], instrument)]
    if len(fitting) == 1:
        return fitting[0]
    if fitting:
        problem = told(
            "there are several parts for this instrument: {parts}", parts=listing(parts, fitting)
        )
    else:
        problem = told("there are several parts: {parts}", parts=listing(parts, with_notes))
    raise BookgenError(Finding(file, problem, CHOOSE))


def named_part(parts: Sequence[PartName], wanted: str, file: str) -> int:
    """The index of the part of that name or number; a number counts where no name is one.

    Raises:
        BookgenError: there is no such part, or several have the name.
    """
    name = folded(cleaned(wanted))
    found = [index for index, part in enumerate(parts) if folded(part.name) == name]
    if len(found) == 1:
        return found[0]
    listed = listing(parts, found or range(len(parts)))
    if found:
        problem = told("several parts are called {name}: {parts}", name=shown(wanted), parts=listed)
        raise BookgenError(Finding(file, problem, told("choose one with --part by its number")))
    if re.fullmatch(r"[0-9]{1,4}", wanted.strip()) and 1 <= int(wanted) <= len(parts):
        return int(wanted) - 1
    problem = told("no part {name}; the parts are {parts}", name=shown(wanted), parts=listed)
    raise BookgenError(Finding(file, problem, CHOOSE))


def listing(parts: Sequence[PartName], indexes: Sequence[int]) -> Said:
    """Some parts by number and name."""
    names = [f"{index + 1} {parts[index].name}".rstrip() for index in indexes]
    listed, more = ", ".join(names[:MOST_LISTED]), len(names) - MOST_LISTED
    return told("{parts} and {more} more", parts=listed, more=more) if more > 0 else listed


def folded(name: str) -> str:
    """A name without its capitals."""
    return unicodedata.normalize("NFKC", name).casefold()


def is_named(part: PartName, instrument: Instrument) -> bool:
    """Whether the part's name is that of the instrument, or its sound where it has no name."""
    kind = kind_of(instrument)
    called = {known for known, words in WORDS.items() if words_of(part.name) & set(words.split())}
    if called:
        return kind in called
    if words_of(part.name) & words_of(instrument.name):
        return True
    return PROGRAMS.get(part.program or 0) == kind


def words_of(name: str) -> set[str]:
    """The words of a name; "double bass" is one."""
    together = folded(name).replace("double bass", "doublebass")
    return set(re.findall(r"[^\W\d_]+", together))


def kind_of(instrument: Instrument) -> str:
    """Which of the known instruments this is, or its own key."""
    if instrument.family is not None:
        return instrument.family
    own = words_of(instrument.name)
    for kind, words in WORDS.items():
        if own & set(words.split()):
            return kind
    return instrument.key


def fits(part: PartName, instrument: Instrument) -> bool:
    """Whether every note of the part lies on the instrument."""
    if part.lowest is None or part.highest is None:
        return False
    lowest, highest = instrument.ends(instrument.sounding)
    return lowest <= part.lowest and part.highest <= highest
