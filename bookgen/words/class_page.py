"""What the page of a class says over its steps: what is common to all, and how it sounds."""

from collections.abc import Iterable, Mapping, Sequence

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval
from bookgen.model.pitch import Pitch
from bookgen.model.spacing import Spacing
from bookgen.plan.link import change
from bookgen.words.drill import change_words, moved
from bookgen.words.names import (
    fingers_name,
    instrument_name,
    instrument_within,
    interval_name,
    spacing_name,
    step_name,
)
from bookgen.words.speech import Speech, capital

UNISON = "P8"
"""The label under which unison and octaves are counted as one."""


def class_name(instruments: Iterable[Instrument], speech: Speech) -> str:
    """Who plays together."""
    first, *others = instruments
    return speech.listed(
        [instrument_name(first, speech), *(instrument_within(one, speech) for one in others)]
    )


def class_word(speech: Speech) -> str:
    """Over the names of the instruments, where these have no room on one line."""
    return speech.say("Class")


def hand_step(spacings: Sequence[Spacing], speech: Speech) -> str:
    """How far the fingers stand apart, which is the same for all; which ones they are is not."""
    if len(spacings) == 1:
        return capital(step_name(spacings[0], speech))
    return capital(speech.listed([spacing_name(one, speech) for one in spacings]))


def common_strings(pitches: Sequence[Pitch], speech: Speech) -> str:
    """The strings that all have, by their notes, from low to high."""
    return speech.say(
        "strings {strings}", strings=speech.listed([speech.note(one) for one in pitches])
    )


def own_fingers(drill: Drill, speech: Speech) -> str:
    """An instrument's own fingers."""
    return speech.say("fingers {fingers}", fingers=fingers_name(drill.frame.fingers, speech))


def step_link(
    number: int | None, to: Drill | None, drill: Drill, strings: str, speech: Speech
) -> str:
    """What the step is like, and the one thing that changes for the whole class.

    number, to: of the step to which it is linked. strings: how its own are called.
    """
    if to is None or number is None:
        return speech.say("Start here")
    what = change(to, drill)
    if what in {Dimension.PAIR, Dimension.FINGERS} and to.place != drill.place:
        changed = moved(drill.place - to.place, speech)
    elif what is Dimension.STRINGS:
        changed = strings or speech.say("other strings")
    else:
        changed = change_words(to, drill, speech)
    return speech.say("Like {number}, {change}", number=number, change=changed)


def sound_line(labels: Iterable[str], speech: Speech) -> str:
    """How the class sounds where each plays its own line.

    labels: of the consonances between any two, without octaves.
    """
    found = sorted(set(labels), key=lambda label: Interval.parse(label).semitones % 12)
    if found == [UNISON]:
        return speech.say(
            "<b>Together</b> All play the same notes, in unison and octaves, with the same spacing"
            " and each with their own fingers."
        )
    names: Mapping[str, str] = {
        label: speech.say("unison or octave") if label == UNISON else interval_name(label, speech)
        for label in found
    }
    return speech.say(
        "<b>Together</b> All have the same spacing, each with their own fingers. What sounds"
        " between them: {intervals}.",
        intervals=speech.listed(names.values()),
    )


def class_subject(speech: Speech) -> str:
    """What the file says of itself."""
    return speech.say("Practice page for a class")
