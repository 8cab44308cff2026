"""Slurs and signs of a part bar by bar: as music21 reads them, and as our phrase has them."""

from fractions import Fraction

from music21 import articulations, expressions, stream

from bookgen.model.marking import Sign
from bookgen.model.phrase import Phrase

SIGNS = {
    articulations.Staccato: Sign.STACCATO,
    articulations.Staccatissimo: Sign.STACCATISSIMO,
    articulations.Accent: Sign.ACCENT,
    articulations.StrongAccent: Sign.MARCATO,
    articulations.Tenuto: Sign.TENUTO,
    expressions.Trill: Sign.TRILL,
    expressions.Turn: Sign.TURN,
    expressions.InvertedTurn: Sign.INVERTED_TURN,
    expressions.Mordent: Sign.MORDENT,
    expressions.InvertedMordent: Sign.INVERTED_MORDENT,
}
"""music21's classes of signs at a note; a slur is told as (begins, ends)."""


def their_signs(part: "stream.Part") -> list[set[tuple[Fraction, str]]]:
    """Bar by bar: what stands with the notes, and where slurs begin and end."""
    measures = list(part.getElementsByClass(stream.Measure))
    found: list[set[tuple[Fraction, str]]] = [set() for _ in measures]
    for at, measure in enumerate(measures):
        for sound in measure.recurse().notes:
            start = Fraction(sound.getOffsetInHierarchy(measure)) / 4
            kinds = [type(sign) for sign in (*sound.articulations, *sound.expressions)]
            found[at] |= {(start, SIGNS[kind]) for kind in kinds if kind in SIGNS}
            for slur in sound.getSpannerSites("Slur"):
                found[at] |= {(start, "begins")} if slur.isFirst(sound) else set()
                found[at] |= {(start, "ends")} if slur.isLast(sound) else set()
    return found


def our_signs(phrase: Phrase) -> list[set[tuple[Fraction, str]]]:
    """The same of our phrase."""
    return [
        {
            (sound.at, told)
            for sound in bar.sounds
            for told in (
                *(sign for sign in sound.marking.signs if sign in SIGNS.values()),
                *(["begins"] if sound.marking.slurs_begin else []),
                *(["ends"] if sound.marking.slurs_end else []),
            )
        }
        for bar in phrase.bars
    ]


def dynamics(part: "stream.Part") -> list[str]:
    """The dynamics that music21 finds, in their order."""
    return [str(one.value) for one in part.recurse().getElementsByClass("Dynamic")]
