"""A note, a chord or a gap as abjad's leaf, and what hangs on it: the writer of all our music."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from functools import cache
from typing import Final

import abjad

from bookgen.model.finger import THUMB
from bookgen.model.pitch import Pitch

AS_WRITTEN: Final = Fraction(1)

NoteOrChord = abjad.Note | abjad.Chord


@cache
def named(pitch: Pitch) -> abjad.NamedPitch:
    """The same pitch in abjad's words."""
    return abjad.NamedPitch(str(pitch))


def length(duration: Fraction) -> abjad.Duration:
    """The same duration in abjad's words."""
    return abjad.Duration(duration.numerator, duration.denominator)


def multiplier(scale: Fraction) -> tuple[int, int] | None:
    """By how much a written value is longer or shorter than it looks, in abjad's words."""
    return None if scale == 1 else (scale.numerator, scale.denominator)


def sounding(
    pitches: Sequence[Pitch], duration: Fraction, scale: Fraction = AS_WRITTEN
) -> NoteOrChord:
    """One note, or a chord of several, from the lowest.

    scale: how much longer it lasts than it looks.
    """
    names, written, lasts = [*map(named, pitches)], length(duration), multiplier(scale)
    if len(names) == 1:
        return abjad.Note.from_duration_and_pitch(written, names[0], dmp=lasts)
    return abjad.Chord.from_duration_and_pitches(written, names, dmp=lasts)


def heads_of(leaf: NoteOrChord) -> list[abjad.NoteHead]:
    """The heads of a note or a chord, from the lowest."""
    return list(leaf.note_heads()) if isinstance(leaf, abjad.Chord) else [leaf.note_head()]


def hang(leaf: abjad.Leaf, commands: Iterable[str]) -> None:
    """Hang commands of our engraving files on a leaf, in their order; once for a leaf."""
    if found := list(commands):
        abjad.attach(abjad.LilyPondLiteral(found, site="after"), leaf)


def put_before(music: abjad.Component, commands: Iterable[str]) -> None:
    """Put commands before music and all that abjad puts there, in their order; once for each."""
    if found := list(commands):
        abjad.attach(abjad.LilyPondLiteral(found, site="absolute_before"), music)


THUMB_SIGN: Final = r"\thumbSign"
"""The thumb in our engraving files."""

NO_ARROWS: Final[Mapping[int, bool]] = {}


def finger_commands(
    fingers: Iterable[int], arrows: Mapping[int, bool] = NO_ARROWS, *, slides: bool = False
) -> Iterator[str]:
    """Finger numbers above a note, that of the lowest string in the lowest row.

    arrows: by finger whether it goes up or down.
    slides: a dash before it tells that the same finger shifts (common practice).
    """
    plain = "atSliding" if slides else "atFinger"
    for row, finger in enumerate(fingers):
        command = ("atHigh" if arrows[finger] else "atLow") if finger in arrows else plain
        yield rf"^\{command} {row} {THUMB_SIGN if finger == THUMB else finger}"


def write_strings(leaf: abjad.Leaf, numeral: str) -> None:
    """The string's numeral, on a line of its own above the fingers."""
    if numeral:
        abjad.attach(abjad.Markup(rf'\markup "{numeral}"'), leaf, direction=abjad.UP)


def write_octave_signs(leaves: Sequence[abjad.Leaf], under: Sequence[bool]) -> None:
    """Begin and end the runs that stand under an 8va sign.

    under: for each leaf, whether it does.
    """
    for leaf, (octaves, ends) in zip(leaves, octave_changes(under), strict=True):
        if octaves is not None:
            abjad.attach(abjad.Ottava(octaves), leaf)
        if ends:
            abjad.attach(abjad.Ottava(0, site="absolute_after"), leaf)


def octave_changes(under: Sequence[bool]) -> Iterator[tuple[int | None, bool]]:
    """Where 8va signs begin and end.

    Yields:
        For each note the octaves of the sign that changes before it, and whether one ends after it.
    """
    before = False
    for at, sign in enumerate(under):
        yield int(sign) if sign != before else None, sign and at == len(under) - 1
        before = sign


def text_of(music: abjad.Component) -> str:
    """The LilyPond text of music."""
    return str(abjad.lilypond(music))
