"""Some bars of one staff, written anew with nothing in them but what a passage needs."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final
from xml.etree.ElementTree import Element, SubElement

from bookgen.errors import BookgenError, Finding
from bookgen.readers.score_attributes import Attributes, decimal
from bookgen.readers.score_catalog import Staff, staff_of
from bookgen.readers.score_chord import written_chord
from bookgen.readers.score_findings import Told
from bookgen.readers.score_numbers import LONGEST, inner, quarters

MOST_SOUNDS: Final = 10_000
"""Of a passage; the part of a long movement has about 4,000."""

MOST_IN_BAR: Final = 1_000
LONGEST_VOICE: Final = 20
SMALLER: Final = "choose fewer bars with --bars"


@dataclass(slots=True)
class Clean:
    """A score of one part that music21 reads without surprise.

    bars: its measures; lengths: how far the notes of each reach, in quarter notes, 0 where
        nothing but one rest is there.
    transposes: the file says how the part sounds.
    """

    bars: list[Element]
    lengths: list[Fraction]
    transposes: bool

    def score(self) -> Element:
        """The whole as a `score-partwise`; the part has a name that tells no instrument."""
        root = Element("score-partwise")
        entry = SubElement(SubElement(root, "part-list"), "score-part", {"id": "P1"})
        SubElement(entry, "part-name").text = "Part"
        SubElement(root, "part", {"id": "P1"}).extend(self.bars)
        return root


def clean_bars(
    staff: Staff, chosen: range, names: Sequence[str], strings: int, told: Told
) -> Clean:
    """Write the chosen bars of a staff anew; what cannot be used is told.

    names: of all bars of the part. strings: how many the instrument has.

    Raises:
        BookgenError: there are more notes than a passage can have.
    """
    state = Attributes(staff.number)
    clean = Clean([], [], transposes=False)
    count = 0
    for index, measure in enumerate(staff.part.iterfind("measure")):
        if index >= chosen.stop:
            break
        if index < chosen.start:
            for given in measure.iterfind("attributes"):
                list(state.read(given))
            continue
        bar = CleanBar(state, strings, names[index], told)
        clean.bars.append(bar.written(measure, str(len(clean.bars) + 1)))
        clean.lengths.append(bar.length)
        count += bar.count
        if bar.count > MOST_IN_BAR or count > MOST_SOUNDS:
            problem = f"there are more than {MOST_SOUNDS:,} notes, or {MOST_IN_BAR:,} in a bar"
            raise BookgenError(Finding(told.file, problem, SMALLER))
    clean.transposes = state.transposes
    return clean


@dataclass(slots=True)
class CleanBar:
    """One bar while it is written.

    at: where the file is, in quarter notes; reach: how far notes have come.
    count: notes and rests so far; rests: how many of them are rests.
    """

    state: Attributes
    strings: int
    name: str
    told: Told
    at: Fraction = Fraction(0)
    reach: Fraction = Fraction(0)
    count: int = 0
    rests: int = 0
    voice: str = "1"
    result: Element = field(default_factory=lambda: Element("measure"))

    @property
    def length(self) -> Fraction:
        """How far the notes reach; one rest alone lasts as long as the meter says."""
        return Fraction(0) if self.count == self.rests == 1 else self.reach

    def written(self, measure: Element, number: str) -> Element:
        """The bar for music21.

        number: by which it is found again.
        """
        self.result.set("number", number)
        for given in begins_with(measure):
            self.tell(self.state.read(given))
        self.result.append(self.state.element(begins=True))
        for group in groups(measure):
            match group[0].tag:
                case "note":
                    self.take(group)
                case "attributes":
                    self.tell(self.state.read(group[0]))
                    self.result.append(self.state.element(begins=False))
                case "backup":
                    self.move(group[0], -1)
                case "forward":
                    self.move(group[0], 1)
                case _:
                    pass
            if self.count > MOST_IN_BAR:
                break
        return self.result

    def take(self, group: list[Element]) -> None:
        """A note, a chord or a rest."""
        head = group[0]
        self.count += len(group)
        is_grace = head.find("grace") is not None
        length = Fraction(0) if is_grace else quarters(head, self.state.divisions)
        if length is None or (not length and not is_grace) or self.at + length > LONGEST:
            self.tell([("a note whose length cannot be is left out", "mend it in the program")])
            return
        self.voice = inner(head, "voice").strip()[:LONGEST_VOICE] or self.voice
        mine = [note for note in group if staff_of(note) == self.state.staff]
        self.reach = max(self.reach, self.at + length)
        chord, problems = written_chord(mine, self.strings, self.state.semitones)
        self.tell(problems)
        if chord or (mine and mine[0].find("cue") is None and not is_grace):
            self.rests += not chord
            self.append(chord or [rest()], length)
        elif length:
            self.skip(length)
        self.at += length

    def append(self, notes: list[Element], length: Fraction) -> None:
        """Notes that begin together, with time and voice."""
        for note in notes:
            if length:
                SubElement(note, "duration").text = decimal(length * self.state.divisions)
            SubElement(note, "voice").text = self.voice
            self.result.append(note)

    def skip(self, length: Fraction, tag: str = "forward") -> None:
        """Go on in time, or back."""
        step = SubElement(self.result, tag)
        SubElement(step, "duration").text = decimal(length * self.state.divisions)

    def move(self, step: Element, sign: int) -> None:
        """The file goes forward or back in time."""
        length = quarters(step, self.state.divisions)
        if length is None or self.at + sign * length > LONGEST:
            self.tell([("a step in time that cannot be is left out", "mend it in the program")])
            return
        back = min(length, self.at) if sign < 0 else length
        self.at += sign * back
        if back:
            self.skip(back, step.tag)

    def tell(self, problems: Iterable[tuple[str, str]]) -> None:
        """Problems of this bar."""
        for problem, mend in problems:
            self.told.add(self.name, problem, mend)


def rest() -> Element:
    """Silence."""
    note = Element("note")
    SubElement(note, "rest")
    return note


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
