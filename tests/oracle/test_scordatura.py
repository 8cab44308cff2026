"""Strings tuned otherwise: drills note by note beside what was worked out apart, and every page."""

import json
from itertools import pairwise
from pathlib import Path

import mido
import pypdfium2
import pytest
from kit.shell import bookgen, refused
from kit.sources import published_words
from music21 import converter, pitch
from music21.articulations import StringIndication

from bookgen.model.drill import Drill
from bookgen.model.interval import Interval, interval_label
from bookgen.model.music import play
from bookgen.model.pitch import Pitch
from bookgen.readers.instrument import parse_instrument, read_instrument
from bookgen.readers.own_instrument import instrument_at
from bookgen.words.speech import speech_of
from bookgen.words.tuning import tuning_line

TUNINGS = published_words("scordatura", "tunings")
WORKED = published_words("scordatura", "low_lead")
SUITE = "cello G3 D3 G2 C2"
STUDIO = """
[players.Theo]
instrument = "cello"
scordatura = ["G3", "D3", "G2", "C2"]
"""


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def done(*words: str) -> str:
    outcome = bookgen(*words)
    assert outcome.code == 0, outcome.err
    return outcome.out


def words_on(file: str) -> list[str]:
    """The words of each page."""
    return [
        " ".join(page.get_textpage().get_text_bounded().split())
        for page in pypdfium2.PdfDocument(file)
    ]


def semitones(labels: list[str]) -> list[int]:
    return [Interval.parse(label).semitones for label in labels]


@pytest.mark.published(WORKED.title)
@pytest.mark.parametrize(("key", "worked"), WORKED.values.items())
def test_notes_and_intervals_of_the_way_up_and_back(key: str, worked: str) -> None:
    drill = Drill.parse_key(key)
    instrument = instrument_at(drill.instrument, Path(), "")
    notes = [event.notes[0].pitch for event in play(drill, instrument)]
    labels = [interval_label(one, other) for one, other in pairwise(notes)]
    up, back, up_labels, back_labels = (part.split() for part in worked.split(" | "))

    assert [one.midi for one in notes] == [Pitch.parse(name).midi for name in (*up, *back)]
    assert semitones(labels[: len(up) - 1]) == semitones(up_labels)
    assert semitones(labels[len(up) :]) == semitones(back_labels)
    if "d7" not in back_labels:  # a sixth that is heard is called a sixth
        assert [*labels[: len(up) - 1], *labels[len(up) :]] == [*up_labels, *back_labels]


@pytest.mark.published(TUNINGS.title)
@pytest.mark.parametrize("tuned", TUNINGS.values.values(), ids=TUNINGS.values)
def test_strings_sound_as_the_tunings_of_known_pieces(tuned: str) -> None:
    name, *notes = tuned.split()
    instrument, usual = instrument_at(tuned, Path(), ""), read_instrument(name)
    assert [str(instrument.sounding_pitch(one)) for one in instrument.strings] == notes
    assert instrument.hand == usual.hand
    assert instrument_at(instrument.key, Path(), "") == instrument
    told = tuning_line(instrument, speech_of("en"))
    changed = sum(a != b for a, b in zip(instrument.strings, usual.strings, strict=True))
    assert told.count("(not ") == changed > 0


def test_the_ordinary_strings_are_no_scordatura() -> None:
    assert instrument_at("cello A3 D3 G2 C2", Path(), "") == read_instrument("cello")


def test_a_file_of_ones_own_says_it_too() -> None:
    text = 'like = "cello"\nscordatura = ["G3", "D3", "G2", "C2"]\n'
    mine = parse_instrument("mine", text, "mine.toml")
    assert mine.key == "mine"
    assert mine.strings == instrument_at(SUITE, Path(), "").strings
    assert tuning_line(mine, speech_of("de")) == (
        "<b>Cello, Skordatur</b> I G (nicht A), II D, III G und IV C."
    )


def test_every_page_tells_the_strings(here: Path) -> None:
    (here / "studio.toml").write_text(STUDIO)
    (here / "bars.txt").write_text("C2 G2 D3 A3 | B3 A3 G3 D3")
    done("sheet", "--player", "Theo", "--out", "a.pdf", "--plan", "a.json")
    done("bind", "a.json", "--out", "b.pdf")
    assert (here / "a.pdf").read_bytes() == (here / "b.pdf").read_bytes()
    done("booklet", "--player", "Theo", "--month", "2026-12", "--out", "c.pdf")
    done("passage", "bars.txt", "--player", "Theo", "--out", "d.pdf")
    key = json.loads((here / "a.json").read_text())["drills"][0]["key"]
    assert key.startswith("cello_g3_d3_g2_c2-")
    done("drill", "1", "--player", "Theo", "--out", "e.pdf")
    done("drill", key, "--out", "f.pdf")
    done("coverage", "--player", "Theo", "--out", "g.pdf")
    for file in "acdefg":
        for page in words_on(f"{file}.pdf"):
            assert not page or "Cello, scordatura I G (not A), II D, III G and IV C." in page, file


