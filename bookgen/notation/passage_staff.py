"""A passage as an abjad staff: meter, bars, tuplets, ties, and what stands over the notes."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

import abjad

from bookgen.model.instrument import Instrument
from bookgen.model.marking import NO_MARKING, Tempo
from bookgen.model.phrase import Phrase, with_whole_lines
from bookgen.notation.bars import (
    COMMON,
    MOST_SIGNS,
    bar_name,
    beat,
    keys_of,
    length_of,
    writable,
)
from bookgen.notation.clef import clefs_of
from bookgen.notation.fingered import NO_MARK, PLAIN, Fingered, Mark, Reading, fingered
from bookgen.notation.leaf import (
    NoteOrChord,
    finger_commands,
    hang,
    heads_of,
    length,
    multiplier,
    put_before,
    sounding,
    text_of,
    write_octave_signs,
    write_strings,
)
from bookgen.notation.marking import Slurs, begun, slur_commands, slurs_of
from bookgen.notation.octave import under_octave_sign
from bookgen.notation.rhythm import Piece, Span, Value, silent, written_bar
from bookgen.notation.sounds import Place, sound_at
from bookgen.notation.tie import NO_TIES, Ties
from bookgen.plan.passage import Fingering

MAJOR: Final = ["cf", "gf", "df", "af", "ef", "bf", "f", "c", "g", "d", "a", "e", "b", "fs", "cs"]
"""The tonics of the major keys from seven flats to seven sharps."""

MAY_BREAK_FROM: Final = 12
"""Note values in a bar from which a line of music may end within it (own choice)."""

TEMPO_UNITS: Final = frozenset({1, 2, 4, 8, 16})
"""Note values that count a tempo."""

GRACE_ALONE, GRACE_OF_SEVERAL = Fraction(1, 8), Fraction(1, 16)
"""Note values of a grace note, and of each of several."""


@dataclass(slots=True)
class PassageWriter:
    """Writes the bars of a passage.

    slurs: by the places of their sounds.
    leaves: what is written so far in the order of time, grace notes too, with the place of the
        sound; None for a gap.
    """

    score: Fingered
    slurs: Mapping[Place, Slurs]
    leaves: list[tuple[abjad.Leaf, Place | None]] = field(default_factory=list)

    def bar(self, number: int) -> Iterator[abjad.Component]:
        """The notes of a bar."""
        bar = self.score.phrase.bars[number]
        if silent(bar) and number:
            whole = multiplier(length_of(bar))
            rest = abjad.MultimeasureRest.from_duration(abjad.Duration(1), dmp=whole)
            marking = bar.sounds[0].marking if bar.sounds else NO_MARKING
            hang(rest, begun(marking, is_rest=True))
            self.leaves.append((rest, None))
            yield rest
            return
        written = written_bar(bar)
        long = sum(len(p.values) for span in written for p in span.pieces) >= MAY_BREAK_FROM
        now = Fraction()
        for span in written:
            first = len(self.leaves)
            yield from self.span(number, span)
            if long and now and (now / beat(self.score.phrase, number)).denominator == 1:
                put_before(self.leaves[first][0], [r"\mayBreak"])
            now += sum((value.length for p in span.pieces for value in p.values), Fraction())

    def span(self, number: int, span: Span) -> Iterator[abjad.Component]:
        """The pieces of a span, within their tuplet where they have one."""
        factor = Fraction(span.normal, span.actual)
        leaves = [leaf for piece in span.pieces for leaf in self.piece(number, piece, factor)]
        if factor == 1:
            yield from leaves
        else:
            yield abjad.Tuplet(abjad.Ratio(span.actual, span.normal), leaves)

    def piece(self, number: int, piece: Piece, factor: Fraction) -> Iterator[abjad.Leaf]:
        """A sound with its grace notes, its values tied to each other; or a gap."""
        place = (number, piece.sound) if piece.sound is not None else None
        before = self.graces(number, piece.graces)
        last = len(piece.values) - 1
        for index, value in enumerate(piece.values):
            leaf = self.value(place, value, factor, first=index == 0, last=index == last)
            if before:
                abjad.attach(abjad.BeforeGraceContainer(before), leaf)
                before = []
            if index == last and piece.after:
                after = self.graces(number, piece.after)
                abjad.attach(abjad.AfterGraceContainer(after), leaf)
            yield leaf

    def graces(self, number: int, indexes: Sequence[int]) -> list[abjad.Leaf]:
        """Grace notes."""
        value = GRACE_ALONE if len(indexes) == 1 else GRACE_OF_SEVERAL
        written = Value(value, 0, value)
        one = Fraction(1)
        return [self.value((number, at), written, one, first=True, last=True) for at in indexes]

    def value(
        self, place: Place | None, value: Value, factor: Fraction, *, first: bool, last: bool
    ) -> abjad.Leaf:
        """One value of a sound: its notes and what hangs on them; or a gap.

        factor: by which the tuplet around it shortens it.
        first, last: of the values of its sound.
        """
        scale = value.length / (value.written * factor)
        leaf = self.leaf(place, value.written, scale)
        if isinstance(leaf, NoteOrChord) and place is not None:
            mark = self.score.marks.get(place, NO_MARK)
            write_ties(leaf, self.score.ties.get(place, NO_TIES), first=first, last=last)
            cross_out(leaf, mark)
            if first:
                write_strings(leaf, mark.strings)
        if place is not None:
            hang(leaf, self.hanging(place, first=first, last=last))
        self.leaves.append((leaf, place))
        return leaf

    def leaf(self, place: Place | None, written: Fraction, scale: Fraction) -> abjad.Leaf:
        """The bare notes of a sound, a rest, or a gap; scale: how much longer than it looks."""
        sound = sound_at(self.score.phrase, place) if place is not None else None
        if sound is not None and not sound.is_rest:
            return sounding([note.pitch for note in sound.notes], written, scale)
        kind = abjad.Skip if sound is None else abjad.Rest
        return kind.from_duration(length(written), dmp=multiplier(scale))

    def hanging(self, place: Place, *, first: bool, last: bool) -> Iterator[str]:
        """The fingers over a sound, its signs, and the ends of slurs and brackets."""
        if first:
            mark = self.score.marks.get(place, NO_MARK)
            told = (stop for _, stop in sorted(mark.stops.items()))
            fingers = [stop.finger for stop in told if stop.semitones >= 0]
            yield from finger_commands(fingers, self.score.arrows.get(place, {}))
            if mark.harmonics:
                yield r"^\outer \flageolet"
            if place in self.score.opens:
                yield rf'\group "{self.score.opens[place]}"'
            sound = sound_at(self.score.phrase, place)
            yield from begun(sound.marking, is_rest=sound.is_rest)
            yield from self.spot(place)
        yield from slur_commands(self.slurs, place, first=first, last=last)
        if last and place in self.score.closes:
            yield r"\endGroup"
        if last and place in self.score.eased and place not in self.score.hard:
            yield r"\endSpot"

    def spot(self, place: Place) -> Iterator[str]:
        """The number of a hard spot that begins there; one of a single sound has no bracket."""
        if place in self.score.hard:
            command = r"\loneSpot" if place in self.score.eased else r"\spot"
            yield f'{command} "{self.score.hard[place]}"'


def passage_music(
    phrase: Phrase, fingering: Fingering, instrument: Instrument, reading: Reading = PLAIN
) -> str:
    """The LilyPond text of a passage's staff.

    Nothing stands in it but notes, numbers and letters of ours: no word that a user wrote.

    Raises:
        ValueError: the phrase has no bars.
    """
    if not phrase.bars:
        msg = "a passage without bars has nothing to engrave"
        raise ValueError(msg)
    phrase = Phrase(with_whole_lines(phrase.bars))
    writer = PassageWriter(fingered(phrase, fingering, reading), slurs_of(phrase))
    bars = [list(writer.bar(number)) for number in range(len(phrase.bars))]
    staff = abjad.Staff([component for bar in bars for component in bar])
    write_clefs_and_keys(bars, phrase, clefs_of(phrase, instrument))
    write_meters(bars, phrase)
    under = under_octave_sign(phrase, instrument)
    placed = [(leaf, place in under) for leaf, place in writer.leaves if place is not None]
    write_octave_signs([leaf for leaf, _ in placed], [sign for _, sign in placed])
    names = " ".join(f'"{bar_name(bar)}"' for bar in phrase.bars)
    opening = [rf"\barNames #'({names})", r"\graceFingers"]
    abjad.attach(abjad.LilyPondLiteral(opening, site="opening"), staff)
    abjad.attach(abjad.LilyPondLiteral(["|", r'\bar "|."'], site="closing"), staff)
    return text_of(staff)


def write_ties(leaf: NoteOrChord, ties: Ties, *, first: bool, last: bool) -> None:
    """Ties to the next value or sound, and from something that is not there.

    first, last: the leaf is the first, and the last, value of its sound.
    """
    every = frozenset(range(len(heads_of(leaf))))
    on = ties.on if last else every
    over = ties.over if first else frozenset()
    if on == every:
        abjad.attach(abjad.Tie(), leaf)
    if over == every:
        abjad.attach(abjad.RepeatTie(), leaf)
    for command, some in ((r"\tieHeads", on), (r"\tieHeadsOver", over)):
        if some and some != every:
            heads = " ".join(map(str, sorted(some)))
            abjad.attach(abjad.LilyPondLiteral(f"{command} #'({heads})"), leaf)


def cross_out(leaf: NoteOrChord, mark: Mark) -> None:
    """Crosses for heads where no finger reaches."""
    for index, head in enumerate(heads_of(leaf)):
        if index in mark.unplayable:
            abjad.tweak(head, r"\tweak style #'cross")


def write_clefs_and_keys(
    bars: Sequence[Sequence[abjad.Component]], phrase: Phrase, clefs: Sequence[str]
) -> None:
    """Clef and key where they change, before any grace notes; clefs: of each bar."""
    keys = keys_of(phrase)
    for number, bar in enumerate(bars):
        leaf = next(abjad.iterate.leaves(bar))
        if number == 0 or clefs[number] != clefs[number - 1]:
            abjad.attach(abjad.Clef(clefs[number]), leaf)
        if number == 0 or keys[number] != keys[number - 1]:
            abjad.attach(key_signature(keys[number]), leaf)


def write_meters(bars: Sequence[Sequence[abjad.Component]], phrase: Phrase) -> None:
    """A check that each bar is full before the next one begins, and that one's meter.

    They stand before grace notes, which would take them too early, and before tuplets, which would
    shorten an upbeat.
    """
    for number, (bar, meter) in enumerate(zip(bars, meter_commands(phrase), strict=True)):
        put_before(bar[0], ["|", *meter] if number else meter)


def key_signature(sharps: int) -> abjad.KeySignature:
    """The major key with so many sharps, or flats where negative; none where there is no such."""
    tonic = MAJOR[sharps + MOST_SIGNS] if abs(sharps) <= MOST_SIGNS else "c"
    return abjad.KeySignature(abjad.NamedPitchClass(tonic), abjad.Mode("major"))


def meter_commands(phrase: Phrase) -> Iterator[list[str]]:
    """The commands that tell the meter of each bar, in the order in which LilyPond needs them."""
    running = COMMON
    for number, bar in enumerate(phrase.bars):
        found = [*tempo_commands(bar.tempo)] if bar.tempo else []
        if bar.meter is not None and writable(bar.meter):
            found.append(rf"\time {bar.meter[0]}/{bar.meter[1]}")
            running = Fraction(*bar.meter)
        elif number == 0:
            found.append(r"\once \omit Staff.TimeSignature")
        lasts = length_of(bar)
        if number == 0 and lasts < running:
            found.append(rf"\partial 1*{lasts.numerator}/{lasts.denominator}")
        elif lasts != running:
            running = lasts
            found.append(rf"\set Timing.measureLength = #(ly:make-moment {lasts})")
        yield found


def tempo_commands(tempo: Tempo) -> Iterator[str]:
    """Beats a minute; the words of a tempo are a user's, and never reach the engraver."""
    if tempo.beat is not None and tempo.per_minute is not None:
        dotted = tempo.beat.numerator != 1
        unit = tempo.beat / Fraction(3, 2) if dotted else tempo.beat
        if unit.numerator == 1 and unit.denominator in TEMPO_UNITS:
            yield rf"\tempo {unit.denominator}{'.' * dotted} = {round(tempo.per_minute)}"
