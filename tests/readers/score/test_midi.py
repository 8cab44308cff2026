"""MIDI files: heights and times become notes with names, the poorer second."""

from fractions import Fraction
from io import BytesIO

import pytest
from kit.scores import shown, wanted
from kit.shorthand import specimen
from mido import Message, MetaMessage, MidiFile, MidiTrack

from bookgen.errors import BookgenError
from bookgen.readers.score.midi import midi_passage
from bookgen.readers.score.passage import PassageFile, Wanted
from bookgen.readers.score.text_sound import read_sound

QUARTER = 480


def track(words: str, name: str = "", channel: int = 0, *before: MetaMessage) -> MidiTrack:
    """A track that plays the words of a typed passage."""
    result = MidiTrack([MetaMessage("track_name", name=name), *before])
    length, wait = Fraction(1, 4), 0
    for word in words.split():
        sound = read_sound(word, Fraction(0), length)
        length = sound.duration
        for note in sound.notes:
            midi = note.pitch.midi
            result.append(Message("note_on", note=midi, velocity=80, channel=channel, time=wait))
            wait = 0
        wait += int(length * 4 * QUARTER)
        for note in sound.notes:
            result.append(Message("note_off", note=note.pitch.midi, channel=channel, time=wait))
            wait = 0
    return result


def midi(*tracks: MidiTrack) -> bytes:
    file = MidiFile(ticks_per_beat=QUARTER)
    file.tracks.extend(tracks)
    stream = BytesIO()
    file.save(file=stream)
    return stream.getvalue()


def read(data: bytes, part: str | None = None, bars: tuple[str, str] | None = None) -> PassageFile:
    return midi_passage(data, wanted(part, bars, "song.mid"))


METER = MetaMessage("time_signature", numerator=3, denominator=4)
FLATS = MetaMessage("key_signature", key="Eb")


def test_notes_chords_rests_and_bars() -> None:
    found = read(midi(track("D4:4 r D4+B4:8 E4 F4:12 G4 A4", "Violin")))

    assert shown(found) == ["D4 r D4+B4:8 E4 F4:12 G4 A4 |"]
    assert found.title == "song"
    assert found.part == "Violin"
    assert found.findings == ()


def test_a_note_over_the_bar_line_is_tied() -> None:
    found = read(midi(track("D4:2. E4:1 F4:4", "", 0, METER)))

    assert shown(found) == ["D4:2. |", "E4 |", "~E4:4 F4 r |"]
    assert found.phrase.bars[0].meter == (3, 4)


def test_a_new_meter_begins_a_new_bar() -> None:
    data = midi(
        MidiTrack([METER, MetaMessage("time_signature", numerator=2, time=QUARTER * 3)]),
        track("D4:2. E4:2 F4:2"),
    )

    assert [one.meter for one in read(data).phrase.bars] == [(3, 4), (2, 4), None]


def test_the_key_of_the_file_gives_the_names() -> None:
    assert shown(read(midi(track("C#5:4 D#5 G#4 A#4", "", 0, FLATS)))) == ["Db5 Eb5 Ab4 Bb4 |"]
    assert read(midi(track("C#5:4", "", 0, FLATS))).phrase.bars[0].sharps == -3


@pytest.mark.parametrize(
    ("words", "names", "sharps"),
    [
        ("D4:8 E4 Gb4 G4 A4 B4 Db5 D5", "D4:8 E4 F#4 G4 A4 B4 C#5 D5", 2),
        ("A#3:8 C4 D4 D#4 F4 G4 A4 A#4", "Bb3:8 C4 D4 Eb4 F4 G4 A4 Bb4", -2),
        ("C4:8 D4 E4 F4 G4 A4 B4 C5", "C4:8 D4 E4 F4 G4 A4 B4 C5", 0),
    ],
)
def test_without_a_key_the_names_need_the_least_accidentals(
    words: str, names: str, sharps: int
) -> None:
    found = read(midi(track(words)))

    assert shown(found) == [f"{names} |"]
    assert found.phrase.bars[0].sharps == sharps


