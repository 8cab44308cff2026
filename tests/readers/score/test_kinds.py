"""Passages from files of every kind, and hostile ones refused with one clear line each."""

import os
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from kit.scores import PASSAGES, packed, shown, typed
from kit.shorthand import VIOLIN
from mido import Message, MetaMessage, MidiFile, MidiTrack

from bookgen.errors import BookgenError
from bookgen.readers.score.file import MOST_BYTES
from bookgen.readers.score.kinds import READERS, read_passage

ANEW = "save it anew from the notation program, as MusicXML."
UNPACK = "save it anew from the notation program, as .musicxml without compression."
MIDI = "export it anew as MusicXML, or as a MIDI file of type 1."
NO_NOTES = "no part has a note that can be played; give a file with notes."
DOCTYPE = f"its document type declares entities or the like, which no score needs; {ANEW}"
PITCH = "is no pitch name; write a letter, #, ##, b or bb, and an octave."

REFUSED = {
    "container-climbs-out.mxl": f": the archive holds no ../../../etc/hostname; {UNPACK}",
    "container-is-an-entity-bomb.mxl": f", META-INF/container.xml: {DOCTYPE}",
    "container-names-nothing.mxl": f", META-INF/container.xml: it names no score; {UNPACK}",
    "cut-short.mid": f": this is no sound MIDI file; {MIDI}",
    "cut-short.musicxml": f": broken XML in line 1, column 348 (no element found); {ANEW}",
    "cut-short.mxl": f": the archive is damaged (File is not a zip file); {UNPACK}",
    "damaged.mxl": (
        ": the archive is damaged (Error -3 while decompressing data: invalid literal/lengths "
        f"set); {UNPACK}"
    ),
    "doctype-with-declarations.musicxml": f": {DOCTYPE}",
    "empty.musicxml": f": broken XML in line 1, column 1 (no element found); {ANEW}",
    "entity-bomb.musicxml": f": {DOCTYPE}",
    "external-entity.musicxml": f": {DOCTYPE}",
    "film-frames.mid": f": this kind of MIDI file has no common bars; {MIDI}",
    "latin-1-called-utf-8.musicxml": (
        f": broken XML in line 1, column 242 (not well-formed (invalid token)); {ANEW}"
    ),
    "latin-1.passage": ": this is no UTF-8 text; save it as UTF-8 text.",
    "letters-of-another-kind.passage": f", line 1: 'H4' {PITCH}",
    "locked.mxl": f": score.xml in the archive is locked or packed in an unknown way; {UNPACK}",
    "many-members.mxl": f": the archive has too many members; {UNPACK}",
    "no-container.mxl": f": the archive holds no META-INF/container.xml; {UNPACK}",
    "no-midi.mid": f": this is no sound MIDI file; {MIDI}",
    "no-notes.mid": f": {NO_NOTES}",
    "no-notes.musicxml": f": {NO_NOTES}",
    "no-parts.musicxml": f": {NO_NOTES}",
    "no-xml.musicxml": f": broken XML in line 1, column 1 (syntax error); {ANEW}",
    "parameter-entity.musicxml": f": {DOCTYPE}",
    "songs-in-a-row.mid": f": this kind of MIDI file has no common bars; {MIDI}",
    "thousand-years.mid": ": the piece has more than 20000 bars; export fewer bars.",
    "too-deep.musicxml": f": its elements lie more than 40 levels deep; {ANEW}",
    "too-many-notes-in-a-bar.musicxml": (
        ": there are more than 10000 notes, or 1000 in a bar; choose fewer bars with --bars."
    ),
    "too-many-parts.musicxml": (
        ": it has more than 200 parts or 20000 bars; save only the part that you need."
    ),
    "unknown-encoding.musicxml": f": broken XML, unknown encoding; {ANEW}",
    "unknown-entity.musicxml": f": broken XML in line 2, column 73 (undefined entity); {ANEW}",
    "web-page.xml": f": this is no MusicXML score; {ANEW}",
    "zeros.txt": f", line 1: '{'\\x00' * 40} …' {PITCH}",
    "zip-bomb.mxl": f": score.xml in the archive unpacks to more than 32 MiB; {UNPACK}",
}
ENDLESS = [Path("/dev/zero"), Path("/dev/random")]


def refusal(path: Path) -> list[str]:
    with pytest.raises(BookgenError) as caught:
        read_passage(path, VIOLIN)
    return str(caught.value).splitlines()


def midi() -> bytes:
    file = MidiFile(ticks_per_beat=480)
    track = MidiTrack([MetaMessage("track_name", name="Violin")])
    file.tracks.append(track)
    for note in (62, 64, 66, 67):
        track.append(Message("note_on", note=note, velocity=80))
        track.append(Message("note_off", note=note, time=480))
    stream = BytesIO()
    file.save(file=stream)
    return stream.getvalue()


