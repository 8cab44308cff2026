"""Every part of quartets that music21 brings, against music21's own reading and against the XML."""

import re
import warnings
import zipfile
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from xml.etree.ElementTree import Element

import music21
import pytest
from kit.scores import element
from kit.shorthand import VIOLIN
from kit.signs import our_signs, their_signs
from music21 import chord, note, stream
from music21.musicxml.xmlToM21 import MusicXMLImporter

from bookgen.model.phrase import Phrase
from bookgen.readers.score.kinds import read_passage
from bookgen.readers.score.passage import PassageFile

MUSIC21 = "music21 10.5, its corpus of quartets as its own importer reads them"
CORPUS = Path(music21.__file__).parent / "corpus"
QUARTETS = [
    *(f"haydn/opus1no1/movement{number}.mxl" for number in (1, 3, 5)),
    "haydn/opus74no1/movement1.mxl",
    "mozart/k80/movement1.mxl",
    "mozart/k156/movement4.mxl",
    "beethoven/opus59no2/movement3.mxl",
    "beethoven/opus59no3/movement3.mxl",
]
PARTS = ("1", "2", "3", "4")

Struck = set[tuple[Fraction, str, bool]]
"""Where in the bar, which pitch, and whether it is a grace note."""

Sounding = dict[str, list[tuple[Fraction, Fraction]]]
"""By pitch, from when to when."""


def xml_of(path: Path) -> str:
    """The text of a packed score, as we would not unpack one of a stranger's."""
    with zipfile.ZipFile(path) as archive:
        container = archive.read("META-INF/container.xml").decode()
        found = re.search(r'full-path="([^"]+)"', container)
        assert found is not None
        data = archive.read(found[1])
    return data.decode("utf-16" if data[:2] in {b"\xff\xfe", b"\xfe\xff"} else "utf-8")


def joined(spans: list[tuple[Fraction, Fraction]]) -> list[tuple[Fraction, Fraction]]:
    """Spans that touch or overlap as one."""
    result: list[tuple[Fraction, Fraction]] = []
    for start, end in sorted(spans):
        if result and start <= result[-1][1]:
            result[-1] = result[-1][0], max(end, result[-1][1])
        else:
            result.append((start, end))
    return result


def theirs(part: "stream.Part") -> Iterator[tuple[Struck, Sounding]]:
    """Bar by bar, from music21's own notes."""
    for measure in part.getElementsByClass(stream.Measure):
        struck: Struck = set()
        spans: Sounding = {}
        for sound in measure.recurse().notes:
            start = Fraction(sound.getOffsetInHierarchy(measure)) / 4
            length = Fraction(sound.quarterLength) / 4
            for one in sound.notes if isinstance(sound, chord.Chord) else (sound,):
                assert isinstance(one, note.Note)
                name = one.pitch.nameWithOctave.replace("-", "b")
                if one.tie is None or one.tie.type == "start":
                    struck.add((start, name, length == 0))
                if length:
                    spans.setdefault(name, []).append((start, start + length))
        yield struck, {name: joined(found) for name, found in spans.items()}


def ours(phrase: Phrase) -> Iterator[tuple[Struck, Sounding]]:
    """Bar by bar, from the sounds of our phrase."""
    for bar in phrase.bars:
        struck: Struck = set()
        spans: Sounding = {}
        for sound in bar.sounds:
            struck |= {(sound.at, str(one.pitch), sound.grace) for one in sound.struck}
            for one in sound.notes if not sound.grace else ():
                end = sound.at + sound.duration
                spans.setdefault(str(one.pitch), []).append((sound.at, end))
        yield struck, {name: joined(found) for name, found in spans.items()}


@cache
def read(name: str, part: str) -> PassageFile:
    return read_passage(CORPUS / name, VIOLIN, part=part)


@pytest.mark.published(MUSIC21)
@pytest.mark.parametrize("name", QUARTETS)
def test_pitches_ties_lengths_slurs_and_signs_of_every_part(name: str) -> None:
    importer = MusicXMLImporter()
    importer.xmlText = xml_of(CORPUS / name)
    with warnings.catch_warnings(action="ignore"):
        importer.parseXMLText()
    score = importer.stream

    assert len(score.parts) == len(PARTS)
    for part, number in zip(score.parts, PARTS, strict=True):
        found = read(name, number)

        assert part.atSoundingPitch
        assert list(ours(found.phrase)) == list(theirs(part)), found.part
        assert our_signs(found.phrase) == their_signs(part), found.part
        for bar in found.phrase.bars:
            assert sum(sound.duration for sound in bar.sounds) == bar.length


def counted(part: Element) -> Iterator[Struck]:
    """Bar by bar what is struck, from the elements alone: durations added up by hand."""
    divisions = Fraction(1)
    for measure in part.iterfind("measure"):
        at = start = Fraction(0)
        struck: Struck = set()
        for one in measure:
            divisions = Fraction(one.findtext("divisions") or divisions)
            length = Fraction(one.findtext("duration") or 0) / divisions / 4
            if one.tag == "note" and one.find("chord") is None:
                start, at = at, at + length
            elif one.tag in {"backup", "forward"}:
                at += length if one.tag == "forward" else -length
            if one.find("pitch") is not None and one.find("tie[@type='stop']") is None:
                alter = round(float(one.findtext("pitch/alter") or 0))
                signs = "#" * alter + "b" * -alter
                name = f"{one.findtext('pitch/step')}{signs}{one.findtext('pitch/octave')}"
                struck.add((start, name, one.find("grace") is not None))
        yield struck


@pytest.mark.published("MusicXML 4.0 (W3C): note, duration, backup, forward, tie, grace")
@pytest.mark.parametrize("name", QUARTETS)
def test_every_note_of_the_file_is_where_its_elements_say(name: str) -> None:
    text = re.sub(r"<!DOCTYPE[^>]*>|<\?xml[^>]*\?>", "", xml_of(CORPUS / name))
    for part, number in zip(element(text).iterfind("part"), PARTS, strict=True):
        phrase = read(name, number).phrase

        assert [struck for struck, _ in ours(phrase)] == list(counted(part))
        assert [bar.number for bar in phrase.bars] == [
            measure.get("number") for measure in part.iterfind("measure")
        ]
