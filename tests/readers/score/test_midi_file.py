"""What a MIDI file holds, from its messages."""

from fractions import Fraction
from io import BytesIO

import mido
import pytest
from mido import Message, MetaMessage

from bookgen.errors import BookgenError
from bookgen.readers.score.midi_file import MidiFile, Ticks, midi_file


def read(*messages: Message | MetaMessage, kind: int = 1) -> MidiFile:
    file = mido.MidiFile(type=kind, ticks_per_beat=96)
    file.tracks.append(mido.MidiTrack(messages))
    stream = BytesIO()
    file.save(file=stream)
    return midi_file(stream.getvalue(), "song.mid")


def on(note: int, time: int = 0, channel: int = 0, velocity: int = 64) -> Message:
    return Message("note_on", note=note, time=time, channel=channel, velocity=velocity)


def off(note: int, time: int = 0) -> Message:
    return Message("note_off", note=note, time=time)


def test_notes_begin_and_end() -> None:
    found = read(on(62), off(62, 96), on(64), on(64, 48, velocity=0))

    (_, part), = found.parts  # fmt: skip
    assert part.played == [Ticks(62, 0, 96), Ticks(64, 96, 144)]
    assert found.ticks == 96


def test_the_oldest_note_of_a_height_ends_first() -> None:
    found = read(on(62), on(62, 10), off(62, 10), off(62, 10))

    assert found.parts[0][1].played == [Ticks(62, 0, 20), Ticks(62, 10, 30)]


def test_what_never_ends_ends_with_the_track() -> None:
    found = read(on(62), on(64, 96), off(64, 96), off(65))

    assert set(found.parts[0][1].played) == {Ticks(62, 0, 192), Ticks(64, 96, 192)}


def test_meters_and_keys_with_their_times() -> None:
    found = read(
        MetaMessage("time_signature", numerator=3, denominator=8),
        MetaMessage("key_signature", key="F#m", time=48),
        MetaMessage("key_signature", key="Cb", time=48),
        on(62),
    )

    assert found.meters == {Fraction(0): (3, 8)}
    assert found.keys == {Fraction(1, 2): 3, Fraction(1): -7}


@pytest.mark.parametrize(("numerator", "denominator"), [(0, 4), (65, 4), (4, 2**16)])
def test_a_meter_that_cannot_be_is_none(numerator: int, denominator: int) -> None:
    meter = MetaMessage("time_signature", numerator=numerator, denominator=denominator)

    assert read(meter, on(62)).meters == {}


def test_a_track_of_several_channels_is_several_parts() -> None:
    name = MetaMessage("track_name", name=" Strings\n")
    found = read(name, on(62), on(48, channel=2), on(36, channel=9))

    assert [part.name for part, _ in found.parts] == ["Strings/1", "Strings/3"]
    assert [part.lowest for part, _ in found.parts] == [62, 48]
    assert read(on(62, channel=4)).parts[0][0].name == "MIDI 5"


def test_a_track_without_notes_names_the_piece() -> None:
    assert read(MetaMessage("track_name", name="Air")).title == "Air"
    assert read(MetaMessage("track_name", name="Air"), on(62)).title == ""


@pytest.mark.parametrize("data", [b"", b"MThd", b"MThd\0\0\0\6\0\0\0\1\1", b"x" * 400])
def test_what_is_no_midi_file(data: bytes) -> None:
    with pytest.raises(BookgenError, match="this is no sound MIDI file"):
        midi_file(data, "song.mid")
