"""What the index of intervals and the map of the fingerboard say."""

from collections.abc import Sequence

from bookgen.words.names import fingers_name, numbers_name, place_short
from bookgen.words.speech import Speech


def index_title(speech: Speech) -> str:
    """The index by its name."""
    return speech.say("Index of intervals")


def index_intro(speech: Speech) -> str:
    """How the index is read."""
    return speech.say(
        "Which drills have an interval from string to string: <b>fingers</b> (on the lower string,"
        " then on the higher one), position, numbers of the drills."
    )


def interval_heading(name: str, label: str, speech: Speech) -> str:
    """Over the homes of an interval: its name, and its label on the staff."""
    if name == label:
        return f"<b>{name}</b>"
    return speech.say("<b>{name}</b> {label}", name=name, label=label)


def home_words(fingers: tuple[int, int], places: Sequence[str], speech: Speech) -> str:
    """One pair of fingers, then its positions with the drills in each."""
    return speech.say(
        "<b>{fingers}</b> {places}",
        fingers=fingers_name(fingers, speech),
        places=speech.apart(places),
    )


def place_words(position: str, numbers: Sequence[int], speech: Speech) -> str:
    """A position with its drills."""
    return speech.say(
        "<i>{position}</i>\N{NO-BREAK SPACE}{numbers}",
        position=unbroken(place_short(position, speech)),
        numbers=numbers_name(numbers),
    )


def place_pages(position: str, numbers: Sequence[int], pages: Sequence[int], speech: Speech) -> str:
    """A position with its drills and the pages on which they stand."""
    return speech.count(
        "<i>{position}</i>\N{NO-BREAK SPACE}{numbers}, page\N{NO-BREAK SPACE}{pages}",
        "<i>{position}</i>\N{NO-BREAK SPACE}{numbers}, pages\N{NO-BREAK SPACE}{pages}",
        len(set(pages)),
        position=unbroken(place_short(position, speech)),
        numbers=numbers_name(numbers),
        pages=numbers_name(pages),
    )


def unbroken(said: str) -> str:
    """Words that stay on one line."""
    return said.replace(" ", "\N{NO-BREAK SPACE}")


def map_title(speech: Speech) -> str:
    """The map by its name."""
    return speech.say("Map of the fingerboard")


def map_intro(secure: int, aimed: int, total: int, speech: Speech) -> str:
    """What the map counts."""
    return speech.say(
        "A <b>move</b> is one finger after another, or two together. {secure} of {total} moves are"
        " secure; when all in this booklet is secure, {aimed} will be. Each gauge stands for the"
        " moves that begin or end at its place.",
        secure=secure,
        aimed=aimed,
        total=total,
    )


def gauge_secure(speech: Speech) -> str:
    """What the black part of a gauge means."""
    return speech.say("secure before")


def gauge_aimed(speech: Speech) -> str:
    """What the hatched part means."""
    return speech.say("in this booklet")


def gauge_later(speech: Speech) -> str:
    """What the white part means."""
    return speech.say("later")


def axis(speech: Speech) -> str:
    """What the figures below the fingerboard are."""
    return speech.say("half steps from the nut, to scale")
