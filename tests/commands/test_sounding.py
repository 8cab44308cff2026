"""Sheets and drills as files that sound, or that a notation program opens."""

from pathlib import Path

import mido
import pytest
from kit.shell import bookgen, refused
from music21 import converter, stream

from bookgen.studio.practice_log import open_log

DAY = ("sheet", "--player", "ines", "--date", "2026-12-01")


@pytest.fixture
def ines(here: Path) -> Path:
    """A studio with one player."""
    (here / "studio.toml").write_text("[players.Ines]\n", encoding="utf-8")
    return here


def test_a_sheet_sounds_and_is_the_days_plan(ines: Path) -> None:
    assert bookgen(*DAY, "--out", "day.mid", "--tempo", "90").out == "day.mid\n"
    file = mido.MidiFile(ines / "day.mid", charset="utf-8")
    told = [message for message in file.tracks[0] if message.is_meta]
    assert told[0].name == "Ines · Tuesday, 1 December 2026"
    [speed] = [message.tempo for message in told if message.type == "set_tempo"]
    assert mido.tempo2bpm(speed) == pytest.approx(90, abs=0.001)
    titles = [message.text for message in told if message.type == "marker"]
    assert titles[0].startswith("1 · 1 and 2, whole step, 1st position, ")

    with open_log(Path("practice-log.sqlite")) as log:
        assert len(log.records("Ines")) == len(titles)
    assert bookgen(*DAY, "--out", "day.musicxml").code == 0
    score = converter.parse(ines / "day.musicxml")
    assert isinstance(score, stream.Score)
    sounded = [number for message in file if message.type == "note_on"
               for number in [message.note] if message.velocity]  # fmt: skip
    written = [
        pitch.midi
        for note in score.recurse().notes
        for pitch in note.pitches
        if note.tie is None or note.tie.type == "start"
    ]
    assert sorted(written) == sorted(sounded)
    assert bookgen("drill", "1", "--player", "INES", "--out", "1.wav", "--tempo", "80").code == 0
    assert (ines / "1.wav").read_bytes().startswith(b"RIFF")


@pytest.mark.usefixtures("ines")
@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("--out day.pdf --tempo 90", "--tempo: day.pdf does not sound; leave it out, or let --out"),
        ("--tempo 90", "--tempo: ines-2026-12-01.pdf does not sound"),
        ("--out day.mid --tempo 3", "'3' is no tempo; give 20 to 300"),
        ("--out day.ogg", "--out day.ogg: the name ends in '.ogg'; let it end in .pdf or"),
    ],
)
def test_what_cannot_sound_is_told(words: str, told: str) -> None:
    assert told in refused(*DAY, *words.split())
    assert not list(Path().glob("*.sqlite"))
