"""How the times of a bar are written: note values with dots and ties, tuplets, rests and gaps."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import Final

from bookgen.model.phrase import Bar

LONGEST: Final = Fraction(2)
SHORTEST: Final = Fraction(1, 128)
"""Note values that are written; a breve is two whole notes."""

MOST_DOTS: Final = 2
LARGEST_TUPLET: Final = 15


@dataclass(frozen=True, slots=True)
class Value:
    """One written note value.

    base: 1 for a whole note, 1/2 for a half note and so on; dots: behind it.
    length: how long it takes, in whole notes, with the tuplet around it.
    """

    base: Fraction
    dots: int
    length: Fraction

    @property
    def written(self) -> Fraction:
        """How long the value lasts where no tuplet is around it."""
        return self.base * (2 - Fraction(1, 2**self.dots))


@dataclass(frozen=True, slots=True)
class Piece:
    """A sound of a bar, or a gap in it, and the values that write it, tied to each other.

    sound: its index in the bar; None for a gap in which nothing is printed.
    graces: indexes of the grace notes before it; after: of those behind it, at the bar's end.
    """

    sound: int | None
    values: tuple[Value, ...]
    graces: tuple[int, ...] = ()
    after: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Span:
    """Pieces side by side: a tuplet of `actual` values in the time of `normal`, or none (1, 1)."""

    actual: int
    normal: int
    pieces: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Stretch:
    """A piece of a bar before it is written."""

    sound: int | None
    start: Fraction
    end: Fraction
    graces: tuple[int, ...] = ()
    after: tuple[int, ...] = ()


def written_bar(bar: Bar) -> tuple[Span, ...]:
    """Write a bar; what is too short is filled up with gaps, what is too long runs on."""
    return tuple(spans(stretches(bar)))


def silent(bar: Bar) -> bool:
    """Nothing sounds in the bar: one rest stands for all of it."""
    return all(sound.is_rest for sound in bar.sounds)


def stretches(bar: Bar) -> list[Stretch]:
    """The sounds of a bar one behind the other, with the gaps between them.

    A sound that the next one cuts short ends there. Grace notes go with what follows them, or
    with what they follow where the bar ends.
    """
    found: list[Stretch] = []
    graces: list[int] = []
    now = Fraction(0)
    timed = [(index, sound) for index, sound in enumerate(bar.sounds) if not sound.grace]
    starts = [*(sound.at for _, sound in timed[1:]), None]
    following = {index: start for (index, _), start in zip(timed, starts, strict=False)}
    for index, sound in enumerate(bar.sounds):
        if sound.grace:
            graces.append(index)
            continue
        if sound.at > now:
            found.append(Stretch(None, now, sound.at))
        start, end = max(sound.at, now), max(sound.at, now) + sound.duration
        cut = following[index]
        if cut is not None and start < cut < end:
            end = cut
        found.append(Stretch(index, start, end, tuple(graces)))
        graces, now = [], end
    if now < bar.length:
        found.append(Stretch(None, now, bar.length))
    return with_after(found, graces)


def with_after(found: list[Stretch], graces: Sequence[int]) -> list[Stretch]:
    """Hang grace notes at the end of a bar on what stands there last."""
    if graces and found:
        last = found[-1]
        found[-1] = Stretch(last.sound, last.start, last.end, last.graces, tuple(graces))
    return found


def spans(found: Sequence[Stretch]) -> Iterator[Span]:
    """Gather what lies off the plain halves, quarters, eighths … in tuplets."""
    run: list[Stretch] = []
    for stretch in found:
        run.append(stretch)
        if binary(stretch.end):
            yield span(run)
            run = []
    if run:
        yield span(run)


def binary(time: Fraction) -> bool:
    """A time that halving whole notes comes to, and that is still written."""
    return time.denominator & (time.denominator - 1) == 0


def span(run: Sequence[Stretch]) -> Span:
    """Write a run of pieces as a tuplet where it needs one."""
    start = run[0].start
    times = [stretch.end - start for stretch in run]
    odd = odd_part(lcm(*(time.denominator for time in times)))
    normal = 1 << (odd.bit_length() - 1)
    factor = Fraction(odd, normal)
    if odd > LARGEST_TUPLET or not all(fits(time * factor) for time in times):
        return Span(1, 1, tuple(piece(one, (nearest(one.end - one.start),)) for one in run))
    return Span(
        odd,
        normal,
        tuple(
            piece(one, values((one.start - start) * factor + start, one.end - one.start, factor))
            for one in run
        ),
    )


def fits(time: Fraction) -> bool:
    """A time that is a multiple of the shortest value."""
    return (time / SHORTEST).denominator == 1


def odd_part(number: int) -> int:
    """What is left of a number when it is halved as often as it goes."""
    while number % 2 == 0:
        number //= 2
    return number


def piece(stretch: Stretch, written: tuple[Value, ...]) -> Piece:
    """A piece with its values."""
    return Piece(stretch.sound, written, stretch.graces, stretch.after)


def values(start: Fraction, length: Fraction, factor: Fraction) -> tuple[Value, ...]:
    """The values that write a length, most of it in one, in an order that the beats show.

    start: from the beginning of the bar, as written; factor: from lengths to what is written.

    >>> [str(value.base) for value in values(Fraction(3, 8), Fraction(5, 8), Fraction(1))]
    ['1/8', '1/2']
    """
    found: list[Value] = []
    rest = length * factor
    while rest:
        base, dots = largest(rest)
        written = base * (2 - Fraction(1, 2**dots))
        found.append(Value(base, dots, written / factor))
        rest -= written
    end = start + length * factor
    return tuple(found[::-1] if start.denominator > end.denominator else found)


def largest(length: Fraction) -> tuple[Fraction, int]:
    """The longest value with its dots that a length holds."""
    base = LONGEST
    while base > length:
        base /= 2
    for dots in range(MOST_DOTS, 0, -1):
        dotted = base * (2 - Fraction(1, 2**dots))
        if dotted == length or (dots == 1 and dotted <= length):
            return base, dots
    return base, 0


def nearest(length: Fraction) -> Value:
    """The value that comes nearest below a length which no value writes."""
    base = LONGEST
    while base > max(length, SHORTEST):
        base /= 2
    return Value(base, 0, length)