def test_a_passage_is_read_as_it_sounds(here: Path) -> None:
    (here / "bars.txt").write_text("C2 E2 G2 B2 | D3 F#3 G3 B3")
    done("passage", "bars.txt", "--instrument", SUITE, "--out", "p.musicxml")
    notes = [*converter.parse(here / "p.musicxml").recurse().notes]
    assert [str(note.pitch) for note in notes] == ["C2", "E2", "G2", "B2", "D3", "F#3", "G3", "B3"]
    strings = dict(enumerate(map(pitch.Pitch, ("G3", "D3", "G2", "C2")), start=1))
    for note in notes:
        found = {type(one).__name__: one for one in note.articulations}
        above = note.pitch.midi - strings[found["StringIndication"].number].midi
        assert (found["Fingering"].fingerNumber == 0) == (above == 0)
        assert above >= 0


@pytest.mark.parametrize(
    ("tuned", "named"),
    [
        ("cello G3 D3 G2", "3 strings are tuned, but the cello has 4"),
        ("cello D3 G3 G2 C2", "each next string is lower"),
        ("kazoo G3 D3 G2 C2", "no instrument"),
    ],
)
def test_what_is_no_tuning_is_told(here: Path, tuned: str, named: str) -> None:
    assert here.exists()
    assert named in refused("sheet", "--instrument", tuned)


def test_what_is_no_tuning_is_told_in_the_studio(here: Path) -> None:
    (here / "studio.toml").write_text(STUDIO.replace("G3", "H3"))
    line = refused("sheet", "--player", "Theo")
    assert line.startswith('studio.toml, player "Theo", scordatura: ')
    (here / "studio.toml").write_text(STUDIO.replace('["G3", "D3", "G2", "C2"]', "7"))
    line = refused("sheet", "--player", "Theo")
    assert "scordatura: 7 is no list of notes" in line


WRITTEN = """
like = "cello"
scordatura = ["G3", "D3", "G2", "C2"]
written = ["A3", "D3", "G2", "C2"]
"""
BARS = "G2 A2 B2 D3 | E3 G3 A3 B3 | A3+C3 A3 A3+D3 G3"


def test_a_passage_written_as_fingered_sounds_by_its_strings(here: Path) -> None:
    (here / "suite.toml").write_text(WRITTEN)
    (here / "bars.txt").write_text(BARS)
    own = ("bars.txt", "--instrument", "./suite.toml")
    for ending in ("musicxml", "mid", "pdf"):
        done("passage", *own, "--out", f"p.{ending}", "--plan", "p.json")
    sounding, written = (
        [pitch.Pitch(name).midi for name in names]
        for names in (("G3", "D3", "G2", "C2"), ("A3", "D3", "G2", "C2"))
    )
    expected = []
    for sound in converter.parse(here / "p.musicxml").recurse().notes:
        marks = [one for one in sound.articulations if isinstance(one, StringIndication)]
        for each, mark in zip(sound.pitches, marks, strict=True):
            string = int(mark.number) - 1
            expected.append(each.midi - written[string] + sounding[string])
    midi = mido.MidiFile(here / "p.mid")
    played = [one.note for one in midi if one.type == "note_on" and one.velocity]
    assert sorted(played) == sorted(expected)
    assert 55 in played, "open I is written A and sounds G"
    (first, *_) = words_on("p.pdf")
    assert "written as fingered on A, D, G and C" in first
    assert "suite.toml" not in first
    drills = json.loads((here / "p.json").read_text())["plan"]["drills"]
    heights = {
        stop["midi"] - sounding[stop["string"] - 1] == stop["semitones"]
        for drill in drills
        for event in drill["events"]
        for stop in event["stops"]
    }
    assert heights == {True}


def test_strings_on_which_music_is_written_are_checked(here: Path) -> None:
    for wrong, named in (('"D3", "G3", ', "each next string"), ('"A3", ', "3 strings are tuned")):
        text = WRITTEN.replace('written = ["A3", "D3", ', f"written = [{wrong}")
        (here / "suite.toml").write_text(text)
        line = refused("sheet", "--instrument", "./suite.toml")
        assert line.startswith("./suite.toml, written: ")
        assert named in line
