"""Some bars of one staff: what its voices play at concert pitch, and when."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final
from xml.etree.ElementTree import Element

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.marking import NO_MARKING, Marking
from bookgen.model.phrase import WrittenNote
from bookgen.model.units import Semitones
from bookgen.readers.score.attributes import Attributes
from bookgen.readers.score.catalog import Staff, staff_of
from bookgen.readers.score.findings import Problem, Remarks
from bookgen.readers.score.marking import direction_marking, note_marking, rest_marking
from bookgen.readers.score.notes import chord_of
from bookgen.readers.score.numbers import LONGEST, MOST_DIVISIONS, inner, number, quarters
from bookgen.readers.score.passage import MOST_SOUNDS, RawBar, Shift
from bookgen.readers.score.voices import Timed

MOST_IN_BAR: Final = 1_000
LONGEST_VOICE: Final = 20
MEND: Final = told("mend it in the program")


def staff_bars(
    staff: Staff, chosen: range, names: Sequence[str], strings: int, remarks: Remarks
) -> tuple[list[RawBar], Attributes]:
    """The chosen bars of a staff, and the state of it after them; what cannot be used is told.

    names: of all bars of the part. strings: how many the instrument has.

    Raises:
        BookgenError: there are more notes than a passage can have.
    """
    state = Attributes(staff.number)
    bars: list[RawBar] = []
    count = 0
    for index, measure in enumerate(staff.part.iterfind("measure")):
        if index >= chosen.stop:
            break
        if index < chosen.start:
            for given in measure.iterfind("attributes"):
                list(state.read(given))
            continue
        bar = OpenBar(state, strings, names[index], remarks)
        bar.read(measure)
        bars.append(bar.closed())
        count += bar.count
        if bar.count > MOST_IN_BAR or count > MOST_SOUNDS:
            problem = told(
                "there are more than {most} notes, or {most_in_bar} in a bar",
                most=MOST_SOUNDS,
                most_in_bar=MOST_IN_BAR,
            )
            raise BookgenError(
                Finding(remarks.file, problem, told("choose fewer bars with --bars"))
            )
    return bars, state


@dataclass(slots=True)
class OpenBar:
    """One bar while it is read.

    at: where the file is, in quarter notes; reach: how far notes have come.
    count: notes and rests so far; rests: how many of them are rests.
    meter, sharps: at its beginning, the key at concert pitch.
    voices: by their names, in the order in which they were met.
    directions: what stands between the notes, with its time in quarter notes.
    """

    state: Attributes
    strings: int
    name: str
    remarks: Remarks
    at: Fraction = Fraction(0)
    reach: Fraction = Fraction(0)
    count: int = 0
    rests: int = 0
    meter: tuple[int, int] = (4, 4)
    sharps: int = 0
    voice: str = "1"
    voices: dict[str, list[Timed]] = field(default_factory=dict)
    directions: list[tuple[Fraction, Marking]] = field(default_factory=list)

    def read(self, measure: Element) -> None:
        """Read the elements of the bar."""
        for given in begins_with(measure):
            self.tell(self.state.read(given))
        self.meter = self.state.meter or (4, 4)
        self.sharps = self.to_concert.key(self.state.sharps or 0)
        for group in groups(measure):
            self.read_one(group)
            if self.count > MOST_IN_BAR:
                break

    def read_one(self, group: list[Element]) -> None:
        """Notes that begin together, or something else."""
        match group[0].tag:
            case "note":
                self.take(group)
            case "attributes":
                self.tell(self.state.read(group[0]))
            case "direction":
                self.direct(group[0])
            case "backup":
                self.move(group[0], -1)
            case "forward":
                self.move(group[0], 1)
            case _:
                pass

    @property
    def to_concert(self) -> Shift:
        """From the pitches that are written here to those that sound."""
        return Shift(self.state.letters, Semitones(self.state.semitones))

    def take(self, group: list[Element]) -> None:
        """A note, a chord or a rest."""
        head = group[0]
        self.count += len(group)
        is_grace = head.find("grace") is not None
        length = Fraction(0) if is_grace else quarters(head, self.state.divisions)
        if length is None or (not length and not is_grace) or self.at + length > LONGEST:
            self.tell([(told("a note whose length cannot be is left out"), MEND)])
            return
        self.voice = inner(head, "voice").strip()[:LONGEST_VOICE] or self.voice
        mine = [note for note in group if staff_of(note) == self.state.staff]
        self.reach = max(self.reach, self.at + length)
        chord, problems = chord_of(mine, self.strings, self.state.semitones)
        self.tell(problems)
        if chord or (mine and mine[0].find("cue") is None and not is_grace):
            self.rests += not chord
            notes = tuple(self.sounding(chord))
            marking = note_marking(mine) if chord else rest_marking(mine)
            timed = Timed(self.at / 4, length / 4, notes, marking)
            self.voices.setdefault(self.voice, []).append(timed)
        self.at += length

    def direct(self, direction: Element) -> None:
        """What stands between the notes; an offset that cannot be is none."""
        marking = direction_marking(direction)
        if marking == NO_MARKING or staff_of(direction) != self.state.staff:
            return
        most = float(LONGEST * MOST_DIVISIONS)
        offset = number(inner(direction, "offset"), -most, most) or Fraction()
        at = max(self.at + offset / self.state.divisions, Fraction(0))
        self.directions.append((at / 4, marking))

    def sounding(self, chord: Iterable[WrittenNote]) -> Iterator[WrittenNote]:
        """The notes at concert pitch, without those that lie outside of all octaves there."""
        for note in chord:
            moved = self.to_concert.note(note, self.sharps)
            if moved is not None:
                yield moved

    def move(self, step: Element, sign: int) -> None:
        """The file goes forward or back in time."""
        length = quarters(step, self.state.divisions)
        if length is None or self.at + sign * length > LONGEST:
            self.tell([(told("a step in time that cannot be is left out"), MEND)])
            return
        self.at += sign * (min(length, self.at) if sign < 0 else length)

    def tell(self, problems: Iterable[Problem]) -> None:
        """Problems of this bar."""
        for problem, mend in problems:
            self.remarks.add(self.name, problem, mend)

    def closed(self) -> RawBar:
        """The bar; one without time lasts as its meter says, and one rest alone no longer."""
        length, full = self.reach / 4, Fraction(*self.meter)
        if not length or self.count == self.rests == 1:
            length = min(length or full, full)
        voices = tuple(tuple(voice) for voice in self.voices.values())
        directions = tuple(self.directions)
        return RawBar(self.name, voices, length, self.meter, self.sharps, directions)


def begins_with(measure: Element) -> Iterator[Element]:
    """The attributes that stand before the first note."""
    for element in measure:
        if element.tag in {"note", "forward"}:
            return
        if element.tag == "attributes":
            yield element


def groups(measure: Element) -> Iterator[list[Element]]:
    """The elements of a bar one by one, the notes of a chord together."""
    group: list[Element] = []
    for element in measure:
        if group and element.tag == "note" and element.find("chord") is not None:
            group.append(element)
            continue
        if group:
            yield group
            group = []
        if element.tag == "note":
            group = [element]
        else:
            yield [element]
    if group:
        yield group
