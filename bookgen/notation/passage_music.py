"""A passage as LilyPond's notes: meter, bars, tuplets, ties, and what stands over the notes."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.model.pitch import Pitch
from bookgen.notation.passage_bars import bar_names, bar_signs, length_of
from bookgen.notation.passage_clef import clefs_of, under_octave_sign
from bookgen.notation.passage_label import (
    NO_MARK,
    Mark,
    Place,
    brackets_of,
    marks_of,
    places,
    sound_at,
)
from bookgen.notation.passage_rhythm import Piece, Span, Value, silent, written_bar
from bookgen.notation.passage_tie import NO_TIES, Ties, ties_of
from bookgen.plan.passage import Fingering

MAY_BREAK_FROM: Final = 12
"""Note values in a bar from which a line of music may end within it (own choice)."""

GRACE_ALONE, GRACE_OF_SEVERAL = 8, 16
"""Note values of a grace note, and of each of several."""

EIGHTH: Final = 8
THREE: Final = 3
"""Eighths and shorter values go in threes where the meter has more than one three of them."""

SMALL_OCTAVE: Final = 3
"""The octave that LilyPond writes without a mark."""


@dataclass(frozen=True, slots=True)
class Score:
    """A phrase and all that is printed with it, by the places of its sounds."""

    phrase: Phrase
    clefs: tuple[str, ...]
    marks: Mapping[Place, Mark]
    ties: Mapping[Place, Ties]
    opens: Mapping[Place, str]
    closes: frozenset[Place]
    octave: Mapping[Place, int]
    """Where an 8va sign begins (1) or is over (0)."""


def score_of(phrase: Phrase, fingering: Fingering, instrument: Instrument) -> Score:
    """Gather what is printed with a phrase."""
    brackets = list(brackets_of(phrase, fingering))
    return Score(
        phrase=phrase,
        clefs=clefs_of(phrase, instrument),
        marks=marks_of(phrase, fingering),
        ties=ties_of(phrase),
        opens={bracket.first: bracket.letter for bracket in brackets},
        closes=frozenset(bracket.last for bracket in brackets),
        octave=octave_changes(phrase, instrument),
    )


def octave_changes(phrase: Phrase, instrument: Instrument) -> dict[Place, int]:
    """Where notes go under an 8va sign, and where they come out again."""
    under = under_octave_sign(phrase, instrument)
    found: dict[Place, int] = {}
    before = False
    for place in places(phrase):
        if (place in under) != before:
            before = place in under
            found[place] = int(before)
    return found


def passage_music(phrase: Phrase, fingering: Fingering, instrument: Instrument) -> str:
    """The LilyPond text of a passage's staff.

    Nothing stands in it but notes, numbers and letters of ours: no word that a user wrote.

    Raises:
        ValueError: the phrase has no bars.
    """
    if not phrase.bars:
        msg = "a passage without bars has nothing to engrave"
        raise ValueError(msg)
    score = score_of(phrase, fingering, instrument)
    lines = [bar_names(phrase), r"\graceFingers"]
    for number, signs in enumerate(bar_signs(phrase, score.clefs)):
        lines += [*signs, f"{bar_music(score, number)} |"]
    lines += ["\\ottava 0"] * (len(score.octave) % 2)
    body = "\n".join(f"  {line}" for line in lines)
    return f'\\new Staff {{\n{body}\n  \\bar "|."\n}}'


def bar_music(score: Score, number: int) -> str:
    """The notes of a bar."""
    bar = score.phrase.bars[number]
    if silent(bar) and number:
        length = length_of(bar)
        return f"R1*{length.numerator}/{length.denominator}"
    written = written_bar(bar)
    long = sum(len(p.values) for span in written for p in span.pieces) >= MAY_BREAK_FROM
    words: list[str] = []
    now = Fraction()
    for span in written:
        if long and now and (now / beat(score.phrase, number)).denominator == 1:
            words.append(r"\mayBreak")
        music = " ".join(piece_music(score, number, piece, span) for piece in span.pieces)
        plain = span.actual == span.normal
        words.append(music if plain else f"\\tuplet {span.actual}/{span.normal} {{ {music} }}")
        now += sum((value.length for p in span.pieces for value in p.values), Fraction())
    return " ".join(words)


def beat(phrase: Phrase, number: int) -> Fraction:
    """How long a beat of a bar lasts; three of them where the meter is compound."""
    meters = [bar.meter for bar in phrase.bars[: number + 1] if bar.meter is not None]
    beats, value = meters[-1] if meters else (4, 4)
    compound = value >= EIGHTH and beats % THREE == 0 and beats > THREE
    return Fraction(THREE if compound else 1, value)


def piece_music(score: Score, number: int, piece: Piece, span: Span) -> str:
    """A sound with its grace notes, its values tied to each other; or a gap."""
    factor = Fraction(span.normal, span.actual)
    words = [grace_music(score, number, piece.graces)] if piece.graces else []
    place = (number, piece.sound) if piece.sound is not None else None
    last = len(piece.values) - 1
    for index, value in enumerate(piece.values):
        ends = (index == 0, index == last)
        music = sound_music(score, place, duration(value, factor), ends)
        words.append(f"\\afterGrace {{ {music} }}" if piece.after and index == last else music)
    if piece.after:
        words.append(f"{{ {grace_notes(score, number, piece.after)} }}")
    return " ".join(words)


def duration(value: Value, factor: Fraction) -> str:
    """A note value as LilyPond writes it.

    factor: by which the tuplet around it shortens it.
    """
    base = r"\breve" if value.base > 1 else str(value.base.denominator)
    scale = value.length / (value.written * factor)
    scaled = "" if scale == 1 else f"*{scale.numerator}/{scale.denominator}"
    return f"{base}{'.' * value.dots}{scaled}"


def grace_music(score: Score, number: int, graces: Sequence[int]) -> str:
    """Grace notes before a sound."""
    return f"\\grace {{ {grace_notes(score, number, graces)} }}"


def grace_notes(score: Score, number: int, graces: Sequence[int]) -> str:
    """The notes of one or several grace notes."""
    value = GRACE_ALONE if len(graces) == 1 else GRACE_OF_SEVERAL
    return " ".join(
        sound_music(score, (number, index), str(value), (True, True)) for index in graces
    )


def sound_music(score: Score, place: Place | None, length: str, ends: tuple[bool, bool]) -> str:
    """One value of a sound: its notes and what hangs on them.

    ends: it is the first, and the last, value of its sound.
    """
    if place is None:
        return f"s{length}"
    first, last = ends
    mark, ties = score.marks.get(place, NO_MARK), score.ties.get(place, NO_TIES)
    sound = sound_at(score.phrase, place)
    before = f"\\ottava {score.octave[place]} " if first and place in score.octave else ""
    hangs = "".join(hung(score, place, mark, ends))
    if sound.is_rest:
        return f"{before}r{length}{hangs}"
    heads = []
    for index, note in enumerate(sound.notes):
        cross = r"\tweak style #'cross " if index in mark.unplayable else ""
        tied = "~" if not last or index in ties.on else ""
        over = r"\repeatTie" if first and index in ties.over else ""
        heads.append((f"{cross}{named(note.pitch)}", f"{over}{tied}"))
    if len(heads) == 1:
        ((head, post),) = heads
        return f"{before}{head}{length}{post}{hangs}"
    return f"{before}<{' '.join(head + post for head, post in heads)}>{length}{hangs}"


def hung(score: Score, place: Place, mark: Mark, ends: tuple[bool, bool]) -> Iterator[str]:
    """What hangs on a sound: fingers, harmonics, string numerals, the ends of brackets."""
    first, last = ends
    if first:
        for row, (_, finger) in enumerate(sorted(mark.fingers.items())):
            yield f"^\\atFinger {row} {finger}"
        if mark.harmonic:
            yield r"^\flageolet"
        if mark.strings:
            yield f'^\\markup "{mark.strings}"'
        if place in score.opens:
            yield f'\\group "{score.opens[place]}"'
    if last and place in score.closes:
        yield r"\endGroup"


def named(pitch: Pitch) -> str:
    """A pitch in LilyPond's English names.

    >>> named(Pitch.parse("Bb3")), named(Pitch.parse("F#5"))
    ('bf', "fs''")
    """
    sign = "s" if pitch.accidental > 0 else "f"
    marks = "'" * (pitch.octave - SMALL_OCTAVE) or "," * (SMALL_OCTAVE - pitch.octave)
    return f"{pitch.letter.lower()}{sign * abs(pitch.accidental)}{marks}"
