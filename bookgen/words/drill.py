"""What a drill's block says: hand, place, stage, and the one thing that ties it to another."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from bookgen.model.dimension import Dimension
from bookgen.model.drill import OCTAVE, Drill
from bookgen.model.hand import Extension
from bookgen.model.instrument import NUMERALS
from bookgen.model.route import Return
from bookgen.plan.document import Link
from bookgen.plan.link import change
from bookgen.words.names import alone_name, finger_name, finger_word, spacing_name, step_name
from bookgen.words.shift import shift_change, shift_stage
from bookgen.words.speech import Speech

PAIR = 2
OVERLAP, TOGETHER = 4, 5
"""Stages from which two strings sound at once."""


def hand_name(drill: Drill, speech: Speech) -> str:
    """The fingers, and how far apart they stand; the order where it is no plain one."""
    fingers, spacings = drill.frame.fingers, drill.frame.spacings
    if len(fingers) == 1:
        return alone_name(fingers[0], speech)
    if len(fingers) == PAIR:
        low, high = (finger_word(finger, speech) for finger in fingers)
        step = step_name(spacings[0], speech)
        return speech.say("{low} and {high}, {step}", low=low, high=high, step=step)
    between = speech.listed([spacing_name(spacing, speech) for spacing in spacings])
    played = fingers if drill.plain_order else drill.order
    order = " ".join(finger_word(finger, speech) for finger in played)
    return speech.say("{fingers}, {spacings}", fingers=order, spacings=between)


def way_name(drill: Drill, speech: Speech) -> str:
    """How soon the player crosses, or shifts; and which strings are skipped."""
    named = (
        shift_stage(drill.stage, speech) if drill.frame.shift else stage_name(drill.stage, speech)
    )
    if not drill.skips:
        return named
    skipped = speech.listed(NUMERALS[string] for string in drill.skipped)
    return speech.say("{stage}, skip {strings}", stage=named, strings=skipped)


def stage_name(stage: int, speech: Speech) -> str:
    """How soon the player crosses."""
    named: Mapping[int, str] = {
        1: speech.say("string by string"),
        2: speech.say("cross on 2nd note"),
        3: speech.say("cross on every note"),
        OVERLAP: speech.say("notes overlap"),
        TOGETHER: speech.say("double stops"),
    }
    return named[stage]


def link_line(link: Link, drill: Drill, to: Drill | None, speech: Speech) -> str:
    """What the drill is like, and the one thing that changes: eight words and one number at most.

    to: the drill that the link names.

    Raises:
        RefusedError: the two differ in nothing, or in more than one thing.
    """
    if to is None:
        return speech.say("Start here")
    changed = change_words(to, drill, speech)
    if isinstance(link.to, int):
        return speech.say("Like {number}, {change}", number=link.to, change=changed)
    return speech.say("Known: {change}", change=changed)


def change_words(before: Drill, after: Drill, speech: Speech) -> str:
    """The one thing that changes from a drill to the next."""
    changed = change(before, after)
    if changed in {Dimension.PLACE, Dimension.OCTAVE}:
        return moved(after.place - before.place, speech)
    if changed is Dimension.STAGE:
        return crossing(before.stage, after.stage, speech)
    if changed in {Dimension.SPACING, Dimension.PAIR, Dimension.FINGERS}:
        return hand_change(before, after, speech)
    if changed is Dimension.SHIFT:
        return shift_change(before, after, speech)
    return route_change(changed, after, speech)


def hand_change(before: Drill, after: Drill, speech: Speech) -> str:
    """What becomes of the hand where other fingers play, or the same ones stand otherwise."""
    if before.frame.fingers == after.frame.fingers:
        return spacing_change(before, after, speech)
    if 1 == len(after.order) < len(before.order):
        return alone_name(after.order[0], speech)
    if len(after.order) < len(before.order):
        (finger,) = set(before.order) - set(after.order)
        return speech.say("without {finger}", finger=finger_name(finger, speech))
    if len(after.order) > len(before.order):
        return speech.say("one finger joins")
    if before.place == after.place and before.frame.spacings == after.frame.spacings:
        return speech.say("same notes, other fingers")
    return speech.say("other fingers, one finger stays")


def route_change(changed: Dimension, after: Drill, speech: Speech) -> str:
    """Where the hand goes: on which strings, from which finger, how back."""
    match changed:
        case Dimension.STRINGS if after.skips:
            return speech.say(
                "strings {first} and {last}, skip what lies between",
                first=NUMERALS[after.strings[0]],
                last=NUMERALS[after.strings[-1]],
            )
        case Dimension.STRINGS:
            first, last = NUMERALS[after.strings[0]], NUMERALS[after.strings[-1]]
            return speech.say("strings {first} to {last}", first=first, last=last)
        case Dimension.LEAD:
            return order_change(after, speech)
        case _:
            return way_back(after, speech)


def moved(by: int, speech: Speech) -> str:
    """How far the hand has moved; semitones, upwards counted positive."""
    higher: Mapping[int, str] = {
        1: speech.say("half step higher"),
        2: speech.say("whole step higher"),
        3: speech.say("minor third higher"),
        4: speech.say("major third higher"),
        5: speech.say("fourth higher"),
        6: speech.say("tritone higher"),
        7: speech.say("fifth higher"),
        8: speech.say("minor sixth higher"),
        9: speech.say("major sixth higher"),
        10: speech.say("minor seventh higher"),
        11: speech.say("major seventh higher"),
        OCTAVE: speech.say("octave higher"),
    }
    lower: Mapping[int, str] = {
        1: speech.say("half step lower"),
        2: speech.say("whole step lower"),
        3: speech.say("minor third lower"),
        4: speech.say("major third lower"),
        5: speech.say("fourth lower"),
        6: speech.say("tritone lower"),
        7: speech.say("fifth lower"),
        8: speech.say("minor sixth lower"),
        9: speech.say("major sixth lower"),
        10: speech.say("minor seventh lower"),
        11: speech.say("major seventh lower"),
        OCTAVE: speech.say("octave lower"),
    }
    if by > 0:
        return higher.get(by) or speech.say("more than an octave higher")
    return lower.get(-by) or speech.say("more than an octave lower")


def crossing(before: int, after: int, speech: Speech) -> str:
    """What another stage asks."""
    if after == OVERLAP:
        return speech.say("let notes overlap")
    if after == TOGETHER:
        return speech.say("both notes together")
    if before < OVERLAP:
        return speech.say("cross sooner") if after > before else speech.say("cross later")
    if after == OVERLAP - 1:
        return speech.say("one note at a time")
    return speech.say("cross later, one note each")


def spacing_change(before: Drill, after: Drill, speech: Speech) -> str:
    """How the hand has opened or closed."""
    if after.frame.back and not before.frame.back:
        return speech.say("now extended back")
    if before.frame.back and before.frame.spacings == after.frame.spacings:
        return speech.say("now extended forward")
    if len(after.frame.fingers) == PAIR:
        return speech.say("now {step}", step=step_name(after.frame.spacings[0], speech))
    if before.frame.span == after.frame.span:
        return speech.say("other spacing, same reach")
    wider = after.frame.span > before.frame.span
    return speech.say("hand wider") if wider else speech.say("hand closer")


def order_change(after: Drill, speech: Speech) -> str:
    """Which finger begins now."""
    if not after.plain_order:
        return speech.say("fingers in another order")
    if after.order[0] < after.order[-1]:
        return speech.say("lower finger first")
    return speech.say("higher finger first")


def way_back(after: Drill, speech: Speech) -> str:
    """How the way back runs now."""
    if after.back is Return.MIRROR:
        return speech.say("back the same way")
    if len(after.frame.fingers) == PAIR and after.order[0] < after.order[-1]:
        return speech.say("back: lower finger first")
    if len(after.frame.fingers) == PAIR:
        return speech.say("back: higher finger first")
    return speech.say("back with the same finger order")


def scale_words(denominator: Fraction, speech: Speech) -> str:
    """A chart's scale.

    >>> from bookgen.words.speech import ENGLISH
    >>> scale_words(Fraction(23, 10), ENGLISH)
    '1 : 2.3'
    """
    from babel.numbers import format_decimal  # noqa: PLC0415  slow to import

    second = format_decimal(float(denominator), "0.#", locale=speech.locale)
    return speech.say("1 : {second}", second=second)


def stretch(extension: Extension | None, speech: Speech) -> str:
    """Beside a hand that opens beyond its ordinary frame; how, where that has a name."""
    match extension:
        case Extension.BACK:
            return speech.say("extended back")
        case Extension.FORWARD:
            return speech.say("extended forward")
        case _:
            return speech.say("stretch")


def drills_running(player: str | None, first: int, last: int, speech: Speech) -> str:
    """In the head of a page: whose drills it has, and which."""
    if first == last:
        drills = speech.say("drill {number}", number=first)
    elif last == first + 1:
        drills = speech.say("drills {first} and {last}", first=first, last=last)
    else:
        drills = speech.say("drills {first} to {last}", first=first, last=last)
    return f"{player} · {drills}" if player else drills


def outline(number: str, hand: str, speech: Speech) -> str:
    """A drill in the outline.

    number: or the letter that is printed for it.
    """
    return speech.say("{number} · {hand}", number=number, hand=hand)


def crossing_words(numerals: Sequence[str]) -> str:
    """Over a blank: the strings whose interval is to be named, by their numerals.

    >>> crossing_words(["IV", "III"]) == "IV\N{EN DASH}III"
    True
    """
    return "\N{EN DASH}".join(numerals)
