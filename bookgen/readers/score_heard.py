"""A clean score through music21: what each voice plays, at concert pitch."""

import warnings
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final
from xml.etree.ElementTree import Element

from bookgen.errors import BookgenError, Finding
from bookgen.model.phrase import WrittenNote
from bookgen.model.units import StringNumber
from bookgen.readers.score_marks import HARMONIC
from bookgen.readers.score_spelling import writable
from bookgen.readers.score_voices import Timed

if TYPE_CHECKING:
    from music21 import note, stream
    from music21.articulations import Articulation

FAILURES: Final = (ArithmeticError, AttributeError, LookupError, TypeError, ValueError)
MEND: Final = "save it anew from the notation program, as MusicXML"


@dataclass(frozen=True, slots=True)
class Heard:
    """One bar.

    meter, sharps: as they hold in it.
    """

    voices: tuple[tuple[Timed, ...], ...]
    meter: tuple[int, int]
    sharps: int


def heard(score: Element, file: str) -> list[Heard]:
    """Every bar of a clean score of one part, transposed to concert pitch.

    file: the name under which the user knows it.

    Raises:
        BookgenError: music21 cannot read it after all.
    """
    from music21 import stream  # noqa: PLC0415  slow to import, seldom needed
    from music21.exceptions21 import Music21Exception  # noqa: PLC0415
    from music21.musicxml.xmlToM21 import MusicXMLImporter  # noqa: PLC0415

    try:
        with warnings.catch_warnings(action="ignore"):
            part = MusicXMLImporter().xmlRootToScore(score).parts[0]
            if not part.atSoundingPitch:
                part.toSoundingPitch(inPlace=True)
            return list(bars_of(part.getElementsByClass(stream.Measure)))
    except (Music21Exception, *FAILURES) as error:
        problem = f"music21 cannot read it ({type(error).__name__})"
        raise BookgenError(Finding(file, problem, MEND)) from error


def bars_of(measures: "Iterable[stream.Measure]") -> Iterator[Heard]:
    """The measures of music21; meter and key hold until they change."""
    meter, sharps = (4, 4), 0
    for measure in measures:
        time, key = measure.timeSignature, measure.keySignature
        meter = meter if time is None else (time.numerator, time.denominator)
        sharps = sharps if key is None else int(key.sharps or 0)
        found = [tuple(timed(one) for one in voice.notesAndRests) for voice in measure.voices]
        found.append(tuple(timed(one) for one in measure.notesAndRests))
        yield Heard(tuple(voice for voice in found if voice), meter, sharps)


def timed(element: "note.GeneralNote") -> Timed:
    """A note, chord or rest with its time in the bar."""
    return Timed(
        start=Fraction(element.offset) / 4,
        length=Fraction(element.duration.quarterLength) / 4,
        notes=tuple(written(element)),
    )


def written(element: "note.GeneralNote") -> Iterator[WrittenNote]:
    """The notes of a chord or of a single note, none of a rest."""
    marks = Given.by_place(element.articulations)
    for place, single in enumerate(singles(element)):
        tie = single.tie
        given = marks.get(place, Given())
        pitch = single.pitch
        yield WrittenNote(
            pitch=writable(pitch.step, round(pitch.alter), pitch.implicitOctave),
            finger=given.finger,
            string=given.string,
            tied=tie is not None and tie.type in {"stop", "continue"},
            harmonic=given.harmonic,
        )


def singles(element: "note.GeneralNote") -> "Sequence[note.Note]":
    """The notes that begin together."""
    from music21 import chord, note  # noqa: PLC0415  imported above already

    match element:
        case chord.Chord():
            return element.notes
        case note.Note():
            return (element,)
        case _:
            return ()


@dataclass(slots=True)
class Given:
    """Marks of one note as music21 hands them on."""

    finger: int | None = None
    string: StringNumber | None = None
    harmonic: bool = False

    @classmethod
    def by_place(cls, marks: "Iterable[Articulation]") -> "dict[int, Given]":
        """The marks of a chord by the place of their notes, which stands in their id."""
        from music21 import articulations  # noqa: PLC0415  imported above already

        found: dict[int, Given] = {}
        for mark in marks:
            given = found.setdefault(int(mark.id), cls())
            match mark:
                case articulations.StringIndication():
                    given.string = StringNumber(mark.number)
                case articulations.Fingering() if mark.fingerNumber == HARMONIC:
                    given.harmonic = True
                case articulations.Fingering():
                    given.finger = int(mark.fingerNumber)
                case _:
                    pass
        return found
