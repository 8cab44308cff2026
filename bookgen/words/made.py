"""What the pages say on which stands everything that a hand makes."""

from collections.abc import Sequence
from typing import Final

from bookgen.model.instrument import NUMERALS
from bookgen.model.interval import Interval
from bookgen.model.made import Fingers, Made, Two
from bookgen.words.names import (
    DASH,
    fingers_name,
    interval_label,
    interval_name,
    numbers_name,
    position_name,
)
from bookgen.words.speech import Speech

RESTS: Final = frozenset({"P1", "P4", "P5", "P8"})
YIELDS: Final = frozenset({"m3", "M3", "m6", "M6"})
"""Double stops that come to rest by themselves, and those that give way beside them; the others
are dissonances (common practice, no source). Compound ones count as the simple ones."""

KINDS: Final = ("rests", "yields", "dissonant")

OCTAVE: Final = 7
"""Letters of an octave."""


def title(speech: Speech) -> str:
    """The part's name."""
    return speech.say("What each hand makes")


def intro(speech: Speech) -> str:
    """How the part is read."""
    return speech.say(
        "Each hand of this book at the positions in which it comes: the fingerboard to scale, and"
        " every interval in its reach. The <b>fingers</b> are those of the lower and the higher"
        " note on one string, or those on the lower and the higher string; <b>1–1</b> is one"  # noqa: RUF001
        " finger on both strings."
    )


def where(position: str, numbers: Sequence[int], speech: Speech) -> str:
    """Under a fingerboard: the position, and the drills that have the hand there."""
    return speech.count(
        "<b>{position}</b>: drill {numbers}",
        "<b>{position}</b>: drills {numbers}",
        len(numbers),
        position=position_name(position, speech),
        numbers=numbers_name(numbers),
    )


def alone(speech: Speech) -> str:
    """Over the intervals on one string."""
    return speech.say("On one string")


def neighbours(strings: Sequence[Two], speech: Speech, *, every: bool) -> str:
    """Over the intervals between neighbouring strings; every: all of them have the same."""
    if every:
        return speech.say("Between neighbouring strings")
    return speech.say("Between strings {strings}", strings=twos(strings))


def skipped(strings: Sequence[Two], speech: Speech, *, every: bool) -> str:
    """Over the intervals past a string; every: all such strings have the same."""
    if every:
        return speech.say("Over a skipped string")
    return speech.say("Over a skipped string: {strings}", strings=twos(strings))


def together(strings: Sequence[Two], speech: Speech, *, every: bool) -> str:
    """Over the double stops; every: all neighbouring strings have the same."""
    if every:
        return speech.say("As double stops")
    return speech.say("As double stops on {strings}", strings=twos(strings))


def twos(strings: Sequence[Two]) -> str:
    """Strings by twos, the lower one first.

    >>> twos([(4, 3), (2, 1)]) == f"IV{DASH}III, II{DASH}I"
    True
    """
    return ", ".join(f"{NUMERALS[low]}{DASH}{NUMERALS[high]}" for low, high in strings)


def made_line(made: Made, speech: Speech) -> str:
    """An interval by its label and its name, with the fingers that make it."""
    return speech.say(
        "<b>{label}</b> {interval} {fingers}",
        label=interval_label(made.label, speech),
        interval=interval_name(made.label, speech),
        fingers=fingers_of(made.fingers, speech),
    )


def fingers_of(fingers: Sequence[Fingers], speech: Speech) -> str:
    """Fingers by twos."""
    return ", ".join(fingers_name(one, speech) for one in fingers)


def double_stops(made: Sequence[Made], speech: Speech) -> list[str]:
    """How double stops sound: which come to rest, which give way, which are dissonances."""
    kinds: dict[str, list[str]] = {}
    for one in made:
        shown = f"{interval_label(one.label, speech)} {fingers_of(one.fingers, speech)}"
        kinds.setdefault(kind_of(one.label), []).append(shown)
    return [told_kind(kind, speech.apart(kinds[kind]), speech) for kind in KINDS if kind in kinds]


def told_kind(kind: str, stops: str, speech: Speech) -> str:
    """Double stops of one kind, by their labels and fingers."""
    if kind == "rests":
        return speech.say("<b>Come to rest</b>: {stops}", stops=stops)
    if kind == "yields":
        return speech.say("<b>Give way</b>: {stops}", stops=stops)
    return speech.say("<b>Dissonant</b>: {stops}", stops=stops)


def kind_of(label: str) -> str:
    """How a double stop sounds, by its interval without whole octaves."""
    interval = Interval.parse(label)
    simple = label
    if interval.degrees > OCTAVE:
        simple = f"{label.rstrip('0123456789')}{(interval.degrees - 1) % OCTAVE + 2}"
    return "rests" if simple in RESTS else "yields" if simple in YIELDS else "dissonant"


def on_page(page: int, speech: Speech) -> str:
    """In the index of hands: where everything stands that a hand makes."""
    return speech.say("<i>everything it makes</i>, page {page}", page=page)