GOOD = {
    ".musicxml": typed("D4:4 E4 F#4 G4"),
    ".xml": typed("D4:4 E4 F#4 G4"),
    ".mxl": packed({"score.xml": typed("D4:4 E4 F#4 G4")}),
    ".mid": midi(),
    ".midi": midi(),
    ".passage": b"D4 E4 F#4 G4",
    ".txt": b"D4 E4 F#4 G4",
}


@pytest.mark.parametrize("ending", READERS)
def test_the_same_bar_from_every_kind_of_file(ending: str, tmp_path: Path) -> None:
    file = tmp_path / f"harbour{ending.upper()}"
    file.write_bytes(GOOD[ending])

    found = read_passage(file, VIOLIN)

    assert shown(found) == ["D4 E4 F#4 G4 |"]
    assert found.findings == ()


@pytest.mark.parametrize("name", sorted(path.name for path in PASSAGES.iterdir()))
def test_a_faulty_file_is_refused_with_one_line_of_its_fault(name: str) -> None:
    assert refusal(PASSAGES / name)[0] == f"{name}{REFUSED[name]}"


def test_every_refusal_has_its_specimen() -> None:
    assert REFUSED.keys() == {path.name for path in PASSAGES.iterdir()}


@pytest.mark.parametrize("device", [path for path in ENDLESS if path.exists()])
@pytest.mark.parametrize("ending", READERS)
def test_a_file_that_never_ends_is_not_opened(device: Path, ending: str, tmp_path: Path) -> None:
    link = tmp_path / f"endless{ending}"
    link.symlink_to(device)

    assert refusal(link) == [
        f"endless{ending}: this is no ordinary file; give the path of a saved file."
    ]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes with names here")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.musicxml"
    os.mkfifo(pipe)

    assert refusal(pipe) == [
        "pipe.musicxml: this is no ordinary file; give the path of a saved file."
    ]


def test_a_folder_and_nothing(tmp_path: Path) -> None:
    (tmp_path / "folder.xml").mkdir()

    assert "this is no ordinary file" in refusal(tmp_path / "folder.xml")[0]
    assert "there is no such file" in refusal(tmp_path / "none.xml")[0]
    assert "there is no such file" in refusal(tmp_path / "nul\0.xml")[0]


@pytest.mark.parametrize("ending", READERS)
def test_a_file_that_is_too_large_is_not_read_to_its_end(ending: str, tmp_path: Path) -> None:
    file = tmp_path / f"large{ending}"
    with file.open("wb") as stream:
        stream.truncate(2**34)

    assert f"the file has more than {READERS[ending][1] // 2**10:,}"[:20] in refusal(file)[0]
    assert READERS[ending][1] <= MOST_BYTES


def test_an_ending_that_says_nothing() -> None:
    assert refusal(Path("song.pdf")) == [
        (
            "song.pdf: the ending of its name tells no kind of music file; "
            "give a file ending in one of .musicxml, .xml, .mxl, .mid, .midi, .passage, .txt."
        )
    ]


def test_a_name_cannot_write_on_the_screen() -> None:
    (line,) = refusal(Path("a\x1b[2J\nb.xml"))

    assert line.isprintable()


def test_titles_and_names_are_one_printable_line(tmp_path: Path) -> None:
    file = tmp_path / "song.xml"
    text = typed("D4:1").decode()
    title = "A\x85\tB \u202e\\header{}" + "x" * 400
    file.write_text(
        text.replace("<part-list>", f"<movement-title>{title}</movement-title><part-list>")
        .replace(">Violin<", ">Vio\u2028lin<"),
        encoding="utf-8",
    )  # fmt: skip

    found = read_passage(file, VIOLIN)

    assert found.title.isprintable()
    assert found.title.startswith("A B \\header{}xxx")
    assert len(found.title) == 80
    assert found.part == "Vio lin"


@pytest.mark.parametrize("ending", [".musicxml", ".mxl", ".mid", ".passage"])
def test_a_file_with_some_bytes_changed_is_read_or_refused(
    ending: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    file = tmp_path_factory.mktemp("fuzz") / f"song{ending}"
    good = GOOD[ending]

    @settings(
        max_examples=150, deadline=None, suppress_health_check=list(HealthCheck), database=None
    )
    @given(
        changes=st.dictionaries(
            st.integers(0, len(good) - 1), st.integers(0, 255), min_size=1, max_size=6
        ),
        cut=st.none() | st.integers(0, len(good)),
    )
    def changed(changes: dict[int, int], cut: int | None) -> None:
        data = bytearray(good)
        for place, value in changes.items():
            data[place] = value
        file.write_bytes(data[:cut])
        try:
            found = read_passage(file, VIOLIN)
        except BookgenError as error:
            lines = [str(finding) for finding in error.findings]
        else:
            lines = shown(found)
        assert lines
        assert all(line.isprintable() for line in lines)

    changed()
