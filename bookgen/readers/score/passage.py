"""What every kind of file gives: a phrase as the instrument's player reads it, and findings."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.instrument import Instrument
from bookgen.model.marking import Tempo
from bookgen.model.phrase import Bar, Phrase, WrittenNote, with_whole_lines
from bookgen.model.units import Semitones
from bookgen.readers.score.directions import Directions, directed
from bookgen.readers.score.findings import Remarks
from bookgen.readers.score.spelling import spelled
from bookgen.readers.score.voices import Merged, Timed, merged, only_true_ties

MOST_SIGNS: Final = 7
DIVIDED: Final = told("give each player's voice a part of its own if two players share them")

MOST_SOUNDS: Final = 10_000
"""Of a passage; the part of a long movement has about 4,000."""

MOST_BARS: Final = 20_000


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a user asks of a file.

    file: the name under which the user knows it; stem: without its ending.
    part: name or number; bars: first and last printed number.
    own: bookgen itself has written it.
    """

    file: str
    stem: str
    instrument: Instrument
    part: str | None = None
    bars: tuple[str, str] | None = None
    own: bool = False


@dataclass(frozen=True, slots=True)
class PassageFile:
    """What a file holds for an instrument.

    title, composer: printable; findings: what was not used, the rest is in the phrase.
    part: its name, or None where the file has no parts.
    """

    title: str
    phrase: Phrase
    findings: tuple[Finding, ...]
    part: str | None = None
    composer: str = ""


@dataclass(frozen=True, slots=True)
class RawBar:
    """A bar as a file tells it.

    length: in whole notes; meter, sharps: as they hold here, whether or not they change.
    directions: what stands between the sounds, with its time in whole notes.
    tempo: where one is written over the bar.
    """

    number: str
    voices: tuple[tuple[Timed, ...], ...]
    length: Fraction
    meter: tuple[int, int]
    sharps: int
    directions: Directions = ()
    tempo: Tempo | None = None


@dataclass(frozen=True, slots=True)
class Shift:
    """From the file's pitches to those that the player reads."""

    letters: int
    semitones: Semitones

    @classmethod
    def to_written(cls, instrument: Instrument) -> "Shift":
        """From concert pitch to the written pitch of an instrument."""
        octaves, rest = divmod(instrument.sounding, 12)
        letters = 7 * octaves + round(Fraction(rest * 7, 12))
        return cls(-letters, Semitones(-instrument.sounding))

    def key(self, sharps: int) -> int:
        """The key signature after the shift; one with too many signs is respelled."""
        moved = sharps + 7 * self.semitones - 12 * self.letters
        return (moved + 5) % 12 - 5 if abs(moved) > MOST_SIGNS else moved

    def note(self, note: WrittenNote, sharps: int) -> WrittenNote | None:
        """A note after the shift, or None where it lies outside of all octaves.

        sharps: key signature that decides a new name where the letter cannot be kept.
        """
        if not self.semitones:
            return note
        try:
            return replace(note, pitch=note.pitch.up(self.letters, self.semitones))
        except ValueError:
            pass
        try:
            return replace(note, pitch=spelled(note.pitch.midi + self.semitones, sharps))
        except ValueError:
            return None


NO_SHIFT: Final = Shift(0, Semitones(0))


def phrase_of(raw: Iterable[RawBar], shift: Shift, remarks: Remarks) -> Phrase:
    """The bars of a file as one player's phrase; what cannot be used is told.

    Raises:
        BookgenError: there is not a single note.
    """
    bars: list[Bar] = []
    meter: tuple[int, int] | None = None
    sharps: int | None = None
    directions = []
    for bar in raw:
        key = shift.key(bar.sharps)
        one = merged([shifted(voice, shift, key) for voice in bar.voices], bar.length)
        tell(one, bar.number, remarks)
        bars.append(
            Bar(
                number=bar.number,
                sounds=one.sounds,
                length=bar.length,
                meter=None if bar.meter == meter else bar.meter,
                sharps=None if key == sharps else key,
                tempo=bar.tempo,
            )
        )
        directions.append(bar.directions)
        meter, sharps = bar.meter, key
    if all(sound.is_rest for bar in bars for sound in bar.sounds):
        mend = told("choose other bars with --bars, or another part with --part")
        raise BookgenError(Finding(remarks.file, told("there is no note in these bars"), mend))
    return Phrase(with_whole_lines(only_true_ties(directed(bars, directions))))


def shifted(voice: Iterable[Timed], shift: Shift, sharps: int) -> tuple[Timed, ...]:
    """A voice as the player reads it."""
    return tuple(
        replace(
            timed,
            notes=tuple(
                note for one in timed.notes if (note := shift.note(one, sharps)) is not None
            ),
        )
        for timed in voice
    )


def tell(bar: Merged, number: str, remarks: Remarks) -> None:
    """Say what became of voices that do not fit into one."""
    if bar.held:
        problem = told(
            "voices that do not begin together are read as double stops, the longer note held"
        )
        remarks.add(number, problem, DIVIDED)
    if bar.crowded:
        problem = told("more than four notes sound together; the highest four are read")
        remarks.add(number, problem, DIVIDED)


def cut(phrase: Phrase, chosen: range) -> Phrase:
    """Some bars of a phrase; the first one tells key, meter, tempo, and nothing is tied to it."""
    meter: tuple[int, int] | None = None
    sharps: int | None = None
    tempo: Tempo | None = None
    bars = []
    for index, bar in enumerate(phrase.bars[: chosen.stop]):
        meter = meter if bar.meter is None else bar.meter
        sharps = sharps if bar.sharps is None else bar.sharps
        tempo = bar.tempo or tempo
        if index in chosen:
            opens = index == chosen.start
            told = replace(bar, meter=meter, sharps=sharps, tempo=tempo) if opens else bar
            bars.append(told)
    return Phrase(with_whole_lines(only_true_ties(bars)))
