"""What a drill is called where it stands alone: over a block, in files for other programs."""

from bookgen.model.hand import Extension
from bookgen.plan.document import DrillEntry
from bookgen.words.drill import hand_name, stage_name, stretch
from bookgen.words.names import position_name
from bookgen.words.shift import shift_name
from bookgen.words.speech import Speech


def place_name(entry: DrillEntry, speech: Speech) -> str:
    """A drill's position, or between which ones the hand shifts."""
    if entry.to_position is not None and entry.to_position != entry.position:
        return shift_name(entry.position, entry.to_position, speech)
    return position_name(entry.position, speech)


def hand_told(entry: DrillEntry, speech: Speech) -> str:
    """A drill's hand, and whether it is extended back; without that it would be another's."""
    hand = hand_name(entry.drill, speech)
    if not entry.drill.frame.back:
        return hand
    return speech.say("{hand}, {opened}", hand=hand, opened=stretch(Extension.BACK, speech))


def drill_title(entry: DrillEntry, speech: Speech) -> str:
    """A drill by its number and in words."""
    return speech.say(
        "{number} · {hand}, {position}, {stage}",
        number=entry.number,
        hand=hand_told(entry, speech),
        position=place_name(entry, speech),
        stage=stage_name(entry.stage, speech),
    )
