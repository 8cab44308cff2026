"""Scores and what is read from them, in the words of a typed passage: `D4:4 E4+G4=III2 r (C5)`."""

import io
import zipfile
from fractions import Fraction
from pathlib import Path
from xml.etree.ElementTree import Element, fromstring

from hypothesis import strategies as st
from kit.shorthand import VIOLIN

from bookgen.model.marking import NO_MARKING, Dynamic, Hairpin, Instruction, Marking, Sign, Tempo
from bookgen.model.phrase import Bar, Phrase, Sound, WrittenNote, with_whole_lines
from bookgen.model.pitch import Pitch
from bookgen.model.units import StringNumber
from bookgen.readers.score.passage import PassageFile, Wanted
from bookgen.readers.score.text import passage_text
from bookgen.readers.score.text_sound import read_sound

PASSAGES = Path(__file__).parents[1] / "specimens" / "passages"
DIVISIONS = 840
"""Of a quarter note: triplets, quintuplets and septuplets come out even."""

CONTAINER = (
    '<?xml version="1.0"?><container><rootfiles>'
    '<rootfile full-path="{path}" media-type="application/vnd.recordare.musicxml+xml"/>'
    "</rootfiles></container>"
)


def wanted(
    part: str | None = None, bars: tuple[str, str] | None = None, file: str = "song.musicxml"
) -> Wanted:
    """The wish of someone with a violin."""
    return Wanted(file, file.partition(".")[0], VIOLIN, part, bars)


def shown(phrase: Phrase | PassageFile) -> list[str]:
    """The bars of a phrase as lines of a typed passage, without key, meter and numbers."""
    found = phrase.phrase if isinstance(phrase, PassageFile) else phrase
    return [line for line in passage_text(found).splitlines() if line.endswith("|")]


def element(text: str) -> Element:
    """Our own XML as a tree."""
    return fromstring(text)  # noqa: S314  it is our own


def music(words: str, voice: str = "1", staff: str = "") -> str:
    """Notes of one voice as MusicXML, from the words of a typed passage."""
    length = Fraction(1, 4)
    notes = []
    for word in words.split():
        sound = read_sound(word, Fraction(0), length)
        length = length if sound.grace else sound.duration
        where = f"<voice>{voice}</voice>" + (f"<staff>{staff}</staff>" if staff else "")
        notes.append(one_sound(sound, where))
    return "".join(notes)


def one_sound(sound: Sound, where: str) -> str:
    """A note, chord or rest as MusicXML."""
    time = f"<duration>{sound.duration * 4 * DIVISIONS}</duration>"
    if not sound.notes:
        return f"<note><rest/>{time}{where}</note>"
    return "".join(
        "<note>"
        + ("<grace/>" if sound.grace else "")
        + ("<chord/>" if place else "")
        + pitch_element(note.pitch)
        + ("" if sound.grace else time)
        + ('<tie type="stop"/>' if note.tied else "")
        + where
        + marks(note)
        + "</note>"
        for place, note in enumerate(sound.notes)
    )


def pitch_element(pitch: Pitch) -> str:
    """A pitch as MusicXML."""
    alter = f"<alter>{pitch.accidental}</alter>" if pitch.accidental else ""
    return f"<pitch><step>{pitch.letter}</step>{alter}<octave>{pitch.octave}</octave></pitch>"


def marks(note: WrittenNote) -> str:
    """Finger, string and harmonic as MusicXML."""
    finger = "" if note.finger is None else f"<fingering>{note.finger}</fingering>"
    string = "" if note.string is None else f"<string>{note.string}</string>"
    harmonic = "<harmonic><natural/></harmonic>" if note.harmonic else ""
    inside = finger + string + harmonic
    return f"<notations><technical>{inside}</technical></notations>" if inside else ""


def back(words: str) -> str:
    """Go back in time by as much as these words last: the next voice."""
    length, total = Fraction(1, 4), Fraction(0)
    for word in words.split():
        sound = read_sound(word, Fraction(0), length)
        length = length if sound.grace else sound.duration
        total += sound.duration
    return f"<backup><duration>{total * 4 * DIVISIONS}</duration></backup>"


def attributes(inner: str = "", meter: str = "4/4", fifths: int = 0) -> str:
    """Divisions, key and meter, then whatever else."""
    beats, beat = meter.split("/")
    return (
        f"<attributes><divisions>{DIVISIONS}</divisions><key><fifths>{fifths}</fifths></key>"
        f"<time><beats>{beats}</beats><beat-type>{beat}</beat-type></time>{inner}</attributes>"
    )


def bar(inside: str, number: str | None = "1") -> str:
    """A measure."""
    printed = "" if number is None else f' number="{number}"'
    return f"<measure{printed}>{inside}</measure>"


def part(*bars: str, name: str = "P1") -> str:
    """A part."""
    return f'<part id="{name}">{"".join(bars)}</part>'