@pytest.mark.parametrize("percent", [65, 75, 90, 99, 101, 105])
def test_played_short_or_over_each_other_is_written_from_note_to_note(percent: int) -> None:
    """Repeated eighths as a player or a program holds them."""
    messages = []
    for index, note in enumerate((62, 64, 66, 67)):
        start = index * 240
        messages += [(start, "note_on", note), (start + 240 * percent // 100, "note_off", note)]
    now, result = 0, MidiTrack()
    for tick, kind, note in sorted(messages):
        result.append(Message(kind, note=note, velocity=80, time=tick - now))
        now = tick

    assert shown(read(midi(result)))[0].startswith("D4:8 E4 F#4 G4")


@pytest.mark.parametrize("late", [-9, -4, 4, 9])
def test_times_a_little_off_are_put_right(late: int) -> None:
    result = MidiTrack()
    wait = 20 + late
    for note in (62, 64, 65):
        result.append(Message("note_on", note=note, velocity=80, time=max(wait - 20, 0)))
        result.append(Message("note_off", note=note, time=QUARTER - 1))
        wait = 21

    assert shown(read(midi(result))) == ["D4 E4 F4 r |"]


def test_a_held_note_goes_on_under_the_others() -> None:
    held = MidiTrack([
        Message("note_on", note=55, velocity=80),
        Message("note_on", note=71, velocity=80),
        Message("note_off", note=71, time=QUARTER),
        Message("note_on", note=72, velocity=80),
        Message("note_off", note=72, time=QUARTER),
        Message("note_off", note=55),
    ])  # fmt: skip

    found = read(midi(held))

    assert shown(found) == ["G3+B4 ~G3+C5 r:2 |"]
    assert "the longer note held" in str(found.findings[0])


def test_tracks_are_parts_and_so_are_channels() -> None:
    quartet = midi(track("D5:1", "Violin I"), track("A4:1", "Violin II"), track("D4:1", "Viola", 2))
    both = track("D5:1", "Strings")
    both += track("C2:1", "", 1)[1:]

    assert read(quartet, "violin ii").part == "Violin II"
    assert midi_passage(quartet, Wanted("song.mid", "song", specimen("cello"), "3")).part == "Viola"
    assert read(midi(both)).part == "Strings/1"  # the other one lies too low
    with pytest.raises(BookgenError, match="1 Violin I, 2 Violin II; choose one with --part"):
        read(quartet)


def test_a_nameless_track_is_known_by_its_program() -> None:
    low, high = track("D5:1"), track("A5:1")
    low.insert(0, Message("program_change", program=41))
    high.insert(0, Message("program_change", program=40))

    assert shown(read(midi(low, high))) == ["A5:1 |"]


def test_percussion_is_no_part() -> None:
    assert read(midi(track("D5:1", "Drums", 9), track("A4:1", "Violin"))).part == "Violin"


def test_bars_count_from_one() -> None:
    found = read(midi(track("D4:1 E4:1 F4:1")), bars=("2", "3"))

    assert shown(found) == ["E4:1 |", "F4 |"]
    assert [bar.number for bar in found.phrase.bars] == ["2", "3"]


def test_a_bass_reads_an_octave_higher() -> None:
    asked = Wanted("song.mid", "song", specimen("double_bass"))

    assert shown(midi_passage(midi(track("E1:1")), asked)) == ["E2:1 |"]


def test_too_many_notes_are_refused() -> None:
    with pytest.raises(BookgenError, match="more than 10000 notes"):
        read(midi(track("D4:64 " * 10_001)))


def test_notes_held_over_thousands_of_bars_are_refused() -> None:
    tiny = MetaMessage("time_signature", numerator=1, denominator=128)
    begun = [Message("note_on", note=note, velocity=9) for note in range(20, 90)]
    crowd = MidiTrack([tiny, *begun])
    crowd.append(Message("note_off", note=20, time=QUARTER * 64))

    with pytest.raises(BookgenError, match="held over thousands of bars"):
        read(midi(crowd))
