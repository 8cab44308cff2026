"""What a MIDI file holds: who plays which note from when to when, meters and keys."""

from collections import deque
from dataclasses import dataclass, field
from fractions import Fraction
from io import BytesIO
from typing import TYPE_CHECKING, Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.readers.score.attributes import BEAT_TYPES, MOST_BEATS
from bookgen.readers.score.parts import PartName, cleaned
from bookgen.readers.score.spelling import key_signature

if TYPE_CHECKING:
    from mido import Message

MOST_BYTES: Final = 512 * 2**10

PERCUSSION: Final = 9
"""Channel 10, counted from 0 (General MIDI Level 1)."""

ONE_TIME: Final = (0, 1)
"""Kinds of file whose tracks run together (Standard MIDI Files 1.0)."""

MEND: Final = told("export it anew as MusicXML, or as a MIDI file of type 1")


@dataclass(frozen=True, slots=True)
class Ticks:
    """One note: its MIDI number, when it begins and ends in ticks of the file."""

    height: int
    start: int
    end: int


@dataclass(slots=True)
class MidiPart:
    """The notes of one channel in one track.

    sounding: begun and not ended, by height.
    """

    channel: int
    program: int | None = None
    played: list[Ticks] = field(default_factory=list)
    sounding: dict[int, deque[int]] = field(default_factory=dict)

    def begin(self, height: int, now: int) -> None:
        """A note begins."""
        self.sounding.setdefault(height, deque()).append(now)

    def end(self, height: int, now: int) -> None:
        """The oldest note of that height ends."""
        if self.sounding.get(height):
            self.played.append(Ticks(height, self.sounding[height].popleft(), now))

    def end_all(self, now: int) -> None:
        """What was never ended ends with the track."""
        for height, starts in self.sounding.items():
            self.played += (Ticks(height, start, now) for start in starts)
        self.sounding = {}


@dataclass(slots=True)
class MidiFile:
    """A file.

    ticks: to the quarter note.
    parts: with their names, in the order of tracks and channels.
    meters, keys: by the time from which they hold, in quarter notes.
    """

    ticks: int
    title: str = ""
    parts: list[tuple[PartName, MidiPart]] = field(default_factory=list)
    meters: dict[Fraction, tuple[int, int]] = field(default_factory=dict)
    keys: dict[Fraction, int] = field(default_factory=dict)

    def take(self, message: "Message", tick: int) -> None:
        """Take over what a message says of the whole piece."""
        now = Fraction(tick, self.ticks)
        if message.type == "time_signature":
            if 0 < message.numerator <= MOST_BEATS and message.denominator in BEAT_TYPES:
                self.meters[now] = message.numerator, message.denominator
        elif message.type == "key_signature":
            tonic = message.key.removesuffix("m")
            self.keys[now] = key_signature(tonic, minor=tonic != message.key)


def midi_file(data: bytes, file: str) -> MidiFile:
    """Read the messages of a file.

    file: the name under which the user knows it.

    Raises:
        BookgenError: it is no MIDI file, is damaged, or counts time in frames of film.
    """
    from mido import MidiFile as MidoFile  # noqa: PLC0415  seldom needed
    from mido.midifiles.meta import KeySignatureError  # noqa: PLC0415

    errors = (OSError, EOFError, ValueError, LookupError, TypeError, KeySignatureError)
    try:
        messages = MidoFile(file=BytesIO(data), clip=True)
    except errors as error:
        raise BookgenError(Finding(file, told("this is no sound MIDI file"), MEND)) from error
    if messages.type not in ONE_TIME or messages.ticks_per_beat <= 0:
        problem = told("this kind of MIDI file has no common bars")
        raise BookgenError(Finding(file, problem, MEND))
    result = MidiFile(messages.ticks_per_beat)
    for track in messages.tracks:
        parts = track_parts(track, result)
        name = cleaned(track.name)
        for part in parts:
            part_name = name or f"MIDI {part.channel + 1}"
            if len(parts) > 1 and name:
                part_name = f"{name}/{part.channel + 1}"
            heights = [played.height for played in part.played]
            named = PartName(part_name, part.program, min(heights), max(heights))
            result.parts.append((named, part))
        result.title = result.title or ("" if parts else name)
    return result


def track_parts(track: "list[Message]", result: MidiFile) -> list[MidiPart]:
    """The channels of a track that play, without percussion.

    result: takes what the track says of the whole piece.
    """
    parts: dict[int, MidiPart] = {}
    tick = 0
    for message in track:
        tick += message.time
        if message.is_meta:
            result.take(message, tick)
        channel = getattr(message, "channel", PERCUSSION)
        if channel == PERCUSSION:
            continue
        part = parts.setdefault(channel, MidiPart(channel))
        match message.type:
            case "note_on" if message.velocity:
                part.begin(message.note, tick)
            case "note_on" | "note_off":
                part.end(message.note, tick)
            case "program_change" if part.program is None:
                part.program = message.program + 1
            case _:
                pass
    for part in parts.values():
        part.end_all(tick)
    return [parts[channel] for channel in sorted(parts) if parts[channel].played]
