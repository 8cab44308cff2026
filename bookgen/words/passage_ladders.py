"""What the drills of a passage's pages are like, and which frame they lead to."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from bookgen.model.drill import Drill
from bookgen.plan.document import DrillEntry, Link, Plan
from bookgen.plan.passage import Ladder
from bookgen.words.drill import change_words, crossing
from bookgen.words.speech import Speech

if TYPE_CHECKING:
    from bookgen.model.spacing import Frame


def link_words(
    link: Link, drill: Drill, to: Drill | None, labels: Mapping[int, str], speech: Speech
) -> str:
    """What a drill is like, and the one thing that changes.

    labels: of drills that have letters for numbers.
    """
    if to is None:
        return speech.say("New hand")
    changed = change_words(to, drill, speech)
    if isinstance(link.to, int):
        label = labels.get(link.to, str(link.to))
        return speech.say("Like {number}, {change}", number=label, change=changed)
    return speech.say("Known: {change}", change=changed)


def same_hand(label: str, before: Drill, drill: Drill, speech: Speech) -> str:
    """What a drill is like that differs from one of the same hand in several things.

    label: of the one before.
    """
    if before.stage == drill.stage:
        return speech.say("Hand of {number}, other order", number=label)
    changed = crossing(before.stage, drill.stage, speech)
    return speech.say("Hand of {number}, {change}", number=label, change=changed)


def links_in(plan: Plan, speech: Speech) -> dict[int, str]:
    """What drills of a book are like that are like no other but for one thing, after the first.

    The nearest earlier one of the same hand is named, where there is one.
    """
    found: dict[int, str] = {}
    hands: dict[tuple[Frame, int], DrillEntry] = {}
    for entry in plan.drills:
        drill = entry.drill
        before = hands.get((drill.frame, drill.place))
        hands[drill.frame, drill.place] = entry
        if entry is plan.drills[0] or entry.link.to is not None:
            continue
        found[entry.number] = (
            same_hand(str(before.number), before.drill, drill, speech)
            if before
            else link_words(entry.link, drill, None, {}, speech)
        )
    return found


def frame_title(ladder: Ladder, labels: Sequence[str], speech: Speech) -> str:
    """Over the drills that lead to a frame: which drills, and whether they meet everything.

    labels: of all its drills.
    """
    drills = ", ".join(labels)
    if not labels:
        return speech.say("<b>Frame {letter}</b> · all of it is secure", letter=ladder.letter)
    if ladder.meets_all:
        return speech.say(
            "<b>Frame {letter}</b> · {drills} · all of {letter} met",
            letter=ladder.letter,
            drills=drills,
        )
    return speech.say("<b>Frame {letter}</b> · {drills}", letter=ladder.letter, drills=drills)
