"""One sound of a typed passage: D4:8, A4=III2+F#5:4., ~G4, (C5), r, {D4!accent, E4]."""

import re
from fractions import Fraction
from typing import Final

from bookgen.errors import told
from bookgen.model.finger import fingers_in, sign_of
from bookgen.model.instrument import NUMERALS
from bookgen.model.phrase import MOST_NOTES, Sound, WrittenNote
from bookgen.model.pitch import Pitch
from bookgen.model.units import StringNumber
from bookgen.readers.score.findings import WordError
from bookgen.readers.score.text_marking import marked, parted
from bookgen.readers.shown import shown

REST: Final = "r"
TIE: Final = "~"
HARMONIC: Final = "o"
TOGETHER: Final = "+"
LONGEST: Final = 16
"""Whole notes of one sound."""

SHORTEST: Final = 1024
"""Parts of a whole note, in a length with dots or in the lower number of a fraction."""

LENGTH: Final = re.compile(r"(?P<part>[1-9][0-9]{0,3})(?P<dots>\.{0,3})")
FRACTION: Final = re.compile(r"(?P<top>[1-9][0-9]{0,4})/(?P<below>[1-9][0-9]{0,4})")
MARKS: Final = re.compile(r"(?P<string>VI|IV|V|I{1,3})?(?P<finger>[0-4t])?(?P<harmonic>o)?")
MOST_DOTS: Final = 3


def read_sound(token: str, at: Fraction, length: Fraction) -> Sound:
    """The sound that a word of the text says.

    at: in the bar; length: of the sound before, which goes on where the word names none.

    Raises:
        WordError: the word cannot be read.
    """
    token, marking = parted(token)
    if token.startswith("("):
        if not token.endswith(")"):
            mend = told("write a grace note as {note} or {chord}", note="(C5)", chord="(C5+E5)")
            raise WordError(told("{word} opens a bracket", word=shown(token)), mend)
        return Sound(at, Fraction(0), read_notes(token[1:-1]), grace=True, marking=marking)
    notes, colon, given = token.partition(":")
    lasts = read_length(given) if colon else length
    return Sound(at, lasts, () if notes == REST else read_notes(notes), marking=marking)


def read_notes(text: str) -> tuple[WrittenNote, ...]:
    """A note or a chord, from low to high.

    Raises:
        WordError: there are too many, or one of them is no note.
    """
    words = text.split(TOGETHER)
    if len(words) > MOST_NOTES:
        problem = told("{count} notes at once", count=len(words))
        raise WordError(problem, told("write at most {most}", most=MOST_NOTES))
    return tuple(sorted(map(read_note, words), key=lambda note: note.pitch.midi))


def read_note(word: str) -> WrittenNote:
    """A pitch with its tie and its marks.

    Raises:
        WordError: it is no pitch name, or the marks are none.
    """
    name, equals, given = word.removeprefix(TIE).partition("=")
    pitch = read_pitch(name)
    marks = MARKS.fullmatch(given)
    if marks is None or (equals and not given):
        mend = told("write string, finger and o, e.g. {examples}", examples="=III2, =IV, =o")
        raise WordError(told("{word} are no marks", word=shown(given)), mend)
    string, finger = marks["string"], marks["finger"]
    return WrittenNote(
        pitch=pitch,
        finger=None if finger is None else fingers_in(finger)[0],
        string=None if string is None else StringNumber(NUMERALS.index(string)),
        tied=word.startswith(TIE),
        harmonic=marks["harmonic"] is not None,
    )


def read_pitch(name: str) -> Pitch:
    """A pitch from its name.

    Raises:
        WordError: it is none.
    """
    try:
        return Pitch.parse(name[: LONGEST + 1])
    except ValueError as error:
        mend = told("write a letter, #, ##, b or bb, and an octave")
        raise WordError(told("{word} is no pitch name", word=shown(name)), mend) from error


def read_length(text: str) -> Fraction:
    """A length in whole notes.

    >>> str(read_length("8.")), str(read_length("1/12"))
    ('3/16', '1/12')

    Raises:
        WordError: it is no length, or one that no bar has.
    """
    found = LENGTH.fullmatch(text)
    fraction = FRACTION.fullmatch(text)
    value = Fraction(0)
    if found is not None and int(found["part"]) <= SHORTEST:
        dots = len(found["dots"])
        value = Fraction(2 ** (dots + 1) - 1, 2**dots) / int(found["part"])
    elif fraction is not None:
        value = Fraction(int(fraction["top"]), int(fraction["below"]))
    if not 0 < value <= LONGEST:
        mend = told("write 4 for a quarter, 8. with a dot, or 3/16")
        raise WordError(told("{word} is no length", word=shown(text)), mend)
    return value


def sound_text(sound: Sound, length: Fraction) -> str:
    """The word that `read_sound` reads back.

    length: of the sound before; the same length is not said again.
    """
    notes = TOGETHER.join(map(note_text, sound.notes)) or REST
    if sound.grace:
        return marked(f"({notes})", sound.marking)
    word = notes if sound.duration == length else f"{notes}:{length_text(sound.duration)}"
    return marked(word, sound.marking)


def note_text(note: WrittenNote) -> str:
    """A note with its marks."""
    tie = TIE if note.tied else ""
    string = "" if note.string is None else NUMERALS[note.string]
    finger = "" if note.finger is None else sign_of(note.finger)
    marks = f"{string}{finger}{HARMONIC if note.harmonic else ''}"
    return f"{tie}{note.pitch}{'=' if marks else ''}{marks}"


def length_text(length: Fraction) -> str:
    """A length as one writes it by hand, with dots where they say it."""
    for dots in range(MOST_DOTS):
        part = Fraction(2 ** (dots + 1) - 1, 2**dots) / length
        if part.denominator == 1 and part <= SHORTEST:
            return f"{part}{'.' * dots}"
    return f"{length.numerator}/{length.denominator}"
