"""What holds from one bar of a score to the next: divisions, key, meter and transposition."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import zip_longest
from typing import Final
from xml.etree.ElementTree import Element

from bookgen.errors import told
from bookgen.readers.score.findings import Problem
from bookgen.readers.score.numbers import MOST_DIVISIONS, inner, number, transposition, whole
from bookgen.readers.shown import shown

MOST_BEATS: Final = 64
BEAT_TYPES: Final = (1, 2, 4, 8, 16, 32, 64, 128)
MOST_SIGNS: Final = 7
BEATS: Final = re.compile(r"[0-9]{1,2}(\s*\+\s*[0-9]{1,2}){0,5}")


@dataclass(slots=True)
class Attributes:
    """The state of one staff.

    divisions: of a quarter note, in which the file counts durations.
    meter, sharps: None until the file says them; flats are negative.
    letters, semitones: from the written to the sounding note; transposes: the file says so.
    """

    staff: int
    divisions: Fraction = Fraction(1)
    meter: tuple[int, int] | None = None
    sharps: int | None = None
    letters: int = 0
    semitones: int = 0
    transposes: bool = False

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
            problem = told(
                "{word} are no divisions of a quarter note; those before are kept", word=shown(text)
            )
            yield problem, told("write 1 to {most}", most=MOST_DIVISIONS)

    def read_key(self, key: Element) -> Iterator[Problem]:
        """The key signature; one that is not on the circle of fifths is left out."""
        sharps = whole(inner(key, "fifths"), -MOST_SIGNS, MOST_SIGNS)
        if sharps is None:
            problem = told("this key signature is left out")
            yield problem, told("write one of up to seven sharps or flats")
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
            problem = told("this meter is left out")
            yield problem, told("write one of 1 to {most} beats", most=MOST_BEATS)
        else:
            self.meter = beats, beat


def meter_of(beats: str, beat: str) -> tuple[int, int] | None:
    """One meter of a `time`, e.g. 3+2 and 8, or None where it is none."""
    below = whole(beat, 1, BEAT_TYPES[-1])
    if BEATS.fullmatch(beats.strip()) is None or below not in BEAT_TYPES:
        return None
    count = sum(int(part) for part in beats.split("+"))
    return (count, below) if 0 < count <= MOST_BEATS else None
