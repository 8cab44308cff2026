"""Engraved music as it is printed: staves, where note heads stand on them, and the fingers."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.model.finger import THUMB
from bookgen.model.pitch import Pitch
from bookgen.proof.printed import Box, Page, Run

HEADS: Final = frozenset("\ue0e8\ue0e9\ue0ea")
"""Note heads: whole, half and black."""

CLEFS: Final = {"\ue085": "G4", "\ue07f": "C4", "\ue083": "F3"}
"""The clefs of G, C and F: the note on the line on which each stands (common practice)."""

THUMBS: Final = frozenset("\ue047")
"""The sign of the thumb.

Source of all three: the font's own table, glyphs noteheads.s0 to s2, clefs.G, .C and .F, and
scripts.thumb of Emmentaler, LilyPond 2.24.3."""

FACE: Final = "Emmentaler"
OCTAVE_SIGN: Final = "8va"

LINES: Final = 5
STAFF_PT: Final = 20.0
"""Lines of a staff are longer."""

CHORD_SPACES: Final = 1.6
"""Heads that are nearer, in spaces of the staff, sound together: a second has them side by side,
and the next note is farther (common practice)."""

OFF: Final = 0.2
"""A head may be off its place by that part of the way to the next."""


@dataclass(frozen=True, slots=True)
class Sound:
    """What is struck or held at one moment.

    heads: places of notes as letters from C0, rising; fingers: over them, the highest first.
    raised: it stands right of an 8va sign, and may be read an octave higher.
    """

    heads: tuple[int, ...]
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

    sounds: in the order in which they are read; strays: heads between two places of a staff.
    left: where its first staff begins.
    """

    box: Box
    left: float
    sounds: tuple[Sound, ...]
    strays: int


def music_of(page: Page, index: int) -> Music | None:
    """A piece of music on a page, or None where it has no staff."""
    staves = staves_of(page, index)
    if not staves:
        return None
    runs = [run for run in page.runs if run.music == index]
    sounds: list[Sound] = []
    strays = 0
    line: int | None = None
    for at, staff in enumerate(staves):
        own = [run for run in runs if nearest(run, staves) == at]
        line = clef_line(own, staff, line)
        if line is None:
            continue
        columns = columns_of(own, staff)
        figures = [run for run in fingers_in(runs) if below(run, staves) == at]
        for column in columns:
            heads = [place_of(run, staff, line) for run in column]
            strays += heads.count(None)
            over = [run for run in figures if closest(run, columns) is column]
            sounds.append(sound_of(column, heads, over, own))
    return Music(page.music[index], staves[0].left, tuple(sounds), strays)


def sound_of(
    column: Sequence[Run], heads: Sequence[int | None], over: Sequence[Run], runs: Sequence[Run]
) -> Sound:
    """What sounds in a column.

    heads: its notes; over: the figures of its fingers; runs: all signs of the staff.
    """
    return Sound(
        heads=tuple(sorted(head for head in heads if head is not None)),
        fingers=tuple(finger_of(run) for run in sorted(over, key=lambda run: -run.y)),
        raised=any(run.text == OCTAVE_SIGN and run.x < column[0].box.right for run in runs),
    )


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


def fingers_in(runs: Sequence[Run]) -> Iterator[Run]:
    """The finger figures of a piece of music."""
    return (
        run
        for run in runs
        if run.text in THUMBS or (run.text.isdecimal() and run.face.startswith(FACE))
    )


def finger_of(figure: Run) -> int:
    """The finger for which a figure stands."""
    return THUMB if figure.text in THUMBS else int(figure.text)


def below(figure: Run, staves: Sequence[Staff]) -> int:
    """The staff over which a figure stands: the first one below it."""
    return next((at for at, one in enumerate(staves) if one.top <= figure.y), len(staves) - 1)


def closest(figure: Run, columns: Sequence[Sequence[Run]]) -> Sequence[Run]:
    """The heads over which a figure stands."""
    x = figure.box.middle[0]
    return min(columns, key=lambda column: abs(column[0].box.middle[0] - x))
