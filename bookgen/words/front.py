"""The front of a booklet in words: its cover, and how to use it."""

from collections.abc import Iterator, Mapping
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.plan.document import Plan, Role
from bookgen.words.days import minutes_figure
from bookgen.words.speech import Speech, capital

SLOWLY: Final = "♩\N{NO-BREAK SPACE}=\N{NO-BREAK SPACE}60"
"""A quarter note a second: common practice, no source."""


def caution(speech: Speech) -> str:
    """At the foot of every page."""
    return speech.say("Stop at once if it hurts or goes numb, and rest.")


def name(speech: Speech) -> str:
    """Below a line on which a name is to be written."""
    return speech.say_in("below a line to write on", "Name")


def nut(speech: Speech) -> str:
    """Below the left end of a fingerboard."""
    return speech.say("nut")


def octave(speech: Speech) -> str:
    """Below the middle of the strings."""
    return speech.say("octave")


def from_teacher(speech: Speech) -> str:
    """Over the teacher's note."""
    return speech.say("From your teacher")


def facts(plan: Plan, speech: Speech) -> list[str]:
    """What is in a booklet, for its cover."""
    minutes = sorted(day.minutes for day in plan.days)
    days = speech.count("{number} day of practice", "{number} days of practice", len(plan.days))
    found = [
        speech.say("{days}, {minutes} a day", days=days, minutes=some_minutes(minutes, speech))
    ]
    found.append(speech.count("{number} drill", "{number} drills", len(plan.drills)))
    if plan.binding and plan.binding.from_memory:
        found.append(speech.say("From the chart and from memory; the notation is at the end."))
    return found


def some_minutes(rising: list[float], speech: Speech) -> str:
    """Minutes of the shortest and of the longest day.

    >>> from bookgen.words.speech import ENGLISH
    >>> some_minutes([8.0, 12.5], ENGLISH), some_minutes([10.0], ENGLISH)
    ('8 to 12½ minutes', '10 minutes')
    """
    least, most = minutes_figure(rising[0]), minutes_figure(rising[-1])
    if least == most:
        return speech.count("{minutes} minute", "{minutes} minutes", rising[-1], minutes=most)
    return speech.count(
        "{least} to {most} minute", "{least} to {most} minutes", rising[-1], least=least, most=most
    )


def how_title(speech: Speech) -> str:
    """The part's name."""
    return speech.say("How to use this booklet")


def drills_title(speech: Speech) -> str:
    """The drills' name in the contents."""
    return speech.say("Drills by number")


def drills_by_day(speech: Speech) -> str:
    """The drills' name in the contents, where they follow day by day."""
    return speech.say("Drills day by day")


def day_heading(date: Date, minutes: float, speech: Speech) -> str:
    """Over a day's drills."""
    return speech.say(
        "{date} · {minutes}",
        date=capital(speech.skeleton(date, "EEEEMMMMd")),
        minutes=some_minutes([minutes], speech),
    )


def subject(played: str, speech: Speech) -> str:
    """What the file says of itself; played: the instrument with its size."""
    return speech.say("Practice booklet, {instrument}", instrument=played)


def answers_title(speech: Speech) -> str:
    """The answers' name."""
    return speech.say("Answers")


def use(plan: Plan, speech: Speech) -> Iterator[str]:
    """How plan, numbers, ticks and links are used."""
    binding = plan.binding
    if binding and binding.by_day:
        yield speech.say(
            "The <b>plan of days</b> tells which numbers to play, from left to right. The drills"
            " follow day by day; one that comes again is printed again, under the same number."
        )
    else:
        yield speech.say(
            "The <b>plan of days</b> tells which numbers to play, from left to right. The drills"
            " stand in number order; a drill keeps its number for good."
        )
    yield speech.say(
        "<b>Secure</b> means twice in a row without stopping, in tune, at the first touch: tick"
        " the left box. If not, tick the right one. “Not yet” is no failure; the drill comes back."
    )
    if any(entry.link.to is not None for entry in plan.drills):
        yield speech.say(
            "“<b>Like 11</b>, cross sooner” names the drill that differs in this one thing. Where"
            " it is hard, play that one first."
        )
    items = [item for _, item, _ in plan.items()]
    hopes = any(item.only_if is not None for item in items)
    if hopes:
        yield waiting(speech)
    if hopes and plan.scope is not None:
        yield speech.say(
            "<b>Log</b> the ticks before the next pages are printed. What nobody logs goes on by"
            " hope, a stage a week at most."
        )
    if any(item.role is Role.COLD for item in items):
        yield speech.say("<b>Cold</b>: before anything else, once; the first try counts.")
    if binding and binding.from_memory:
        yield speech.say(
            "<b>From memory</b>: play from chart and words, and name each blank interval aloud"
            " before you cross. Then look at the answers."
        )


