"""Slurs, signs, dynamics, hairpins, words and tempo as elements of MusicXML 4.0."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Final
from xml.etree.ElementTree import Element, SubElement

from bookgen.model.marking import Marking, Sign, Tempo
from bookgen.notation.marking import NO_SLURS, Slur, Slurs

NUMBERS: Final = {Slur.INNER: "1", Slur.OUTER: "2"}

PARENTS: Final = {
    Sign.UP_BOW: "technical",
    Sign.DOWN_BOW: "technical",
    Sign.TRILL: "ornaments",
    Sign.TURN: "ornaments",
    Sign.INVERTED_TURN: "ornaments",
    Sign.MORDENT: "ornaments",
    Sign.INVERTED_MORDENT: "ornaments",
    Sign.FERMATA: "",
}
"""Where a sign stands in `notations`; all others are articulations."""

ORDER: Final = ("ornaments", "technical", "articulations")
UNITS: Final = {1: "whole", 2: "half", 4: "quarter", 8: "eighth", 16: "16th"}


def notations_of(marking: Marking, technical: Element | None) -> list[Element]:
    """Signs of a sound at the first note of its chord; technical: what stands there already."""
    groups = {} if technical is None else {"technical": technical}
    fermata: list[Element] = []
    for sign in marking.signs:
        parent = PARENTS.get(sign, "articulations")
        if not parent:
            fermata.append(Element(str(sign)))
            continue
        groups.setdefault(parent, Element(parent)).append(Element(str(sign)))
    return [*(groups[name] for name in ORDER if name in groups), *fermata]


def slur_elements(slurs: Slurs = NO_SLURS) -> Iterator[Element]:
    """The ends of slurs at a note."""
    for kind in slurs.ends:
        yield Element("slur", type="stop", number=NUMBERS[kind])
    for kind in slurs.begins:
        yield Element("slur", type="start", number=NUMBERS[kind])


def directions_of(marking: Marking) -> Iterator[Element]:
    """What stands before a sound."""
    if marking.hairpin_ends:
        yield direction(Element("wedge", type="stop", number="1"))
    if marking.dynamic is not None:
        dynamics = Element("dynamics")
        SubElement(dynamics, marking.dynamic)
        yield direction(dynamics)
    if marking.hairpin is not None:
        yield direction(Element("wedge", type=marking.hairpin, number="1"))
    for word in marking.terms:
        words = Element("words", {"font-style": "italic"})
        words.text = word
        yield direction(words)


def direction(content: Element, placement: str = "below") -> Element:
    """A direction with one content."""
    found = Element("direction", placement=placement)
    SubElement(found, "direction-type").append(content)
    return found


def tempo_elements(tempo: Tempo, text: str) -> Iterator[Element]:
    """Words and beats over a bar; text: its words as XML can hold them."""
    if text:
        words = Element("words", {"font-weight": "bold"})
        words.text = text
        yield direction(words, "above")
    if tempo.beat is not None and tempo.per_minute is not None:
        metronome = Element("metronome")
        dotted = tempo.beat.numerator != 1
        unit = tempo.beat / Fraction(3, 2) if dotted else tempo.beat
        SubElement(metronome, "beat-unit").text = UNITS.get(unit.denominator, "quarter")
        if dotted:
            SubElement(metronome, "beat-unit-dot")
        SubElement(metronome, "per-minute").text = f"{float(tempo.per_minute):g}"
        yield direction(metronome, "above")
