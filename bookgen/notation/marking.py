"""Which slurs of a passage lie over others, and its signs as commands of our engraving files."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from bookgen.model.marking import Dynamic, Hairpin, Marking, Sign
from bookgen.model.phrase import Phrase
from bookgen.notation.sounds import Place


class Slur(StrEnum):
    """A slur, or the one over it that holds a phrase together."""

    INNER = "inner"
    OUTER = "outer"


@dataclass(frozen=True, slots=True)
class Slurs:
    """The slurs that end and begin at a sound, in this order."""

    ends: tuple[Slur, ...] = ()
    begins: tuple[Slur, ...] = ()


NO_SLURS: Final = Slurs()

OPEN: Final = {Slur.INNER: "(", Slur.OUTER: r"\("}
CLOSE: Final = {Slur.INNER: ")", Slur.OUTER: r"\)"}

SIGNS: Final = {
    Sign.STACCATO: r"\staccato",
    Sign.STACCATISSIMO: r"\staccatissimo",
    Sign.SPICCATO: r"\staccatissimo",
    Sign.TENUTO: r"\tenuto",
    Sign.PORTATO: r"\portato",
    Sign.ACCENT: r"\accent",
    Sign.MARCATO: r"\marcato",
    Sign.UP_BOW: r"^\outer \upbow",
    Sign.DOWN_BOW: r"^\outer \downbow",
    Sign.FERMATA: r"^\outer \fermata",
    Sign.TRILL: r"^\outer \trill",
    Sign.TURN: r"^\outer \turn",
    Sign.INVERTED_TURN: r"^\outer \reverseturn",
    Sign.MORDENT: r"^\outer \mordent",
    Sign.INVERTED_MORDENT: r"^\outer \prall",
}
"""LilyPond's names; the mordent of MusicXML 4.0 has a stroke, its inverted one has none."""

WITH_NOTES_ALONE: Final = frozenset(Sign) - {Sign.FERMATA}
OWN_DYNAMICS: Final = frozenset({Dynamic.FZ, Dynamic.RF, Dynamic.SFP})
"""Dynamics that passage.ily defines, under names of its own."""

PINS: Final = {Hairpin.CRESCENDO: r"\<", Hairpin.DIMINUENDO: r"\>"}


def slurs_of(phrase: Phrase) -> dict[Place, Slurs]:
    """The slurs of each sound that has any; one that lies over another is an outer one."""
    pairs = list(paired_slurs(phrase))
    ends: dict[Place, list[Slur]] = {}
    begins: dict[Place, list[Slur]] = {}
    for first, last in sorted(pairs, key=lambda pair: (pair[0], tuple(-at for at in pair[1]))):
        inside = [
            one for one in pairs if first <= one[0] and one[1] <= last and one != (first, last)
        ]
        kind = Slur.OUTER if inside else Slur.INNER
        begins.setdefault(first, []).append(kind)
        ends.setdefault(last, []).append(kind)
    return {
        place: Slurs(tuple(ends.get(place, ())[::-1]), tuple(begins.get(place, ())))
        for place in {**ends, **begins}
    }


def paired_slurs(phrase: Phrase) -> Iterator[tuple[Place, Place]]:
    """First and last sound of each slur; the last to begin ends first."""
    open_at: list[Place] = []
    for bar, entry in enumerate(phrase.bars):
        for index, sound in enumerate(entry.sounds):
            for _ in range(min(sound.marking.slurs_end, len(open_at))):
                first = open_at.pop()
                if first != (bar, index):
                    yield first, (bar, index)
            open_at += [(bar, index)] * sound.marking.slurs_begin


def begun(marking: Marking, *, is_rest: bool) -> Iterator[str]:
    """What stands at the beginning of a sound, without slurs."""
    for sign in marking.signs:
        if not (is_rest and sign in WITH_NOTES_ALONE):
            yield SIGNS[sign]
    if marking.hairpin_ends:
        yield r"\!"
    if marking.dynamic is not None:
        own = "x" if marking.dynamic in OWN_DYNAMICS else ""
        yield rf"\{own}{marking.dynamic}"
    if marking.hairpin is not None:
        yield PINS[marking.hairpin]
    for word in marking.terms:
        yield rf'_\bowWord "{word}"'


def slur_commands(
    slurs: Mapping[Place, Slurs], place: Place, *, first: bool, last: bool
) -> Iterator[str]:
    """The ends of slurs at a value of a sound; first, last: of the values of its sound."""
    here = slurs.get(place, NO_SLURS)
    if first if here.begins else last:
        yield from (CLOSE[kind] for kind in here.ends)
    if first:
        yield from (OPEN[kind] for kind in here.begins)
