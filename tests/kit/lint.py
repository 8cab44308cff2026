"""Which signs of engraved music touch each other, or stand where a reader is misled."""

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations

LABELS = {"Fingering", "TextScript", "CombineTextScript", "Mark", "Word", "OttavaBracket"}
PASSAGE_LABELS = {
    *("Fingering", "TextScript", "OttavaBracket", "TextSpanner", "Script", "BarNumber"),
    "TupletNumber",
}
MARKS = {"CombineTextScript", "Mark", "Word"}
SOLID = {"LedgerLine", "NoteHead", "StaffSymbol"}
OVERLAP = 0.03  # staff spaces; less is rounding
ABOVE_SOLID = 0.6  # staff spaces of white below a finger number
BETWEEN_MARKS = 0.2  # staff spaces of white between two marks of a row below the staff
ACCIDENTAL_OFF = 0.6  # staff spaces; LilyPond leaves 0.2 to a single head
SOLID_TO_ACCIDENTALS = {"NoteHead", "Stem", "BarLine", "Clef", "Tie", "Slur"}
TIE_SHORT = 0.45  # staff spaces; LilyPond's ties end 0.2 to 0.4 before a head
TIE_OFF = 1.75  # staff spaces from a head's middle; farther a tie belongs to no note


@dataclass(frozen=True)
class Sign:
    """A sign and its box in staff spaces.

    page: of the drill, from 0; system: counted over all pages.
    """

    page: int
    system: int
    name: str
    left: float
    bottom: float
    right: float
    top: float

    def touches(self, other: "Sign") -> bool:
        across = min(self.right, other.right) - max(self.left, other.left)
        along = min(self.top, other.top) - max(self.bottom, other.bottom)
        return across > OVERLAP and along > OVERLAP


def read_signs(text: str) -> list[Sign]:
    """Read what lint.ily wrote."""
    rows = (line.split() for line in text.splitlines())
    return [Sign(int(row[0]), int(row[1]), row[2], *map(float, row[3:])) for row in rows]


def by_system(signs: list[Sign]) -> list[list[Sign]]:
    """The signs of each line of music."""
    systems: defaultdict[int, list[Sign]] = defaultdict(list)
    for sign in signs:
        systems[sign.system].append(sign)
    return list(systems.values())


def collisions(
    signs: list[Sign], part: Callable[[str, str], bool] | None = None
) -> Iterator[tuple[Sign, Sign]]:
    """Pairs that touch though a reader needs them apart.

    part: whether two signs must, by their names.
    """
    apart = part or must_part
    for system in by_system(signs):
        for one, other in combinations(system, 2):
            if apart(one.name, other.name) and one.touches(other):
                yield one, other


def crowded_fingers(signs: list[Sign]) -> Iterator[tuple[Sign, Sign]]:
    """Finger numbers with too little white above a head, a ledger line or the staff."""
    for system in by_system(signs):
        solid = [sign for sign in system if sign.name in SOLID]
        for finger in (sign for sign in system if sign.name == "Fingering"):
            lowered = replace(finger, bottom=finger.bottom - ABOVE_SOLID)
            yield from ((finger, sign) for sign in solid if lowered.touches(sign))


def crowded_marks(signs: list[Sign]) -> Iterator[tuple[Sign, Sign]]:
    """Marks and words below the staff that run into the next one, or stand under the clef."""
    for system in by_system(signs):
        marks = sorted((s for s in system if s.name in MARKS), key=lambda sign: sign.left)
        clefs = [sign for sign in system if sign.name == "Clef"]
        rows = ((a, b) for a, b in combinations(marks, 2) if a.top > b.bottom and b.top > a.bottom)
        for before, after in [*rows, *((clef, mark) for clef in clefs for mark in marks)]:
            if after.left - before.right < BETWEEN_MARKS:
                yield before, after


def stray_ties(signs: list[Sign]) -> Iterator[Sign]:
    """Ties that end too far from the head they lead to, so that they seem to lead elsewhere."""
    for sign in signs:
        if sign.name == "TieEnd" and (
            sign.right - sign.left > TIE_SHORT or sign.top - sign.bottom > TIE_OFF
        ):
            yield sign


def stray_accidentals(signs: list[Sign]) -> Iterator[Sign]:
    """Accidentals that stand off from the notes for no other accidental's sake."""
    for system in by_system(signs):
        heads = [sign for sign in system if sign.name == "NoteHead"]
        accidentals = [sign for sign in system if sign.name == "Accidental"]
        for sign in accidentals:
            edge = min(head.left for head in heads if head.left > sign.left)
            between = any(sign.right < other.right < edge for other in accidentals)
            if edge - sign.right > ACCIDENTAL_OFF and not between:
                yield sign


def must_part_in_passage(one: str, other: str) -> bool:
    """A label must touch nothing; a tuplet's number stands in its bracket, a dot in the staff."""
    names = {one, other}
    if names == {"Script", "StaffSymbol"}:
        return False
    return bool(names & PASSAGE_LABELS) and names.isdisjoint({"TieEnd", "TupletBracket"})


def must_part(one: str, other: str) -> bool:
    """A label must touch nothing; an accidental no note, stem, bar or accidental."""
    names = {one, other}
    if "TieEnd" in names:
        return False
    if names & LABELS:
        return True
    return "Accidental" in names and bool(
        names & {"NoteHead", "Stem", "BarLine", "Clef", "Tie", "Slur"}
    )
