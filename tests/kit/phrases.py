"""Phrases in shorthand: `C4 D4 | G3+E4 r` with lengths, ties, fingers and strings."""

from fractions import Fraction

from bookgen.model.finger import fingers_in
from bookgen.model.phrase import Bar, Phrase, Sound, WrittenNote, with_whole_lines
from bookgen.model.pitch import Pitch
from bookgen.model.units import StringNumber
from bookgen.readers.score.text_marking import parted

NUMERALS = {"I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6}


def note(word: str) -> WrittenNote:
    """Read `~C4`, `C4:1`, `C4:1@IV`, `A5:o`: tied, with a finger, a string, as a harmonic."""
    name, _, string = word.partition("@")
    name, _, mark = name.partition(":")
    return WrittenNote(
        pitch=Pitch.parse(name.removeprefix("~")),
        finger=fingers_in(mark)[0] if mark in {*"01234t"} else None,
        string=StringNumber(NUMERALS[string]) if string else None,
        tied=name.startswith("~"),
        harmonic=mark == "o",
    )


def phrase(text: str, each: Fraction = Fraction(1, 8)) -> Phrase:
    """Read bars of words: notes joined by +, r for a rest, g before a grace note, =1/2 a length.

    Slurs and groups as in a typed passage: `{C4 D4}`, `[C4 D4]`, `D4!trill-mark`.
    """
    bars = [bar(str(n), part, each) for n, part in enumerate(text.split("|"), 1)]
    return Phrase(with_whole_lines(bars))


def bar(number: str, text: str, each: Fraction) -> Bar:
    at = Fraction(0)
    sounds: list[Sound] = []
    for marked in text.split():
        word, marking = parted(marked)
        names, _, length = word.partition("=")
        grace = names.startswith("g")
        lasts = Fraction(0) if grace else Fraction(length) if length else each
        written = [] if names == "r" else [note(one) for one in names.removeprefix("g").split("+")]
        notes = tuple(sorted(written, key=lambda one: one.pitch.midi))
        sounds.append(Sound(at, lasts, notes, grace=grace, marking=marking))
        at += lasts
    return Bar(number, tuple(sounds), at, meter=(4, 4) if number == "1" else None, sharps=0)
