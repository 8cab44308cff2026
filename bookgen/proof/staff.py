"""Engraved music as it is printed: staves, note heads and their accidentals, fingers, bar lines."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.model.pitch import Pitch
from bookgen.proof.bar_lines import BarLine, bars_on
from bookgen.proof.printed import Box, Page, Run
from bookgen.proof.signs import ACCIDENTALS, CLEFS, HEADS, finger_of, is_finger, is_known

OCTAVE_SIGN: Final = "8va"

LINES: Final = 5
STAFF_PT: Final = 20.0
"""Lines of a staff are longer."""

CHORD_SPACES: Final = 1.6
"""Heads that are nearer, in spaces of the staff, sound together: a second has them side by side,
and the next note is farther (common practice)."""

SIGN_SPACES: Final = 5.0
"""From an accidental to its note, at most: two may stand before a chord (common practice)."""

OFF: Final = 0.2
"""A head may be off its place by that part of the way to the next."""


@dataclass(frozen=True, slots=True)
class Sound:
    """What is struck or held at one moment.

    heads: places of notes as letters from C0, rising; fingers: over them, the highest first.
    signs: accidentals before them, each with the place of its note, rising.
    raised: it stands right of an 8va sign, and may be read an octave higher.
    """

    heads: tuple[int, ...]
    signs: tuple[tuple[int, int], ...]
    fingers: tuple[int, ...]
    raised: bool


@dataclass(frozen=True, slots=True)
class Staff:
    """Five lines: the lowest, the distance between two, and their ends."""

    bottom: float
    space: float
    left: float

    @property
    def top(self) -> float:
        """The highest line."""
        return self.bottom + (LINES - 1) * self.space


@dataclass(frozen=True, slots=True)
class Music:
    """A piece of music as it is printed.

    sounds: in the order in which they are read; strays: heads between two places of a staff, and
        accidentals before no head.
    bars: with how many sounds stand before each; unknown: signs of which nothing can be said.
    left: where its first staff begins.
    """

    box: Box
    left: float
    sounds: tuple[Sound, ...]
    strays: int
    bars: tuple[tuple[int, BarLine], ...]
    unknown: frozenset[str]


def music_of(page: Page, index: int) -> Music | None:
    """A piece of music on a page, or None where it has no staff."""
    staves = staves_of(page, index)
    if not staves:
        return None
    runs = [run for run in page.runs if run.music == index]
    shapes = [shape for shape in page.shapes if shape.music == index]
    sounds: list[Sound] = []
    bars: list[tuple[int, BarLine]] = []
    strays = 0
    line: int | None = None
    for at, staff in enumerate(staves):
        own = [run for run in runs if nearest(run, staves) == at]
        line = clef_line(own, staff, line)
        if line is None:
            continue
        columns = columns_of(own, staff)
        before = [column[0].x for column in columns]
        for x, bar in bars_on(staff.bottom, staff.space, shapes):
            bars.append((len(sounds) + sum(left < x for left in before), bar))
        figures = [run for run in runs if is_finger(run) and below(run, staves) == at]
        signs, lost = signs_of(own, columns, staff, line)
        strays += lost
        for column, altered in zip(columns, signs, strict=True):
            heads = [place_of(run, staff, line) for run in column]
            strays += heads.count(None)
            over = [run for run in figures if closest(run, columns) is column]
            sounds.append(sound_of(column, heads, altered, over, own))
    unknown = frozenset(run.text for run in runs if not is_known(run))
    box, left = page.music[index], staves[0].left
    return Music(box, left, tuple(sounds), strays, tuple(bars), unknown)


def sound_of(
    column: Sequence[Run],
    heads: Sequence[int | None],
    signs: Sequence[tuple[int, int]],
    over: Sequence[Run],
    runs: Sequence[Run],
) -> Sound:
    """What sounds in a column.

    heads: its notes; signs: its accidentals; over: the figures of its fingers.
    runs: all signs of the staff.
    """
    return Sound(
        heads=tuple(sorted(head for head in heads if head is not None)),
        signs=tuple(sorted(signs)),
        fingers=tuple(finger_of(run) for run in sorted(over, key=lambda run: -run.y)),
        raised=any(run.text == OCTAVE_SIGN and run.x < column[0].box.right for run in runs),
    )


def signs_of(
    runs: Sequence[Run], columns: Sequence[Sequence[Run]], staff: Staff, line: int
) -> tuple[list[list[tuple[int, int]]], int]:
    """The accidentals of each column, with the places of their notes; and how many have no note.

    An accidental belongs to the nearest head at its right that stands as high.
    """
    found: list[list[tuple[int, int]]] = [[] for _ in columns]
    lost = 0
    for run in runs:
        if run.text not in ACCIDENTALS:
            continue
        place = place_of(run, staff, line)
        right = [
            at
            for at, column in enumerate(columns)
            for head in column
            if place is not None
            and place_of(head, staff, line) == place
            and run.x < head.x < run.x + SIGN_SPACES * staff.space
        ]
        if place is None or not right:
            lost += 1
        else:
            found[right[0]].append((place, ACCIDENTALS[run.text]))
    return found, lost


def staves_of(page: Page, index: int) -> list[Staff]:
    """The staves of a piece of music from the top."""
    lines = sorted(
        (
            shape.box
            for shape in page.shapes
            if shape.music == index
            and shape.stroke
            and shape.box.width > STAFF_PT
            and shape.box.height < 3 * shape.stroke
        ),
        key=lambda box: -box.middle[1],
    )
    found = []
    while len(lines) >= LINES:
        five = [line for line in lines if abs(line.left - lines[0].left) < 1][:LINES]
        if len(five) == LINES:
            low = five[-1].middle[1]
            space = (five[0].middle[1] - low) / (LINES - 1)
            found.append(Staff(low, space, five[0].left))
            lines = [line for line in lines if line not in five]
        else:
            lines = lines[1:]
    return found


def nearest(run: Run, staves: Sequence[Staff]) -> int:
    """The staff to which a sign belongs."""
    y = run.y
    return min(
        range(len(staves)),
        key=lambda at: abs(y - (staves[at].bottom + staves[at].top) / 2),
    )


def clef_line(runs: Sequence[Run], staff: Staff, before: int | None) -> int | None:
    """The note on the lowest line, as letters from C0; that of the staff before without a clef."""
    clefs = sorted((run for run in runs if run.text in CLEFS), key=lambda run: run.x)
    if not clefs:
        return before
    clef = clefs[0]
    steps = round((clef.y - staff.bottom) / (staff.space / 2))
    return Pitch.parse(CLEFS[clef.text]).degree - steps


def columns_of(runs: Sequence[Run], staff: Staff) -> list[list[Run]]:
    """The note heads that are read at one moment, from left to right."""
    found: list[list[Run]] = []
    for run in sorted((run for run in runs if run.text in HEADS), key=lambda run: run.x):
        if found and run.x - found[-1][0].x < CHORD_SPACES * staff.space:
            found[-1].append(run)
        else:
            found.append([run])
    return found


def place_of(head: Run, staff: Staff, line: int) -> int | None:
    """A head's note as letters from C0; None between two places.

    line: the note on the lowest line.
    """
    steps = (head.y - staff.bottom) / (staff.space / 2)
    return line + round(steps) if abs(steps - round(steps)) < OFF else None


def below(figure: Run, staves: Sequence[Staff]) -> int:
    """The staff over which a figure stands: the first one below it."""
    return next((at for at, one in enumerate(staves) if one.top <= figure.y), len(staves) - 1)


def closest(figure: Run, columns: Sequence[Sequence[Run]]) -> Sequence[Run]:
    """The heads over which a figure stands."""
    x = figure.box.middle[0]
    return min(columns, key=lambda column: abs(column[0].box.middle[0] - x))
