"""Printed music compared with its drill: notes, accidentals, fingers, bar lines."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import zip_longest
from typing import Final

from bookgen.errors import Message, told
from bookgen.model.finger import sign_of
from bookgen.plan.document import DrillEntry
from bookgen.proof import wanted
from bookgen.proof.bar_lines import BarLine
from bookgen.proof.staff import Music, Sound

OCTAVE: Final = 7
LETTERS: Final = "CDEFGAB"
NONE: Final = "\N{EN DASH}"
SIGNS: Final[Mapping[int, str]] = {-2: "bb", -1: "b", 0: "natural ", 1: "#", 2: "##"}
NOTHING: Final = Sound((), (), (), raised=False)


def music_faults(music: Music | None, entry: DrillEntry) -> Iterator[Message]:
    """Notes, accidentals, fingers and bar lines on a staff that are not the drill's."""
    if music is None:
        yield told("there are no notes")
        return
    if music.unknown:
        numbers = " ".join(f"U+{ord(sign):04X}" for sign in sorted(music.unknown))
        yield told("signs that no drill has: {signs}", signs=numbers)
    if music.strays:
        yield told("notes or accidentals that stand at no place: {count}", count=music.strays)
    wrong = next(sound_faults(music, entry), None)
    if wrong is not None:
        yield wrong
        return
    yield from bar_faults(music.bars, [*wanted.bars(entry)])


def sound_faults(music: Music, entry: DrillEntry) -> Iterator[Message]:
    """What is wrong at each note."""
    events = wanted.written(entry)
    wants = zip(
        map(wanted.heads, events), wanted.signs(events), map(wanted.fingers, events), strict=True
    )
    for at, (sound, want) in enumerate(zip_longest(music.sounds, wants), start=1):
        here, (heads, signs, fingers) = sound or NOTHING, want or ((), (), ())
        if not same(here, heads):
            yield told(
                "note {at} on the staff is {found}, and should be {wanted}",
                at=at,
                found=letters(here.heads),
                wanted=letters(heads),
            )
        elif here.signs != (lowered := shifted(signs, here, heads)):
            yield told(
                "the accidental at note {at} is {found}, and should be {wanted}",
                at=at,
                found=altered(here.signs),
                wanted=altered(lowered),
            )
        elif here.fingers != fingers:
            yield told(
                "the finger over note {at} is {found}, and should be {wanted}",
                at=at,
                found=" ".join(map(sign_of, here.fingers)) or NONE,
                wanted=" ".join(map(sign_of, fingers)) or NONE,
            )


def bar_faults(
    found: Sequence[tuple[int, BarLine]], want: Sequence[tuple[int, BarLine]]
) -> Iterator[Message]:
    """Bar lines that are missing, and those that no drill has."""
    for after, bar in sorted({*want} - {*found}):
        yield told("the bar line after note {after} is missing: {bar}", after=after, bar=bar)
    for after, bar in sorted({*found} - {*want}):
        yield told("a bar line stands after note {after}: {bar}", after=after, bar=bar)


def same(sound: Sound, heads: Sequence[int]) -> bool:
    """Whether heads stand for these notes, an octave lower where an 8va sign stands over them."""
    lower = tuple(head - OCTAVE for head in heads)
    return sound.heads == tuple(heads) or (sound.raised and sound.heads == lower)


def shifted(
    signs: Sequence[tuple[int, int]], sound: Sound, heads: Sequence[int]
) -> tuple[tuple[int, int], ...]:
    """Accidentals where the notes are printed: an octave lower under an 8va sign."""
    down = 0 if sound.heads == tuple(heads) else OCTAVE
    return tuple((place - down, sign) for place, sign in signs)


def letters(heads: Sequence[int]) -> str:
    """Notes by letter and octave, without their accidentals.

    >>> letters([32, 36])
    'G4+D5'
    """
    return "+".join(f"{LETTERS[head % OCTAVE]}{head // OCTAVE}" for head in heads) or NONE


def altered(signs: Sequence[tuple[int, int]]) -> str:
    """Accidentals with their notes.

    >>> altered([(32, -1), (36, 0)])
    'bG4+natural D5'
    """
    return "+".join(f"{SIGNS[sign]}{letters([place])}" for place, sign in signs) or NONE