def waiting(speech: Speech) -> str:
    """What to do where a drill waits for another."""
    return speech.say(
        "“<b>If 9</b>” or “<b>?</b>” beside a number: play it only if the other drill is"
        " secure; if not, play the other one once more."
    )


def ways_heading(speech: Speech) -> str:
    """Over the stages."""
    return speech.say("Ways over the strings")


def stage_how(stage: int, speech: Speech, *, close: bool = False) -> str:
    """What a stage asks of the left hand and the arm.

    close: some of its spots on one string are less than a finger's breadth apart.
    """
    if stage == 1 and close:
        return speech.say(
            "All fingers on one string, then the next string. Upwards each finger stays down while"
            " the next one lands; where two spots are less than 10 mm apart, it makes room."
        )
    asked: Mapping[int, str] = {
        1: speech.say(
            "All fingers on one string, then the next string. Upwards each finger stays down while"
            " the next one lands."
        ),
        2: speech.say(
            "The second note is already on the next string: its finger is down before the bow comes"
            " to it."
        ),
        3: speech.say(
            "A new string on every note: the arm is on its level before the note begins."
        ),
        4: speech.say(
            "Each note sounds until the next has joined it; a finger stays down as long as its note"
            " sounds."
        ),
        5: speech.say(
            "Two strings at once, the bow as heavy on the one as on the other. Fourths, fifths and"
            " octaves come to rest first; a third or a sixth beside them gives way."
        ),
    }
    return asked[stage]


def stage_bow(stage: int, speech: Speech) -> str:
    """How a stage is bowed, and how fast."""
    bowed: Mapping[int, str] = {
        1: speech.say("Separate bows, slowly:\N{NO-BREAK SPACE}{tempo}.", tempo=SLOWLY),
        2: speech.say("Separate bows, slowly:\N{NO-BREAK SPACE}{tempo}.", tempo=SLOWLY),
        3: speech.say("Separate bows, slowly:\N{NO-BREAK SPACE}{tempo}.", tempo=SLOWLY),
        4: speech.say(
            "Slurred over the crossing as written, slowly:\N{NO-BREAK SPACE}{tempo}.", tempo=SLOWLY
        ),
        5: speech.say("A bow for each half note, slowly:\N{NO-BREAK SPACE}{tempo}.", tempo=SLOWLY),
    }
    return bowed[stage]


def signs_heading(speech: Speech) -> str:
    """Over the signs."""
    return speech.say("Signs")


def chart_signs(speech: Speech) -> str:
    """How a chart is read."""
    return speech.say(
        "<b>Chart</b>: the fingerboard to scale, the nut at the left, string I on top. Begin at the"
        " ring; the figures beside the fingers are the order of play."
    )


def staff_signs(steps: list[str], speech: Speech) -> str:
    """How a staff is read; steps are the signs of the steps in it, said."""
    if not steps:
        return speech.say(
            "<b>Staff</b>: figures are fingers, numerals strings, a bracket is a crossing."
        )
    return speech.say(
        "<b>Staff</b>: figures are fingers, numerals strings, a bracket is a crossing; {steps}.",
        steps=", ".join(steps),
    )


def half_step(speech: Speech) -> str:
    """The sign of a half step."""
    return speech.say("<b>H</b> half step")


def whole_step(speech: Speech) -> str:
    """The sign of a whole step."""
    return speech.say("<b>W</b> whole step")


def intervals(named: list[tuple[str, str]], speech: Speech) -> str:
    """The intervals of a booklet; each with its mark on the staff and its name."""
    marks = [
        speech.say("<b>{mark}</b> {name}", mark=mark, name=interval) for mark, interval in named
    ]
    return speech.say("<b>Intervals</b>: {marks}.", marks=", ".join(marks))


def care_heading(speech: Speech) -> str:
    """Over the cautions."""
    return speech.say("Care")


def advice(speech: Speech) -> str:
    """The last of the cautions."""
    return speech.say(
        "What is right for your hand is decided by a teacher or a medical professional who sees"
        " you play, not by this booklet."
    )


def care(last: str, speech: Speech) -> list[str]:
    """The cautions; last: who decides what is right."""
    return [
        speech.say(
            "Stop at once if anything hurts or goes numb, and rest. If it stays or comes back, see"
            " a doctor before you play on."
        ),
        speech.say(
            "Warm up with movement, not by stretching. Rest five minutes in each half hour."
        ),
        speech.say(
            "Let the time you play grow by ten minutes a day at most. Open the hand only as far as"
            " it goes by itself; leave out what does not fit it."
        ),
        last,
    ]
