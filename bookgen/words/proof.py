"""What an editor's table of a book says: its heads, and what to do with it."""

from bookgen.words.speech import Speech


def title(speech: Speech) -> str:
    """The table by its name."""
    return speech.say("Editor's table")


def intro(speech: Speech) -> str:
    """How the table is read, and what it is for."""
    return speech.say(
        "Every drill with its page and its key; below it a line for each moment: bar, strings,"
        " fingers, notes, the interval between strings that sound together, and the one from the"
        " moment before. To be marked by hand."
    )


def on_page(page: str, speech: Speech) -> str:
    """Where a drill stands in the book."""
    return speech.say("page {page}", page=page)


def heads(speech: Speech) -> tuple[str, ...]:
    """The heads of the table's columns, as programs read it: short words, each once."""
    return (
        speech.say_in("head of a column", "number"),
        speech.say_in("head of a column", "key"),
        speech.say_in("head of a column", "drill"),
        speech.say_in("head of a column", "chapter"),
        speech.say_in("head of a column", "page"),
        speech.say_in("head of a column", "moment"),
        speech.say_in("head of a column", "bar"),
        speech.say_in("head of a column", "way"),
        speech.say_in("head of a column", "string"),
        speech.say_in("head of a column", "finger"),
        speech.say_in("head of a column", "half steps from the nut"),
        speech.say_in("head of a column", "position"),
        speech.say_in("head of a column", "note"),
        speech.say_in("head of a column", "pitch"),
        speech.say_in("head of a column", "held"),
        speech.say_in("head of a column", "interval from before"),
        speech.say_in("head of a column", "interval together"),
    )


def way(*, back: bool, speech: Speech) -> str:
    """On which way of a drill a moment stands."""
    return (
        speech.say_in("way of a drill", "back") if back else speech.say_in("way of a drill", "up")
    )


def held(*, held: bool, speech: Speech) -> str:
    """Whether a note stays from the moment before; nothing where it does not."""
    return speech.say("held") if held else ""
