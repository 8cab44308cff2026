"""The groups of a fingering: runs in one frame of the hand, equal frames under one letter."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from string import ascii_uppercase

from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.passage.frames import Run, Whole, runs_of, wholes
from bookgen.passage.shape import Shape
from bookgen.passage.sounds import Sounds
from bookgen.plan.passage import Fingering, Group


def grouped(fingering: Fingering, phrase: Phrase, instrument: Instrument) -> Fingering:
    """The same fingering with its groups.

    A group is a run of sounds in one frame: in one place of the hand every finger has one height
    on each string. Open strings and what cannot be played belong to the group before them, at the
    beginning to the first one. Frames of one place that fit together have one letter, and
    neighbours under one letter are one group.
    """
    sounds, shape = Sounds.of(fingering, phrase, instrument), Shape(instrument)
    found = wholes(runs_of(sounds, shape), shape)
    named = [
        (run, described(whole, letter(index), sounds))
        for index, whole in enumerate(found)
        for run in whole.runs
    ]
    named.sort(key=lambda entry: entry[0].first)
    groups: list[Group] = []
    for run, group in named:
        if groups and groups[-1].letter == group.letter:
            groups[-1] = replace(groups[-1], last=run.last)
        else:
            groups.append(replace(group, first=run.first, last=run.last))
    whole = (replace(group, passing=tuple(passing(group, sounds))) for group in groups)
    return replace(fingering, groups=tuple(whole))


def letter(index: int) -> str:
    """The letter of a frame by its index: A to Z, then AA, AB and so on.

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    rounds, rest = divmod(index, len(ascii_uppercase))
    return (letter(rounds - 1) if rounds else "") + ascii_uppercase[rest]


def described(whole: Whole, name: str, sounds: Sounds) -> Group:
    """What all groups of a frame have in common."""
    stops = tuple(
        Stop(StringNumber(string), finger, Semitones(height))
        for (string, finger), height in sorted(whole.map.items())
    )
    return Group(name, 0, 0, Semitones(whole.place), position_of(whole, sounds), stops)


def position_of(whole: Whole, sounds: Sounds) -> str:
    """The trade's label of a frame's place, by its lowest finger where that plays most often."""
    counts = Counter((stop, sounds.pitch_at(at, stop)) for at, stop in stops_in(whole.runs, sounds))
    lowest = min((stop.finger for stop, _ in counts), default=0)
    own = [entry for entry in counts.most_common() if entry[0][0].finger == lowest]
    if not own:
        return ""
    (stop, pitch), _ = own[0]
    instrument = sounds.instrument
    rule, string = instrument.position_rule, instrument.open_pitch(stop.string)
    return rule.label(stop.finger, stop.semitones, pitch, string)


def stops_in(runs: Sequence[Run], sounds: Sounds) -> Iterator[tuple[int, Stop]]:
    """Every stop of some runs that a finger holds, with its sound, in the order of time.

    Passing changes, which are not the frame's own, are left out.
    """
    for run in sorted(runs, key=lambda run: run.first):
        for at in range(run.first, run.last + 1):
            for stop in sounds.stopped(at):
                if run.map.get((stop.string, stop.finger)) == stop.semitones:
                    yield at, stop


def passing(group: Group, sounds: Sounds) -> Iterator[int]:
    """The sounds of a group with a finger that stands elsewhere for a moment."""
    for at in range(group.first, group.last + 1):
        if not set(sounds.stopped(at)) <= set(group.stops):
            yield at
