"""What a screen says of a practice log: the heads of its table, and a drill in one line."""

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.words.drill import hand_name, order_change, stage_name, way_back
from bookgen.words.names import position_name, strings_name
from bookgen.words.speech import Speech


def heads(speech: Speech) -> tuple[str, ...]:
    """Over the columns of a player's printed drills."""
    return (
        speech.say_in("log table", "No."),
        speech.say_in("log table", "days"),
        speech.say_in("log table", "last for"),
        speech.say_in("log table", "result"),
        speech.say_in("log table", "on"),
        speech.say_in("log table", "drill"),
    )


def drill_line(drill: Drill, position: str, instrument: Instrument, speech: Speech) -> str:
    """A drill in one line.

    position: its code in the plan document.
    """
    return speech.say(
        "{hand}, {position}, {strings}, {stage}; {order}, {back}",
        hand=hand_name(drill, speech),
        position=position_name(position, speech),
        strings=strings_name(drill.strings, instrument, speech),
        stage=stage_name(drill.stage, speech),
        order=order_change(drill, speech),
        back=way_back(drill, speech),
    )
