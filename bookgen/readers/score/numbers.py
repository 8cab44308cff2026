"""Numbers in the text of a score, within what music needs."""

import re
from fractions import Fraction
from typing import Final
from xml.etree.ElementTree import Element

from bookgen.model.pitch import LETTERS, SEMITONES_ABOVE_C

DECIMAL: Final = re.compile(r"[-+]?[0-9]{1,9}(\.[0-9]{1,9})?")
HIGHEST: Final = 127
"""MIDI 1.0, note numbers."""

DIGITS: Final = frozenset("0123456789")
MOST_DIVISIONS: Final = 1_000_000
LONGEST: Final = 256
"""Quarter notes of one note or one step in time, some hundred times a long bar."""


def inner(element: Element, name: str) -> str:
    """Text of the child of that name; nothing where there is none."""
    return element.findtext(name) or ""


def number(text: str, low: float, high: float) -> Fraction | None:
    """A decimal number between two bounds, or None."""
    stripped = text.strip()
    if DECIMAL.fullmatch(stripped) is None:
        return None
    value = Fraction(stripped)
    return value if low <= value <= high else None


def whole(text: str, low: int, high: int) -> int | None:
    """A whole number between two bounds, or None; 2.0 is one."""
    if text in DIGITS:
        return int(text) if low <= int(text) <= high else None
    value = number(text, low, high)
    return int(value) if value is not None and value.denominator == 1 else None


def quarters(element: Element, divisions: Fraction) -> Fraction | None:
    """The element's `duration` in quarter notes, or None where it has none that can be."""
    value = number(inner(element, "duration"), 0, float(LONGEST * MOST_DIVISIONS))
    if value is None or value > LONGEST * divisions:
        return None
    return value / divisions


def transposition(element: Element) -> tuple[int, int]:
    """Letters and semitones from the written to the sounding note, of a `transpose`.

    Letters that are missing, or that cannot go with the semitones, are the nearest.
    """
    octaves = whole(inner(element, "octave-change"), -4, 4) or 0
    semitones = whole(inner(element, "chromatic"), -48, 48) or 0
    letters = whole(inner(element, "diatonic"), -28, 28)
    if letters is None or abs(semitones - natural_semitones(letters)) > 1:
        letters = round(Fraction(semitones * 7, 12))
    return letters + 7 * octaves, semitones + 12 * octaves


def natural_semitones(letters: int) -> int:
    """Semitones of the major or perfect interval of that many letters up from C."""
    octaves, letter = divmod(letters, 7)
    return 12 * octaves + SEMITONES_ABOVE_C[LETTERS[letter]]


def midi_height(pitch: Element) -> float | None:
    """The MIDI number of a `pitch` as it stands, quarter tones too; None where it is none."""
    step = inner(pitch, "step").strip().upper()
    octave = whole(inner(pitch, "octave"), -1, 9)
    alter = alteration(pitch)
    if step not in SEMITONES_ABOVE_C or alter is None or octave is None:
        return None
    height = 12 * (octave + 1) + SEMITONES_ABOVE_C[step] + alter
    return height if 0 <= height <= HIGHEST else None


def alteration(pitch: Element) -> float | None:
    """Half steps by which a `pitch` is raised; 0 where it does not say, None where it is none."""
    text = inner(pitch, "alter")
    value = number(text, -4, 4) if text else Fraction(0)
    return None if value is None else float(value)
