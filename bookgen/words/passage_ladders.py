"""What a passage's pages say over the drills that lead to its hands, and over its own notes."""

from collections.abc import Sequence

from bookgen.plan.passage import Ladder, Passage
from bookgen.plan.passage_facts import bars_of
from bookgen.words.names import position_name
from bookgen.words.passage import where_name
from bookgen.words.speech import Speech


def drills_text(speech: Speech) -> str:
    """Below the heading of the drills."""
    return speech.say(
        "Each drill differs in one thing from what you know; the last of a letter is its own hand."
    )


def ladder_title(ladder: Ladder, passage: Passage, speech: Speech) -> str:
    """Over the drills that lead to a placement."""
    group = next(one for one in passage.best.groups if one.letter == ladder.group)
    where = where_name(bars_of(group, passage.best, passage.phrase), speech)
    position = position_name(group.position, speech) if group.frame else ""
    towards = speech.say("<b>Towards {letter}</b>", letter=group.letter)
    return " · ".join(filter(None, (towards, where, position)))


def ladder_text(own: Sequence[int], shared: Sequence[int], speech: Speech) -> str:
    """Below that: what stands above already; empty where there is nothing to say.

    own: numbers of the drills that stand here; shared: of those under an earlier letter.
    """
    numbers = speech.listed(shared)
    if shared and own:
        return speech.count(
            "First drill {numbers}, above.",
            "First drills {numbers}, above.",
            len(shared),
            numbers=numbers,
        )
    if shared:
        return speech.count(
            "Its drill stands above: {numbers}.",
            "Its drills stand above: {numbers}.",
            len(shared),
            numbers=numbers,
        )
    if not own:
        return speech.say("What this placement needs is secure, or no drill has it.")
    return ""


def even(letter: str, speech: Speech) -> str:
    """Over a placement's own notes, each as long as the others."""
    return speech.say(
        "The notes of <b>{letter}</b> in order, each as long as the others:", letter=letter
    )


def in_rhythm(speech: Speech) -> str:
    """Over the same notes in their rhythm."""
    return speech.say("The same notes in their rhythm:")
