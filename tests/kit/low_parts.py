"""Cello parts of quartets in music21's corpus; as bass parts they sound an octave lower."""

import re
import zipfile
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import music21
from kit.fingered import COSTS, sounding
from kit.low_hands import within_hand
from music21 import clef, converter, stream

from bookgen.model.instrument import Instrument
from bookgen.notation.musicxml import passage_musicxml
from bookgen.passage.groups import grouped
from bookgen.passage.solve import solve
from bookgen.plan.passage import Passage
from bookgen.readers.score.kinds import read_passage

CORPUS = Path(music21.__file__).parent / "corpus"
LOW_PART = "4"
AN_OCTAVE_LOWER = (
    "<transpose><diatonic>0</diatonic><chromatic>0</chromatic>"
    "<octave-change>-1</octave-change></transpose>"
)


def xml_of(path: Path) -> str:
    """The text of a packed score, as we would not unpack one of a stranger's."""
    with zipfile.ZipFile(path) as archive:
        container = archive.read("META-INF/container.xml").decode()
        found = re.search(r'full-path="([^"]+)"', container)
        assert found is not None
        data = archive.read(found[1])
    return data.decode("utf-16" if data[:2] in {b"\xff\xfe", b"\xfe\xff"} else "utf-8")


def low_part(name: str, family: str, folder: Path) -> Path:
    """A file whose fourth part is for that family: the corpus's own, or one made for the bass.

    The bass doubles the cello: the same notes are written, and sound an octave lower.
    """
    if family != "bass":
        return CORPUS / name
    text = xml_of(CORPUS / name)
    starts = [found.start() for found in re.finditer(r"<part\s+id=", text)]
    last = starts[int(LOW_PART) - 1]
    made = text[:last] + text[last:].replace("</attributes>", f"{AN_OCTAVE_LOWER}</attributes>", 1)
    file = folder / "bass.musicxml"
    file.write_text(re.sub(r"<\?xml[^>]*\?>", "", made), encoding="utf-8")
    return file


def theirs(file: Path) -> stream.Part:
    """The part as music21 reads it, from the file and not from what it keeps of it."""
    score = converter.parse(file, forceSource=True)
    assert isinstance(score, stream.Score)
    return score.parts[int(LOW_PART) - 1]


def as_meant(part: stream.Part, instrument: Instrument) -> stream.Part:
    """A cello part with the treble clef that follows the bass clef read as older prints mean it.

    Where some of it would lie past the last stop, all such notes are an octave lower.
    """
    last = instrument.strings[0].midi + instrument.highest_stop
    clefs = [*part.recurse().getElementsByClass(clef.Clef)]
    kept = [one for at, one in enumerate(clefs) if not at or one.sign != clefs[at - 1].sign]
    starts = [(one.getOffsetInHierarchy(part), one.sign) for one in kept]
    spans = [
        (start, end)
        for (_, before), (start, now), (end, _) in zip(
            starts, starts[1:], [*starts[2:], (part.highestTime + 1, "")], strict=False
        )
        if (before, now) == ("F", "G")
    ]
    old = [
        pitch
        for one in part.recurse().notes
        if any(start <= one.getOffsetInHierarchy(part) < end for start, end in spans)
        for pitch in one.pitches
    ]
    if instrument.family == "cello" and any(pitch.midi > last for pitch in old):
        for pitch in old:
            pitch.octave = (pitch.octave or 0) - 1
    return part


Struck = set[tuple[Fraction, str, bool]]
"""Where in the bar, which note, whether a grace note."""


def struck(part: stream.Part) -> list[Struck]:
    """What is struck in each bar, as music21 reads it; what is only tied over is left out.

    A tie that leads from another note, as some files of the corpus have it, strikes.
    """
    found: list[Struck] = []
    tied: set[str] = set()
    for bar in part.getElementsByClass(stream.Measure):
        here: Struck = set()
        for sound in bar.recurse().notes:
            at = Fraction(sound.getOffsetInHierarchy(bar))
            for each in sound.notes if sound.isChord else (sound,):
                name, tie = each.nameWithOctave, each.tie.type if each.tie else ""
                if tie not in {"stop", "continue"} or name not in tied:
                    here.add((at, name, sound.duration.isGrace))
                (tied.add if tie in {"start", "continue"} else tied.discard)(name)
        found.append(here)
    return found


@dataclass(frozen=True)
class Whole:
    """A part with its fingering, and what other eyes find in it.

    outside: sounds that no hand takes as they are placed; false: stops that sound another note.
    differing: bars that `bookgen passage` writes otherwise than music21 reads the file.
    """

    passage: Passage
    outside: list[int]
    false: list[int]
    differing: list[int]


def whole(name: str, instrument: Instrument, folder: Path) -> Whole:
    """Read, solve and write a whole part, and look at it again."""
    family = instrument.family or ""
    file = low_part(name, family, folder)
    phrase = read_passage(file, instrument, part=LOW_PART).phrase
    best = grouped(solve(phrase, instrument, COSTS).best, phrase, instrument)
    size = instrument.sizes[0].name
    passage = Passage("whole", instrument.key, size, phrase, best, None)
    text = passage_musicxml(passage, instrument).decode()
    score = converter.parseData(text, format="musicxml")
    assert isinstance(score, stream.Score)
    ours, other = struck(score.parts[0]), struck(as_meant(theirs(file), instrument))
    assert len(ours) == len(other) == len(phrase.bars)
    return Whole(
        passage,
        [at for at, one in enumerate(best.placed) if not within_hand(family, one)],
        [
            at
            for at, one in enumerate(best.placed)
            for stop, note in zip(
                one.stops, phrase.bars[one.bar].sounds[one.sound].notes, strict=True
            )
            if stop is not None and sounding(instrument, stop) != note.pitch.midi
        ],
        [at for at, (here, there) in enumerate(zip(ours, other, strict=True)) if here != there],
    )
