"""Charts and music in words, for those who hear a page: strings, fingers and notes in order."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from bookgen.model.event import Event
from bookgen.model.instrument import NUMERALS
from bookgen.model.phrase import Phrase
from bookgen.model.stop import Note
from bookgen.model.units import StringNumber
from bookgen.plan.document import Gauge
from bookgen.plan.passage import Fingering
from bookgen.plan.passage_facts import notes_at
from bookgen.words.names import finger_name
from bookgen.words.passage import where_name
from bookgen.words.speech import Speech

Sound = tuple[Note, ...]
"""What sounds at one moment."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A finger on a chart.

    away_mm: from the nut; order: the number of its note, or None where no order is shown.
    shifted: played after the hand has shifted.
    """

    string: StringNumber
    finger: int
    away_mm: float
    order: int | None = None
    shifted: bool = False


def chart_words(spots: Sequence[Spot], drill: str, speech: Speech) -> str:
    """A fingerboard chart, from the lowest string up.

    drill: as the outline names it, or nothing.
    """
    shown = sorted(spots, key=lambda spot: (-spot.string, spot.shifted, spot.away_mm))
    strings = speech.apart(
        on_string(string, [spot_words(spot, speech) for spot in own], speech)
        for string, own in groupby(shown, key=lambda spot: spot.string)
    )
    if not drill:
        return speech.say("Fingerboard: {strings}.", strings=strings)
    return speech.say("Fingerboard, {drill}: {strings}.", drill=drill, strings=strings)


def spot_words(spot: Spot, speech: Speech) -> str:
    """A finger with its distance from the nut, and when it is played."""
    finger = finger_words(spot.finger, speech)
    away = f"{spot.away_mm:.0f}"
    if spot.order is None:
        return speech.say("{finger} at {millimetres} mm", finger=finger, millimetres=away)
    if spot.shifted:
        return speech.say(
            "{finger} at {millimetres} mm (note {order}, after the shift)",
            finger=finger,
            millimetres=away,
            order=spot.order,
        )
    return speech.say(
        "{finger} at {millimetres} mm (note {order})",
        finger=finger,
        millimetres=away,
        order=spot.order,
    )


def map_words(gauges: Sequence[Gauge], speech: Speech) -> str:
    """A map of the fingerboard: at each place how many moves are secure, from the lowest string."""
    shown = sorted(gauges, key=lambda gauge: (-gauge.string, gauge.semitones))
    strings = speech.apart(
        on_string(StringNumber(string), [gauge_words(one, speech) for one in own], speech)
        for string, own in groupby(shown, key=lambda gauge: gauge.string)
    )
    return speech.say("Fingerboard, half steps from the nut: {strings}.", strings=strings)


def gauge_words(gauge: Gauge, speech: Speech) -> str:
    """A place, and how many of its moves are secure."""
    return speech.say(
        "{place}: {secure} of {number} secure",
        place=gauge.semitones,
        secure=gauge.secure,
        number=gauge.secure + gauge.practised + gauge.new,
    )


def finger_words(finger: int, speech: Speech) -> str:
    """A finger, or the open string."""
    if not finger:
        return speech.say_in("a note", "open")
    return finger_name(finger, speech)


def on_string(string: StringNumber, said: Iterable[str], speech: Speech) -> str:
    """What stands on one string or sounds there, one after the other."""
    notes = ", ".join(said)
    return speech.say("string {string}: {notes}", string=NUMERALS[string], notes=notes)


def music_words(
    events: Sequence[Event], turn: int, drill: str, speech: Speech, *, mirrored: bool
) -> str:
    """Engraved music.

    turn: the event with which the way back begins; drill: as the outline names it.
    mirrored: only the way up is written, and the way back is the same from its end.
    """
    notes = [event.notes for event in events]
    up, back = (way_words(way, speech) for way in (notes[:turn], notes[turn:]))
    if mirrored:
        return speech.say("Notes, {drill}: {notes}; back the same way.", drill=drill, notes=up)
    if not back:
        return speech.say("Notes, {drill}: {notes}.", drill=drill, notes=up)
    return speech.say("Notes, {drill}: {notes}. Back: {back}.", drill=drill, notes=up, back=back)


def way_words(sounds: Sequence[Sound], speech: Speech) -> str:
    """What sounds, one after the other: single notes by their strings, several together as such."""
    parts: list[str] = []
    for string, own in groupby(sounds, key=string_alone):
        if string is None:
            parts += [chord_words(sound, speech) for sound in own]
        else:
            parts.append(on_string(string, [note_words(note, speech) for (note,) in own], speech))
    return speech.apart(parts)


def string_alone(sound: Sound) -> StringNumber | None:
    """The string of a single note; None where several sound together."""
    return sound[0].stop.string if len(sound) == 1 else None


def chord_words(sound: Sound, speech: Speech) -> str:
    """Notes that sound together."""
    found, *others = (
        on_string(note.stop.string, [note_words(note, speech)], speech) for note in sound
    )
    for other in others:
        found = speech.say("{one} with {other}", one=found, other=other)
    return found


def bars_words(
    fingering: Fingering, phrase: Phrase, first: int, last: int, piece: str, speech: Speech
) -> str:
    """Some sounds of a piece, bar by bar; what cannot be played is left out.

    first, last: sounds of the fingering, both included; piece: what they are.
    """
    bars: list[str] = []
    for bar, own in groupby(fingering.placed[first : last + 1], key=lambda placed: placed.bar):
        sounds = [*filter(None, (notes_at(placed, phrase) for placed in own))]
        name = where_name([phrase.bars[bar].number], speech)
        notes = way_words(sounds, speech)
        bars.append(speech.say("{bar}, {notes}", bar=name, notes=notes) if name else notes)
    return speech.say("Notes, {drill}: {notes}.", drill=piece, notes=speech.apart(bars))


def note_words(note: Note, speech: Speech) -> str:
    """A note with its finger; of a held one that it is held."""
    finger = finger_words(note.stop.finger, speech)
    if note.held:
        return speech.say("{finger} {note} held", finger=finger, note=note.pitch)
    return speech.say("{finger} {note}", finger=finger, note=note.pitch)
