"""Drills as a MusicXML 4.0 file: each with its title, in bars without a meter, in one voice."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import lcm
from typing import Final
from xml.etree.ElementTree import Element, SubElement

from bookgen.model.event import Begins, Event
from bookgen.model.instrument import Instrument
from bookgen.model.marking import Tempo
from bookgen.model.music import layings
from bookgen.notation.accidental import Accidentals
from bookgen.notation.clef import clef_of
from bookgen.notation.musicxml import FINAL, attributes, bar_line, document, measure, printable
from bookgen.notation.musicxml_marking import direction, tempo_elements
from bookgen.notation.musicxml_note import Head, Leaf, leaf_elements
from bookgen.notation.played import Played, Recital
from bookgen.notation.rhythm import values

BAR_STYLES: Final = {Begins.GROUP: "short", Begins.TURN: "light-light"}
"""The bar lines before what opens; MusicXML 4.0, data type bar-style."""

QUARTER: Final = Fraction(1, 4)


def drills_musicxml(recital: Recital, instrument: Instrument) -> bytes:
    """Drills as one MusicXML file, each on a line of its own.

    Notes carry `fingering` and `string` (1 is the highest), as MusicXML 4.0 has them. What
    sounds together is a chord, what sounds on is tied. A bar is one laying of the hand and has
    no meter (`senza-misura`); programs that draw an 8va sign add it themselves.
    """
    lengths = [event.duration for played in recital.drills for event in played.events]
    divisions = lcm(*((length * 4).denominator for length in lengths))
    measures: list[Element] = []
    clef = ""
    for played in recital.drills:
        before, clef = clef, clef_of(played.events, instrument)
        first = not measures
        signs = attributes(
            divisions if first else None,
            0 if first else None,
            None,
            None if clef == before else clef,
            instrument.sounding if first else 0,
            free=first,
        )
        opening = [
            *([] if first else [Element("print", {"new-system": "yes"})]),
            *([signs] if len(signs) else []),
            *heading(played),
            *(speed(recital.quarters_a_minute) if first else ()),
        ]
        measures += drill_measures(played.events, len(measures), opening, divisions)
    return document(recital.title, instrument, measures)


def heading(played: Played) -> Iterator[Element]:
    """The title of a drill over its first bar."""
    words = Element("words", {"font-weight": "bold"})
    words.text = printable(played.title)
    yield direction(words, "above")


def speed(quarters_a_minute: int) -> Iterator[Element]:
    """The speed, for who reads and for a program that plays."""
    for mark in tempo_elements(Tempo("", QUARTER, Fraction(quarters_a_minute)), ""):
        SubElement(mark, "sound", tempo=str(quarters_a_minute))
        yield mark


def drill_measures(
    events: Sequence[Event], before: int, opening: Sequence[Element], divisions: int
) -> Iterator[Element]:
    """The bars of a drill.

    before: how many bars stand in front; opening: what comes first in the first one.
    """
    bars = layings(events)
    for number, bar in enumerate(bars):
        last = number == len(bars) - 1
        style = FINAL if last else BAR_STYLES[bars[number + 1][0].begins]
        contents = [*(opening if number == 0 else ()), *bar_elements(bar, divisions)]
        yield measure(str(before + number + 1), [*contents, bar_line(style)])


def bar_elements(events: Sequence[Event], divisions: int) -> Iterator[Element]:
    """One laying of the hand, in one voice."""
    accidentals = Accidentals()
    start = Fraction()
    for index, event in enumerate(events):
        written = values(start, event.duration, Fraction(1))
        for at, value in enumerate(written):
            last = at == len(written) - 1
            heads = heads_of(events, index, accidentals, first=at == 0, last=last)
            yield from leaf_elements(Leaf(tuple(heads), value), divisions)
        start += event.duration


def heads_of(
    events: Sequence[Event], index: int, accidentals: Accidentals, *, first: bool, last: bool
) -> Iterator[Head]:
    """The notes of one value of an event, the lowest first; first, last: of its values."""
    going_on = {
        note.stop for event in events[index + 1 : index + 2] for note in event.notes if note.held
    }
    for note in sorted(events[index].notes, key=lambda note: note.pitch.midi):
        back = note.held or not first
        sign = None if back else accidentals.of(note.pitch)
        yield Head(
            pitch=note.pitch,
            accidental=sign,
            stop=None if back else note.stop,
            back=back,
            on=note.stop in going_on or not last,
        )
