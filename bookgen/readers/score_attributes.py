"""What holds from one bar of a score to the next: divisions, key, meter and transposition."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import zip_longest
from typing import Final
from xml.etree.ElementTree import Element, SubElement

from bookgen.readers.score_numbers import MOST_DIVISIONS, inner, number, transposition, whole
from bookgen.readers.studio_tables import shown

MOST_BEATS: Final = 64
BEAT_TYPES: Final = (1, 2, 4, 8, 16, 32, 64, 128)
MOST_SIGNS: Final = 7
BEATS: Final = re.compile(r"[0-9]{1,2}(\s*\+\s*[0-9]{1,2}){0,5}")

Problem = tuple[str, str]
"""What is wrong, and what mends it."""


@dataclass(slots=True)
class Attributes:
    """The state of one staff.

    divisions: of a quarter note, in which the file counts durations.
    meter, sharps: None until the file says them; flats are negative.
    letters, semitones: from the written to the sounding note; transposes: the file says so.
    written: key and meter as they were written last.
    """

    staff: int
    divisions: Fraction = Fraction(1)
    meter: tuple[int, int] | None = None
    sharps: int | None = None
    letters: int = 0
    semitones: int = 0
    transposes: bool = False
    written: tuple[int | None, tuple[int, int] | None] | None = None

    @property
    def bar(self) -> Fraction:
        """How long a bar is, in quarter notes."""
        beats, beat = self.meter or (4, 4)
        return Fraction(4 * beats, beat)

    def read(self, given: Element) -> Iterator[Problem]:
        """Take over what an `attributes` element changes, and tell what it cannot."""
        for child in given:
            if whole(child.get("number", ""), 1, 99) not in {None, self.staff}:
                continue
            match child.tag:
                case "divisions":
                    yield from self.read_divisions(child.text or "")
                case "key":
                    yield from self.read_key(child)
                case "time":
                    yield from self.read_meter(child)
                case "transpose":
                    self.letters, self.semitones = transposition(child)
                    self.transposes = True
                case _:
                    pass

    def read_divisions(self, text: str) -> Iterator[Problem]:
        """How the file counts durations from here on."""
        value = number(text, 0, MOST_DIVISIONS)
        if value:
            self.divisions = value
        else:
            problem = f"{shown(text)} are no divisions of a quarter note; those before are kept"
            yield problem, f"write 1 to {MOST_DIVISIONS:,}"

    def read_key(self, key: Element) -> Iterator[Problem]:
        """The key signature; one that is not on the circle of fifths is left out."""
        sharps = whole(inner(key, "fifths"), -MOST_SIGNS, MOST_SIGNS)
        if sharps is None:
            yield "this key signature is left out", "write one of up to seven sharps or flats"
        else:
            self.sharps = sharps

    def read_meter(self, time: Element) -> Iterator[Problem]:
        """The meter; several added together become one, one without beats is left out."""
        pairs = zip_longest(
            (beats.text or "" for beats in time.iterfind("beats")),
            (beat.text or "" for beat in time.iterfind("beat-type")),
            fillvalue="",
        )
        found = [meter_of(*pair) for pair in pairs]
        sound = [meter for meter in found if meter is not None]
        beat = max((beat for _, beat in sound), default=0)
        beats = sum(beats * beat // below for beats, below in sound)
        if not sound or len(sound) < len(found) or beats > MOST_BEATS:
            yield "this meter is left out", f"write one of 1 to {MOST_BEATS} beats"
        else:
            self.meter = beats, beat

    def element(self, *, begins: bool) -> Element:
        """The state as an `attributes` element.

        begins: at the beginning of a bar, where key and meter may change; they are written
            where they have, since music21 takes its time over each.
        """
        result = Element("attributes")
        SubElement(result, "divisions").text = decimal(self.divisions)
        if begins and self.written != (self.sharps, self.meter):
            self.written = self.sharps, self.meter
            SubElement(SubElement(result, "key"), "fifths").text = str(self.sharps or 0)
            beats, beat = self.meter or (4, 4)
            time = SubElement(result, "time")
            SubElement(time, "beats").text = str(beats)
            SubElement(time, "beat-type").text = str(beat)
        if self.transposes:
            transpose = SubElement(result, "transpose")
            SubElement(transpose, "diatonic").text = str(self.letters)
            SubElement(transpose, "chromatic").text = str(self.semitones)
        return result


def meter_of(beats: str, beat: str) -> tuple[int, int] | None:
    """One meter of a `time`, e.g. 3+2 and 8, or None where it is none."""
    below = whole(beat, 1, BEAT_TYPES[-1])
    if BEATS.fullmatch(beats.strip()) is None or below not in BEAT_TYPES:
        return None
    count = sum(int(part) for part in beats.split("+"))
    return (count, below) if 0 < count <= MOST_BEATS else None


def decimal(value: Fraction) -> str:
    """A number as a score writes it."""
    return str(value.numerator) if value.denominator == 1 else f"{float(value):.9f}"
