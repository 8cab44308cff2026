"""Fingered passages as JSON text."""

from fractions import Fraction

import msgspec

from bookgen.errors import Message
from bookgen.model.marking import NO_MARKING, Marking, Tempo
from bookgen.model.phrase import Bar, Phrase, Sound
from bookgen.model.stop import Stop
from bookgen.plan.passage import Fingering, Group, Ladder, Need, Passage, Placed, Spot
from bookgen.plan.passage_facts import bars_of
from bookgen.plan.passage_wire import (
    PASSAGE_FORMAT,
    PASSAGE_VERSION,
    BarTable,
    FingeringTable,
    GroupTable,
    LadderTable,
    MarkingTable,
    NeedTable,
    PassageTable,
    PlacedTable,
    PlayedTable,
    SoundTable,
    SpotTable,
    StopTable,
    TempoTable,
    UnplayableTable,
    WrittenNoteTable,
)


def encode_passage(passage: Passage) -> str:
    """Write a passage as JSON text, two spaces a level, the same for the same passage."""
    phrase = passage.phrase
    table = PassageTable(
        format=PASSAGE_FORMAT,
        version=PASSAGE_VERSION,
        title=passage.title,
        instrument=passage.instrument,
        size=passage.size,
        bars=[bar_table(bar) for bar in phrase.bars],
        best=fingering_table(passage.best, phrase),
        other=fingering_table(passage.other, phrase) if passage.other else None,
        spots=[spot_table(spot, passage) for spot in passage.spots],
        easier=passage.easier,
        ladders=[ladder_table(ladder) for ladder in passage.ladders],
        plan=passage.plan,
    )
    return msgspec.json.format(msgspec.json.encode(table), indent=2).decode() + "\n"


def bar_table(bar: Bar) -> BarTable:
    """A bar as it stands in the document."""
    return BarTable(
        number=bar.number,
        length=time(bar.length),
        sounds=[sound_table(sound) for sound in bar.sounds],
        meter=f"{bar.meter[0]}/{bar.meter[1]}" if bar.meter else None,
        sharps=bar.sharps,
        tempo=tempo_table(bar.tempo) if bar.tempo else None,
    )


def sound_table(sound: Sound) -> SoundTable:
    """A sound as it stands in the document."""
    return SoundTable(
        at=time(sound.at),
        duration=time(sound.duration),
        notes=[
            WrittenNoteTable(
                pitch=str(note.pitch),
                finger=note.finger,
                string=note.string,
                tied=note.tied,
                harmonic=note.harmonic,
            )
            for note in sound.notes
        ],
        grace=sound.grace,
        marking=None if sound.marking == NO_MARKING else marking_table(sound.marking),
    )


def marking_table(marking: Marking) -> MarkingTable:
    """What stands with a sound, as it stands in the document."""
    return MarkingTable(
        slurs_end=marking.slurs_end,
        slurs_begin=marking.slurs_begin,
        hand_ends=marking.hand_ends,
        hand_begins=marking.hand_begins,
        signs=marking.signs,
        dynamic=marking.dynamic,
        hairpin_ends=marking.hairpin_ends,
        hairpin=marking.hairpin,
        terms=marking.terms,
    )


def tempo_table(tempo: Tempo) -> TempoTable:
    """How fast a bar goes, as it stands in the document."""
    return TempoTable(
        words=tempo.words,
        beat=time(tempo.beat) if tempo.beat else None,
        per_minute=float(tempo.per_minute) if tempo.per_minute else None,
    )


def time(length: Fraction) -> str:
    """A time in whole notes.

    >>> time(Fraction(3, 8)), time(Fraction(0))
    ('3/8', '0')
    """
    return str(length)


def fingering_table(fingering: Fingering, phrase: Phrase) -> FingeringTable:
    """A fingering as it stands in the document."""
    return FingeringTable(
        cost=fingering.cost,
        placed=[placed_table(placed, phrase) for placed in fingering.placed],
        groups=[group_table(group, fingering, phrase) for group in fingering.groups],
        unplayable=[
            UnplayableTable(bar=bar, problem=problem.text, facts=facts_table(problem))
            for bar, problem in fingering.unplayable
        ],
    )


def facts_table(problem: Message) -> dict[str, str | int | list[str]]:
    """What a problem is about: numbers, and notes by their names."""
    return {name: fact_value(fact) for name, fact in problem.facts.items()}


def fact_value(fact: object) -> str | int | list[str]:
    """A fact as it stands in the document."""
    match fact:
        case int():
            return fact
        case list():
            return [str(fact_value(one)) for one in fact]
        case Message():
            return " ".join((fact.text, *map(str, fact.facts.values())))
        case _:
            return str(fact)


def placed_table(placed: Placed, phrase: Phrase) -> PlacedTable:
    """How a sound is played, as it stands in the document."""
    notes = phrase.bars[placed.bar].sounds[placed.sound].notes
    return PlacedTable(
        bar=placed.bar,
        sound=placed.sound,
        stops=[
            PlayedTable(
                string=stop.string,
                finger=stop.finger,
                semitones=stop.semitones,
                pitch=str(note.pitch),
            )
            if stop is not None
            else None
            for note, stop in zip(notes, placed.stops, strict=True)
        ],
        place=placed.hand.place if placed.hand else None,
        cost=dict(placed.cost),
        touched=placed.touched,
    )


def group_table(group: Group, fingering: Fingering, phrase: Phrase) -> GroupTable:
    """A group as it stands in the document."""
    return GroupTable(
        letter=group.letter,
        bars=list(bars_of(group.first, group.last, fingering, phrase)),
        first=group.first,
        last=group.last,
        place=group.place,
        position=group.position,
        stops=list(map(stop_table, group.stops)),
        passing=group.passing,
    )


def stop_table(stop: Stop) -> StopTable:
    """A stop as it stands in the document."""
    return StopTable(string=stop.string, finger=stop.finger, semitones=stop.semitones)


def spot_table(spot: Spot, passage: Passage) -> SpotTable:
    """A hard spot as it stands in the document."""
    return SpotTable(
        number=spot.number,
        bars=list(bars_of(spot.first, spot.last, passage.best, passage.phrase)),
        first=spot.first,
        last=spot.last,
        peak=spot.peak,
        parts=dict(spot.parts),
        score=spot.score,
        others=list(spot.others),
    )


def need_table(need: Need) -> NeedTable:
    """What a drill has to contain, as it stands in the document."""
    return NeedTable(
        first=stop_table(need.first),
        then=stop_table(need.then),
        together=need.together,
        shift=need.shift,
    )


def ladder_table(ladder: Ladder) -> LadderTable:
    """A ladder as it stands in the document."""
    return LadderTable(
        spot=ladder.spot,
        letter=ladder.letter,
        drills=[drill.key for drill in ladder.drills],
        shared=[drill.key for drill in ladder.shared],
        missing=list(map(need_table, ladder.missing)),
        crowded=list(map(need_table, ladder.crowded)),
    )