def score(*bars: str, name: str = "Violin", title: str = "") -> bytes:
    """A score of one part."""
    return parts({name: bars}, title)


def parts(of: dict[str, tuple[str, ...]], title: str = "") -> bytes:
    """A score of several parts by their names."""
    listed = "".join(
        f'<score-part id="P{index}"><part-name>{name}</part-name></score-part>'
        for index, name in enumerate(of, start=1)
    )
    music = "".join(part(*bars, name=f"P{index}") for index, bars in enumerate(of.values(), 1))
    work = f"<work><work-title>{title}</work-title></work>" if title else ""
    text = (
        '<?xml version="1.0" encoding="UTF-8"?><!DOCTYPE score-partwise PUBLIC '
        '"-//Recordare//DTD MusicXML 4.0 Partwise//EN" '
        '"http://www.musicxml.org/dtds/partwise.dtd">'
        f'<score-partwise version="4.0">{work}<part-list>{listed}</part-list>{music}'
        "</score-partwise>"
    )
    return text.encode()


def typed(*bars: str, meter: str = "4/4") -> bytes:
    """A score of one part, its bars as the words of a typed passage."""
    return score(
        *(
            bar((attributes(meter=meter) if not index else "") + music(words), str(index + 1))
            for index, words in enumerate(bars)
        )
    )


def packed(members: dict[str, bytes], container: str | None = "score.xml") -> bytes:
    """A compressed score; container None leaves out the file that names the score."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        if container is not None:
            archive.writestr("META-INF/container.xml", CONTAINER.format(path=container))
        for name, data in members.items():
            archive.writestr(name, data)
    return stream.getvalue()


pitches = st.builds(
    Pitch,
    st.sampled_from("CDEFGAB"),
    st.integers(-2, 2),
    st.integers(1, 7),
)
lengths = st.builds(Fraction, st.integers(1, 12), st.sampled_from([1, 2, 4, 8, 12, 16, 20, 28]))
notes = st.builds(
    WrittenNote,
    pitch=pitches,
    finger=st.none() | st.integers(0, 4),
    string=st.none() | st.integers(1, 4).map(StringNumber),
    harmonic=st.booleans(),
)


markings = st.builds(
    Marking,
    slurs_end=st.integers(0, 2),
    slurs_begin=st.integers(0, 2),
    hand_ends=st.booleans(),
    hand_begins=st.booleans(),
    signs=st.sets(st.sampled_from(Sign), max_size=3).map(
        lambda found: tuple(sign for sign in Sign if sign in found)
    ),
    dynamic=st.none() | st.sampled_from(Dynamic),
    hairpin_ends=st.booleans(),
    hairpin=st.none() | st.sampled_from(Hairpin),
    terms=st.lists(st.sampled_from(Instruction), unique=True, max_size=2).map(tuple),
)
tempos = st.sampled_from(
    [
        None,
        Tempo("Allegro"),
        Tempo("", Fraction(3, 8), Fraction(60)),
        Tempo("Adagio", Fraction(1, 8), Fraction(72)),
    ]
)


@st.composite
def phrases(draw: st.DrawFn) -> Phrase:
    """Phrases as every reader makes them: without gaps, and with ties that go on from a note."""
    bars: list[Bar] = []
    before: set[int] = set()
    meter, sharps = (0, 0), 99
    for _ in range(draw(st.integers(1, 4))):
        at = Fraction(0)
        sounds = []
        for _ in range(draw(st.integers(1, 5))):
            chord = draw(st.lists(notes, max_size=4))
            chord = [
                WrittenNote(
                    one.pitch,
                    one.finger,
                    one.string,
                    tied=one.pitch.midi in before and draw(st.booleans()),
                    harmonic=one.harmonic,
                )
                for one in sorted(chord, key=lambda one: one.pitch.midi)
            ]
            grace = bool(chord) and draw(st.booleans())
            length = Fraction(0) if grace else draw(lengths)
            marking = draw(st.just(NO_MARKING) | markings)
            sound = Sound(at, length, tuple(chord), grace=grace, marking=marking)
            here = {one.pitch.midi for one in chord}
            before = before | here if grace else here
            at += sound.duration
            sounds.append(sound)
        new_meter = draw(st.sampled_from([(4, 4), (3, 4), (6, 8)]))
        new_sharps = draw(st.integers(-7, 7))
        number = f"{draw(st.integers(0, 40))}{draw(st.sampled_from(['', 'a']))}"
        bars.append(
            Bar(
                number=number,
                sounds=tuple(sounds),
                length=at,
                meter=None if new_meter == meter else new_meter,
                sharps=None if new_sharps == sharps else new_sharps,
                tempo=draw(tempos),
            )
        )
        meter, sharps = new_meter, new_sharps
    return Phrase(with_whole_lines(bars))
