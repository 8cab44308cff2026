"""What stands with a sound besides its notes: slurs, signs, dynamics, a player's own groups."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from typing import Final

MOST_SLURS: Final = 2
"""Slurs that lie over each other: a bow's, and a phrase's over it."""


class Sign(StrEnum):
    """Signs over a sound; their names are those of MusicXML 4.0."""

    STACCATO = "staccato"
    STACCATISSIMO = "staccatissimo"
    SPICCATO = "spiccato"
    TENUTO = "tenuto"
    PORTATO = "detached-legato"
    ACCENT = "accent"
    MARCATO = "strong-accent"
    UP_BOW = "up-bow"
    DOWN_BOW = "down-bow"
    FERMATA = "fermata"
    TRILL = "trill-mark"
    TURN = "turn"
    INVERTED_TURN = "inverted-turn"
    MORDENT = "mordent"
    INVERTED_MORDENT = "inverted-mordent"


class Dynamic(StrEnum):
    """How loud, from here on or for one sound; the names of MusicXML 4.0."""

    PPPP = "pppp"
    PPP = "ppp"
    PP = "pp"
    P = "p"
    MP = "mp"
    MF = "mf"
    F = "f"
    FF = "ff"
    FFF = "fff"
    FFFF = "ffff"
    FP = "fp"
    SF = "sf"
    SFP = "sfp"
    SFZ = "sfz"
    FZ = "fz"
    RF = "rf"
    RFZ = "rfz"


class Hairpin(StrEnum):
    """A hairpin that opens, and one that closes; the names of MusicXML 4.0."""

    CRESCENDO = "crescendo"
    DIMINUENDO = "diminuendo"


class Instruction(StrEnum):
    """Words of the trade that stand with a sound; no other word of a file is printed there."""

    CRESCENDO = "cresc."
    DECRESCENDO = "decresc."
    DIMINUENDO = "dim."
    CALANDO = "calando"
    DOLCE = "dolce"
    ESPRESSIVO = "espress."
    CANTABILE = "cantabile"
    LEGATO = "legato"
    SOSTENUTO = "sostenuto"
    TENUTO = "ten."
    MARCATO = "marcato"
    STACCATO = "stacc."
    LEGGIERO = "leggiero"
    SOTTO_VOCE = "sotto voce"
    MEZZA_VOCE = "mezza voce"
    MORENDO = "morendo"
    SMORZANDO = "smorz."
    PERDENDO = "perdendosi"
    RITARDANDO = "rit."
    RALLENTANDO = "rall."
    ACCELERANDO = "accel."
    A_TEMPO = "a tempo"
    PIZZICATO = "pizz."
    ARCO = "arco"
    CON_SORDINO = "con sord."
    SENZA_SORDINO = "senza sord."
    SUL_PONTICELLO = "sul pont."
    SUL_TASTO = "sul tasto"


@dataclass(frozen=True, slots=True)
class Marking:
    """What stands with a sound; what ends there comes before what begins.

    slurs_end, slurs_begin: how many slurs.
    hand_ends, hand_begins: the player's own group, which one hand takes without moving.
    signs: each once, in the order of `Sign`.
    hairpin_ends, hairpin: whether one ends, and which begins.
    """

    slurs_end: int = 0
    slurs_begin: int = 0
    hand_ends: bool = False
    hand_begins: bool = False
    signs: tuple[Sign, ...] = ()
    dynamic: Dynamic | None = None
    hairpin_ends: bool = False
    hairpin: Hairpin | None = None
    terms: tuple[Instruction, ...] = ()

    def beside(self, other: "Marking") -> "Marking":
        """Both of two that stand together, what they share once."""
        return Marking(
            max(self.slurs_end, other.slurs_end),
            max(self.slurs_begin, other.slurs_begin),
            self.hand_ends or other.hand_ends,
            self.hand_begins or other.hand_begins,
            tuple(sign for sign in Sign if sign in {*self.signs, *other.signs}),
            self.dynamic or other.dynamic,
            self.hairpin_ends or other.hairpin_ends,
            self.hairpin or other.hairpin,
            tuple(dict.fromkeys((*self.terms, *other.terms))),
        )


NO_MARKING: Final = Marking()


@dataclass(frozen=True, slots=True)
class Tempo:
    """How fast, from a bar on.

    words: as the file has them, e.g. "Allegro con brio"; may be empty.
    beat: in whole notes, with how many of them go into a minute; None where nothing is said.
    """

    words: str = ""
    beat: Fraction | None = None
    per_minute: Fraction | None = None


def paired(markings: Iterable[Marking]) -> Iterator[Marking]:
    """The same markings, in the order of time, without ends of what never began and the reverse.

    An excerpt cuts slurs, hairpins and groups: what is left of them is no slur any more.
    """
    found = list(markings)
    slurs = [*kept_slurs(found)]
    hands = kept_pairs([(one.hand_ends, one.hand_begins) for one in found])
    pins = kept_pairs([(one.hairpin_ends, one.hairpin is not None) for one in found])
    for one, (end, begin), hand, pin in zip(found, slurs, hands, pins, strict=True):
        yield replace(
            one,
            slurs_end=end,
            slurs_begin=begin,
            hand_ends=hand[0],
            hand_begins=hand[1],
            hairpin_ends=pin[0],
            hairpin=one.hairpin if pin[1] else None,
        )


def kept_slurs(markings: list[Marking]) -> list[tuple[int, int]]:
    """By sound, how many slurs end and begin that have both ends; the last to begin ends first."""
    found = [[0, 0] for _ in markings]
    open_at: list[int] = []
    for index, one in enumerate(markings):
        for _ in range(min(one.slurs_end, len(open_at))):
            begun = open_at.pop()
            if len(open_at) < MOST_SLURS:
                found[begun][1] += 1
                found[index][0] += 1
        open_at += [index] * one.slurs_begin
    return [(end, begin) for end, begin in found]


def kept_pairs(ends: list[tuple[bool, bool]]) -> list[tuple[bool, bool]]:
    """By sound, whether something ends and begins that has both ends, one at a time."""
    found = [[False, False] for _ in ends]
    begun: int | None = None
    for index, (end, begin) in enumerate(ends):
        if end and begun is not None:
            found[begun][1] = found[index][0] = True
            begun = None
        if begin:
            begun = index
    return [(end, begin) for end, begin in found]
