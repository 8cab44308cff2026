"""A planned drill as MusicXML, for notation programs: each note once, as long as it sounds."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING, Final
from xml.etree.ElementTree import Element, indent, tostring

from bookgen.model.event import Begins, Event
from bookgen.model.instrument import Instrument
from bookgen.model.stop import Note
from bookgen.notation.clef import clef_name
from bookgen.notation.label import groups
from bookgen.plan.document import PlannedDrill

if TYPE_CHECKING:
    from music21 import instrument as music21_instrument
    from music21 import metadata, note, stream

CLEFS: Final = {"treble": "treble", "alto": "alto", "tenor": "tenor", "bass": "bass"}
"""music21's names of our clefs."""

BAR_LINES: Final = {Begins.GROUP: "short", Begins.TURN: "double"}
"""MusicXML's names of the bar lines before what opens; the last one is `final`."""

DOCTYPE: Final = (
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN"'
    ' "http://www.musicxml.org/dtds/partwise.dtd">'
)


@dataclass(frozen=True, slots=True)
class Sound:
    """A note from its beginning to its end; what is held is one sound.

    start, length: parts of a whole note; start counts from the beginning of the bar.
    """

    note: Note
    start: Fraction
    length: Fraction

    @property
    def end(self) -> Fraction:
        """When the note is over."""
        return self.start + self.length


def sounds(events: Sequence[Event]) -> list[Sound]:
    """The sounds of one bar in the order in which they begin, higher strings first."""
    found: list[Sound] = []
    now = Fraction(0)
    for event in events:
        for note in sorted(event.notes, key=lambda note: note.stop.string):
            if not note.held:
                found.append(Sound(note, now, event.duration))
                continue
            last = max(i for i, sound in enumerate(found) if sound.note.stop == note.stop)
            found[last] = replace(found[last], length=found[last].length + event.duration)
        now += event.duration
    return found


def in_voices(sounds: Sequence[Sound]) -> list[list[Sound]]:
    """Share sounds among voices: each goes to the first voice that is free."""
    voices: list[list[Sound]] = []
    for sound in sounds:
        for voice in voices:
            if voice[-1].end <= sound.start:
                voice.append(sound)
                break
        else:
            voices.append([sound])
    return voices


def gaps(voice: Sequence[Sound], end: Fraction) -> Iterator[tuple[Fraction, Fraction]]:
    """Where a voice is silent: starts and lengths."""
    now = Fraction(0)
    for sound in voice:
        if sound.start > now:
            yield now, sound.start - now
        now = sound.end
    if end > now:
        yield now, end - now


def musicxml_of(planned: PlannedDrill, instrument: Instrument) -> str:
    """One drill as MusicXML text.

    Notes carry `fingering` and `string` (1 is the highest), as MusicXML 4.0 has them. Held
    notes are written out in a second voice. Time signatures are there for the program's sake
    and are not printed; programs that draw an 8va sign add it themselves.
    """
    from music21 import clef, stream  # noqa: PLC0415  slow to import, seldom needed
    from music21.musicxml.m21ToXml import ScoreExporter  # noqa: PLC0415

    part = stream.Part()
    layings = groups(planned.events)
    for number, events in enumerate(layings, start=1):
        after = layings[number][0].begins if number < len(layings) else Begins.NOTHING
        part.append(measure(events, number, BAR_LINES.get(after, "final")))
    part.getElementsByClass(stream.Measure)[0].insert(
        0, clef.clefFromString(CLEFS[clef_name(planned, instrument)])
    )
    part.insert(0, as_written(instrument))
    score = stream.Score([part])
    score.metadata = titled(planned)
    return without_clock(ScoreExporter(score).parse())


def measure(events: Sequence[Event], number: int, bar_line: str) -> "stream.Measure":
    """One bar: its notes, in two voices where two strings sound together."""
    from music21 import bar, meter, stream  # noqa: PLC0415

    length = sum((event.duration for event in events), Fraction(0))
    result = stream.Measure(number=number)
    time = meter.TimeSignature(f"{int(length * 4)}/4")
    time.style.hideObjectOnPrint = True
    result.insert(0, time)
    voices = in_voices(sounds(events))
    for index, voice in enumerate(voices, start=1):
        target = stream.Voice(id=str(index)) if len(voices) > 1 else result
        for sound in voice:
            target.insert(quarters(sound.start), written(sound))
        for start, silence in gaps(voice, length):
            target.insert(quarters(start), hidden_rest(silence))
        if target is not result:
            result.insert(0, target)
    result.rightBarline = bar.Barline(bar_line)
    return result


def quarters(part: Fraction) -> float:
    """Parts of a whole note as music21 counts time."""
    return float(4 * part)


def written(sound: Sound) -> "note.Note":
    """A note with its finger and its string."""
    from music21 import articulations, note  # noqa: PLC0415

    pitch = sound.note.pitch
    name = f"{pitch.name.replace('b', '-')}{pitch.octave}"
    result = note.Note(name, quarterLength=quarters(sound.length))
    result.articulations = [
        articulations.Fingering(sound.note.stop.finger),
        articulations.StringIndication(sound.note.stop.string),
    ]
    return result


def hidden_rest(length: Fraction) -> "note.Rest":
    """Room where a voice is silent."""
    from music21 import note  # noqa: PLC0415

    rest = note.Rest(quarterLength=quarters(length))
    rest.style.hideObjectOnPrint = True
    return rest


def as_written(instrument: Instrument) -> "music21_instrument.Instrument":
    """The instrument's name, and how far from the written note it sounds."""
    from music21 import instrument as music21_instrument  # noqa: PLC0415
    from music21 import interval  # noqa: PLC0415

    result = music21_instrument.Instrument(instrument.name)
    result.partName = instrument.name
    result.partId, result.instrumentId = "P1", "P1-I1"
    if instrument.sounding:
        result.transposition = interval.Interval(instrument.sounding)
    return result


def titled(planned: PlannedDrill) -> "metadata.Metadata":
    """The drill's key as the title."""
    from music21 import metadata  # noqa: PLC0415

    return metadata.Metadata(title=planned.drill.key)


def without_clock(root: Element) -> str:
    """The text of a score without the day it was written on, and without an author.

    The same drill gives the same text, and a drill has no composer.
    """
    for parent in list(root.iter()):
        for child in parent.findall("encoding-date") + parent.findall("creator"):
            parent.remove(child)
    indent(root)
    declaration = '<?xml version="1.0" encoding="UTF-8"?>'
    return f"{declaration}\n{DOCTYPE}\n{tostring(root, encoding='unicode')}\n"
