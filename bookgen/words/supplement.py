"""What a book without dates says besides its drills: its first pages, chapters and lists."""

from collections.abc import Iterator, Sequence

from bookgen.plan.supplement import Supplement
from bookgen.words.names import alone_name, fingers_name, numbers_name
from bookgen.words.speech import Speech


def kind_name(book: Supplement, speech: Speech, *, from_memory: bool) -> str:
    """On the title page: which of the parallel editions it is; nothing for the pupil's own."""
    if book.teacher:
        return speech.say("Teacher's edition")
    return speech.say("Edition to be played from memory") if from_memory else ""


def contents_title(speech: Speech) -> str:
    """The contents by their name."""
    return speech.say("Contents")


def preface_title(speech: Speech) -> str:
    """The preface by its name."""
    return speech.say("Preface")


def chapter_number(number: int, speech: Speech) -> str:
    """Over a chapter's title."""
    return speech.say("Chapter {number}", number=number)


def chapter_entry(number: int, title: str, speech: Speech) -> str:
    """A chapter in the contents."""
    return speech.say("{number} · {title}", number=number, title=title)


def drills_of_chapter(numbers: Sequence[int], speech: Speech) -> str:
    """Which drills a chapter has, below its title and in the contents; nothing where none."""
    if not numbers:
        return ""
    return speech.count(
        "Drill {numbers}", "Drills {numbers}", len(numbers), numbers=numbers_name(numbers)
    )


def for_teacher(speech: Speech) -> str:
    """Over the notes on a chapter in the teacher's edition."""
    return speech.say("For the teacher")


def how_title(speech: Speech) -> str:
    """The part's name."""
    return speech.say("How to use this book")


def use(speech: Speech, *, gaps: bool, linked: bool, from_memory: bool) -> Iterator[str]:
    """How numbers, ticks and links are used.

    gaps: some numbers are missing; linked: some drill names another.
    """
    yield speech.say(
        "The drills are <b>numbered</b> throughout, and stand in number order. Take two or three"
        " new ones a day, and play those of the last days again."
    )
    if gaps:
        yield speech.say(
            "Where a number is missing, that drill stands only in the books for other instruments."
        )
    yield speech.say(
        "<b>Secure</b> means twice in a row without stopping, in tune, at the first touch: tick the"
        " box, and go on. If not, play the drill again on another day."
    )
    if linked:
        yield speech.say(
            "“<b>Like 11</b>, cross sooner” names the drill that differs in this one thing. Where"
            " it is hard, play that one first."
        )
    if from_memory:
        yield speech.say(
            "<b>From memory</b>: play from chart and words, and name each blank interval aloud"
            " before you cross. Then look at the answers."
        )


def advice(speech: Speech) -> str:
    """The last of the cautions."""
    return speech.say(
        "What is right for your hand is decided by a teacher or a medical professional who sees"
        " you play, not by this book."
    )


def subject(played: str, speech: Speech) -> str:
    """What the file says of itself; played: the instrument with its size."""
    return speech.say("Book of drills, {instrument}", instrument=played)


def interval_answers(speech: Speech) -> str:
    """How the teacher's answers are read."""
    return speech.say(
        "The intervals between two strings, drill by drill, in the order in which they sound: what"
        " the edition to be played from memory leaves blank."
    )


def interval_answer(number: int, up: Sequence[str], back: Sequence[str], speech: Speech) -> str:
    """The intervals of a drill: on the way up, and on the way back where that is not the same."""
    if not back:
        return speech.say("<b>{number}</b> {up}", number=number, up=" ".join(up))
    return speech.say(
        "<b>{number}</b> {up}; back {back}", number=number, up=" ".join(up), back=" ".join(back)
    )


def hands_title(speech: Speech) -> str:
    """The index of hands by its name."""
    return speech.say("Index of hands")


def hands_intro(speech: Speech) -> str:
    """How the index of hands is read."""
    return speech.say(
        "Each hand with its <b>fingers</b> and the steps between them: position, numbers of the"
        " drills, and the pages on which they stand."
    )


def hand_heading(fingers: Sequence[int], steps: str, speech: Speech) -> str:
    """Over the positions of a hand; one finger alone has no steps."""
    if not steps:
        return f"<b>{alone_name(fingers[0], speech)}</b>"
    return speech.say(
        "<b>{fingers}</b> {steps}", fingers=fingers_name(fingers, speech), steps=steps
    )


def log_title(speech: Speech) -> str:
    """The page to copy by its name."""
    return speech.say("Practice log")


def log_intro(speech: Speech) -> str:
    """What the page to copy is for."""
    return speech.say(
        "To be copied. A line for each day: the numbers of the drills, each ticked when it is"
        " secure."
    )


def log_columns(speech: Speech) -> tuple[str, str, str]:
    """The heads of the log's columns: the day, its drills, what else is to be said."""
    return (
        speech.say_in("head of a column", "Day"),
        speech.say_in("head of a column", "Drills"),
        speech.say_in("head of a column", "Remarks"),
    )


def plan_title(speech: Speech) -> str:
    """The plan to copy by its name."""
    return speech.say("Plan of days")


def plan_intro(speech: Speech) -> str:
    """What the plan to copy is for."""
    return speech.say(
        "To be copied. Write the date of its first day over each week, and into each day the"
        " numbers of its drills: two or three new ones, and some of the days before. Tick what is"
        " secure; what is not comes again on a later day."
    )


def plan_rows(speech: Speech) -> tuple[str, str, str]:
    """What a day of the plan has: new drills, those that come again, its minutes."""
    return (
        speech.say_in("row of a plan to fill in", "New"),
        speech.say_in("row of a plan to fill in", "Again"),
        speech.say_in("row of a plan to fill in", "Minutes"),
    )


def week_from(speech: Speech) -> str:
    """Over a week, before a line for its date."""
    return speech.say_in("before a line to write on", "Week from")


def weekdays(speech: Speech) -> list[str]:
    """The days of a week in short, from the one with which it begins where the language is spoken.

    >>> from bookgen.words.speech import ENGLISH
    >>> weekdays(ENGLISH)[0]
    'Mon'
    """
    names, first = speech.locale.days["stand-alone"]["abbreviated"], speech.locale.first_week_day
    return [names[(first + at) % len(names)] for at in range(len(names))]
