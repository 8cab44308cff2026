"""A typed passage while its lines are read: settings, sounds and bar lines."""

import re
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.instrument import NUMERALS
from bookgen.model.marking import Marking, Tempo
from bookgen.model.phrase import Bar, Phrase, Sound, with_whole_lines
from bookgen.readers.score.bars import following
from bookgen.readers.score.findings import WordError
from bookgen.readers.score.passage import MOST_SOUNDS
from bookgen.readers.score.text_marking import tempo_said
from bookgen.readers.score.text_settings import meter_said, number_said, sharps_said
from bookgen.readers.score.text_sound import read_sound
from bookgen.readers.shown import shown

MOST_FAULTS: Final = 20
QUARTER: Final = Fraction(1, 4)
USUAL_METER: Final = (4, 4)
SETTINGS: Final = ("title", "composer", "key", "meter", "bar", "tempo")
OF_ALL: Final = ("title", "composer")
"""Settings that stand for the whole passage."""

MANUAL: Final = told("docs/reference/passage-text.md shows how to write it")

COMMENT: Final = re.compile(r"(?:^|\s)#.*$")
SETTING: Final = re.compile(r"\s*(?P<name>[a-z]{2,})\s*:(?P<value>.*)")


@dataclass(slots=True)
class Draft:
    """The passage as far as it is read.

    strings: how many the instrument has.
    sounds: of the open bar; at: how long they last; number: given for it, or nothing.
    length: of the last sound; before: heights from which a tie can go on.
    slurs, hand: how many slurs are open, and whether a group of the player's is.
    tempo: given for the open bar.
    meter, sharps: as they hold now; told: as the last bar has them.
    """

    file: str
    strings: int
    title: str = ""
    composer: str = ""
    bars: list[Bar] = field(default_factory=list)
    sounds: list[Sound] = field(default_factory=list)
    faults: list[Finding] = field(default_factory=list)
    at: Fraction = Fraction(0)
    number: str = ""
    length: Fraction = QUARTER
    before: frozenset[int] = frozenset()
    slurs: int = 0
    hand: bool = False
    tempo: Tempo | None = None
    meter: tuple[int, int] = USUAL_METER
    sharps: int = 0
    told: tuple[tuple[int, int] | None, int | None] = (None, None)
    count: int = 0

    def phrase(self) -> Phrase:
        """The whole passage.

        Raises:
            BookgenError: it has no notes, or something of it cannot be read.
        """
        self.end_bar()
        if not self.faults and (self.slurs or self.hand):
            problem = told("a bracket is never closed")
            mend = told(
                "write {slur} after a slur's last sound, {group} after a group's",
                slur="}",
                group="]",
            )
            self.faults.append(Finding(self.file, problem, mend))
        if not self.faults and all(sound.is_rest for bar in self.bars for sound in bar.sounds):
            self.faults.append(Finding(self.file, told("there is no note in it"), MANUAL))
        if self.faults:
            raise BookgenError(*self.faults[:MOST_FAULTS])
        return Phrase(with_whole_lines(numbered(self.bars)))

    def read_line(self, line: int, text: str) -> None:
        """One line: a setting, or sounds and bar lines.

        Raises:
            BookgenError: there are more sounds than a passage can have, or too many faults.
        """
        said = COMMENT.sub("", text)
        setting = SETTING.fullmatch(said)
        if setting is not None:
            self.read(line, setting["value"].strip(), setting["name"])
        else:
            for word in said.replace("|", " | ").split():
                self.read(line, word)
        if self.count > MOST_SOUNDS:
            problem = told("there are more than {most} sounds", most=MOST_SOUNDS)
            raise BookgenError(Finding(self.file, problem, told("write fewer bars")))
        if len(self.faults) >= MOST_FAULTS:
            raise BookgenError(*self.faults[:MOST_FAULTS])

    def read(self, line: int, text: str, setting: str | None = None) -> None:
        """A word, or the value of a setting; what is wrong becomes a fault.

        line: of the file, from 1.
        """
        if len(self.faults) >= MOST_FAULTS:
            return
        try:
            if setting is not None:
                self.set(setting, text)
            elif text == "|":
                self.end_bar()
            else:
                self.add(read_sound(text, self.at, self.length))
        except WordError as error:
            place = told("{file}, line {line}", file=self.file, line=line)
            self.faults.append(Finding(place, error.problem, error.mend))

    def set(self, name: str, value: str) -> None:
        """A setting; key, meter and number belong to the bar that begins here.

        Raises:
            WordError: there is no such setting or value, or the bar has begun.
        """
        if name not in SETTINGS:
            problem = told("there is no setting {name}", name=shown(name))
            known = ", ".join(SETTINGS)
            raise WordError(problem, told("the settings are {names}", names=known))
        if self.sounds and name not in OF_ALL:
            problem = told("{name}: changes only at a bar line", name=name)
            raise WordError(problem, told("write | before it"))
        match name:
            case "title":
                self.title = value
            case "composer":
                self.composer = value
            case "tempo":
                self.tempo = tempo_said(value)
            case "key":
                self.sharps = sharps_said(value)
            case "meter":
                self.meter = meter_said(value)
            case _:
                self.number = number_said(value)

    def add(self, sound: Sound) -> None:
        """The next sound of the bar.

        Raises:
            WordError: a tie goes on from no note, there is no such string, or a bracket has no
                other end.
        """
        self.sounds.append(sound)
        self.count += 1
        self.at += sound.duration
        if not sound.grace:
            self.length = sound.duration
        self.count_brackets(sound.marking)
        before = self.before
        heights = frozenset(note.pitch.midi for note in sound.notes)
        self.before = before | heights if sound.grace else heights
        for note in sound.notes:
            if note.tied and note.pitch.midi not in before:
                problem = told("~{pitch} goes on from no {pitch} before it", pitch=note.pitch)
                raise WordError(problem, told("leave out the ~"))
            if note.string is not None and note.string > self.strings:
                problem = told("there is no string {string}", string=NUMERALS[note.string])
                last = NUMERALS[self.strings]
                raise WordError(problem, told("the strings are I to {last}", last=last))

    def count_brackets(self, marking: Marking) -> None:
        """Slurs and groups that end and begin.

        Raises:
            WordError: one ends that has not begun, or a group begins within a group.
        """
        if marking.slurs_end > self.slurs + marking.slurs_begin:
            raise WordError(
                told("a slur ends that has not begun"), told("leave out the {sign}", sign="}")
            )
        if marking.hand_ends and not self.hand:
            raise WordError(
                told("a group ends that has not begun"), told("leave out the {sign}", sign="]")
            )
        if marking.hand_begins and self.hand and not marking.hand_ends:
            problem = told("a group begins within another one")
            raise WordError(
                problem, told("write {sign} after the last sound of the first", sign="]")
            )
        self.slurs += marking.slurs_begin - marking.slurs_end
        self.hand = marking.hand_begins or (self.hand and not marking.hand_ends)

    def end_bar(self) -> None:
        """A bar line; one with nothing before it means nothing."""
        if not self.sounds:
            return
        meter, sharps = self.told
        bar = Bar(
            number=self.number,
            sounds=tuple(self.sounds),
            length=self.at,
            meter=None if self.meter == meter else self.meter,
            sharps=None if self.sharps == sharps else self.sharps,
            tempo=self.tempo,
        )
        self.bars.append(bar)
        self.told = self.meter, self.sharps
        self.sounds, self.at, self.number, self.tempo = [], Fraction(0), "", None


def numbered(bars: list[Bar]) -> tuple[Bar, ...]:
    """The bars, counted on where no number is given; an upbeat is 0."""
    first = bars[0]
    upbeat = len(bars) > 1 and first.length < Fraction(*(first.meter or USUAL_METER))
    number = "0" if upbeat else "1"
    result = []
    for bar in bars:
        number = bar.number or number
        result.append(replace(bar, number=number))
        number = following(number)
    return tuple(result)
