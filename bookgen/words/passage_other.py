"""What another way to finger some bars saves and costs, in words."""

from collections.abc import Mapping

from bookgen.plan.passage_other import Instead
from bookgen.words.speech import Speech


def another_way(where: str, speech: Speech) -> str:
    """Over it.

    where: its bars, in words.
    """
    return speech.say("<b>Another way</b> · {where}", where=where)


def compared(instead: Instead, speech: Speech) -> str:
    """What it has fewer and more of."""
    fewer = listed(instead.saved, speech)
    if not instead.more:
        return speech.say("Saves {fewer}.", fewer=fewer)
    return speech.say(
        "Saves {fewer}; costs {more}.", fewer=fewer, more=listed(instead.more, speech)
    )


def listed(counts: Mapping[str, int], speech: Speech) -> str:
    """Kinds of difficulty with their numbers."""
    return speech.listed([counted(kind, number, speech) for kind, number in counts.items()])


def counted(kind: str, number: int, speech: Speech) -> str:
    """So many of a kind."""
    match kind:
        case "shift":
            return speech.count("{number} shift", "{number} shifts", number)
        case "crossing":
            return speech.count("{number} crossing", "{number} crossings", number)
        case "open":
            return speech.count("{number} open string", "{number} open strings", number)
        case _:
            return speech.count("{number} fourth finger", "{number} fourth fingers", number)
