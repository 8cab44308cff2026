"""Which signs of engraved music touch each other."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

LABELS = {"Fingering", "TextScript", "CombineTextScript", "HorizontalBracket", "OttavaBracket"}
OVERLAP = 0.03  # staff spaces; less is rounding


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


def collisions(signs: list[Sign]) -> Iterator[tuple[Sign, Sign]]:
    """Pairs that touch though a reader needs them apart."""
    systems: defaultdict[int, list[Sign]] = defaultdict(list)
    for sign in signs:
        systems[sign.system].append(sign)
    for system in systems.values():
        for one, other in combinations(system, 2):
            if must_part(one.name, other.name) and one.touches(other):
                yield one, other


def must_part(one: str, other: str) -> bool:
    """A label must touch nothing; an accidental no note, stem, bar or accidental."""
    names = {one, other}
    if names & LABELS:
        return True
    return "Accidental" in names and bool(names & {"NoteHead", "Stem", "BarLine", "Clef", "Tie"})
