"""Slurs, signs, dynamics and words of a MusicXML score, as far as a passage keeps them."""

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Final
from xml.etree.ElementTree import Element

from bookgen.model.marking import (
    MOST_SLURS,
    NO_MARKING,
    Dynamic,
    Hairpin,
    Instruction,
    Marking,
    Sign,
    Tempo,
)
from bookgen.readers.score.numbers import inner, number
from bookgen.readers.score.parts import cleaned

LONGEST_TEMPO: Final = 60

NOTE_VALUES: Final = {
    "whole": Fraction(1),
    "half": Fraction(1, 2),
    "quarter": Fraction(1, 4),
    "eighth": Fraction(1, 8),
    "16th": Fraction(1, 16),
}
"""Beats of a metronome; MusicXML 4.0, data type note-type-value."""

SPELT: Final = {
    Instruction.CRESCENDO: "crescendo cresc cres",
    Instruction.DECRESCENDO: "decrescendo decresc decres",
    Instruction.DIMINUENDO: "diminuendo dimin dim",
    Instruction.ESPRESSIVO: "espressivo espress espr",
    Instruction.CANTABILE: "cantabile cantab",
    Instruction.SOSTENUTO: "sostenuto sosten",
    Instruction.TENUTO: "tenuto ten",
    Instruction.STACCATO: "staccato stacc",
    Instruction.LEGGIERO: "leggiero leggermente leggero",
    Instruction.SMORZANDO: "smorzando smorz",
    Instruction.PERDENDO: "perdendosi perdendo",
    Instruction.RITARDANDO: "ritardando ritard rit",
    Instruction.RALLENTANDO: "rallentando rall",
    Instruction.ACCELERANDO: "accelerando accel",
    Instruction.PIZZICATO: "pizzicato pizz",
    Instruction.ARCO: "arco coll'arco",
}
"""Other spellings of a term, without their stops (common practice)."""

TERMS: Final = {
    spelling: term
    for term in Instruction
    for spelling in (term.rstrip("."), *SPELT.get(term, "").split())
}
RULES: Final = {
    "con sordino": Instruction.CON_SORDINO,
    "con sordini": Instruction.CON_SORDINO,
    "senza sordino": Instruction.SENZA_SORDINO,
    "senza sordini": Instruction.SENZA_SORDINO,
    "sul ponticello": Instruction.SUL_PONTICELLO,
}
SPACE: Final = re.compile(r"[\s.,;:_-]+")

PACES: Final = (
    "adagio adagietto agitato allegretto allegro andante andantino animato comodo giusto "
    "grave grazioso largo larghetto lento maestoso marcia menuet menuetto minuetto minuet "
    "moderato mosso moto presto prestissimo scherzo scherzando tempo trio vivace vivo rondo"
)
BESIDE: Final = (
    "con ma non troppo un piu più meno e ed al alla di quasi poco molto assai sostenuto cantabile "
    "brio primo i"
)
TELLING: Final = frozenset(PACES.split())
TEMPO_WORDS: Final = TELLING | frozenset(BESIDE.split())
"""Words that tell a tempo by themselves, and all that stand in one (common practice)."""


def note_marking(group: Iterable[Element]) -> Marking:
    """What stands with the notes of a chord, what they share once."""
    found = NO_MARKING
    for note in group:
        for notations in note.iterfind("notations"):
            found = found.beside(marking_of(notations))
    return found


def rest_marking(group: Iterable[Element]) -> Marking:
    """What stands with a rest: a fermata at the most."""
    signs = note_marking(group).signs
    return Marking(signs=tuple(sign for sign in signs if sign is Sign.FERMATA))


def marking_of(notations: Element) -> Marking:
    """What a `notations` element says."""
    kinds = [slur.get("type") for slur in notations.iterfind("slur")]
    return Marking(
        slurs_end=min(kinds.count("stop"), MOST_SLURS),
        slurs_begin=min(kinds.count("start"), MOST_SLURS),
        signs=in_order(signs_in(notations)),
        dynamic=dynamic_in(notations),
    )


def in_order(signs: Iterable[Sign]) -> tuple[Sign, ...]:
    """Signs as a marking has them."""
    found = frozenset(signs)
    return tuple(sign for sign in Sign if sign in found)


def signs_in(notations: Element) -> Iterator[Sign]:
    """The signs in the order of the file."""
    known = tuple(Sign)
    for child in notations:
        if child.tag in known:
            yield Sign(child.tag)
        elif child.tag in {"articulations", "ornaments", "technical"}:
            yield from (Sign(sign.tag) for sign in child if sign.tag in known)


def dynamic_in(element: Element) -> Dynamic | None:
    """The first dynamic that we know."""
    known = tuple(Dynamic)
    found = (sign.tag for dynamics in element.iterfind("dynamics") for sign in dynamics)
    return next((Dynamic(tag) for tag in found if tag in known), None)


def direction_marking(direction: Element) -> Marking:
    """What a `direction` says of the sound that follows it.

    A `bracket` is the player's own group: one hand takes what lies under it.
    """
    found = NO_MARKING
    for kind in direction.iterfind("direction-type"):
        wedges = [wedge.get("type", "") for wedge in kind.iterfind("wedge")]
        brackets = {bracket.get("type") for bracket in kind.iterfind("bracket")}
        pins = [Hairpin(wedge) for wedge in wedges if wedge in tuple(Hairpin)]
        one = Marking(
            hand_ends="stop" in brackets,
            hand_begins="start" in brackets,
            dynamic=dynamic_in(kind),
            hairpin_ends="stop" in wedges,
            hairpin=pins[0] if pins else None,
            terms=tuple(terms_in(inner(kind, "words"))),
        )
        found = found.beside(one)
    return found


def terms_in(words: str) -> Iterator[Instruction]:
    """The terms that a text consists of; none where another word stands in it."""
    plain = SPACE.sub(" ", words.casefold()).strip()
    if plain in TERMS or plain in RULES:
        yield TERMS.get(plain) or RULES[plain]
        return
    found = [TERMS.get(word) for word in plain.split() if word not in {"e", "ed"}]
    if found and None not in found:
        yield from (term for term in found if term is not None)


def tempo_of(direction: Element) -> Tempo | None:
    """How fast from here on, where a `direction` says it."""
    words, beat, count = "", None, None
    for kind in direction.iterfind("direction-type"):
        text = cleaned(inner(kind, "words"), LONGEST_TEMPO)
        plain = SPACE.sub(" ", text.casefold()).split()
        if not words and set(plain) & TELLING and set(plain) <= TEMPO_WORDS:
            words = text
        for metronome in kind.iterfind("metronome"):
            unit = NOTE_VALUES.get(inner(metronome, "beat-unit"))
            speed = number(inner(metronome, "per-minute"), 1, 999)
            if unit is not None and speed is not None:
                dotted = metronome.find("beat-unit-dot") is not None
                beat, count = unit * Fraction(3, 2) if dotted else unit, speed
    return Tempo(words, beat, count) if words or beat else None


def tempos_of(root: Element, part: Element) -> dict[int, Tempo]:
    """By the index of the bar, how fast it goes: as the part says, else the first that does."""
    found: dict[int, Tempo] = {}
    others = [other for other in root.iterfind("part") if other is not part]
    for source in (part, *others):
        for index, measure in enumerate(source.iterfind("measure")):
            for direction in measure.iterfind("direction"):
                tempo = tempo_of(direction)
                if tempo is not None:
                    found.setdefault(index, tempo)
                    break
    return found
